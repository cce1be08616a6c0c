//! What lines and marks of the chart of the radius mean: signs with their words, side by side as far as there is room.

use glam::DVec2;

use super::kind::{GUST, KINDS, MEAN, cross};
use super::radius_chart::RadiusChart;
use super::whisker;
use crate::draw::{Frame, Ink, Lettering, Pen, Sheet, lines, width_mm};
use crate::words;

const WORDS: Lettering = Lettering::new(3.5);
/// From line to line.
const LINE: f64 = 4.8;
/// From words to the next sign beside them.
const APART: f64 = 3.0;

type Sign<'a> = Box<dyn Fn(&mut Sheet, DVec2) + 'a>;

impl RadiusChart<'_> {
    /// Draws it in a room, without what the window tells elsewhere.
    pub fn key(&self, sheet: &mut Sheet, room: Frame) {
        let first = room.low + DVec2::new(0.0, LINE - APART / 2.0);
        self.key_below(sheet, Frame { low: first, ..room }, true);
    }

    /// Paper that it takes in a width, mm.
    pub fn key_mm(&self, width: f64) -> f64 {
        self.key_below(&mut Sheet::new(1.0, 1.0, "", ""), Frame::new(0.0, 0.0, width, 1.0), true) + APART / 2.0
    }

    /// Draws it down a room, the foot of its first line at the top; `few` leaves out what is told elsewhere. Returns the
    /// foot of the line after it.
    pub(super) fn key_below(&self, sheet: &mut Sheet, room: Frame, few: bool) -> f64 {
        let (text, width) = (if few { 9.5 } else { 14.5 }, room.size().x);
        let (mut at, mut lower) = (room.low, room.low.y);
        for (sign, told) in self.signs(few) {
            let told = lines(&told, WORDS.size_mm, false, width - text);
            let wide =
                told.iter().map(|line| width_mm(line, WORDS.size_mm, false)).fold(text, |most, w| most.max(text + w));
            if at.x > room.low.x && at.x + wide > room.high.x {
                at = DVec2::new(room.low.x, lower);
            }
            sign(sheet, at + DVec2::new(0.0, -1.2));
            let mut foot = at + DVec2::new(text, 0.0);
            for line in told {
                sheet.words(foot, line, WORDS);
                foot.y += LINE;
            }
            lower = lower.max(foot.y);
            at.x += wide + APART;
        }
        lower
    }

    /// Every sign, drawn to the right of a place, and its words.
    fn signs<'s>(&'s self, few: bool) -> Vec<(Sign<'s>, String)> {
        let kinds = || KINDS.into_iter().rev().filter(|kind| self.turns.contains(&kind.turn));
        let mut signs: Vec<(Sign<'s>, String)> = Vec::new();
        let mut add = |sign: Sign<'s>, told: String| signs.push((sign, told));
        for kind in kinds() {
            let wind = if kind.gust { "gust wind" } else { "mean wind" };
            let told = if self.turns.len() > 1 { format!("{}, {wind}", words::turn(kind.turn)) } else { wind.into() };
            let sign = move |sheet: &mut Sheet, at: DVec2| {
                sheet.line([at, at + DVec2::new(8.0, 0.0)], kind.pen());
                kind.mark(sheet, at + DVec2::new(4.0, 0.0), true);
            };
            add(Box::new(sign), told);
        }
        for (full, told) in [(true, "usable in that wind"), (false, "not usable")].into_iter().filter(|_| !few) {
            let sign = move |sheet: &mut Sheet, at: DVec2| {
                for (kind, x) in kinds().zip([0.6, 3.6, 6.8, 10.6]) {
                    kind.mark(sheet, at + DVec2::new(x, 0.0), full);
                }
            };
            add(Box::new(sign), told.into());
        }
        let trials = self.points().map(|point| point.trials.trials).max().unwrap_or_default();
        if self.points().flat_map(whisker::reached).next().is_some() {
            let left = if self.turns.len() > 1 { ", anticlockwise on the left" } else { "" };
            let told = if few {
                format!("middle 90 % of {trials} trials")
            } else {
                format!("median and middle 90 % of N = {trials} trials{left}")
            };
            add(Box::new(|sheet, at| whisker::key(sheet, at + DVec2::new(4.0, 0.0), self.turns)), told);
            if let Some(&turn) = self.turns.first().filter(|_| !few && self.points().any(whisker::is_open)) {
                let sign =
                    move |sheet: &mut Sheet, at: DVec2| whisker::key_open(sheet, at + DVec2::new(4.0, 0.0), turn);
                add(Box::new(sign), "over 5 % flew no whole lap".into());
            }
        }
        if !few {
            let sign = |sheet: &mut Sheet, at: DVec2| cross(sheet, at + DVec2::new(4.0, 0.0), Ink::BLACK);
            add(Box::new(sign), "never flew a whole lap".into());
        }
        let ideal = |sheet: &mut Sheet, at: DVec2| {
            sheet.line([at, at + DVec2::new(8.0, 0.0)], Pen::plain(Ink::SOFT, 0.3).dashed(&[1.0, 1.0]));
        };
        add(Box::new(ideal), "as commanded".into());
        let least = |sheet: &mut Sheet, at: DVec2| {
            for (x, ink) in [(2.4, MEAN), (5.6, GUST)] {
                let upright = [at + DVec2::new(x, -2.0), at + DVec2::new(x, 2.0)];
                sheet.line(upright, Pen::plain(ink, 0.5).dashed(&[0.8, 1.2]));
            }
        };
        add(Box::new(least), if few { "maximum bank" } else { "least the maximum bank holds" }.into());
        signs
    }
}
