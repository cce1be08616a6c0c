//! The rules that limits come from: numbers to start from, and for every rule who has compared it with the text in force.

use bevy_egui::egui::{
    Align, Button, Frame, Id, Layout, Margin, RichText, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType,
    vec2,
};

use crate::app::boards::field_board::{more, soft};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::Line;
use crate::app::widgets::help::mark;
use crate::run::{RuleNote, presets};
use crate::words::help::Topic;

/// Shows the presets and the rules.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let rules = &view.session.draft.file().rules;
    ui.horizontal(|ui| {
        ui.heading("Rules");
        mark(ui, Topic::Rules, out);
    });
    start(ui, view, out);
    let unchecked = rules.iter().filter(|rule| !rule.is_checked()).count();
    let words = match (rules.len(), unchecked) {
        (0, _) => "No rules are noted.".to_owned(),
        (all, 0) => format!("All {all} rules have been checked by somebody."),
        (all, unchecked) => {
            format!("{unchecked} of {all} rules not checked: none of them is a fact until a person has.")
        }
    };
    ui.label(RichText::new(words).family(bold()));
    for (index, rule) in rules.iter().enumerate() {
        show_rule(ui, view, out, index, rule);
    }
    if ui.add(Button::new("Add a rule").min_size(vec2(0.0, TARGET))).clicked() {
        entry::change(view, out, "add a rule", |file| {
            file.rules.push(RuleNote { label: "new rule".into(), ..RuleNote::default() });
        });
        out.push(AppCommand::Settle);
    }
}

/// Numbers to start from: the first press says what they would set, the second sets it.
fn start(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let id = Id::new("rules to start from");
    let now = ui.data(|data| data.get_temp::<Option<usize>>(id)).unwrap_or_default();
    let choices: Vec<_> = presets().iter().enumerate().map(|(index, preset)| (Some(index), preset.name)).collect();
    ui.label("Start from numbers that are said to hold in");
    let chosen = entry::choice(ui, out, "start from", now, &choices).unwrap_or(now);
    ui.data_mut(|data| data.insert_temp(id, chosen));
    let Some(preset) = chosen.and_then(|index| presets().get(index)) else { return };
    ui.label(preset.about);
    let mut file = view.session.draft.file().clone();
    let set = preset.apply(&mut file);
    if file == *view.session.draft.file() {
        soft(ui, view, "These are in place. Change whatever you know better.");
        return;
    }
    soft(ui, view, &format!("Sets {}. Rules already noted here are replaced.", set.join(", ")));
    let words = RichText::new(format!("Start from {}", preset.name)).family(bold());
    if ui.add(Button::new(words).min_size(vec2(0.0, TARGET))).clicked() {
        let what = format!("start from the numbers of {}", preset.name);
        entry::change(view, out, what, |file| _ = preset.apply(file));
        out.push(AppCommand::Settle);
    }
}

fn show_rule(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, rule: &RuleNote) {
    let checked = rule.is_checked();
    let inner = Frame::new().inner_margin(Margin { left: 9, right: 7, top: 4, bottom: 5 }).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        head(ui, view, rule, checked);
        ui.label(&rule.value);
        if !rule.source.is_empty() {
            soft(ui, view, &format!("Read in: {}", rule.source));
        }
        confirm(ui, view, out, index, rule);
        more(ui, &format!("rule {index}"), "Change or delete", |ui| edit(ui, view, out, index, rule));
    });
    let edge = inner.response.rect.shrink(1.5);
    if checked {
        ui.painter().rect_stroke(edge, 4.0, Stroke::new(2.0, view.palette.ink), StrokeKind::Middle);
    } else {
        let corners = [edge.left_top(), edge.right_top(), edge.right_bottom(), edge.left_bottom(), edge.left_top()];
        ui.painter().extend(Shape::dashed_line(&corners, Stroke::new(2.0, view.palette.hatch[2]), 7.0, 5.0));
    }
}

fn head(ui: &mut Ui, view: &View<'_>, rule: &RuleNote, checked: bool) {
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 22.0;
        if checked {
            let (room, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
            let at = |x: f32, y: f32| room.left_top() + vec2(x, y) * room.size();
            let tick = vec![at(0.08, 0.55), at(0.38, 0.85), at(0.95, 0.15)];
            ui.painter().add(Shape::line(tick, Stroke::new(3.0, view.palette.ink)));
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.label(RichText::new(if checked { "checked" } else { "NOT CHECKED" }).family(bold()));
            ui.with_layout(Layout::left_to_right(Align::Center).with_main_wrap(true), |ui| {
                ui.label(RichText::new(&rule.label).family(bold()));
            });
        });
    });
}

/// Who compared it with the text in force, and when.
fn confirm(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, rule: &RuleNote) {
    let (by_name, on_name) = (format!("rule {} checked by", index + 1), format!("rule {} checked on", index + 1));
    let (by_place, on_place) = (format!("/rules/{index}/checked_by"), format!("/rules/{index}/checked_on"));
    let by = Line { name: &by_name, shown: &rule.checked_by, hint: "who", place: &by_place, topic: None };
    let day = rule.checked_on.as_deref().unwrap_or_default();
    let on = Line { name: &on_name, shown: day, hint: "2026-04-18", place: &on_place, topic: None };
    let (by, on) = ui
        .horizontal(|ui| {
            ui.label("checked by");
            let by = by.cell(ui, view, out, ui.available_width() - 148.0, entry::words);
            ui.label("on");
            (by, on.cell(ui, view, out, 98.0, entry::words))
        })
        .inner;
    by.below(ui, view);
    on.below(ui, view);
    let put = |file: &mut crate::run::ScenarioFile, change: &dyn Fn(&mut RuleNote)| {
        file.rules.get_mut(index).into_iter().for_each(change);
    };
    entry::set(view, out, &by_name, by.found(), |file, who| put(file, &|rule| rule.checked_by.clone_from(&who)));
    entry::set(view, out, &on_name, on.found(), |file, day| {
        put(file, &|rule| rule.checked_on = Some(day.clone()).filter(|day| !day.is_empty()));
    });
}

fn edit(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, rule: &RuleNote) {
    let parts: [(&str, &str, fn(&mut RuleNote) -> &mut String); 3] = [
        ("label", &rule.label, |rule| &mut rule.label),
        ("value", &rule.value, |rule| &mut rule.value),
        ("source", &rule.source, |rule| &mut rule.source),
    ];
    for (key, shown, part) in parts {
        let name = format!("{key} of rule {}", index + 1);
        let place = format!("/rules/{index}/{key}");
        let found = Line { name: &name, shown, hint: "", place: &place, topic: None }.show(ui, view, out, entry::words);
        entry::set(view, out, &name, found, |file, text| {
            if let Some(rule) = file.rules.get_mut(index) {
                // A rule that says something else has not been compared with anything.
                *rule = RuleNote { checked_on: None, checked_by: String::new(), ..rule.clone() };
                *part(rule) = text;
            }
        });
    }
    let button = ui.add(Button::new("Delete this rule").min_size(vec2(0.0, TARGET)));
    button.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, format!("delete rule {}", index + 1)));
    if button.clicked() {
        entry::change(view, out, format!("delete the rule \"{}\"", rule.label), |file| {
            if index < file.rules.len() {
                file.rules.remove(index);
            }
        });
        out.push(AppCommand::Settle);
    }
}
