//! Where whole recoveries are flown, way home included: a ring that half of them stay inside, one for nine of ten, one for
//! 99 of a hundred.

use bevy_egui::egui::{Painter, Pos2, Stroke};

use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::pens::pen_line;
use crate::app::look::theme::{Palette, Pen};
use crate::study::envelope::{Envelope, Ring};
use crate::study::stats::percent;

/// Dashes of the rings, the innermost first.
const DASHES: [&[f32]; 3] = [&[2.0, 4.0], &[9.0, 5.0], &[16.0, 4.0, 3.0, 4.0]];
/// Bearings at which the rings are named, so that the names don't crowd one another, degrees.
const NAMED_AT: [f64; 3] = [300.0, 240.0, 140.0];

/// The pen of a ring by its number, the innermost first.
fn pen(palette: &Palette, index: usize) -> Pen {
    Pen { width: 2.5, dash: DASHES[index.min(DASHES.len() - 1)], ..palette.trials() }
}

/// Draws the rings, under the path, as strong as `pale` says.
pub fn under(
    painter: &Painter,
    lens: &Lens,
    palette: &Palette,
    (envelope, pale): (&Envelope, f32),
    labels: &mut Labels,
) {
    for (index, ring) in envelope.rings.iter().enumerate() {
        let line = around(lens, ring);
        painter.line(line.clone(), Stroke::new(5.0, palette.paper.gamma_multiply(0.8 * pale)));
        let pen = pen(palette, index);
        pen_line(painter, &line, Pen { colour: pen.colour.gamma_multiply(pale), ..pen });
        labels.rather_not(&line);
    }
}

/// The ring on the screen, closed.
fn around(lens: &Lens, ring: &Ring) -> Vec<Pos2> {
    let mut line: Vec<Pos2> = ring.corners.iter().map(|corner| lens.screen(*corner)).collect();
    line.extend(line.first().copied());
    line
}

/// Names the rings, over the path.
pub fn words(painter: &Painter, lens: &Lens, palette: &Palette, envelope: &Envelope, labels: &mut Labels) {
    for (index, ring) in envelope.rings.iter().enumerate() {
        let share = NAMED_AT[index.min(NAMED_AT.len() - 1)] / 360.0;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a number of the list")]
        let corner = (share * ring.corners.len() as f64) as usize;
        let Some(at) = ring.corners.get(corner).map(|at| lens.screen(*at)) else { continue };
        if lens.rect.contains(at) {
            labels.write(painter, palette, at, 4.0, &name(envelope, ring));
        }
    }
}

/// What stays inside a ring.
fn name(envelope: &Envelope, ring: &Ring) -> String {
    if ring.short {
        return format!("furthest of {} whole recoveries", envelope.trials.div_ceil(2));
    }
    format!("{} of whole recoveries", percent(ring.share))
}
