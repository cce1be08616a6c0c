//! The wind of the whole turns at one height, with its interval, and the growth with height that goes through them.

use bevy_egui::egui::{Stroke, Ui};
use egui_plot::{Corner, Legend, Line, Plot, Points};

use crate::app::look::lens::Lens;
use crate::app::session::View;

/// Shows it; returns the lens of no map.
pub(super) fn show(ui: &mut Ui, view: &View<'_>) -> Lens {
    let rect = ui.available_rect_before_wrap();
    let Some((log, _)) = view.session.debrief_chosen() else { return Lens::new(view.session.look, rect) };
    let (found, palette) = (&log.heights, view.palette);
    if found.winds.is_empty() {
        ui.label("No whole turn at one height tells a wind.");
        return Lens::new(view.session.look, rect);
    }
    Plot::new("heights")
        .legend(Legend::default().position(Corner::RightBottom))
        .include_y(found.winds.last().map_or(0.0, |fit| fit.height_m) * 1.2)
        .include_x(0.0)
        .include_y(0.0)
        .x_axis_label("mean wind, m/s")
        .y_axis_label("height above home's ground, m")
        .show(ui, |plot| {
            for fit in &found.winds {
                let ends = [fit.speed_within.low, fit.speed_within.high].map(|speed| [speed, fit.height_m]);
                plot.line(Line::new("95 % interval", ends.to_vec()).stroke(Stroke::new(1.5, palette.soft)));
            }
            let middles: Vec<_> = found.winds.iter().map(|fit| [fit.wind.length(), fit.height_m]).collect();
            plot.points(Points::new("whole turns at one height", middles).radius(4.0).color(palette.ink));
            if let Some(law) = &found.law {
                let highest = found.winds.last().map_or(0.0, |fit| fit.height_m) * 1.1;
                let along = (1..=60).map(|step| f64::from(step) / 60.0 * highest);
                let curve: Vec<_> = along.map(|height_m| [law.at_mps(height_m), height_m]).collect();
                plot.line(Line::new("growth with height", curve).stroke(Stroke::new(2.0, palette.focus)));
            }
        });
    Lens::new(view.session.look, rect)
}
