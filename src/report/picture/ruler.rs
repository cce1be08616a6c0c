//! The usable radii as bars on a ruler: the plan as entered, the same in a steady gust wind, and what trials say, each
//! with its hatch. Only what trials say is green, and what they leave undecided has a hatch of its own.

use glam::DVec2;

use super::kind::{GUST, MEAN};
use super::radius_chart::RadiusChart;
use crate::draw::{Axes, Fill, Ink, Lettering, Pattern, Pen, Sheet, width_mm};
use crate::recovery::Turn;
use crate::study::radius::{Choice, RadiusRange, RadiusStudy};
use crate::study::verdict::Answer;
use crate::words;

/// Height of a row, of a bar in it, and of the words under all rows, mm.
const ROW: f64 = 4.4;
const BAR: f64 = 3.6;
const CHOICE: f64 = 5.0;
const LETTERS: f64 = 3.4;
/// From the middle of a row to the foot of its words, mm.
const FOOT: f64 = 1.2;
/// How far beyond the axes numbers may stand, mm: on the right, and on the left.
const BEYOND: f64 = 4.0;
const LEFT: f64 = 9.0;

/// How the usable radii of a row are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bar {
    /// The plan as entered, in the mean wind.
    Mean,
    /// The same in a steady gust wind.
    Gust,
    /// Trials say yes: the only green.
    Holds,
    /// Trials don't tell.
    Undecided,
}

impl Bar {
    fn fill(self) -> Fill {
        match self {
            Self::Mean => Fill::hatched(Pattern::Falling, MEAN),
            Self::Gust => Fill::hatched(Pattern::Rising, GUST),
            Self::Holds => Fill::Plain(Ink::GREEN),
            Self::Undecided => Fill::hatched(Pattern::Dotted, Ink::SOFT),
        }
    }

    fn ranges(self, study: &RadiusStudy, turn: Turn) -> impl Iterator<Item = (Self, &RadiusRange)> {
        let usable = &study.usable;
        let ranges = match self {
            Self::Mean => &usable.mean,
            Self::Gust => &usable.gust,
            Self::Holds => &usable.trials,
            Self::Undecided => &usable.undecided,
        };
        ranges.iter().filter(move |range| range.turn == turn).map(move |range| (self, range))
    }
}

/// The rows of a way round.
const ROWS: [(&str, &[Bar]); 3] =
    [("mean", &[Bar::Mean]), ("gust", &[Bar::Gust]), ("trials", &[Bar::Holds, Bar::Undecided])];

/// Paper that the ruler takes, with the words under it, mm.
#[allow(clippy::cast_precision_loss, reason = "a handful of rows")]
pub(super) fn height(chart: &RadiusChart<'_>) -> f64 {
    let turns = chart.ruled.len();
    let heads = if turns > 1 { turns } else { 0 };
    (turns * ROWS.len() + heads) as f64 * ROW + CHOICE
}

/// Draws it above the axes, whose radii it shares.
pub(super) fn draw(sheet: &mut Sheet, chart: &RadiusChart<'_>, axes: &Axes, top: f64) {
    let (left, right) = (axes.frame.low.x, axes.frame.high.x);
    let words = Lettering::new(LETTERS);
    let mut y = top;
    for &turn in chart.ruled {
        if chart.ruled.len() > 1 {
            sheet.words(DVec2::new(left, y + ROW / 2.0 + FOOT), words::turn(turn), words);
            y += ROW;
        }
        for (name, bars) in ROWS {
            let middle = y + ROW / 2.0;
            sheet.line([DVec2::new(left, middle), DVec2::new(right, middle)], Pen::plain(Ink::RULE, 0.25));
            sheet.words(DVec2::new(left - FOOT, middle + FOOT), name, words.end());
            y += ROW;
            let Some(study) = chart.study else { continue };
            let found: Vec<_> = bars.iter().flat_map(|bar| bar.ranges(study, turn)).collect();
            if found.is_empty() {
                let none = if bars.contains(&Bar::Holds) { no_trials(study) } else { "none".into() };
                sheet.words(DVec2::new(left + 2.0, middle + FOOT), none, words.bold().rimmed());
            }
            bars_of_row(sheet, chart, axes, &found, middle);
        }
    }
    if let Some(study) = chart.study {
        choice(sheet, chart, study, axes, [top, y]);
    }
}

/// Why no radius is usable by trials: none holds, or nothing was judged.
fn no_trials(study: &RadiusStudy) -> String {
    let trials = study.ask.trials;
    if study.ask.judges() {
        format!("none holds, N up to {trials}")
    } else if trials > 0 {
        format!("first look, N = {trials}: no verdict")
    } else {
        "no trial flown".into()
    }
}

