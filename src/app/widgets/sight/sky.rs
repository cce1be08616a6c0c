//! Sky, ground and horizon behind everything, and the sun with its glare.

use bevy_egui::egui::{Painter, Pos2, Stroke};

use super::pane::{Pane, painted};
use super::scene::Scene;
use super::shades;
use crate::app::look::pens::LIMIT_BAND;

/// Half the sun's apparent diameter, degrees (16 minutes of arc, value from memory).
const SUN_DEG: f64 = 0.2666;
/// Rims of the glare that is drawn, degrees (judgement); each lies over the next.
const GLARE_DEG: [f64; 6] = [7.0, 5.5, 4.2, 3.0, 2.0, 1.0];

/// Paints sky and ground, and the disc of the sun; tells where its middle is.
pub(super) fn draw(painter: &Painter, pane: &Pane, scene: &Scene<'_>) -> Option<Pos2> {
    let palette = scene.palette;
    painter.rect_filled(pane.rect, 0.0, shades::sky(palette));
    let sun = scene.sun.filter(crate::sun::Sun::is_up);
    let at = sun.and_then(|sun| {
        let disc = pane.round(sun.direction(), SUN_DEG);
        if !disc.is_empty() {
            painter.add(painted(disc, LIMIT_BAND, Stroke::new(1.0, palette.ink)));
        }
        pane.toward(sun.direction())
    });
    let (ground, horizon) = pane.ground();
    if ground.len() > 2 {
        painter.add(painted(ground, shades::ground(palette), Stroke::NONE));
    }
    if let Some(ends) = horizon {
        painter.line_segment(ends, Stroke::new(1.2, palette.soft));
    }
    at
}

/// Paints the glare over what is hard to see in it.
pub(super) fn glare(painter: &Painter, pane: &Pane, scene: &Scene<'_>) {
    let Some(sun) = scene.sun.filter(crate::sun::Sun::is_up) else { return };
    for rim_deg in GLARE_DEG {
        let patch = pane.round(sun.direction(), rim_deg);
        if !patch.is_empty() {
            painter.add(painted(patch, LIMIT_BAND.gamma_multiply(0.16), Stroke::NONE));
        }
    }
}
