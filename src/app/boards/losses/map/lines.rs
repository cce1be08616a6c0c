//! The two lines in closed form beside the keep-inside line: inside the one a loss on any heading turns back within the
//! boundary, from beyond the other the energy does not reach home.

use bevy_egui::egui::Painter;

use crate::app::look::clip::seen;
use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::{Palette, Pen};
use crate::app::map::keep_inside::{KEEP_INSIDE, closed, kept, line, name};
use crate::study::losses::LossStudy;

/// Dashes of the turn-back line.
pub(crate) const TURN_BACK: &[f32] = &[18.0, 7.0];
/// Dashes of the no-return line.
pub(crate) const NO_RETURN: &[f32] = &[3.0, 6.0];

/// The pen of one of them.
pub(crate) fn pen(dash: &'static [f32], palette: &Palette) -> Pen {
    Pen { colour: palette.ink, width: if dash == TURN_BACK { 3.0 } else { 4.5 }, dash }
}

pub(super) fn draw(painter: &Painter, lens: &Lens, study: &LossStudy, palette: &Palette) {
    let rings = study.turn_back.iter().map(|ring| (ring, TURN_BACK));
    let keep = kept(study);
    let keep = keep.iter().map(|ring| (ring, KEEP_INSIDE));
    let energy = std::iter::once((&study.no_return, NO_RETURN)).filter(|(ring, _)| !ring.is_empty());
    for (ring, dash) in rings.chain(energy).chain(keep) {
        line(painter, &seen(&closed(lens, ring), lens.rect.expand(20.0)), pen(dash, palette), palette.paper);
    }
}

/// Writes what they are, each at the corner of it that has the most room round it on the screen.
pub(super) fn names(painter: &Painter, lens: &Lens, study: &LossStudy, palette: &Palette, labels: &mut Labels) {
    let longest = study.turn_back.iter().max_by_key(|ring| ring.len());
    let keep = kept(study);
    let lines =
        [(keep.as_ref(), "keep-inside line"), (longest, "turn-back line"), (Some(&study.no_return), "no-return line")];
    for (ring, words) in lines {
        name(painter, lens, ring.map_or(&[], Vec::as_slice), words, palette, labels);
    }
}
