//! The flown path over the predicted one, with the ring that should hold 90 % of them, and the jet where the slider is.

use bevy_egui::egui::{Align2, FontId, Painter, Sense, Stroke, Ui};
use glam::DVec2;

use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::map::{flight, jet, pan, plain};
use crate::app::session::{AppCommand, View};
use crate::debrief::{Debriefed, velocity};
use crate::run::Track;

/// Paints it and returns the lens.
pub(super) fn show(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let (lens, _) = pan::field(ui, view.session.look, Sense::hover(), false, out);
    let Some(flown) = &view.session.flown else { return lens };
    plain::draw(ui, view, &lens, flown, |painter, labels| {
        let Some((log, one)) = view.session.debrief_chosen() else { return };
        if let Some(predicted) = &one.predicted {
            if let Some(ring) = &predicted.ring {
                let mut corners: Vec<_> = ring.corners.iter().map(|corner| lens.screen(*corner)).collect();
                corners.extend(corners.first().copied());
                painter.line(corners, Stroke::new(1.5, view.palette.soft));
            }
            let trace = &predicted.run.trace;
            flight::draw_path(painter, &lens, trace, trace.len(), view.palette);
        }
        flown_path(painter, view, &lens, &log.log.track, one, labels);
    });
    lens
}

/// The flown path: thin over all of the log, broad over the recovery.
fn flown_path(painter: &Painter, view: &View<'_>, lens: &Lens, track: &Track, one: &Debriefed, labels: &mut Labels) {
    let on_screen = |range: std::ops::Range<usize>| -> Vec<_> {
        track.place()[range].iter().map(|place| lens.screen(*place)).collect()
    };
    painter.line(on_screen(0..track.place().len()), Stroke::new(1.0, view.palette.ink.gamma_multiply(0.5)));
    let recovery = on_screen(one.marks.lost..(one.marks.taken_over + 1).min(track.place().len()));
    painter.line(recovery.clone(), Stroke::new(6.0, view.palette.paper));
    painter.line(recovery.clone(), Stroke::new(3.5, view.palette.ink));
    labels.rather_not(&recovery);
    let at = track.time_s().partition_point(|&time| time < view.session.debrief.at_s).min(track.place().len() - 1);
    let nose = velocity(track, at).unwrap_or(DVec2::Y);
    jet::draw_at(painter, lens.screen(track.place()[at]), nose, view.palette);
    let words = format!(
        "flown: full black line; predicted: pens; thin ring: 90 % of what is predicted. Height {:.0} m",
        track.height_m()[at]
    );
    let place = lens.rect.left_bottom() + bevy_egui::egui::vec2(10.0, -10.0);
    painter.text(place, Align2::LEFT_BOTTOM, words, FontId::proportional(14.0), view.palette.ink);
}
