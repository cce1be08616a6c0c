//! The flight below the map: its replay in one row, and what that row unfolds: which line is which, and the heights.

use bevy_egui::egui::{Button, Ui, vec2};

use crate::app::look::theme::TARGET;
use crate::app::session::{AppCommand, Unfolded, View};
use crate::app::widgets::{height, legend, replay};

/// Room for the two buttons that unfold, points.
const FOLDS: f32 = 156.0;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let now = view.session.unfolded;
    if now.legend {
        ui.scope(|ui| legend::show(ui, view, out));
    }
    replay::row(ui, view, FOLDS, out, |ui, out| {
        let legend = Unfolded { legend: !now.legend, ..now };
        let heights = Unfolded { heights: !now.heights, ..now };
        for (word, hint, open, to) in [
            ("Legend", "which line is which", now.legend, legend),
            ("Heights", "height against time, and what the jet does at the moment", now.heights, heights),
        ] {
            let button = Button::new(word).selected(open).min_size(vec2(0.0, TARGET));
            if ui.add(button).on_hover_text(hint).clicked() {
                out.push(AppCommand::Unfold(to));
            }
        }
    });
    if now.heights {
        replay::moment(ui, view);
        height::show(ui, view, out);
    }
}
