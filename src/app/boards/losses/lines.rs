//! What the lines on the map mean, or why there is none.

use bevy_egui::egui::{Rect, Sense, Ui, Vec2, vec2};
use glam::DVec2;

use crate::app::boards::losses::map::{NO_RETURN, TURN_BACK, pen};
use crate::app::look::pens::pen_line;
use crate::app::map::keep_inside::KEEP_INSIDE;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::run::{Scenario, setting};
use crate::study::losses::LossStudy;
use crate::words::help::Topic;
use crate::words::{failsafe_action, kept_inside, lost};

/// Room for a sample, points.
const SAMPLE: Vec2 = Vec2::new(44.0, 32.0);

/// Shows them.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, study: &LossStudy, out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    if let Some(why) = neither(&flown.scenario) {
        ui.label(why);
        return;
    }
    if let Some((keep, one)) = study.keep_inside.as_ref().and_then(|keep| Some((keep, keep.drawn()?))) {
        let told = format!("keep-inside line, {}: {}", lost(one), kept_inside(keep, one));
        line(ui, view, KEEP_INSIDE, (Topic::KeepInside, !one.bounds.is_empty()), &told, out);
    }
    let turn_back = if study.turn_back.is_empty() {
        "no turn-back line: nowhere does a loss on any heading turn back within the boundary"
    } else {
        "turn-back line, a check in closed form: inside it a loss on any heading turns back within the boundary"
    };
    line(ui, view, TURN_BACK, (Topic::TurnBack, !study.turn_back.is_empty()), turn_back, out);
    let boundary = flown.scenario.field.boundary.bounds();
    let inside = |at: &DVec2| at.cmpge(boundary.0).all() && at.cmple(boundary.1).all();
    let no_return = match study.no_return.as_slice() {
        [] => "no no-return line: the energy reaches home from nowhere, or the wind is no less than the return speed",
        ring if ring.iter().any(inside) => "no-return line: from beyond it the energy does not reach home",
        _ => "no-return line: from beyond it the energy does not reach home; it lies outside the field",
    };
    line(ui, view, NO_RETURN, (Topic::NoReturn, !study.no_return.is_empty()), no_return, out);
}

/// A sample of a line, where there is one, and its words.
fn line(
    ui: &mut Ui,
    view: &View<'_>,
    dash: &'static [f32],
    (topic, is_there): (Topic, bool),
    words: &str,
    out: &mut Vec<AppCommand>,
) {
    ui.horizontal(|ui| {
        if is_there {
            let (rect, _) = ui.allocate_exact_size(SAMPLE, Sense::hover());
            let line = Rect::from_center_size(rect.center(), vec2(SAMPLE.x - 2.0, 0.0));
            pen_line(ui.painter(), &[line.left_center(), line.right_center()], pen(dash, view.palette));
        }
        let width = ui.available_width() - 40.0;
        ui.vertical(|ui| {
            ui.set_width(width);
            ui.label(words);
        });
        mark(ui, topic, out);
    });
}

/// Why a plan has neither line; none where it flies home.
fn neither(scenario: &Scenario) -> Option<String> {
    let setting = setting(scenario);
    if setting.cuts() {
        let action = failsafe_action(&scenario.file.recovery);
        return Some(format!("No turn-back line and no no-return line: the plan ({action}) does not fly home."));
    }
    (!setting.standing.has_position).then(|| {
        "No turn-back line and no no-return line: with its position lost the jet does not know the way home.".to_owned()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recovery::FailsafeAction;
    use crate::run::LossKind;

    #[test]
    fn plans_that_do_not_fly_home_say_why_there_is_no_line() {
        let with = |failsafe_action, kind| {
            let mut scenario = Scenario::tight_strip();
            scenario.file.recovery.failsafe_action = failsafe_action;
            scenario.file.loss.kind = kind;
            neither(&scenario)
        };
        assert_eq!(with(FailsafeAction::Return, LossKind::Control), None);
        assert!(with(FailsafeAction::Cut, LossKind::Control).is_some_and(|why| why.contains("at once and glide")));
        assert!(with(FailsafeAction::WaitThenCut, LossKind::Control).is_some_and(|why| why.contains("then cut")));
        assert!(with(FailsafeAction::Return, LossKind::Position).is_some_and(|why| why.contains("position lost")));
    }
}
