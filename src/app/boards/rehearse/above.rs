//! The field from above, with the path so far: for instructor and class.

use bevy_egui::egui::{Rect, Sense, Ui, vec2};
use glam::DVec2;

use crate::app::look::lens::Lens;
use crate::app::map::{flight, jet, pan, plain};
use crate::app::session::{AppCommand, View};
use crate::jet::State;
use crate::run::Trace;

/// Paints it, with a path up to a moment and the jet there, and returns the lens.
pub(super) fn show(
    ui: &Ui,
    view: &View<'_>,
    path: Option<(&Trace, &State<f64>, f64)>,
    out: &mut Vec<AppCommand>,
) -> Lens {
    let (lens, _) = pan::field(ui, view.session.look, Sense::hover(), false, out);
    let Some(flown) = &view.session.flown else { return lens };
    plain::draw(ui, view, &lens, flown, |painter, labels| {
        let Some((trace, state, at_s)) = path else { return };
        for piece in flight::draw_path(painter, &lens, trace, until(trace, at_s), view.palette) {
            labels.rather_not(&piece);
        }
        let at = lens.screen(DVec2::new(state.x, state.y));
        labels.keep_off(Rect::from_center_size(at, vec2(jet::JET, jet::JET)));
    });
    if let Some((_, state, _)) = path {
        let nose = DVec2::new(state.nose_x, state.nose_y);
        jet::draw_at(&ui.painter_at(lens.rect), lens.screen(DVec2::new(state.x, state.y)), nose, view.palette);
    }
    lens
}

/// How many samples lie before a moment.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the trace")]
fn until(trace: &Trace, at_s: f64) -> usize {
    if trace.step_s > 0.0 { ((at_s / trace.step_s).max(0.0) as usize + 1).min(trace.len()) } else { 0 }
}