/// Bars with a number at each end, as far as it lies neither on another bar nor on a number: what holds comes first.
fn bars_of_row(sheet: &mut Sheet, chart: &RadiusChart<'_>, axes: &Axes, found: &[(Bar, &RadiusRange)], middle: f64) {
    let words = Lettering::new(LETTERS).bold().rimmed();
    let x = |radius: f64| axes.at(chart.unit.of(radius), axes.y.from).x;
    // A single radius is seen too.
    let ends = |range: &RadiusRange| [x(range.low.radius_m) - 0.3, x(range.high.radius_m) + 0.3];
    let half = DVec2::new(0.0, BAR / 2.0);
    for (bar, range) in found {
        let [low, high] = ends(range).map(|x| DVec2::new(x, middle));
        sheet.rectangle(low - half, high + half, Some(Pen::plain(Ink::BLACK, 0.3)), bar.fill());
    }
    let mut taken: Vec<[f64; 2]> = found.iter().map(|(_, range)| ends(range)).collect();
    for (index, (bar, range)) in found.iter().enumerate() {
        let doubt = if *bar == Bar::Undecided { "?" } else { "" };
        let [low, high] = [&range.low, &range.high].map(|end| chart.unit.digits(end.radius_m) + doubt);
        let [from, to] = ends(range);
        let one = low == high;
        for (told, at) in [(low, None), (high, Some(to + 0.7))].into_iter().skip(usize::from(one)) {
            let wide = width_mm(&told, LETTERS, true);
            // What would stand off the ruler is moved into it, over its own bar.
            let left = at.unwrap_or(from - 0.7 - wide).max(axes.frame.low.x).min(axes.frame.high.x + BEYOND - wide);
            let across = |(other, [low, high]): (usize, &[f64; 2])| {
                other != index && left < *high + 0.5 && left + wide > *low - 0.5
            };
            if !taken.iter().enumerate().any(across) {
                taken.push([left, left + wide]);
                sheet.words(DVec2::new(left, middle + FOOT), told, words);
            }
        }
    }
}

/// The recommended radius, or the one that fails by least, as a pointer from below and a line through the curves.
fn choice(sheet: &mut Sheet, chart: &RadiusChart<'_>, study: &RadiusStudy, axes: &Axes, [top, foot]: [f64; 2]) {
    let yes = |choice: &Choice| choice.verdict.is_some_and(|verdict| verdict.answer == Answer::Yes);
    let (choice, name) = match (&study.choice, &study.least_bad) {
        (Some(choice), _) if study.ask.first_look && !yes(choice) => (choice, "first look"),
        (Some(choice), _) if choice.verdict.is_none() => (choice, "without errors"),
        (Some(choice), _) => (choice, words::standing(study.standing(choice.radius_m, choice.turn))),
        (None, Some(choice)) => (choice, "nearest"),
        (None, None) => return,
    };
    let x = axes.at(chart.unit.of(choice.radius_m), axes.y.from).x;
    let pen = Pen::plain(Ink::BLACK, 0.35).dashed(&[1.5, 0.7, 0.4, 0.7]);
    sheet.line([DVec2::new(x, top), DVec2::new(x, axes.frame.high.y)], pen);
    let tip = DVec2::new(x, foot + 0.5);
    let fill = Fill::Plain(if yes(choice) { Ink::GREEN } else { Ink::PAPER });
    let corners = [tip, tip + DVec2::new(1.5, 2.5), tip + DVec2::new(-1.5, 2.5)];
    sheet.ring(corners, Some(Pen::plain(Ink::BLACK, 0.35)), fill);
    let short = format!("{name}: {} {}", chart.unit.digits(choice.radius_m), chart.unit.name);
    let long = format!("{short} {}", words::turn(choice.turn));
    let words = Lettering::new(LETTERS).bold().rimmed();
    let [left, right] = [axes.frame.low.x - LEFT, axes.frame.high.x + BEYOND];
    // Beside the pointer where there is room, else without the way round.
    let beside = |told: String| {
        let wide = width_mm(&told, LETTERS, true);
        let free = [x + 3.0, x - 3.0 - wide].into_iter().find(|from| *from >= left && from + wide <= right);
        free.map(|from| (from, told))
    };
    let (from, told) = beside(long).or_else(|| beside(short.clone())).unwrap_or((left, short));
    sheet.words(DVec2::new(from, tip.y + 2.6), told, words);
}
