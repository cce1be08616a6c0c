//! Furthest distance from the centre against commanded radius: the U, with the room the field leaves and the usable
//! radii on a ruler below.

use glam::DVec2;

use super::page::page;
use super::{ruler, whisker};
use crate::brief::StudyReport;
use crate::draw::{Axes, Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Scale, Sheet, shortened, width_mm};
use crate::margins::Score;
use crate::recovery::Turn;
use crate::study::radius::{RadiusPoint, RadiusStudy, holds};
use crate::words;

const MEAN: Ink = Ink::BLUE;
const GUST: Ink = Ink::VERMILION;

/// Room to the right of the axes, for what lines and marks mean.
const KEY: f64 = 64.0;
/// From line to line of the key.
const LINE: f64 = 4.8;
/// From a sign of the key to its words.
const TEXT: f64 = 14.5;

pub(super) fn draw(report: &StudyReport, study: &RadiusStudy) -> Sheet {
    let (mut sheet, room) = page(report, "which circle holds here");
    curves(&mut sheet, room, study, true);
    sheet
}

/// Draws curves, key and ruler in a room, with the reasons at the ends of the usable radii in words below or without them.
pub(in crate::report) fn curves(sheet: &mut Sheet, room: Frame, study: &RadiusStudy, reasons: bool) {
    let ruled = ruler::height(study, room.size().x, reasons);
    let frame = Frame {
        low: room.low + DVec2::new(15.0, 2.0),
        high: DVec2::new(room.high.x - KEY, room.high.y - ruled - 13.0),
    };
    let radii = study.points.iter().map(|point| point.radius_m);
    let reached = study.points.iter().flat_map(|point| [&point.mean, &point.gust].map(|score| score.furthest_m));
    let heights =
        reached.flatten().chain(whisker::reached(study)).chain(radii.clone()).chain([study.free_m.max(0.0), 0.0]);
    let axes =
        Axes { frame, x: Scale::over(radii.chain([study.closed.smallest_m[1]]), 12), y: Scale::over(heights, 8) };
    axes.draw(sheet, "commanded radius, m", "furthest distance from the centre, m");

    // Marks on the edge of the frame stay whole.
    let rim = DVec2::splat(2.0);
    sheet.clipped(frame.low - rim, frame.high + rim, |sheet| {
        marks(sheet, &axes, study);
        whisker::draw(sheet, &axes, study);
        // The two ways round mostly lie on each other: the smaller round marks come last.
        for kind in KINDS.into_iter().filter(|kind| study.ask.turns.contains(&kind.turn)) {
            curve(sheet, &axes, study, kind);
        }
    });
    names(sheet, &axes, study);
    key(sheet, DVec2::new(frame.high.x + 5.0, frame.low.y + 3.0), study, !reasons);
    let foot = ruler::draw(sheet, &axes, study, frame.high.y + 15.0);
    if reasons {
        ruler::tell(sheet, study, Frame { low: DVec2::new(room.low.x, foot), high: room.high });
    }
}

/// The lines the curves are compared with.
fn marks(sheet: &mut Sheet, axes: &Axes, study: &RadiusStudy) {
    let (x, y) = (axes.x, axes.y);
    let far = x.to.min(y.to);
    sheet.line([axes.at(x.from, x.from), axes.at(far, far)], Pen::plain(Ink::SOFT, 0.3).dashed(&[1.0, 1.0]));
    if study.free_m > 0.0 {
        let [low, high] = [axes.at(x.from, y.to), axes.at(x.to, study.free_m)];
        let beyond = Hatch { pattern: Pattern::Rising, ink: Ink::RULE, ground: None, step: 260 };
        sheet.rectangle(low, high, None, Fill::Hatch(beyond));
        sheet.line([axes.at(x.from, study.free_m), axes.at(x.to, study.free_m)], Pen::plain(Ink::BLACK, 0.9));
    }
    if study.closed.largest_m > 0.0 {
        let level = [axes.at(x.from, study.closed.largest_m), axes.at(x.to, study.closed.largest_m)];
        sheet.line(level, Pen::plain(Ink::BLACK, 0.5).dashed(&[3.0, 1.5]));
    }
    for (radius, ink) in study.closed.smallest_m.into_iter().skip(1).zip([MEAN, GUST]) {
        sheet.line([axes.at(radius, y.from), axes.at(radius, y.to)], Pen::plain(ink, 0.5).dashed(&[0.8, 1.2]));
    }
}

