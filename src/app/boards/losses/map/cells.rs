//! The cells: ground in runs along the rows, hatches ruled across all cells of a kind at once, a line where kinds meet.
//!
//! A hatch runs through from cell to cell, so that it stays legible where cells are small, and so that thousands of cells
//! take hundreds of lines.

use bevy_egui::egui::{Color32, Mesh, Painter, Pos2, Rect, Shape, Stroke, Vec2, pos2, vec2};

use super::look::CellStyle;
use crate::app::look::clip::within;
use crate::app::look::lens::Lens;
use crate::draw::Pattern;
use crate::study::losses::{Cell, LossStudy};

/// Width of the lines of a hatch, points.
const LINE: f32 = 1.3;
/// Radius of fine and of coarse dots, points.
const DOTS: [f32; 2] = [0.9, 1.8];

/// Which of some looks every square of the grid has, on the screen.
pub(super) struct CellSheet<'a> {
    looks: &'a [CellStyle],
    /// Columns and rows.
    size: [usize; 2],
    /// The look of every square, by rows from the south; none where no loss is flown.
    kinds: Vec<Option<usize>>,
    /// South-west corner, and the side of a cell, points.
    corner: Pos2,
    side: f32,
    /// What can be seen of it, points to the right of and above the corner.
    seen: Rect,
}

impl<'a> CellSheet<'a> {
    /// The cells of a study through a lens; `kind` says which of the looks a cell has.
    pub(super) fn new(
        lens: &Lens,
        study: &LossStudy,
        looks: &'a [CellStyle],
        kind: impl Fn(&Cell) -> Option<usize>,
    ) -> Self {
        let size = study.size.map(|count| count as usize);
        let mut kinds = vec![None; size[0] * size[1]];
        for cell in &study.cells {
            let [column, row] = cell.at.map(|at| at as usize);
            if let Some(square) = kinds.get_mut(row * size[0] + column) {
                *square = kind(cell);
            }
        }
        let corner = lens.screen(study.corner);
        #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
        let side = (study.cell_m / lens.metres_a_point) as f32;
        #[allow(clippy::cast_precision_loss, reason = "rows and columns are few")]
        let whole = Rect::from_min_size(Pos2::ZERO, vec2(size[0] as f32, size[1] as f32) * side);
        let room = Rect::from_two_pos(local(corner, lens.rect.left_bottom()), local(corner, lens.rect.right_top()));
        Self { looks, size, kinds, corner, side, seen: whole.intersect(room) }
    }

    /// Draws them.
    pub(super) fn draw(&self, painter: &Painter, border: Color32) {
        if !self.seen.is_positive() {
            return;
        }
        let mut mesh = Mesh::default();
        self.fill(&mut mesh);
        painter.add(Shape::mesh(mesh));
        for (kind, look) in self.looks.iter().enumerate() {
            if let Some((pattern, colour, step)) = look.hatch.filter(|_| self.kinds.contains(&Some(kind))) {
                self.hatch(painter, kind, pattern, colour, step);
            }
        }
        let mut mesh = Mesh::default();
        self.borders(&mut mesh, border);
        painter.add(Shape::mesh(mesh));
    }

    fn kind(&self, column: usize, row: usize) -> Option<usize> {
        if column < self.size[0] { self.kinds.get(row * self.size[0] + column).copied().flatten() } else { None }
    }

    /// The kind at a place, points to the right of and above the corner.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "inside the grid")]
    fn kind_at(&self, at: Vec2) -> Option<usize> {
        let square = at / self.side;
        if square.min_elem() < 0.0 { None } else { self.kind(square.x as usize, square.y as usize) }
    }

    /// Where a place given from the corner is on the screen.
    fn screen(&self, at: Vec2) -> Pos2 {
        pos2(self.corner.x + at.x, self.corner.y - at.y)
    }

    #[allow(clippy::cast_precision_loss, reason = "rows and columns are few")]
    fn square(&self, columns: std::ops::Range<usize>, row: usize) -> Rect {
        let low = self.screen(vec2(columns.start as f32, row as f32) * self.side);
        let high = self.screen(vec2(columns.end as f32, row as f32 + 1.0) * self.side);
        Rect::from_two_pos(low, high)
    }

