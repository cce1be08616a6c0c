//! The keep-inside line as flown, and the two lines in closed form: inside the one a loss on any heading turns back within
//! the outline, from beyond the other the energy does not reach home.

use bevy_egui::egui::{Color32, Painter, Pos2, Rect};
use glam::DVec2;

use super::cells::within;
use crate::app::lens::Lens;
use crate::app::map::labels::Labels;
use crate::app::map::pen_line;
use crate::app::panels::{View, standing};
use crate::app::theme::{Palette, Pen};
use crate::study::losses::LossStudy;

/// Dashes of the keep-inside line, points: those of the prints.
pub const KEEP_INSIDE: &[f32] = &[24.0, 5.0, 5.0, 5.0];
/// Dashes of the turn-back line.
pub const TURN_BACK: &[f32] = &[18.0, 7.0];
/// Dashes of the no-return line.
pub const NO_RETURN: &[f32] = &[3.0, 6.0];

/// The pen of one of them.
pub fn pen(dash: &'static [f32], palette: &Palette) -> Pen {
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

/// The keep-inside line and its name alone, pale where it is of another plan: on the map of the circle.
pub(in crate::app::map) fn keep_inside(painter: &Painter, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    let Some(answer) = &view.session.answers.losses else { return };
    let (Some(ring), palette) = (kept(&answer.found), view.palette) else { return };
    let pale = if standing::is_stale(view, answer) { standing::PALE } else { 1.0 };
    let pen = pen(KEEP_INSIDE, palette);
    let pen = Pen { colour: pen.colour.gamma_multiply(pale), width: 3.0, ..pen };
    let pieces = seen(&closed(lens, &ring), lens.rect.expand(20.0));
    line(painter, &pieces, pen, palette.paper.gamma_multiply(pale));
    pieces.iter().for_each(|piece| labels.rather_not(piece));
    name(painter, lens, &ring, "keep-inside line", palette, labels);
}

fn line(painter: &Painter, pieces: &[Vec<Pos2>], pen: Pen, ground: Color32) {
    for piece in pieces {
        pen_line(painter, piece, Pen { colour: ground, width: 7.0, dash: &[] });
    }
    for piece in pieces {
        pen_line(painter, piece, pen);
    }
}

/// What is known to be inside; none where nothing is.
fn kept(study: &LossStudy) -> Option<Vec<DVec2>> {
    let keep = study.keep_inside.as_ref()?;
    keep.drawn().map(|line| line.ring(keep.centre)).filter(|ring| !ring.is_empty())
}

/// The parts of a line that lie in a rectangle: one far away would be thousands of dashes that nobody sees.
pub(in crate::app::map) fn seen(line: &[Pos2], room: Rect) -> Vec<Vec<Pos2>> {
    let mut pieces: Vec<Vec<Pos2>> = Vec::new();
    for pair in line.windows(2) {
        let way = pair[1] - pair[0];
        let Some((from, to)) = within(room, pair[0].to_vec2(), way) else { continue };
        let (from, to) = (from.max(0.0), to.min(1.0));
        if from >= to {
            continue;
        }
        // Corners as they are, so that pieces join.
        let start = if from > 0.0 { pair[0] + way * from } else { pair[0] };
        let end = if to < 1.0 { pair[0] + way * to } else { pair[1] };
        match pieces.last_mut().filter(|piece| piece.last() == Some(&start)) {
            Some(piece) => piece.push(end),
            None => pieces.push(vec![start, end]),
        }
    }
    pieces
}

fn closed(lens: &Lens, ring: &[DVec2]) -> Vec<Pos2> {
    ring.iter().chain(ring.first()).map(|&corner| lens.screen(corner)).collect()
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

fn name(painter: &Painter, lens: &Lens, ring: &[DVec2], words: &str, palette: &Palette, labels: &mut Labels) {
    let corners = ring.iter().map(|&corner| lens.screen(corner));
    let room = lens.rect.shrink(30.0);
    // The lower left is where the fewest other words are.
    let best = corners.filter(|&at| room.contains(at)).max_by(|a, b| (a.y - a.x).total_cmp(&(b.y - b.x)));
    if let Some(at) = best {
        labels.write(painter, palette, at, 7.0, words);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy_egui::egui::pos2;

    #[test]
    fn only_what_is_on_the_map_is_drawn() {
        let room = Rect::from_min_max(pos2(0.0, 0.0), pos2(100.0, 50.0));
        let far = |x: f32, y: f32| pos2(x * 1e5, y * 1e5);
        assert!(seen(&[far(-1.0, -1.0), far(1.0, -1.0), far(1.0, 1.0)], room).is_empty());
        let across = seen(&[pos2(-100.0, 20.0), pos2(200.0, 20.0), pos2(200.0, 300.0)], room);
        assert_eq!(across, [vec![pos2(0.0, 20.0), pos2(100.0, 20.0)]]);
        let inside = [pos2(10.0, 10.0), pos2(20.0, 40.0), pos2(90.0, 30.0)];
        assert_eq!(seen(&inside, room), [inside.to_vec()]);
        let out_and_in = seen(&[pos2(10.0, 10.0), pos2(10.0, 90.0), pos2(60.0, 90.0), pos2(60.0, 10.0)], room);
        assert_eq!(out_and_in.len(), 2);
    }
}
