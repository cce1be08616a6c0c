//! Where each margin was least: a shape for its verdict and the number of its row in the ledger.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, vec2};

use super::labels::Labels;
use crate::app::Flown;
use crate::app::lens::Lens;
use crate::app::panels::View;
use crate::app::theme::{Palette, bold};
use crate::app::words::{left, seconds};
use crate::ledger::{Limit, Row, Verdict};
use crate::study::verdict::Answer;

/// Half the size of a mark, points.
pub(super) const SIZE: f32 = 7.0;
/// Marks nearer than this to each other are drawn as one, points.
const TOGETHER: f32 = 12.0;

/// The shape of a verdict: round clear, square counted, three-cornered thin, four-cornered and crossed breached.
pub fn verdict_mark(painter: &Painter, at: Pos2, size: f32, verdict: Verdict, palette: &Palette) {
    let colour = palette.verdict(verdict);
    let stroke = Stroke::new(1.8, palette.ink);
    let corners = |corners: &[(f32, f32)]| {
        let points = corners.iter().map(|&(x, y)| at + vec2(x, y) * size).collect();
        painter.add(Shape::convex_polygon(points, colour, stroke));
    };
    match verdict {
        Verdict::Clear => {
            painter.circle(at, size * 0.85, colour, stroke);
        }
        Verdict::Counted => {
            let square = Rect::from_center_size(at, Vec2::splat(size * 1.6));
            painter.rect(square, 0.0, colour, stroke, StrokeKind::Middle);
        }
        Verdict::Thin => corners(&[(0.0, -1.1), (1.05, 0.8), (-1.05, 0.8)]),
        Verdict::Breached => {
            corners(&[(0.0, -1.2), (1.2, 0.0), (0.0, 1.2), (-1.2, 0.0)]);
            for (x, y) in [(0.5, 0.5), (0.5, -0.5)] {
                painter.line_segment([at - vec2(x, y) * size, at + vec2(x, y) * size], stroke);
            }
        }
    }
}

/// The shape of what trials say: round where they say yes, four-cornered and crossed where no, round with a question mark
/// where undecided; an empty ring, grey, where they have not been asked.
pub fn answer_mark(painter: &Painter, at: Pos2, size: f32, answer: Option<Answer>, palette: &Palette) {
    match answer {
        Some(Answer::Yes) => verdict_mark(painter, at, size, Verdict::Clear, palette),
        Some(Answer::No) => verdict_mark(painter, at, size, Verdict::Breached, palette),
        Some(Answer::Undecided) => {
            painter.circle(at, size, palette.paper, Stroke::new(1.8, palette.ink));
            let font = FontId::new(1.8 * size, bold());
            painter.text(at, Align2::CENTER_CENTER, "?", font, palette.ink);
        }
        None => {
            painter.circle_stroke(at, size * 0.85, Stroke::new(1.8, palette.soft));
        }
    }
}

/// Rows whose least margins lie at one place of the screen, worst first.
#[derive(Debug)]
pub(super) struct Group {
    pub(super) at: Pos2,
    pub(super) rows: Vec<usize>,
}

/// The marks on the screen.
pub(super) fn groups(lens: &Lens, flown: &Flown) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (index, row) in flown.ledger.rows.iter().enumerate() {
        let at = lens.screen(row.at);
        if !lens.rect.contains(at) {
            continue;
        }
        match groups.iter_mut().find(|group| group.at.distance(at) < TOGETHER) {
            Some(group) => group.rows.push(index),
            None => groups.push(Group { at, rows: vec![index] }),
        }
    }
    groups
}

/// Draws the marks and, of the row chosen, what it was measured to. Returns the groups where they are drawn.
pub(super) fn draw(painter: &Painter, lens: &Lens, view: &View<'_>, flown: &Flown, labels: &mut Labels) -> Vec<Group> {
    let palette = view.palette;
    let chosen = view.session.chosen.and_then(|index| flown.ledger.rows.get(index));
    if let Some(row) = chosen
        && let Some(edge) = measured_to(flown, row)
    {
        let line = [lens.screen(row.at), lens.screen(edge)];
        painter.line_segment(line, Stroke::new(5.0, palette.paper));
        painter.line_segment(line, Stroke::new(2.5, palette.ink));
        painter.circle(line[1], 3.5, palette.paper, Stroke::new(2.0, palette.ink));
    }
    let mut groups = groups(lens, flown);
    for group in &mut groups {
        let Some(verdict) = group.rows.iter().map(|&index| flown.ledger.rows[index].verdict).max() else { continue };
        let place = group.at;
        group.at = labels.seat(place, Vec2::splat(SIZE * 2.4)).center();
        if place.distance(group.at) > 1.0 {
            painter.line_segment([place, group.at], Stroke::new(1.5, palette.ink));
        }
        painter.circle_filled(group.at, SIZE * 1.5, palette.paper);
        verdict_mark(painter, group.at, SIZE, verdict, palette);
        if view.session.chosen.is_some_and(|index| group.rows.contains(&index)) {
            painter.circle_stroke(group.at, SIZE * 2.0, Stroke::new(3.0, palette.focus));
        }
    }
    groups
}

/// Writes the numbers of the rows at their marks, and in full what the chosen one says.
pub(super) fn draw_words(painter: &Painter, view: &View<'_>, flown: &Flown, groups: &[Group], labels: &mut Labels) {
    for group in groups {
        if let Some(index) = view.session.chosen.filter(|index| group.rows.contains(index)) {
            let text = format!("{} {}", index + 1, sentence(&flown.ledger.rows[index]));
            labels.write(painter, view.palette, group.at, SIZE + 9.0, &text);
        }
        let others = group.rows.iter().filter(|&&index| view.session.chosen != Some(index));
        let others: Vec<String> = others.map(|index| (index + 1).to_string()).collect();
        if !others.is_empty() {
            labels.write(painter, view.palette, group.at, SIZE + 4.0, &others.join(", "));
        }
    }
}

/// What a row says, in words.
pub(crate) fn sentence(row: &Row) -> String {
    let amount = left(row.margin, row.standoff, row.unit.symbol());
    let verdict = row.verdict.name();
    let what = match row.verdict {
        Verdict::Counted => format!("{amount} over it"),
        Verdict::Breached => format!("over the limit by {}", amount.trim_start_matches('\u{2212}')),
        Verdict::Clear | Verdict::Thin => format!("{amount} left"),
    };
    format!("{}: {what}, {verdict}, at {}", row.name, seconds(row.at_s))
}

/// The place on the ground that a margin was measured to, where there is one.
fn measured_to(flown: &Flown, row: &Row) -> Option<glam::DVec2> {
    let field = &flown.scenario.field;
    match row.limit {
        Limit::Outline => Some(field.outline.nearest(row.at).at),
        Limit::Patch(index) => Some(field.patches.get(index)?.region.nearest(row.at).at),
        Limit::Obstacle(index) => Some(field.obstacles.get(index)?.region.nearest(row.at).at),
        Limit::FlightLine => field.flight_line.map(|line| row.at - line.inward * line.signed_distance(row.at)),
        Limit::SightDistance | Limit::SightAngle => Some(field.stand),
        _ => None,
    }
}
