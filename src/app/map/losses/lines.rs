//! The two lines in closed form: inside the one a loss on any heading turns back within the outline, from beyond the
//! other the energy does not reach home.

use bevy_egui::egui::{Color32, Painter, Pos2};
use glam::DVec2;

use crate::app::lens::Lens;
use crate::app::map::labels::Labels;
use crate::app::map::pen_line;
use crate::app::theme::{Palette, Pen};
use crate::study::losses::LossStudy;

/// Dashes of the turn-back line, points: those of the prints.
pub const TURN_BACK: &[f32] = &[18.0, 7.0];
/// Dashes of the no-return line.
pub const NO_RETURN: &[f32] = &[3.0, 6.0];
/// Steps between corners of a line that its name may stand at.
const STRIDE: usize = 1;

/// The pen of one of the two.
pub fn pen(dash: &'static [f32], palette: &Palette) -> Pen {
    Pen { colour: palette.ink, width: if dash == NO_RETURN { 4.5 } else { 3.0 }, dash }
}

pub(super) fn draw(painter: &Painter, lens: &Lens, study: &LossStudy, palette: &Palette) {
    let rings = study.turn_back.iter().map(|ring| (ring, TURN_BACK));
    let energy = std::iter::once((&study.no_return, NO_RETURN)).filter(|(ring, _)| !ring.is_empty());
    for (ring, dash) in rings.chain(energy) {
        let line = closed(lens, ring);
        casing(painter, &line, palette.paper);
        pen_line(painter, &line, pen(dash, palette));
    }
}

fn casing(painter: &Painter, line: &[Pos2], colour: Color32) {
    pen_line(painter, line, Pen { colour, width: 7.0, dash: &[] });
}

fn closed(lens: &Lens, ring: &[DVec2]) -> Vec<Pos2> {
    ring.iter().chain(ring.first()).map(|&corner| lens.screen(corner)).collect()
}

/// Writes what they are, each at the corner of it that has the most room round it on the screen.
pub(super) fn names(painter: &Painter, lens: &Lens, study: &LossStudy, palette: &Palette, labels: &mut Labels) {
    let longest = study.turn_back.iter().max_by_key(|ring| ring.len());
    let lines = [(longest, "turn-back line"), (Some(&study.no_return), "no-return line")];
    for (ring, name) in lines {
        let corners = ring.into_iter().flatten().step_by(STRIDE).map(|&corner| lens.screen(corner));
        let room = lens.rect.shrink(30.0);
        // The lower left is where the fewest other words are.
        let best = corners.filter(|&at| room.contains(at)).max_by(|a, b| (a.y - a.x).total_cmp(&(b.y - b.x)));
        if let Some(at) = best {
            labels.write(painter, palette, at, 7.0, name);
        }
    }
}