    /// Squares alike and beside one another are one rectangle.
    fn fill(&self, mesh: &mut Mesh) {
        for row in 0..self.size[1] {
            let mut column = 0;
            while column < self.size[0] {
                let kind = self.kind(column, row);
                let first = column;
                while column < self.size[0] && self.kind(column, row) == kind {
                    column += 1;
                }
                if let Some(kind) = kind {
                    mesh.add_colored_rect(self.square(first..column, row), self.looks[kind].ground);
                }
            }
        }
    }

    /// A line between squares of different kinds, and round what is flown at all.
    fn borders(&self, mesh: &mut Mesh, colour: Color32) {
        for row in 0..self.size[1] {
            for column in 0..self.size[0] {
                let kind = self.kind(column, row);
                let square = self.square(column..column + 1, row);
                if kind.is_some() && self.kind(column + 1, row) != kind {
                    mesh.add_colored_rect(Rect::from_center_size(square.right_center(), vec2(1.0, self.side)), colour);
                }
                if kind.is_some() && self.kind(column, row + 1) != kind {
                    mesh.add_colored_rect(Rect::from_center_size(square.center_top(), vec2(self.side, 1.0)), colour);
                }
            }
        }
    }

    fn hatch(&self, painter: &Painter, kind: usize, pattern: Pattern, colour: Color32, step: f32) {
        let (dots, ways) = ways(pattern);
        let line = Stroke::new(LINE, colour);
        for way in ways {
            for [from, to] in self.rule(kind, *way, step) {
                painter.line_segment([self.screen(from), self.screen(to)], line);
            }
        }
        if let Some(radius) = dots {
            for dot in self.dots(kind, step) {
                painter.circle_filled(self.screen(dot), radius, colour);
            }
        }
    }

    /// The pieces of parallel lines, `step` points apart along a unit vector, that lie in squares of a kind.
    fn rule(&self, kind: usize, way: Vec2, step: f32) -> Vec<[Vec2; 2]> {
        let across = vec2(-way.y, way.x);
        let corners = [self.seen.left_top(), self.seen.right_top(), self.seen.left_bottom(), self.seen.right_bottom()];
        let offsets = corners.map(|corner| corner.to_vec2().dot(across));
        let (least, most) = offsets.iter().fold((f32::INFINITY, f32::NEG_INFINITY), |(a, b), o| (a.min(*o), b.max(*o)));
        let mut pieces = Vec::new();
        let mut cuts = Vec::new();
        let mut line = (least / step).floor() + 0.5;
        while line * step <= most {
            let start = across * (line * step);
            line += 1.0;
            let Some((from, to)) = within(self.seen, start, way) else { continue };
            cuts.clear();
            cuts.extend([from, to]);
            for (at, along) in [(start.x, way.x), (start.y, way.y)] {
                crossings(at, along, self.side, (from, to), &mut cuts);
            }
            cuts.sort_unstable_by(f32::total_cmp);
            let mut open: Option<[f32; 2]> = None;
            for pair in cuts.windows(2) {
                if self.kind_at(start + way * f32::midpoint(pair[0], pair[1])) == Some(kind) {
                    open = Some([open.map_or(pair[0], |open| open[0]), pair[1]]);
                } else if let Some([a, b]) = open.take() {
                    pieces.push([start + way * a, start + way * b]);
                }
            }
            pieces.extend(open.map(|[a, b]| [start + way * a, start + way * b]));
        }
        pieces
    }

    /// Dots in squares of a kind, every second row shifted by half.
    fn dots(&self, kind: usize, step: f32) -> Vec<Vec2> {
        let mut dots = Vec::new();
        let mut row = (self.seen.top() / step).floor();
        while row * step <= self.seen.bottom() {
            let shift = if row.rem_euclid(2.0) < 1.0 { 0.25 } else { 0.75 };
            let mut column = (self.seen.left() / step).floor() + shift;
            while column * step <= self.seen.right() {
                let at = vec2(column, row + 0.5) * step;
                if self.kind_at(at) == Some(kind) {
                    dots.push(at);
                }
                column += 1.0;
            }
            row += 1.0;
        }
        dots
    }
}

/// From a corner to a point of the screen: to the right and up.
fn local(corner: Pos2, at: Pos2) -> Pos2 {
    pos2(at.x - corner.x, corner.y - at.y)
}

