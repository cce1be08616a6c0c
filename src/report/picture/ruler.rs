//! The usable radii as bars on a ruler under the curve, with the reason at each end in words below.

use glam::DVec2;

use crate::draw::{Axes, Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Sheet, lines, width_mm};
use crate::recovery::Turn;
use crate::study::radius::{RadiusRange, RadiusStudy};
use crate::words::{self, end, number, way};

const ROW: f64 = 5.2;
const LETTERS: f64 = 3.4;
/// Height of a bar.
const BAR: f64 = 3.6;

struct Row<'a> {
    name: String,
    fill: Fill,
    usable: Vec<&'a RadiusRange>,
}

/// A row for each way round and each wind; one for what is undecided only where something is.
fn rows(study: &RadiusStudy) -> Vec<Row<'_>> {
    let hatch = |pattern, ink: Ink| Fill::Hatch(Hatch { pattern, ink, ground: Some(ink.thinned(0.25)), step: 150 });
    let kinds = [
        (&study.usable.mean, "mean wind".to_owned(), Fill::Plain(Ink::GREEN.thinned(0.75))),
        (&study.usable.gust, "gust wind".to_owned(), hatch(Pattern::Rising, Ink::GREEN)),
        (&study.usable.trials, "by the trials".to_owned(), hatch(Pattern::Dotted, Ink::GREEN)),
        (&study.usable.undecided, "undecided".to_owned(), Fill::None),
    ];
    let turns = study.ask.turns.iter();
    turns
        .flat_map(|turn| {
            kinds.iter().map(|(usable, name, fill)| Row {
                name: format!("{}, {name}", words::turn(*turn)),
                fill: *fill,
                usable: usable.iter().filter(|range| range.turn == *turn).collect(),
            })
        })
        .filter(|row| row.fill != Fill::None || !row.usable.is_empty())
        .collect()
}

/// The ends in words, one line for each range, and the closed form; reasons that repeat are said once.
fn reasons(study: &RadiusStudy) -> Vec<String> {
    let mut said: Vec<(Turn, String, Vec<&str>)> = Vec::new();
    let usable = &study.usable;
    for (wind, list) in [("mean wind", &usable.mean), ("gust wind", &usable.gust), ("trials", &usable.trials)] {
        for range in list {
            let below = format!("below {} m: {}", number(range.low.radius_m), end(&range.low));
            let above = format!("above {} m: {}", number(range.high.radius_m), end(&range.high));
            let both = format!("{below}; {above}.");
            match said.iter_mut().find(|(turn, words, _)| *turn == range.turn && *words == both) {
                Some((_, _, winds)) => winds.push(wind),
                None => said.push((range.turn, both, vec![wind])),
            }
        }
    }
    let mut lines: Vec<String> = said
        .into_iter()
        .map(|(turn, both, winds)| format!("{}, {}: {both}", words::turn(turn), winds.join(" and ")))
        .collect();
    if usable.mean.is_empty() {
        let remedy = study.remedies.iter().find(|remedy| !remedy.usable.is_empty());
        lines.push("No radius meets every margin asked for in the mean wind.".into());
        lines
            .extend(remedy.map(|remedy| {
                format!("What would help: {} ({}).", remedy.change, words::usable(&remedy.usable, None))
            }));
    }
    lines.push(closed_form(study).join(" "));
    lines
}

/// What the closed form says of the maximum bank and of the plan's radius.
pub(super) fn closed_form(study: &RadiusStudy) -> [String; 2] {
    let [still, mean, gust] = study.closed.smallest_m;
    let [slow, fast] = study.closed.speed_window_mps;
    let smallest = format!(
        "Smallest radius the maximum bank holds, in closed form: {still:.0} m in still air, {mean:.0} m in the mean \
         wind, {gust:.0} m in the gust wind."
    );
    let window = if slow <= fast {
        format!("The plan's radius is held between {slow:.1} and {fast:.1} m/s of airspeed.")
    } else {
        format!("No airspeed holds the plan's radius: it takes {slow:.1} m/s at least and {fast:.1} m/s at most.")
    };
    [smallest, window]
}