/// One wind and one way round: a line through the radii flown, broken where the jet never flew a whole lap.
fn curve(sheet: &mut Sheet, axes: &Axes, study: &RadiusStudy, kind: Kind) {
    let points: Vec<&RadiusPoint> = study.points.iter().filter(|point| point.turn == kind.turn).collect();
    let settled = |point: &&RadiusPoint| kind.score(point).furthest_m.is_some();
    for piece in points.chunk_by(|a, b| settled(a) && settled(b)).filter(|piece| settled(&piece[0])) {
        let course = piece.iter().filter_map(|point| Some(axes.at(point.radius_m, kind.score(point).furthest_m?)));
        sheet.line(course, kind.pen());
    }
    for point in points {
        let score = kind.score(point);
        match score.furthest_m {
            Some(furthest) => {
                let usable = if kind.gust { &study.usable.gust } else { &study.usable.mean };
                let full = holds(usable, point.radius_m, kind.turn);
                kind.mark(sheet, axes.at(point.radius_m, furthest), full);
            }
            None => cross(sheet, axes.at(point.radius_m, axes.y.to) + DVec2::new(0.0, 2.4), kind.ink()),
        }
    }
}

/// One wind and one way round, told apart by dashes, width and the shape of the marks, and by colour besides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Kind {
    turn: Turn,
    gust: bool,
}

/// Every kind, the lowest first.
pub(super) const KINDS: [Kind; 4] = [
    Kind { turn: Turn::Clockwise, gust: true },
    Kind { turn: Turn::Clockwise, gust: false },
    Kind { turn: Turn::Anticlockwise, gust: true },
    Kind { turn: Turn::Anticlockwise, gust: false },
];

impl Kind {
    fn score(self, point: &RadiusPoint) -> &Score {
        if self.gust { &point.gust } else { &point.mean }
    }

    fn ink(self) -> Ink {
        if self.gust { GUST } else { MEAN }
    }

