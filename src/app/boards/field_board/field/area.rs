//! What an area forbids, and in which months.

use bevy_egui::egui::{Grid, RichText, Ui, vec2};

use crate::app::look::theme::bold;
use crate::app::session::field_board::Part;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, Line};
use crate::app::widgets::help::mark;
use crate::field::{AreaFile, Month, Rule, RuleName};
use crate::units::Length;
use crate::words::help::Topic;
use crate::words::{Measure, Units};

/// Height that an `above` begins with, metres.
const NEW_HEIGHT: f64 = 30.0;

const MONTHS: [(Month, &str, &str); 12] = [
    (Month::Jan, "Jan", "January"),
    (Month::Feb, "Feb", "February"),
    (Month::Mar, "Mar", "March"),
    (Month::Apr, "Apr", "April"),
    (Month::May, "May", "May"),
    (Month::Jun, "Jun", "June"),
    (Month::Jul, "Jul", "July"),
    (Month::Aug, "Aug", "August"),
    (Month::Sep, "Sep", "September"),
    (Month::Oct, "Oct", "October"),
    (Month::Nov, "Nov", "November"),
    (Month::Dec, "Dec", "December"),
];

const RULES: [(RuleName, &str); 4] = [
    (RuleName::NoFly, "no-fly"),
    (RuleName::Above, "above a height"),
    (RuleName::People, "people"),
    (RuleName::Caution, "caution"),
];

const fn word(rule: RuleName) -> &'static str {
    match rule {
        RuleName::NoFly => "no-fly",
        RuleName::Above => "above",
        RuleName::People => "people",
        RuleName::Caution => "caution",
    }
}

/// An area in a few words, such as "no-fly, Mar to May".
pub(super) fn summary(area: &AreaFile, units: &Units) -> String {
    let rule = match (area.rule, area.height) {
        (RuleName::Above, Some(height)) => format!("above {}", units.short(Measure::Height, height.m())),
        (rule, _) => word(rule).to_owned(),
    };
    match months(&area.months) {
        words if words.is_empty() => rule,
        words => format!("{rule}, {words}"),
    }
}

/// Months in words: runs of three and more with their ends, across the new year too. Nothing where it is all of them.
fn months(months: &[Month]) -> String {
    let on = MONTHS.map(|(month, ..)| months.contains(&month));
    if on.iter().all(|on| *on) || !on.contains(&true) {
        return String::new();
    }
    let start = (0..12).find(|&at| !on[at]).unwrap_or(0);
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for at in (start..start + 12).map(|at| at % 12).filter(|&at| on[at]) {
        match runs.last_mut() {
            Some((_, last)) if (*last + 1) % 12 == at => *last = at,
            _ => runs.push((at, at)),
        }
    }
    let name = |at: usize| MONTHS[at].1;
    let words = runs.iter().map(|&(first, last)| match (last + 12 - first) % 12 {
        0 => name(first).to_owned(),
        1 => format!("{}, {}", name(first), name(last)),
        _ => format!("{} to {}", name(first), name(last)),
    });
    words.collect::<Vec<_>>().join(", ")
}

fn change(view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, what: String, put: impl FnOnce(&mut AreaFile)) {
    entry::change(view, out, what, |file| {
        if let Some(area) = file.field.as_mut().and_then(|field| field.areas.get_mut(index)) {
            put(area);
            let above = [Some(area.rule), area.otherwise].contains(&Some(RuleName::Above));
            // Only `above` has a height; without one it would be a fault.
            area.height = above.then(|| area.height.unwrap_or(Length::new(NEW_HEIGHT)));
        }
    });
}