fn set(study: &RadiusStudy, width: f64) -> Vec<String> {
    reasons(study).iter().flat_map(|line| lines(line, LETTERS, false, width)).collect()
}

/// Paper that the ruler takes, mm.
#[allow(clippy::cast_precision_loss, reason = "a handful of rows")]
pub(super) fn height(study: &RadiusStudy, width: f64, reasons: bool) -> f64 {
    let lines = if reasons { set(study, width).len() } else { 0 };
    rows(study).len() as f64 * ROW + lines as f64 * LETTERS * Sheet::LEADING + 8.0
}

/// Draws it under the axes, whose radii it shares; returns the foot of the first line of words below it.
pub(super) fn draw(sheet: &mut Sheet, axes: &Axes, study: &RadiusStudy, top: f64) -> f64 {
    let (left, right) = (axes.frame.low.x, axes.frame.high.x);
    let mut y = top;
    for row in rows(study) {
        let middle = y + ROW / 2.0;
        sheet.line([DVec2::new(left, middle), DVec2::new(right, middle)], Pen::plain(Ink::RULE, 0.25));
        for range in &row.usable {
            bar(sheet, axes, range, row.fill, middle);
        }
        if row.usable.is_empty() {
            sheet.words(DVec2::new(left + 1.0, middle + 1.2), "none", Lettering::new(LETTERS).bold().rimmed());
        }
        sheet.words(DVec2::new(right + 5.0, middle + 1.2), row.name, Lettering::new(LETTERS));
        y += ROW;
    }
    choice(sheet, axes, study, top, y);
    y + 7.0
}

/// Tells the reasons, the foot of the first line at the top of a room.
pub(super) fn tell(sheet: &mut Sheet, study: &RadiusStudy, room: Frame) {
    let mut foot = room.low;
    for line in set(study, room.size().x) {
        sheet.words(foot, line, Lettering::new(LETTERS));
        foot.y += LETTERS * Sheet::LEADING;
    }
}

fn bar(sheet: &mut Sheet, axes: &Axes, range: &RadiusRange, fill: Fill, middle: f64) {
    let x = |radius: f64| axes.at(radius, axes.y.from).x;
    let (from, to) = (x(range.low.radius_m), x(range.high.radius_m));
    let half = DVec2::new(0.0, BAR / 2.0);
    let pen = Some(Pen::plain(Ink::BLACK, 0.35));
    sheet.rectangle(DVec2::new(from, middle) - half, DVec2::new(to, middle) + half, pen, fill);
    let words = Lettering::new(LETTERS).bold().rimmed();
    sheet.words(DVec2::new(from - 1.0, middle + 1.2), number(range.low.radius_m), words.end());
    sheet.words(DVec2::new(to + 1.0, middle + 1.2), number(range.high.radius_m), words);
}

/// The recommended radius, or the one that fails by least, as a pointer under the bars.
fn choice(sheet: &mut Sheet, axes: &Axes, study: &RadiusStudy, top: f64, foot: f64) {
    let (choice, name) = match (&study.choice, &study.least_bad) {
        (Some(choice), _) => (choice, "recommended"),
        (None, Some(choice)) => (choice, "nearest"),
        (None, None) => return,
    };
    let x = axes.at(choice.radius_m, axes.y.from).x;
    sheet.line([DVec2::new(x, top), DVec2::new(x, foot + 0.6)], Pen::plain(Ink::BLACK, 0.6));
    let tip = DVec2::new(x, foot);
    let pen = Some(Pen::plain(Ink::BLACK, 0.2));
    sheet.ring([tip, tip + DVec2::new(1.4, 2.4), tip + DVec2::new(-1.4, 2.4)], pen, Fill::Plain(Ink::BLACK));
    let words = format!("{name}: {}", way(choice.radius_m, choice.turn));
    let fits = x + 2.5 + width_mm(&words, LETTERS, true) < axes.frame.high.x;
    let (away, lettering) = if fits { (2.5, Lettering::new(LETTERS)) } else { (-2.5, Lettering::new(LETTERS).end()) };
    sheet.words(tip + DVec2::new(away, 2.6), words, lettering.bold());
}