    fn pen(self) -> Pen {
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
    fn mark(self, sheet: &mut Sheet, at: DVec2, full: bool) {
        let rim = if full { Pen::plain(Ink::PAPER, 0.25) } else { Pen::plain(self.ink(), 0.4) };
        let fill = Fill::Plain(if full { self.ink() } else { Ink::PAPER });
        match self.shape() {
            [] => sheet.circle(at, 1.0, Some(rim), fill),
            corners => sheet.ring(corners.iter().map(|(x, y)| at + DVec2::new(*x, *y)), Some(rim), fill),
        }
    }
}

fn cross(sheet: &mut Sheet, at: DVec2, ink: Ink) {
    let (a, b) = (DVec2::new(1.2, 1.2), DVec2::new(1.2, -1.2));
    sheet.line([at - a, at + a], Pen::plain(ink, 0.6));
    sheet.line([at - b, at + b], Pen::plain(ink, 0.6));
}

/// Names on the lines themselves: on the right, where the curves are above them, and at the foot.
fn names(sheet: &mut Sheet, axes: &Axes, study: &RadiusStudy) {
    let words = Lettering::new(3.4).rimmed();
    if study.free_m > 0.0 {
        let to = if study.free_to.is_empty() { "the nearest limit" } else { &study.free_to };
        let room = format!("{:.0} m from the centre: {to}", study.free_m);
        level(sheet, axes, study, study.free_m, -1.4, &room, words.bold());
    }
    if study.closed.largest_m > 0.0 {
        let asked = format!("{:.0} m: with the buffer kept", study.closed.largest_m);
        // Two lines close together have their names on either side of them.
        level(sheet, axes, study, study.closed.largest_m, 4.0, &asked, words);
    }
    let bottom = axes.frame.high.y - 1.5;
    // Names of the level lines, from head to foot.
    let level = |value: f64, away: f64| {
        let foot = axes.at(axes.x.from, value).y + away;
        [foot - 3.0, foot + 1.2]
    };
    let levels = [(study.free_m, -1.4), (study.closed.largest_m, 4.0)].map(|(value, away)| level(value, away));
    for (radius, (name, ink)) in study.closed.smallest_m.into_iter().skip(1).zip([("mean", MEAN), ("gust", GUST)]) {
        if (0.03..0.99).contains(&axes.x.share(radius)) {
            let told = format!("{name}: {radius:.0} m");
            let long = width_mm(&told, words.size_mm, false);
            let clear = |foot: &f64| levels.iter().all(|[head, low]| *foot < *head || foot - long > *low);
            let feet = std::iter::once(bottom).chain(levels.iter().map(|[head, _]| head - 0.5));
            let foot = feet.filter(|foot| foot - long > axes.frame.low.y).find(clear).unwrap_or(bottom);
            sheet.words(DVec2::new(axes.at(radius, axes.y.from).x - 0.9, foot), told, words.turned(90.0).ink(ink));
        }
    }
}

/// Names a level line, above or below it, where the marks of the curves are furthest away.
fn level(sheet: &mut Sheet, axes: &Axes, study: &RadiusStudy, value: f64, away_mm: f64, name: &str, words: Lettering) {
    let name = &shortened(name, words.size_mm, words.bold, axes.frame.size().x - 4.0);
    let wide = width_mm(name, words.size_mm, words.bold);
    let marks = study.points.iter().flat_map(|point| {
        let furthest = [&point.mean, &point.gust].map(|score| score.furthest_m);
        furthest.into_iter().flatten().map(|furthest| axes.at(point.radius_m, furthest))
    });
    let marks: Vec<DVec2> = marks.collect();
    let (low, high) = (axes.frame.low.x + 2.0, axes.frame.high.x - wide - 2.0);
    let foot = axes.at(axes.x.from, value).y + away_mm;
    let clearance = |left: f64| {
        let beside = marks.iter().filter(|at| at.x > left - 3.0 && at.x < left + wide + 3.0);
        beside.map(|at| (at.y - foot + 1.2).abs()).fold(f64::INFINITY, f64::min)
    };
    let places = (0..=8).map(|part| high + (low - high) * f64::from(part) / 8.0);
    // The first of equals is the one furthest to the right.
    let best = places.reduce(|best, next| if clearance(next) > clearance(best) + 2.0 { next } else { best });
    sheet.words(DVec2::new(best.unwrap_or(low), foot), name.as_str(), words);
}

/// What lines and marks mean; with the closed form in words where they stand nowhere else.
fn key(sheet: &mut Sheet, at: DVec2, study: &RadiusStudy, closed: bool) {
    let words = Lettering::new(3.5);
    let mut at = at;
    for kind in KINDS.into_iter().rev().filter(|kind| study.ask.turns.contains(&kind.turn)) {
        let middle = at + DVec2::new(5.0, -1.2);
        sheet.line([middle - DVec2::new(5.0, 0.0), middle + DVec2::new(5.0, 0.0)], kind.pen());
        kind.mark(sheet, middle, true);
        let wind = if kind.gust { "gust wind" } else { "mean wind" };
        sheet.words(at + DVec2::new(TEXT, 0.0), format!("{}, {wind}", words::turn(kind.turn)), words);
        at.y += LINE;
    }
    at.y += 1.5;
    for (full, name) in [(true, "usable in that wind"), (false, "not usable")] {
        for (index, kind) in KINDS.into_iter().rev().enumerate() {
            let place = DVec2::new([0.6, 3.6, 6.8, 10.6][index], -1.2);
            kind.mark(sheet, at + place, full);
        }
        sheet.words(at + DVec2::new(TEXT, 0.0), name, words);
        at.y += LINE;
    }
    if whisker::reached(study).next().is_some() {
        whisker::key(sheet, at + DVec2::new(5.0, 2.6), study);
        let trials = study.points.iter().map(|point| point.trials.trials).max().unwrap_or_default();
        let left = if study.ask.turns.len() > 1 { ", anticlockwise on the left" } else { "" };
        let told = format!("median and middle 90 % of N = {trials} trials{left}");
        at = DVec2::new(at.x, sheet.paragraph(at + DVec2::new(TEXT, 0.0), KEY - 6.0 - TEXT, &told, words).y + 0.6);
        if let Some(&turn) = study.ask.turns.first().filter(|_| whisker::any_open(study)) {
            whisker::key_open(sheet, at + DVec2::new(5.0, -0.8), turn);
            let told = "over 5 % flew no whole lap";
            at = DVec2::new(at.x, sheet.paragraph(at + DVec2::new(TEXT, 0.0), KEY - 6.0 - TEXT, told, words).y + 0.6);
        }
    }
    cross(sheet, at + DVec2::new(5.0, -1.2), Ink::BLACK);
    sheet.words(at + DVec2::new(TEXT, 0.0), "never flew a whole lap", words);
    at.y += LINE;
    sheet.line(
        [at + DVec2::new(0.0, -1.2), at + DVec2::new(10.0, -1.2)],
        Pen::plain(Ink::SOFT, 0.3).dashed(&[1.0, 1.0]),
    );
    sheet.words(at + DVec2::new(TEXT, 0.0), "as commanded", words);
    at.y += LINE;
    for (x, ink) in [(0.0, MEAN), (6.0, GUST)] {
        let y = at + DVec2::new(x, -1.2);
        sheet.line([y, y + DVec2::new(4.4, 0.0)], Pen::plain(ink, 0.5).dashed(&[0.8, 1.2]));
    }
    sheet.words(at + DVec2::new(TEXT, 0.0), "least the maximum bank holds", words);
    at.y += LINE + 1.6;
    if closed {
        ruler::closed_form(study)
            .iter()
            .fold(at, |at, told| sheet.paragraph(at, KEY - 6.0, told, words) + DVec2::new(0.0, 2.0));
    }
}