/// Shows its properties.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize) {
    let file = view.session.draft.file();
    let Some(area) = file.field.as_ref().and_then(|field| field.areas.get(index)) else { return };
    let name = Part::Area(index).name(file);
    let at = |key: &str| format!("/field/areas/{index}/{key}");
    let place = at("name");
    let line = Line { name: "area name", shown: &area.name, hint: "", place: &place, topic: None };
    if let Some(name) = line.show(ui, view, out, entry::words) {
        change(view, out, index, "set the name of the area".into(), |area| area.name = name);
    }
    ui.horizontal(|ui| {
        ui.label("Over it");
        mark(ui, Topic::Area, out);
    });
    if let Some(rule) = entry::choice(ui, out, "rule", area.rule, &RULES) {
        change(view, out, index, format!("set the rule of {name}"), |area| area.rule = rule);
    }
    entry::faults(ui, view, &at("rule"));
    if let Some(height) = area.height {
        let place = at("height");
        let found = Entry::new("least height over it", Measure::Height, height.m(), &place).show(ui, view, out);
        if let Some(metres) = found {
            change(view, out, index, format!("set the height over {name}"), |area| {
                area.height = Some(Length::new(metres));
            });
        }
    }
    ui.label(match months(&area.months) {
        words if words.is_empty() => "This rule holds all year. Press the months in which it does not:".into(),
        words => format!("This rule holds in {words}:"),
    });
    if let Some(months) = toggles(ui, area) {
        out.push(AppCommand::Settle);
        change(view, out, index, format!("set the months of {name}"), |area| area.months = months);
        out.push(AppCommand::Settle);
    }
    entry::faults(ui, view, &at("months"));
    if !area.months.is_empty() {
        ui.label("In the other months");
        let others = [
            (None, "no rule"),
            (Some(RuleName::NoFly), "no-fly"),
            (Some(RuleName::Above), "above a height"),
            (Some(RuleName::People), "people"),
            (Some(RuleName::Caution), "caution"),
        ];
        if let Some(rule) = entry::choice(ui, out, "rule in the other months", area.otherwise, &others) {
            change(view, out, index, format!("set the other rule of {name}"), |area| area.otherwise = rule);
        }
        entry::faults(ui, view, &at("otherwise"));
    }
    today(ui, view, index);
}

/// The twelve months; the new ones where one was pressed. One always stays: a rule that never holds is none.
fn toggles(ui: &mut Ui, area: &AreaFile) -> Option<Vec<Month>> {
    let holds = |month: Month| area.months.is_empty() || area.months.contains(&month);
    let last = area.months.len() == 1;
    let mut pressed = None;
    Grid::new("months").spacing(vec2(4.0, 4.0)).show(ui, |ui| {
        let width = (ui.available_width() - 5.0 * 4.0) / 6.0;
        for (at, (month, short, long)) in MONTHS.into_iter().enumerate() {
            let on = holds(month);
            ui.spacing_mut().button_padding.x = 7.0;
            let inner = ui.add_enabled_ui(!(on && last), |ui| {
                entry::marked(ui, short, &format!("rule holds in {long}"), on, width.min(80.0))
            });
            let hint = "a rule that never holds is no rule: delete the area";
            if inner.inner.on_disabled_hover_text(hint).clicked() {
                pressed = Some(month);
            }
            if at == 5 {
                ui.end_row();
            }
        }
    });
    let pressed = pressed?;
    let new: Vec<Month> = MONTHS.into_iter().map(|(month, ..)| month).filter(|&m| holds(m) != (m == pressed)).collect();
    Some(if new.len() == 12 { Vec::new() } else { new })
}

/// What holds on the day of the flight.
fn today(ui: &mut Ui, view: &View<'_>, index: usize) {
    let Some(flown) = view.session.flown.as_ref().filter(|_| view.session.is_current()) else { return };
    let Some(area) = flown.scenario.field.areas.get(index) else { return };
    let rule = match area.rule {
        Rule::NoFly => "no-fly".to_owned(),
        Rule::Above(metres) => format!("only above {}", view.units().text(Measure::Height, metres)),
        Rule::People => "people; kept off at any height".to_owned(),
        Rule::Caution => "caution; seconds over it are counted".to_owned(),
        Rule::Idle => "no rule".to_owned(),
    };
    let words = format!("On the day of the flight, {}: {rule}.", flown.scenario.file.date);
    ui.label(RichText::new(words).family(bold()));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn says(list: &[Month], expected: &str) {
        assert_eq!(months(list), expected);
    }

    #[test]
    fn months_are_said_as_runs() {
        use Month::{Apr, Dec, Feb, Jan, Jun, Mar, May, Sep};
        says(&[Mar, Apr, May], "Mar to May");
        says(&[Jan, Feb, Dec], "Dec to Feb");
        says(&[May, Jun], "May, Jun");
        says(&[Sep, Mar], "Mar, Sep");
        says(&[], "");
    }
}
