//! The bands as bars on a ruler: one row for the mean wind, one for the gust, one for the cases, each with its hatch.

use bevy_egui::egui::{Align2, Painter, Rect, Stroke, pos2, vec2};

use super::paint::{Axes, Hatch, filled, letters, plate, pointer, width};
use super::say::circle;
use crate::app::panels::View;
use crate::app::theme::Pen;
use crate::app::words::{number, turn_word};
use crate::app::{Measure, map};
use crate::recovery::Turn;
use crate::study::radius::{Band, RadiusStudy};

/// Height of a row and of its bar, points.
const ROW: f32 = 17.0;
const BAR: f32 = 14.0;

/// One row of the ruler.
pub(super) struct Row<'a> {
    name: &'static str,
    hatch: Hatch,
    turn: Turn,
    bands: Vec<&'a Band>,
    /// What is said where there is no band.
    none: String,
}

/// The rows: of the plan's way round, and where there is room of the other.
pub(super) fn rows<'a>(view: &View<'_>, study: Option<&'a RadiusStudy>, both: bool) -> Vec<Row<'a>> {
    let planned = view.session.draft.file().recovery.turn;
    let other = if planned == Turn::Clockwise { Turn::Anticlockwise } else { Turn::Clockwise };
    let turns = [planned, other].into_iter().take(if both { 2 } else { 1 });
    turns.flat_map(|turn| kinds(study, turn)).collect()
}

fn kinds(study: Option<&RadiusStudy>, turn: Turn) -> [Row<'_>; 3] {
    let bands = study.map(|study| &study.bands);
    let none = || if study.is_some() { "none".to_owned() } else { String::new() };
    [
        Row::new("mean", Hatch::Full, turn, bands.map(|bands| &bands.mean[..]), none()),
        Row::new("gust", Hatch::Rising, turn, bands.map(|bands| &bands.gust[..]), none()),
        Row::new(
            "cases",
            Hatch::Dotted,
            turn,
            bands.map(|bands| &bands.cases[..]),
            study.map_or_else(String::new, no_cases),
        ),
    ]
}

impl<'a> Row<'a> {
    fn new(name: &'static str, hatch: Hatch, turn: Turn, bands: Option<&'a [Band]>, none: String) -> Self {
        let bands = bands.unwrap_or_default().iter().filter(|band| band.turn == turn).collect();
        Self { name, hatch, turn, bands, none }
    }
}

/// Why there is no band of cases: none holds, or some are undecided, or nothing was judged.
fn no_cases(study: &RadiusStudy) -> String {
    let cases = study.ask.cases;
    match study.bands.undecided.is_empty() {
        _ if !study.ask.judges() => format!("a first look, N = {cases}: no verdict yet"),
        true => format!("none, N = {cases}"),
        false => format!("undecided: {}", crate::report::study::bands(&study.bands.undecided, None)),
    }
}

/// Room that rows take, points: a line more for every second way round.
pub(super) fn height(rows: &[Row<'_>]) -> f32 {
    let heads = rows.chunk_by(|a, b| a.turn == b.turn).count().saturating_sub(1);
    #[allow(clippy::cast_precision_loss, reason = "a handful of rows")]
    let lines = (rows.len() + heads) as f32;
    lines * ROW
}

/// Draws the rows, and the recommended radius as a pointer under them.
pub(super) fn draw(painter: &Painter, view: &View<'_>, study: &RadiusStudy, axes: &Axes, room: Rect, rows: &[Row<'_>]) {
    let palette = view.palette;
    let mut top = room.top();
    for (index, row) in rows.iter().enumerate() {
        if index > 0 && rows[index - 1].turn != row.turn {
            let words = format!("the other way round, {}", turn_word(row.turn));
            letters(painter, palette, pos2(room.left(), top), Align2::LEFT_TOP, &words);
            top += ROW;
        }
        let middle = top + ROW / 2.0;
        painter.hline(room.x_range(), middle, Stroke::new(1.0, palette.rule));
        letters(painter, palette, pos2(room.left() - 5.0, middle), Align2::RIGHT_CENTER, row.name);
        for band in &row.bands {
            bar(painter, view, axes, band, row.hatch, (middle, room));
        }
        if row.bands.is_empty() && !row.none.is_empty() {
            plate(painter, palette, pos2(room.left() + 8.0, middle), Align2::LEFT_CENTER, room, &row.none);
        }
        top += ROW;
    }
    choice(painter, view, study, axes, room);
}

fn bar(painter: &Painter, view: &View<'_>, axes: &Axes, band: &Band, hatch: Hatch, (middle, room): (f32, Rect)) {
    let palette = view.palette;
    let shown = |metres: f64| view.units().first(Measure::Distance, metres);
    let (low, high) = (shown(band.low.radius_m), shown(band.high.radius_m));
    let rect = Rect::from_x_y_ranges(axes.x(low)..=axes.x(high), middle - BAR / 2.0..=middle + BAR / 2.0);
    filled(painter, palette, rect, hatch, palette.met());
    let (low, high) = (number(low), number(high));
    plate(painter, palette, pos2(rect.left() - 5.0, middle), Align2::RIGHT_CENTER, room, &low);
    plate(painter, palette, pos2(rect.right() + 5.0, middle), Align2::LEFT_CENTER, room, &high);
}

/// The recommended radius, or the one that fails by least, as a pointer from below.
fn choice(painter: &Painter, view: &View<'_>, study: &RadiusStudy, axes: &Axes, room: Rect) {
    let (choice, name) = match (&study.choice, &study.least_bad) {
        (Some(choice), _) => (choice, "recommended"),
        (None, Some(choice)) => (choice, "nearest"),
        (None, None) => return,
    };
    let palette = view.palette;
    let x = axes.x(view.units().first(Measure::Distance, choice.radius_m));
    let pen = Pen { colour: palette.ink, width: 1.5, dash: &[6.0, 3.0, 1.5, 3.0] };
    map::pen_line(painter, &[pos2(x, room.top()), pos2(x, axes.rect.bottom())], pen);
    pointer(painter, pos2(x, room.bottom() + 2.0), false, palette.met(), palette.ink);
    let words = format!("{name}: {}", circle(view, choice.radius_m, choice.turn));
    let fits = x + 12.0 + width(painter, &words) < room.right();
    let (at, align) = if fits { (12.0, Align2::LEFT_TOP) } else { (-12.0, Align2::RIGHT_TOP) };
    plate(painter, palette, pos2(x, room.bottom() + 1.0) + vec2(at, 0.0), align, room, &words);
}
