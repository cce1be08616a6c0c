//! The velocities over the ground on the circle, with the circle that fits them; and how far each is off it, by time.

use bevy_egui::egui::{Stroke, Ui};
use egui_plot::{Legend, Line, Plot, PlotPoints, Points, VLine};
use glam::DVec2;

use crate::app::look::lens::Lens;
use crate::app::session::View;
use crate::debrief::velocity;

/// Shows the velocities; returns the lens of no map.
pub(super) fn circle(ui: &mut Ui, view: &View<'_>) -> Lens {
    let rect = ui.available_rect_before_wrap();
    let Some((log, one)) = view.session.debrief_chosen() else { return Lens::new(view.session.look, rect) };
    let track = &log.log.track;
    let range = one.marks.circling.clone().unwrap_or_default();
    let points: Vec<[f64; 2]> = range.filter_map(|index| velocity(track, index)).map(|v| v.to_array()).collect();
    let palette = view.palette;
    Plot::new("velocities")
        .data_aspect(1.0)
        .legend(Legend::default())
        .x_axis_label("to the east, m/s")
        .y_axis_label("to the north, m/s")
        .show(ui, |plot| {
            plot.points(Points::new("velocities over the ground", points).radius(2.0).color(palette.soft));
            if let Ok(fit) = &one.wind {
                let around: Vec<[f64; 2]> = (0..=120)
                    .map(|step| {
                        (DVec2::from_angle(f64::from(step * 3).to_radians()) * fit.airspeed_mps + fit.wind).to_array()
                    })
                    .collect();
                plot.line(Line::new("circle: radius is the airspeed", around).stroke(Stroke::new(2.0, palette.focus)));
                let arrow = vec![[0.0, 0.0], fit.wind.to_array()];
                plot.line(Line::new("wind, to its tip", arrow).stroke(Stroke::new(3.0, palette.ink)));
                plot.points(Points::new("wind", vec![fit.wind.to_array()]).radius(6.0).color(palette.ink));
            }
        });
    Lens::new(view.session.look, rect)
}

/// Shows what is left over.
pub(super) fn residuals(ui: &mut Ui, view: &View<'_>) -> Lens {
    let rect = ui.available_rect_before_wrap();
    let Some((log, one)) = view.session.debrief_chosen() else { return Lens::new(view.session.look, rect) };
    let Ok(fit) = &one.wind else {
        ui.label("No circle fits: there is nothing left over.");
        return Lens::new(view.session.look, rect);
    };
    let track = &log.log.track;
    let range = one.marks.circling.clone().unwrap_or_default();
    let left = range.filter_map(|index| {
        Some([track.time_s()[index], (velocity(track, index)? - fit.wind).length() - fit.airspeed_mps])
    });
    let points: Vec<[f64; 2]> = left.collect();
    let now = view.session.debrief.at_s;
    Plot::new("left over")
        .legend(Legend::default())
        .x_axis_label("time in the log, s")
        .y_axis_label("speed through the air off its mean, m/s")
        .show(ui, |plot| {
            plot.line(
                Line::new("off the circle", PlotPoints::from(points)).stroke(Stroke::new(1.5, view.palette.focus)),
            );
            plot.vline(VLine::new("now", now).stroke(Stroke::new(1.0, view.palette.ink)));
        });
    Lens::new(view.session.look, rect)
}
