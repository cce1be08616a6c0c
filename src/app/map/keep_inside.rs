//! The keep-inside line as flown, and how lines of its kind are drawn and named.

use bevy_egui::egui::{Color32, Painter, Pos2};
use glam::DVec2;

use crate::app::look::clip::seen;
use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::pens::pen_line;
use crate::app::look::theme::{Palette, Pen};
use crate::study::losses::LossStudy;

/// Dashes of the keep-inside line, points: those of the prints.
pub const KEEP_INSIDE: &[f32] = &[24.0, 5.0, 5.0, 5.0];

/// Draws the keep-inside line and its name alone, as strong as `pale` says.
pub fn draw(painter: &Painter, lens: &Lens, palette: &Palette, (study, pale): (&LossStudy, f32), labels: &mut Labels) {
    let Some(ring) = kept(study) else { return };
    let pen = Pen { colour: palette.ink.gamma_multiply(pale), width: 3.0, dash: KEEP_INSIDE };
    let pieces = seen(&closed(lens, &ring), lens.rect.expand(20.0));
    line(painter, &pieces, pen, palette.paper.gamma_multiply(pale));
    pieces.iter().for_each(|piece| labels.rather_not(piece));
    name(painter, lens, &ring, "keep-inside line", palette, labels);
}

/// Draws the pieces of a line on a ground of their own.
pub fn line(painter: &Painter, pieces: &[Vec<Pos2>], pen: Pen, ground: Color32) {
    for piece in pieces {
        pen_line(painter, piece, Pen { colour: ground, width: 7.0, dash: &[] });
    }
    for piece in pieces {
        pen_line(painter, piece, pen);
    }
}

/// What is known to be inside; none where nothing is.
pub fn kept(study: &LossStudy) -> Option<Vec<DVec2>> {
    let keep = study.keep_inside.as_ref()?;
    keep.drawn().map(|line| line.ring(keep.centre)).filter(|ring| !ring.is_empty())
}

/// A ring on the screen, closed.
pub fn closed(lens: &Lens, ring: &[DVec2]) -> Vec<Pos2> {
    ring.iter().chain(ring.first()).map(|&corner| lens.screen(corner)).collect()
}

/// Writes what a ring is at the corner of it that has the most room round it on the screen.
pub fn name(painter: &Painter, lens: &Lens, ring: &[DVec2], words: &str, palette: &Palette, labels: &mut Labels) {
    let corners = ring.iter().map(|&corner| lens.screen(corner));
    let room = lens.rect.shrink(30.0);
    // The lower left is where the fewest other words are.
    let best = corners.filter(|&at| room.contains(at)).max_by(|a, b| (a.y - a.x).total_cmp(&(b.y - b.x)));
    if let Some(at) = best {
        labels.write(painter, palette, at, 7.0, words);
    }
}
