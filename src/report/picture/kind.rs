//! How the curves of the radius look: one wind and one way round each, told apart by dashes, width and the shape of the
//! marks, and by colour besides.

use glam::DVec2;

use crate::draw::{Fill, Ink, Pen, Sheet};
use crate::margins::Score;
use crate::recovery::Turn;
use crate::study::radius::RadiusPoint;

/// One wind and one way round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Kind {
    pub(super) turn: Turn,
    pub(super) gust: bool,
}

/// Every kind, the lowest first.
pub(super) const KINDS: [Kind; 4] = [
    Kind { turn: Turn::Clockwise, gust: true },
    Kind { turn: Turn::Clockwise, gust: false },
    Kind { turn: Turn::Anticlockwise, gust: true },
    Kind { turn: Turn::Anticlockwise, gust: false },
];

pub(super) const MEAN: Ink = Ink::BLUE;
pub(super) const GUST: Ink = Ink::VERMILION;

impl Kind {
    pub(super) fn score(self, point: &RadiusPoint) -> &Score {
        if self.gust { &point.gust } else { &point.mean }
    }

    pub(super) fn ink(self) -> Ink {
        if self.gust { GUST } else { MEAN }
    }

    pub(super) fn pen(self) -> Pen {
        let pen = Pen::plain(self.ink(), if self.gust { 0.45 } else { 0.9 });
        if self.turn == Turn::Clockwise { pen.dashed(&[2.2, 1.2]) } else { pen }
    }

    /// The corners of its mark about nothing; none for a circle.
    pub(super) fn shape(self) -> &'static [(f64, f64)] {
        match (self.turn, self.gust) {
            (Turn::Clockwise, true) => &[(0.0, -2.0), (2.0, 0.0), (0.0, 2.0), (-2.0, 0.0)],
            (Turn::Clockwise, false) => &[(-1.4, -1.4), (1.4, -1.4), (1.4, 1.4), (-1.4, 1.4)],
            (Turn::Anticlockwise, true) => &[(0.0, -1.3), (1.2, 0.8), (-1.2, 0.8)],
            (Turn::Anticlockwise, false) => &[],
        }
    }

    /// Draws its mark, full where the circle is usable.
    pub(super) fn mark(self, sheet: &mut Sheet, at: DVec2, full: bool) {
        let rim = if full { Pen::plain(Ink::PAPER, 0.25) } else { Pen::plain(self.ink(), 0.4) };
        let fill = Fill::Plain(if full { self.ink() } else { Ink::PAPER });
        match self.shape() {
            [] => sheet.circle(at, 1.0, Some(rim), fill),
            corners => sheet.ring(corners.iter().map(|(x, y)| at + DVec2::new(*x, *y)), Some(rim), fill),
        }
    }
}

pub(super) fn cross(sheet: &mut Sheet, at: DVec2, ink: Ink) {
    let (a, b) = (DVec2::new(1.2, 1.2), DVec2::new(1.2, -1.2));
    sheet.line([at - a, at + a], Pen::plain(ink, 0.6));
    sheet.line([at - b, at + b], Pen::plain(ink, 0.6));
}
