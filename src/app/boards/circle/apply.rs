//! What the board changes in the plan when something on it is pressed, each as one step that can be taken back.

use glam::DVec2;

use crate::app::look::words;
use crate::app::session::{AppCommand, Change, View};
use crate::recovery::Turn;
use crate::run::ScenarioFile;
use crate::study::radius::{BestCentre, RadiusRange, Remedy};
use crate::study::remedy;
use crate::units::{Bearing, Length};

/// Commands for one step: the change, and its end.
fn step(view: &View<'_>, what: String, change: impl FnOnce(&mut ScenarioFile)) -> [AppCommand; 2] {
    let mut file = view.session.draft.file().clone();
    change(&mut file);
    [AppCommand::Edit(Box::new(Change { what, file })), AppCommand::Settle]
}

/// Circles at another radius, another way round.
pub(super) fn circle(view: &View<'_>, radius_m: f64, turn: Turn) -> [AppCommand; 2] {
    let what = format!("circle {} {}", words::metres(radius_m), crate::words::turn(turn));
    step(view, what, |file| put(file, radius_m, turn))
}

/// Circles about the best centre found.
pub(super) fn best_centre(view: &View<'_>, best: &BestCentre) -> [AppCommand; 2] {
    step(view, "move the centre to the best centre".into(), |file| {
        centre(file, best.centre);
        put(file, best.radius_m, best.turn);
    })
}

/// Takes a remedy over. Where the plan's circle is not among the radii it makes usable, the circle moves to
/// their middle.
pub(super) fn remedy(view: &View<'_>, remedy: &Remedy) -> [AppCommand; 2] {
    step(view, remedy.change.clone(), |file| {
        remedy.step.take(file);
        let plan = (file.recovery.radius.m(), file.recovery.turn);
        let holds =
            |range: &RadiusRange| (range.low.radius_m..=range.high.radius_m).contains(&plan.0) && range.turn == plan.1;
        if let Some(range) = widest(&remedy.usable).filter(|_| !remedy.usable.iter().any(holds)) {
            put(file, f64::midpoint(range.low.radius_m, range.high.radius_m).round(), range.turn);
        }
    })
}

/// Makes all changes of a proposed plan.
pub(super) fn proposed(view: &View<'_>, changes: &[remedy::Change]) -> [AppCommand; 2] {
    step(view, "change the plan as proposed".into(), |file| changes.iter().for_each(|change| change.take(file)))
}

/// Lets the wind come from another direction.
pub(super) fn wind_from(view: &View<'_>, deg: f64) -> [AppCommand; 2] {
    step(view, format!("turn the wind to {deg:.0}\u{b0}"), |file| file.wind.from = Bearing::from_deg(deg))
}

/// The widest of some usable radii.
pub(super) fn widest(usable: &[RadiusRange]) -> Option<&RadiusRange> {
    let wide = |range: &RadiusRange| range.high.radius_m - range.low.radius_m;
    usable.iter().max_by(|a, b| wide(a).total_cmp(&wide(b)))
}

fn put(file: &mut ScenarioFile, radius_m: f64, turn: Turn) {
    (file.recovery.radius, file.recovery.turn) = (Length::new(radius_m), turn);
}

fn centre(file: &mut ScenarioFile, at: DVec2) {
    if let Some(field) = &mut file.field {
        field.centre_m = Some(at.to_array());
    }
}
