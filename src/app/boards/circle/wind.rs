//! Up to what wind the circle holds: from every direction by flying, and by maximum bank and stall alone in closed
//! form.

use bevy_egui::egui::{Button, RichText, Ui, vec2};

use super::{apply, rose};
use crate::app::look::theme::{TARGET, bold};
use crate::app::look::words::number;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::is_large;
use crate::app::widgets::standing;
use crate::study::radius::ClosedForm;
use crate::study::verdict::Answer;
use crate::study::wind_limit::here;
use crate::study::wind_limit::{Direction, WindLimitStudy};
use crate::words::help::Topic;
use crate::words::{Measure, asks, direction, limit, metered};

/// Shows the view.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("Mean wind this circle holds in, by direction").family(bold()));
        mark(ui, Topic::WindLimit, out);
    });
    let answer = view.session.answers.wind_limit.as_ref();
    standing::show(ui, view, answer, |study| study.partial, |ui, study| flown(ui, view, study, out));
    let radius = view.session.answers.radius.as_ref();
    if let Some(radius) = radius {
        ui.separator();
        closed(ui, view, &radius.found.closed, out);
    }
}

/// A wind in the person's unit.
fn wind(view: &View<'_>, mps: f64) -> String {
    view.units().text(Measure::Wind, mps)
}

fn flown(ui: &mut Ui, view: &View<'_>, study: &WindLimitStudy, out: &mut Vec<AppCommand>) {
    if let Some(near) = study.loss_too_near.and_then(|index| study.limits.get(index)) {
        ui.label(format!("No wind was flown: the loss itself lies nearer to {} than is asked for.", near.name));
        return;
    }
    let size = if is_large(ui) { 280.0 } else { 190.0 };
    let mut turn_to = None;
    ui.horizontal_top(|ui| {
        let looked = rose::show(ui, view, study, size, &mut turn_to);
        ui.vertical(|ui| {
            ui.set_max_width(ui.available_width());
            match looked.and_then(|index| study.directions.get(index)) {
                Some(found) => {
                    show_wind_limit(ui, view, study, "", found);
                    ui.label("Press to turn the wind there.");
                }
                None => both(ui, view, study, &mut turn_to),
            }
        });
    });
    ui.label(RichText::new(what(study)).size(14.0).color(view.palette.soft));
    if let Some(deg) = turn_to.filter(|_| view.session.is_current()) {
        out.extend(apply::wind_from(view, deg));
    }
}

/// What the slices are, and the rings.
fn what(study: &WindLimitStudy) -> String {
    let circle = "dashed circle: the wind now; arrow: it flies with it";
    match study.ask.trials {
        0 => format!(
            "Slices, grey: a first look, the plan as entered, without errors, no trial flown and no verdict; {circle}."
        ),
        _ => format!(
            "Slices: by up to {} trials, of which {}; hollow beyond: undecided; dashed ring with diamonds: the plan as \
             entered, without errors; {circle}.",
            study.ask.trials,
            asks(&study.demand)
        ),
    }
}

/// The worst direction, and the one the wind has.
fn both(ui: &mut Ui, view: &View<'_>, study: &WindLimitStudy, turn_to: &mut Option<f64>) {
    let from = view.session.draft.file().wind.from;
    let today = here(study, from);
    let worst = study.worst.and_then(|index| study.directions.get(index));
    if let Some(worst) = worst {
        let same = today == Some(worst);
        show_wind_limit(ui, view, study, if same { "Worst, and the wind's now: " } else { "Worst: " }, worst);
        if !same && ui.add(Button::new("Turn the wind there").min_size(vec2(0.0, TARGET))).clicked() {
            *turn_to = Some(worst.from_deg);
        }
    }
    if let Some(found) = today.filter(|_| today != worst) {
        show_wind_limit(ui, view, study, "The wind's now: ", found);
    }
    if let (Some(found), Some(flown)) = (today.filter(|_| study.ask.trials > 0), &view.session.flown) {
        let now = flown.scenario.wind_at_circle()[0];
        let stands = match found.answer(now) {
            Answer::Yes => format!("It is {} there: under the wind limit.", wind(view, now)),
            Answer::No => format!("It is {} there: OVER the wind limit.", wind(view, now)),
            Answer::Undecided => format!("It is {} there: UNDECIDED, over what is known to hold.", wind(view, now)),
        };
        ui.label(RichText::new(stands).family(bold()));
    }
}

/// One direction in words.
fn show_wind_limit(ui: &mut Ui, view: &View<'_>, study: &WindLimitStudy, lead: &str, found: &Direction) {
    let name = format!("{lead}from {}", direction(found.from_deg));
    ui.label(RichText::new(name).family(bold()));
    let Some(wind_limit) = found.wind_limit_mps else {
        match found.answer(0.0) {
            Answer::Undecided => ui.label("undecided, even in a calm"),
            _ => ui.label(format!("not even in a calm: {}", limit(study, found))),
        };
        return;
    };
    let alone = found.plan_mps.filter(|_| study.ask.trials > 0);
    let alone = alone
        .map_or_else(String::new, |mps| format!("; plan without errors {}", view.units().short(Measure::Wind, mps)));
    let gusts = found.gust_mps.map_or_else(String::new, |mps| format!(", gusts {}", wind(view, mps)));
    ui.label(format!("mean {} at the circle{gusts}{alone}", wind(view, wind_limit)));
    if let Some([low, high]) = found.at_2m_mps {
        let units = view.units();
        let low = number(units.first(Measure::Wind, metered(low)));
        ui.label(format!("{low} to {} hand-held, at 2 m", units.short(Measure::Wind, high)));
    }
    if let Some([low, high]) = found.undecided_mps {
        ui.label(format!("undecided from {} to {}", wind(view, low), wind(view, high)));
    }
    match found.fails_mps {
        Some(_) => ui.label(format!("beyond it: {}", limit(study, found))),
        None => ui.label("no more wind was flown"),
    };
}

/// The same inequality turned about, twice.
fn closed(ui: &mut Ui, view: &View<'_>, form: &ClosedForm, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("In closed form, whatever the field").family(bold()));
        mark(ui, Topic::SpeedWindow, out);
    });
    let speed = |mps: f64| view.units().short(Measure::Speed, mps);
    let [slow, fast] = form.speed_window_mps;
    if slow <= fast {
        let least = number(view.units().first(Measure::Speed, slow));
        ui.label(format!("Airspeeds that hold the plan's radius: {least} to {}.", speed(fast)));
    } else {
        ui.label(format!(
            "No airspeed holds the plan's radius: stall and wind ask for {} at least, the maximum bank for {} at most.",
            speed(slow),
            speed(fast)
        ));
    }
    if form.wind_limit_mps < 0.0 {
        ui.label("The maximum bank holds the plan's radius in no wind, not even a calm.");
    } else {
        ui.label(format!(
            "The maximum bank holds the plan's radius in up to {}, gusts counted in.",
            wind(view, form.wind_limit_mps)
        ));
    }
}
