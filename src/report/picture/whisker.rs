//! How far the trials lie apart on each circle: a box a radius over the middle 90 % of them, with their median.

use glam::DVec2;

use super::radius_chart::Plot;
use crate::draw::{Fill, Hatch, Ink, Pattern, Pen, Sheet};
use crate::recovery::Turn;
use crate::study::radius::RadiusPoint;
use crate::study::stats::reach;

/// Half the width of a box, mm.
const HALF: f64 = 0.75;
/// How far beside its radius a box stands, so that the two ways round and the marks of the curves stay apart, mm.
const ASIDE: f64 = 1.9;

const EDGE: Pen = Pen::plain(Ink::BLACK, 0.25);

/// The distances that a box reaches to, metres.
pub(super) fn reached(point: &RadiusPoint) -> impl Iterator<Item = f64> + use<> {
    reach(&point.trials.furthest_m).into_iter().flatten()
}

/// Draws the box of a radius and way round.
pub(super) fn draw(sheet: &mut Sheet, plot: &Plot<'_>, point: &RadiusPoint) {
    let [Some(low), middle, high] = reach(&point.trials.furthest_m) else { return };
    let (y, frame) = (|distance: f64| plot.at(point.radius_m, distance).y, plot.axes.frame);
    // At the ends of the axis both boxes move inwards.
    let room = ASIDE + 2.0 * HALF;
    let x = plot.at(point.radius_m, low).x.max(frame.low.x + room).min(frame.high.x - room) + aside(point.turn);
    let top = high.map_or(frame.low.y, y);
    boxed(sheet, [DVec2::new(x, y(low)), DVec2::new(x, top)], middle.map(y), point.turn, high.is_none());
}

fn aside(turn: Turn) -> f64 {
    if turn == Turn::Clockwise { ASIDE } else { -ASIDE }
}

/// A box from its foot to its top, mm, with its median; open to an arrow where it has no top.
fn boxed(sheet: &mut Sheet, [foot, top]: [DVec2; 2], median: Option<f64>, turn: Turn, open: bool) {
    let half = DVec2::new(HALF, 0.0);
    // The two ways round are told apart by the way their hatch leans.
    let pattern = if turn == Turn::Clockwise { Pattern::Falling } else { Pattern::Rising };
    let hatch = Hatch { pattern, ink: Ink::SOFT, ground: Some(Ink::PAPER), step: 70 };
    sheet.rectangle(top - half, foot + half, Some(EDGE), Fill::Hatch(hatch));
    if let Some(median) = median {
        let at = DVec2::new(foot.x, median);
        sheet.line([at - 1.5 * half, at + 1.5 * half], Pen::plain(Ink::BLACK, 0.7));
    }
    if open {
        let corners = [(0.0, 0.2), (1.3, 2.4), (-1.3, 2.4)].map(|(x, y)| top + DVec2::new(x, y));
        sheet.ring(corners, Some(EDGE), Fill::Plain(Ink::BLACK));
    }
}

/// The boxes of the key, about a place.
pub(super) fn key(sheet: &mut Sheet, at: DVec2, turns: &[Turn]) {
    let (foot, top) = (at + DVec2::new(0.0, 2.4), at - DVec2::new(0.0, 2.4));
    for &turn in turns {
        let x = DVec2::new(aside(turn), 0.0);
        boxed(sheet, [foot + x, top + x], Some(at.y), turn, false);
    }
}

/// The arrow of the key.
pub(super) fn key_open(sheet: &mut Sheet, at: DVec2, turn: Turn) {
    boxed(sheet, [at + DVec2::new(0.0, 1.8), at - DVec2::new(0.0, 2.2)], None, turn, true);
}

/// Whether a box has no top.
pub(super) fn is_open(point: &RadiusPoint) -> bool {
    matches!(reach(&point.trials.furthest_m), [Some(_), _, None])
}