/// Radius of a pattern's dots, and the ways that its lines run; y up.
fn ways(pattern: Pattern) -> (Option<f32>, &'static [Vec2]) {
    const SLANT: f32 = std::f32::consts::FRAC_1_SQRT_2;
    const RISING: Vec2 = Vec2::new(SLANT, SLANT);
    const FALLING: Vec2 = Vec2::new(SLANT, -SLANT);
    match pattern {
        Pattern::Rising => (None, &[RISING]),
        Pattern::Falling => (None, &[FALLING]),
        Pattern::Crossed => (None, &[RISING, FALLING]),
        Pattern::Level => (None, &[Vec2::RIGHT]),
        Pattern::Upright => (None, &[Vec2::DOWN]),
        Pattern::Squared => (None, &[Vec2::RIGHT, Vec2::DOWN]),
        Pattern::Dotted => (Some(DOTS[0]), &[]),
        Pattern::Spotted => (Some(DOTS[1]), &[]),
    }
}

/// Where a line crosses the lines of the grid along one axis.
fn crossings(at: f32, along: f32, side: f32, (from, to): (f32, f32), cuts: &mut Vec<f32>) {
    if along.abs() < 1e-6 {
        return;
    }
    let (a, b) = (at + along * from, at + along * to);
    let mut line = (a.min(b) / side).ceil();
    while line * side < a.max(b) {
        cuts.push((line * side - at) / along);
        line += 1.0;
    }
}

/// Draws a sample of a look into a rectangle.
pub(crate) fn swatch(painter: &Painter, rect: Rect, look: CellStyle, frame: Stroke) {
    let painter = painter.with_clip_rect(painter.clip_rect().intersect(rect));
    let seen = Rect::from_min_size(Pos2::ZERO, rect.size());
    let side = rect.size().max_elem();
    let looks = [look];
    let sheet = CellSheet { looks: &looks, size: [1, 1], kinds: vec![Some(0)], corner: rect.left_bottom(), side, seen };
    painter.rect_filled(rect, 0.0, look.ground);
    if let Some((pattern, colour, step)) = look.hatch {
        sheet.hatch(&painter, 0, pattern, colour, step);
    }
    painter.rect_stroke(rect, 0.0, frame, bevy_egui::egui::StrokeKind::Inside);
}

#[cfg(test)]
mod tests {
    use super::*;

    const SLANT: Vec2 = Vec2::new(std::f32::consts::FRAC_1_SQRT_2, std::f32::consts::FRAC_1_SQRT_2);

    /// Ten by ten squares of 8 points, the left half of one kind, with a hole of 2 by 2.
    fn sheet(looks: &[CellStyle]) -> CellSheet<'_> {
        let kinds = (0..100).map(|square| match (square % 10, square / 10) {
            (2..4, 4..6) => None,
            (0..5, _) => Some(0),
            _ => Some(1),
        });
        let seen = Rect::from_min_size(Pos2::ZERO, Vec2::splat(80.0));
        CellSheet { looks, size: [10, 10], kinds: kinds.collect(), corner: pos2(0.0, 80.0), side: 8.0, seen }
    }

    #[test]
    fn hatches_cover_the_area_of_their_kind_and_nothing_else() {
        let sheet = sheet(&[]);
        for (kind, area) in [(0, 40.0 * 80.0 - 16.0 * 16.0), (1, 40.0 * 80.0)] {
            for way in [SLANT, vec2(SLANT.x, -SLANT.y), Vec2::RIGHT, Vec2::DOWN] {
                let pieces = sheet.rule(kind, way, 0.5);
                let length: f32 = pieces.iter().map(|[from, to]| (*to - *from).length()).sum();
                assert!((length * 0.5 - area).abs() < 0.02 * area, "{kind} {way:?}: {} not {area}", length * 0.5);
                let middles = pieces.iter().map(|[from, to]| (*from + *to) * 0.5);
                assert!(middles.into_iter().all(|middle| sheet.kind_at(middle).is_some()));
            }
            let dots = sheet.dots(kind, 1.0);
            #[allow(clippy::cast_precision_loss, reason = "a few thousand")]
            let covered = dots.len() as f32;
            assert!((covered - area).abs() < 0.03 * area, "{covered} dots, not {area}");
            assert!(dots.iter().all(|&dot| sheet.kind_at(dot) == Some(kind)));
        }
    }

    #[test]
    fn lines_run_through_from_cell_to_cell() {
        // Ten rows, one line a row: each in one piece but for the two that the hole cuts in two.
        assert_eq!(sheet(&[]).rule(0, Vec2::RIGHT, 8.0).len(), 12);
    }
}
