//! Where each margin was least: a shape for its verdict and the number of its row in the margins.

use bevy_egui::egui::{Painter, Pos2, Stroke, Vec2};

use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::marks::verdict_mark;
use crate::app::look::theme::Palette;
use crate::app::look::words::{left_and_asked, seconds};
use crate::app::session::Flown;
use crate::brief::nearest_row;
use crate::margins::{Limit, MarginRow, Verdict};
use crate::words::left;

/// Half the size of a mark, points.
pub const SIZE: f32 = 7.0;
/// Marks nearer than this to each other are drawn as one, points.
const TOGETHER: f32 = 12.0;

/// Rows whose least margins lie at one place of the screen, worst first.
#[derive(Debug)]
pub struct Group {
    /// Where.
    pub at: Pos2,
    /// Their numbers in the margins.
    pub rows: Vec<usize>,
}

/// The marks on the screen.
pub fn groups(lens: &Lens, flown: &Flown) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (index, row) in flown.margins.rows.iter().enumerate() {
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
pub fn draw(
    painter: &Painter,
    lens: &Lens,
    palette: &Palette,
    (flown, chosen): (&Flown, Option<usize>),
    labels: &mut Labels,
) -> Vec<Group> {
    let row = chosen.and_then(|index| flown.margins.rows.get(index));
    if let Some(row) = row
        && let Some(edge) = measured_to(flown, row)
    {
        let line = [lens.screen(row.at), lens.screen(edge)];
        painter.line_segment(line, Stroke::new(5.0, palette.paper));
        painter.line_segment(line, Stroke::new(2.5, palette.ink));
        painter.circle(line[1], 3.5, palette.paper, Stroke::new(2.0, palette.ink));
    }
    let mut groups = groups(lens, flown);
    for group in &mut groups {
        let Some(verdict) = group.rows.iter().map(|&index| flown.margins.rows[index].verdict).max() else { continue };
        let place = group.at;
        group.at = labels.seat(place, Vec2::splat(SIZE * 2.4)).center();
        if place.distance(group.at) > 1.0 {
            painter.line_segment([place, group.at], Stroke::new(1.5, palette.ink));
        }
        painter.circle_filled(group.at, SIZE * 1.5, palette.paper);
        verdict_mark(painter, group.at, SIZE, verdict, palette);
        if chosen.is_some_and(|index| group.rows.contains(&index)) {
            painter.circle_stroke(group.at, SIZE * 2.0, Stroke::new(3.0, palette.focus));
        }
    }
    groups
}

/// Writes the numbers of the rows at their marks, and in full what the chosen one says; while none is chosen, of the
/// row with the least left what it is and how much.
pub fn draw_words(
    painter: &Painter,
    palette: &Palette,
    (flown, chosen): (&Flown, Option<usize>),
    groups: &[Group],
    labels: &mut Labels,
) {
    let rows = &flown.margins.rows;
    let worst =
        || rows.iter().position(|row| nearest_row(&flown.margins).is_some_and(|nearest| std::ptr::eq(nearest, row)));
    let named = chosen.or_else(worst);
    for group in groups {
        if let Some(index) = named.filter(|index| group.rows.contains(index)) {
            let (number, row) = (index + 1, &rows[index]);
            let text = match chosen {
                Some(_) => format!("{number} {}", sentence(row)),
                None => format!("{number} {}: {}", row.name, left(row)),
            };
            labels.write(painter, palette, group.at, SIZE + 9.0, &text);
        }
        let others = group.rows.iter().filter(|&&index| named != Some(index));
        let others: Vec<String> = others.map(|index| (index + 1).to_string()).collect();
        if !others.is_empty() {
            labels.write(painter, palette, group.at, SIZE + 4.0, &others.join(", "));
        }
    }
}

/// What a row says, in words.
pub fn sentence(row: &MarginRow) -> String {
    let [amount, _] = left_and_asked(row.margin, row.buffer, row.unit.symbol());
    let verdict = row.verdict.name();
    let what = match row.verdict {
        Verdict::Counted => format!("{amount} over it"),
        Verdict::Crossed => format!("over the limit by {}", amount.trim_start_matches('\u{2212}')),
        Verdict::Clear | Verdict::InsideBuffer => format!("{amount} left"),
    };
    format!("{}: {what}, {verdict}, at {}", row.name, seconds(row.at_s))
}

/// The place on the ground that a margin was measured to, where there is one.
fn measured_to(flown: &Flown, row: &MarginRow) -> Option<glam::DVec2> {
    let field = &flown.scenario.field;
    match row.limit {
        Limit::Boundary => Some(field.boundary.nearest(row.at).at),
        Limit::Area(index) => Some(field.areas.get(index)?.region.nearest(row.at).at),
        Limit::Obstacle(index) => Some(field.obstacles.get(index)?.region.nearest(row.at).at),
        Limit::FlightLine => field.flight_line.map(|line| row.at - line.inward * line.signed_distance(row.at)),
        Limit::PilotPosition | Limit::SightDistance | Limit::SightAngle => Some(field.pilot),
        _ => None,
    }
}
