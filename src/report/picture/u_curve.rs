//! Furthest distance from the centre against commanded radius: the U, with the room the field leaves, under the usable
//! radii on a ruler. Paper and window show the same chart; each puts its own about it.

use glam::DVec2;

use super::kind::{GUST, KINDS, Kind, MEAN, cross};
use super::radius_chart::{Plot, RadiusChart};
use super::{level, ruler, whisker};
use crate::draw::{Axes, Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Scale, Sheet, width_mm};
use crate::study::radius::{RadiusAsk, RadiusPoint, holds};

/// Room beside the axes: for digits on the left, for half of the last one on the right, mm.
const LEFT: f64 = 11.0;
const RIGHT: f64 = 4.0;
/// Room below for digits, mm.
const DIGITS: f64 = 5.6;
/// Room that the names of the axes take besides, on the left and below, mm.
const NAMES: DVec2 = DVec2::new(4.0, 5.0);
const Y_NAME: &str = "furthest distance from the centre";

impl RadiusChart<'_> {
    /// Room that a chart takes besides the curve, where the names of its axes stand in it, mm.
    pub fn besides_mm(&self) -> f64 {
        ruler::height(self) + DIGITS
    }

    /// Draws it in a room and returns the axes of the curve; the ruler above has the same radii.
    pub fn draw(&self, sheet: &mut Sheet, room: Frame) -> Axes {
        let y_name = format!("{Y_NAME}, {}", self.unit.name);
        let above = ruler::height(self);
        // A low curve has its name in it.
        let tall = room.size().y - above - DIGITS - NAMES.y;
        let outside = tall > width_mm(&y_name, 3.4, true);
        let (left, below) = if outside { (LEFT + NAMES.x, DIGITS + NAMES.y) } else { (LEFT, DIGITS) };
        let low = room.low + DVec2::new(left, above);
        let high = (room.high - DVec2::new(RIGHT, below)).max(low + 1.0);
        let axes = self.axes(Frame { low, high });
        axes.draw(sheet);
        let x_name = format!("commanded radius, {}", self.unit.name);
        if outside {
            axes.name(sheet, &x_name, &y_name);
        }
        if let Some(study) = self.study {
            Plot { chart: *self, study, axes }.draw(sheet);
        }
        if !outside {
            let [end, start] = level::names_inside(&axes);
            let words = Lettering::new(3.4).bold().rimmed();
            sheet.words(end, x_name, words.end());
            sheet.words(start, format!("furthest out, {}", self.unit.name), words);
        }
        ruler::draw(sheet, self, &axes, room.low.y);
        axes
    }

    /// The whole U in the mean wind and the room; gust and trials may run out of the chart.
    fn axes(&self, frame: Frame) -> Axes {
        let usual = RadiusAsk::usual();
        let radii = &self.study.map_or(&usual, |study| &study.ask).radii_m;
        let widest = radii.last().copied().unwrap_or_default();
        let held = self.study.map(|study| study.closed.smallest_m[1]).filter(|least| *least < widest);
        let mean = self.points().filter_map(|point| point.mean.furthest_m);
        let free = self.study.map_or(0.0, |study| study.free_m.max(0.0));
        let least = mean.chain([free * 1.1, widest]).fold(0.0, f64::max);
        let gust = self.points().filter_map(|point| point.gust.furthest_m);
        let most = gust.chain(self.points().flat_map(whisker::reached)).fold(least, f64::max).min(least * 1.35);
        let x = radii.iter().copied().chain(held).chain(self.shown_m).map(|metres| self.unit.of(metres));
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 2 and 12")]
        let steps = |mm: f64, each: f64, most: f64| (mm / each).clamp(2.0, most) as u32;
        let size = frame.size();
        let y = Scale::over([0.0, self.unit.of(most)], steps(size.y, 7.0, 8.0));
        Axes { frame, x: Scale::over(x, steps(size.x, 9.0, 12.0)), y }
    }
}

impl Plot<'_> {
    fn draw(&self, sheet: &mut Sheet) {
        let frame = self.axes.frame;
        // Marks on the edge of the frame stay whole.
        let rim = DVec2::splat(2.0);
        sheet.clipped(frame.low - rim, frame.high + rim, |sheet| {
            self.marks(sheet);
            self.chart.points().for_each(|point| whisker::draw(sheet, self, point));
            // The two ways round mostly lie on each other: the smaller round marks come last.
            for kind in KINDS.into_iter().filter(|kind| self.chart.turns.contains(&kind.turn)) {
                self.curve(sheet, kind);
            }
        });
        level::names(sheet, self);
    }

    /// The lines the curves are compared with.
    fn marks(&self, sheet: &mut Sheet) {
        let (axes, closed) = (&self.axes, &self.study.closed);
        let (x, y) = (axes.x, axes.y);
        let far = x.to.min(y.to);
        sheet.line([axes.at(x.from, x.from), axes.at(far, far)], Pen::plain(Ink::SOFT, 0.3).dashed(&[1.0, 1.0]));
        let level = |value: f64| {
            let y = self.at(0.0, value).y;
            [DVec2::new(axes.frame.low.x, y), DVec2::new(axes.frame.high.x, y)]
        };
        if self.study.free_m > 0.0 {
            let [left, right] = level(self.study.free_m);
            let beyond = Hatch { pattern: Pattern::Rising, ink: Ink::RULE, ground: None, step: 260 };
            sheet.rectangle(axes.frame.low, right.max(axes.frame.low), None, Fill::Hatch(beyond));
            sheet.line([left, right], Pen::plain(Ink::BLACK, 0.9));
        }
        if closed.largest_m > 0.0 {
            sheet.line(level(closed.largest_m), Pen::plain(Ink::BLACK, 0.5).dashed(&[3.0, 1.5]));
        }
        for (radius, ink) in closed.smallest_m.into_iter().skip(1).zip([MEAN, GUST]) {
            let x = self.at(radius, 0.0).x;
            let upright = [axes.frame.low.y, axes.frame.high.y].map(|y| DVec2::new(x, y));
            sheet.line(upright, Pen::plain(ink, 0.5).dashed(&[0.8, 1.2]));
        }
    }

    /// One wind and one way round: a line through the radii flown, broken where the jet never flew a whole lap.
    fn curve(&self, sheet: &mut Sheet, kind: Kind) {
        let points: Vec<&RadiusPoint> = self.chart.points().filter(|point| point.turn == kind.turn).collect();
        let settled = |point: &&RadiusPoint| kind.score(point).furthest_m.is_some();
        for piece in points.chunk_by(|a, b| settled(a) && settled(b)).filter(|piece| settled(&piece[0])) {
            let course = piece.iter().filter_map(|point| Some(self.at(point.radius_m, kind.score(point).furthest_m?)));
            sheet.line(course, kind.pen());
        }
        for point in points {
            let usable = if kind.gust { &self.study.usable.gust } else { &self.study.usable.mean };
            match kind.score(point).furthest_m {
                Some(furthest) => {
                    kind.mark(sheet, self.at(point.radius_m, furthest), holds(usable, point.radius_m, kind.turn));
                }
                None => {
                    let down = if kind.gust { 5.2 } else { 2.2 };
                    let x = self.at(point.radius_m, 0.0).x;
                    cross(sheet, DVec2::new(x, self.axes.frame.low.y + down), kind.ink());
                }
            }
        }
    }
}
