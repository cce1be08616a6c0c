//! Where whole recoveries are flown, way home included: a ring that half of them stay inside, one for nine of ten, one for
//! 99 of a hundred.

use bevy_egui::egui::{Painter, Pos2, Stroke};

use crate::app::lens::Lens;
use crate::app::map::labels::Labels;
use crate::app::map::pen_line;
use crate::app::panels::{View, standing};
use crate::app::theme::Pen;
use crate::study::envelope::{Envelope, Ring};
use crate::study::stats::percent;

/// Dashes of the rings, the innermost first.
const DASHES: [&[f32]; 3] = [&[2.0, 4.0], &[9.0, 5.0], &[16.0, 4.0, 3.0, 4.0]];
/// Bearings at which the rings are named, so that the names don't crowd one another, degrees.
const NAMED_AT: [f64; 3] = [300.0, 240.0, 140.0];

/// The pen of a ring by its number, the innermost first.
pub(crate) fn pen(view: &View<'_>, index: usize) -> Pen {
    Pen { width: 2.5, dash: DASHES[index.min(DASHES.len() - 1)], ..view.palette.cases() }
}

/// Draws the rings, under the path.
pub(in crate::app::map) fn under(painter: &Painter, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    let Some(answer) = &view.session.answers.envelope else { return };
    let pale = if standing::is_stale(view, answer) { standing::PALE } else { 1.0 };
    for (index, ring) in answer.found.rings.iter().enumerate() {
        let line = around(lens, ring);
        painter.line(line.clone(), Stroke::new(5.0, view.palette.paper.gamma_multiply(0.8 * pale)));
        let pen = pen(view, index);
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
pub(in crate::app::map) fn words(painter: &Painter, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    let Some(answer) = &view.session.answers.envelope else { return };
    for (index, ring) in answer.found.rings.iter().enumerate() {
        let share = NAMED_AT[index.min(NAMED_AT.len() - 1)] / 360.0;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a number of the list")]
        let corner = (share * ring.corners.len() as f64) as usize;
        let Some(at) = ring.corners.get(corner).map(|at| lens.screen(*at)) else { continue };
        if lens.rect.contains(at) {
            labels.write(painter, view.palette, at, 4.0, &name(&answer.found, ring));
        }
    }
}

/// What stays inside a ring.
fn name(envelope: &Envelope, ring: &Ring) -> String {
    if ring.short {
        return format!("furthest of {} whole recoveries", envelope.cases.div_ceil(2));
    }
    format!("{} of whole recoveries", percent(ring.share))
}
