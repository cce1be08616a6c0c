//! What the board changes in the plan when something on it is pressed, each as one step that can be taken back.

use glam::DVec2;

use crate::app::look::words;
use crate::app::session::{AppCommand, Change, View};
use crate::recovery::Turn;
use crate::run::ScenarioFile;
use crate::study::radius::{Band, BestHub, Opener};
use crate::units::{Bearing, Length};

/// Commands for one step: the change, and its end.
fn step(view: &View<'_>, what: String, change: impl FnOnce(&mut ScenarioFile)) -> [AppCommand; 2] {
    let mut file = view.session.draft.file().clone();
    change(&mut file);
    [AppCommand::Edit(Box::new(Change { what, file })), AppCommand::Settle]
}

/// Circles at another radius, another way round.
pub(super) fn circle(view: &View<'_>, radius_m: f64, turn: Turn) -> [AppCommand; 2] {
    let what = format!("circle {} {}", words::metres(radius_m), words::turn(turn));
    step(view, what, |file| put(file, radius_m, turn))
}

/// Circles about the best centre found.
pub(super) fn best_hub(view: &View<'_>, best: &BestHub) -> [AppCommand; 2] {
    step(view, "move the hub to the best centre".into(), |file| {
        hub(file, best.hub);
        put(file, best.radius_m, best.turn);
    })
}

/// Takes an opener over. Where the plan's circle is not in the band that it gives, the circle moves to its middle.
pub(super) fn opener(view: &View<'_>, opener: &Opener) -> [AppCommand; 2] {
    step(view, opener.change.clone(), |file| {
        opener.step.take(file);
        let plan = (file.recovery.radius.m(), file.recovery.turn);
        let holds = |band: &Band| (band.low.radius_m..=band.high.radius_m).contains(&plan.0) && band.turn == plan.1;
        if let Some(band) = widest(&opener.bands).filter(|_| !opener.bands.iter().any(holds)) {
            put(file, f64::midpoint(band.low.radius_m, band.high.radius_m).round(), band.turn);
        }
    })
}

/// Lets the wind come from another direction.
pub(super) fn wind_from(view: &View<'_>, deg: f64) -> [AppCommand; 2] {
    step(view, format!("turn the wind to {deg:.0}\u{b0}"), |file| file.wind.from = Bearing::from_deg(deg))
}

/// The widest of some bands.
pub(super) fn widest(bands: &[Band]) -> Option<&Band> {
    let wide = |band: &Band| band.high.radius_m - band.low.radius_m;
    bands.iter().max_by(|a, b| wide(a).total_cmp(&wide(b)))
}

fn put(file: &mut ScenarioFile, radius_m: f64, turn: Turn) {
    (file.recovery.radius, file.recovery.turn) = (Length::new(radius_m), turn);
}

fn hub(file: &mut ScenarioFile, at: DVec2) {
    if let Some(field) = &mut file.field {
        field.hub_m = Some(at.to_array());
    }
}
