//! The usable radii as bars on a ruler: the plan as entered, the same in a steady gust wind, and what trials say, each
//! with its hatch. Only what trials say is green, and what they leave undecided has a hatch of its own.

use bevy_egui::egui::{Align2, Color32, Painter, Rect, Stroke, pos2, vec2};

use crate::app::look::chart::{Axes, Hatch, filled, letters, plate, pointer, width};
use crate::app::look::pens::pen_line;
use crate::app::look::theme::{Palette, Pen};
use crate::app::look::words::number;
use crate::app::session::View;
use crate::recovery::Turn;
use crate::study::radius::{Choice, RadiusRange, RadiusStudy};
use crate::study::verdict::Answer;
use crate::words::Measure;

/// Height of a row and of its bar, points.
const ROW: f32 = 17.0;
const BAR: f32 = 14.0;

/// How the usable radii of a row are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// The plan as entered, in the mean wind.
    Mean,
    /// The same in a steady gust wind.
    Gust,
    /// Trials say yes: the only green.
    Holds,
    /// Trials don't tell.
    Undecided,
}

impl Kind {
    fn look(self, palette: &Palette) -> (Hatch, Color32) {
        match self {
            Self::Mean => (Hatch::Falling, palette.mean().colour),
            Self::Gust => (Hatch::Rising, palette.gust().colour),
            Self::Holds => (Hatch::Full, palette.met()),
            Self::Undecided => (Hatch::Dotted, palette.soft),
        }
    }
}

/// One row of the ruler.
pub(super) struct Row<'a> {
    name: &'static str,
    turn: Turn,
    usable: Vec<(Kind, &'a RadiusRange)>,
    /// What is said where no radius is usable.
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
    let usable = |kind: Kind| {
        let usable = study.map(|study| &study.usable);
        let list = usable.map(|usable| match kind {
            Kind::Mean => &usable.mean,
            Kind::Gust => &usable.gust,
            Kind::Holds => &usable.trials,
            Kind::Undecided => &usable.undecided,
        });
        list.into_iter().flatten().filter(move |range| range.turn == turn).map(move |range| (kind, range))
    };
    let none = || if study.is_some() { "none".to_owned() } else { String::new() };
    let trials = study.map_or_else(String::new, no_trials);
    [
        Row { name: "mean", turn, usable: usable(Kind::Mean).collect(), none: none() },
        Row { name: "gust", turn, usable: usable(Kind::Gust).collect(), none: none() },
        Row {
            name: "trials",
            turn,
            usable: usable(Kind::Holds).chain(usable(Kind::Undecided)).collect(),
            none: trials,
        },
    ]
}

/// Why no radius is usable by trials: none holds, or nothing was judged.
fn no_trials(study: &RadiusStudy) -> String {
    let trials = study.ask.trials;
    if study.ask.judges() {
        format!("none holds, N up to {trials}")
    } else {
        format!("first look, N = {trials}: no verdict")
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
            let words = format!("the other way round, {}", crate::words::turn(row.turn));
            letters(painter, palette, pos2(room.left(), top), Align2::LEFT_TOP, &words);
            top += ROW;
        }
        let middle = top + ROW / 2.0;
        painter.hline(room.x_range(), middle, Stroke::new(1.0, palette.rule));
        letters(painter, palette, pos2(room.left() - 5.0, middle), Align2::RIGHT_CENTER, row.name);
        for (kind, range) in &row.usable {
            bar(painter, view, axes, range, *kind, (middle, room));
        }
        if row.usable.is_empty() && !row.none.is_empty() {
            plate(painter, palette, pos2(room.left() + 8.0, middle), Align2::LEFT_CENTER, room, &row.none);
        }
        top += ROW;
    }
    choice(painter, view, study, axes, room);
}

fn bar(painter: &Painter, view: &View<'_>, axes: &Axes, range: &RadiusRange, kind: Kind, (middle, room): (f32, Rect)) {
    let palette = view.palette;
    let shown = |metres: f64| view.units().first(Measure::Distance, metres);
    let (low, high) = (shown(range.low.radius_m), shown(range.high.radius_m));
    let rect = Rect::from_x_y_ranges(axes.x(low)..=axes.x(high), middle - BAR / 2.0..=middle + BAR / 2.0);
    let (hatch, colour) = kind.look(palette);
    filled(painter, palette, rect, hatch, colour);
    let doubt = if kind == Kind::Undecided { "?" } else { "" };
    let (low, high) = (format!("{}{doubt}", number(low)), format!("{}{doubt}", number(high)));
    plate(painter, palette, pos2(rect.left() - 5.0, middle), Align2::RIGHT_CENTER, room, &low);
    plate(painter, palette, pos2(rect.right() + 5.0, middle), Align2::LEFT_CENTER, room, &high);
}

/// The recommended radius, or the one that fails by least, as a pointer from below.
fn choice(painter: &Painter, view: &View<'_>, study: &RadiusStudy, axes: &Axes, room: Rect) {
    let yes = |choice: &Choice| choice.verdict.is_some_and(|verdict| verdict.answer == Answer::Yes);
    let (choice, name) = match (&study.choice, &study.least_bad) {
        (Some(choice), _) if yes(choice) => (choice, "recommended"),
        (Some(choice), _) => (choice, "first look"),
        (None, Some(choice)) => (choice, "nearest"),
        (None, None) => return,
    };
    let palette = view.palette;
    let x = axes.x(view.units().first(Measure::Distance, choice.radius_m));
    let pen = Pen { colour: palette.ink, width: 1.5, dash: &[6.0, 3.0, 1.5, 3.0] };
    pen_line(painter, &[pos2(x, room.top()), pos2(x, axes.rect.bottom())], pen);
    pointer(
        painter,
        pos2(x, room.bottom() + 2.0),
        false,
        if yes(choice) { palette.met() } else { palette.paper },
        palette.ink,
    );
    let words = format!("{name}: {}", view.circle(choice.radius_m, choice.turn));
    let fits = x + 12.0 + width(painter, &words) < room.right();
    let (at, align) = if fits { (12.0, Align2::LEFT_TOP) } else { (-12.0, Align2::RIGHT_TOP) };
    plate(painter, palette, pos2(x, room.bottom() + 1.0) + vec2(at, 0.0), align, room, &words);
}
