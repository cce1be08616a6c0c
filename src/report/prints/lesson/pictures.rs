//! The picture of each step.

use glam::DVec2;

use crate::brief::Plan;
use crate::draw::{Axes, Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Room, Scale, Sheet};
use crate::report::prints::paper::{GAP, boxed, list, numbered};
use crate::report::prints::plot::{SETTLED_S, Shown};
use crate::study::radius::RadiusStudy;
use crate::words::bare;

impl Plan<'_> {
    /// Draws the picture of a step, by its number from 0, in a frame.
    pub(super) fn draw_step(&self, sheet: &mut Sheet, number: usize, room: Frame) {
        match number {
            0 => self.mapped(
                sheet,
                room,
                Shown { take_over: false, envelope: false, keep_inside: false, sun: false, ..Shown::ALL },
            ),
            super::PAIR => self.draw_pair(sheet, room),
            2 => self.draw_curve(sheet, room),
            3 => self.mapped(sheet, room, Shown { path: false, ..Shown::ALL }),
            4 => self.draw_boxes(sheet, room),
            5 => self.draw_sky(sheet, room),
            6 => self.draw_flight(sheet, room),
            _ => self.draw_list(sheet, room),
        }
    }

    /// A map over its key.
    pub(super) fn mapped(&self, sheet: &mut Sheet, room: Frame, shown: Shown) {
        let map = Frame { low: room.low, high: room.high - DVec2::new(0.0, 11.0) };
        let left_out = self.map(sheet, map, shown);
        let key = Frame { low: DVec2::new(room.low.x, map.high.y + 1.0), high: room.high };
        self.key(sheet, key, shown, left_out);
    }

    /// The U: how far out the jet goes, against what it is told, in the mean wind and in the gusts.
    fn draw_curve(&self, sheet: &mut Sheet, room: Frame) {
        let Some(study) = self.studies.radius else {
            let words = "The radii were not studied for this print.".to_owned();
            sheet.fitted(Room::new(room, 6.0, 4.0), &[words], Lettering::new(0.0));
            return;
        };
        let turn = self.scenario.file.recovery.turn;
        let points: Vec<_> = study.points.iter().filter(|point| point.turn == turn).collect();
        let flown = points.iter().flat_map(|point| [point.mean.furthest_m, point.gust.furthest_m]).flatten();
        let radii = || points.iter().map(|point| point.radius_m);
        let frame = Frame { low: room.low + DVec2::new(18.0, 3.0), high: room.high - DVec2::new(3.0, 26.0) };
        let axes = Axes {
            frame,
            x: Scale::over(radii(), 8),
            y: Scale::over(flown.chain([0.0, study.free_m.max(0.0) * 1.05]).chain(radii()), 7),
        };
        if study.free_m > 0.0 {
            let beyond = Hatch { pattern: Pattern::Rising, ink: Ink::RULE, ground: None, step: 300 };
            let corner = axes.at(axes.x.to, study.free_m);
            sheet.rectangle(frame.low, corner, None, Fill::Hatch(beyond));
        }
        axes.draw(sheet);
        axes.name(sheet, "circle asked for: radius, m", "really flown out to, m");
        let lines = [(false, Pen::plain(Ink::BLUE, 1.6)), (true, Pen::plain(Ink::VERMILION, 0.9).dashed(&[2.6, 1.4]))];
        sheet.clipped(frame.low, frame.high, |sheet| {
            let far = axes.x.to.min(axes.y.to);
            let same = [axes.at(axes.x.from, axes.x.from), axes.at(far, far)];
            sheet.line(same, Pen::plain(Ink::SOFT, 0.4).dashed(&[1.0, 1.0]));
            if study.free_m > 0.0 {
                let room = [axes.at(axes.x.from, study.free_m), axes.at(axes.x.to, study.free_m)];
                sheet.line(room, Pen::plain(Ink::BLACK, 1.2));
            }
            for (gust, pen) in lines {
                let far = |point: &&crate::study::radius::RadiusPoint| {
                    let score = if gust { &point.gust } else { &point.mean };
                    score.furthest_m.map(|far| axes.at(point.radius_m, far))
                };
                for piece in points.iter().map(far).collect::<Vec<_>>().chunk_by(|a, b| a.is_some() && b.is_some()) {
                    sheet.line(piece.iter().flatten().copied(), pen);
                }
            }
            let plan = self.scenario.file.recovery.radius.m();
            let upright = [axes.at(plan, axes.y.from), axes.at(plan, axes.y.to)];
            sheet.line(upright, Pen::plain(Ink::BLACK, 0.7).dashed(&[4.0, 1.4]));
        });
        self.curve_key(sheet, DVec2::new(frame.low.x, frame.high.y + 16.5), study, lines);
    }

    fn curve_key(&self, sheet: &mut Sheet, at: DVec2, study: &RadiusStudy, lines: [(bool, Pen); 2]) {
        let words = Lettering::new(3.6);
        let plan = self.scenario.file.recovery.radius.m();
        let signs = [
            (lines[0].1, "in the mean wind".to_owned()),
            (lines[1].1, "in the gusts all the time".to_owned()),
            (Pen::plain(Ink::BLACK, 1.2), format!("room: {:.0} m to {}", study.free_m.max(0.0), bare(&study.free_to))),
            (Pen::plain(Ink::BLACK, 0.7).dashed(&[4.0, 1.4]), format!("the plan: {plan:.0} m")),
        ];
        let mut place = at;
        for (index, (pen, told)) in signs.into_iter().enumerate() {
            place =
                DVec2::new(at.x + if index % 2 == 0 { 0.0 } else { 84.0 }, at.y + if index < 2 { 0.0 } else { 5.2 });
            sheet.line([place - DVec2::new(0.0, 1.2), place + DVec2::new(10.0, -1.2)], pen);
            let room = Frame { low: place + DVec2::new(12.0, -3.2), high: place + DVec2::new(82.0, 2.0) };
            sheet.fitted(Room::new(room, words.size_mm, 2.6), &[told], Lettering::new(0.0));
        }
        let same = place + DVec2::new(-84.0, 5.2);
        sheet.line(
            [same - DVec2::new(0.0, 1.2), same + DVec2::new(10.0, -1.2)],
            Pen::plain(Ink::SOFT, 0.4).dashed(&[1.0, 1.0]),
        );
        sheet.words(same + DVec2::new(12.0, 0.0), "flown as asked", words);
    }

    fn draw_boxes(&self, sheet: &mut Sheet, room: Frame) {
        let tall = (room.size().y + GAP) / 5.0 - GAP;
        for (index, told) in (0_u8..).zip(self.loss_boxes()) {
            let low = room.low + DVec2::new(0.0, f64::from(index) * (tall + GAP));
            let inside = boxed(sheet, Frame { low, high: DVec2::new(room.high.x, low.y + tall) }, told.title);
            sheet.fitted(Room::new(inside, 5.6, 2.4), &numbered(&told.lines), Lettering::new(0.0));
        }
    }

    /// The path from the loss, with the time every five seconds, over a strip of its height.
    fn draw_flight(&self, sheet: &mut Sheet, room: Frame) {
        let strip = 30.0;
        let above = Frame { low: room.low, high: room.high - DVec2::new(0.0, strip) };
        let shown =
            Shown { take_over: false, envelope: false, keep_inside: false, sun: false, times: true, ..Shown::ALL };
        self.mapped(sheet, above, shown);
        let trace = &self.run.trace;
        let end = self.margins.figures.home_s.map_or(trace.time_s(trace.len() - 1), |home| home + SETTLED_S);
        let shown = (0..trace.len()).take_while(|&index| trace.time_s(index) <= end);
        let heights: Vec<(f64, f64)> =
            shown.map(|index| (trace.time_s(index), trace.height_m[index].max(0.0))).collect();
        let frame =
            Frame { low: DVec2::new(room.low.x + 18.0, above.high.y + 3.0), high: room.high - DVec2::new(3.0, 13.0) };
        let axes = Axes {
            frame,
            x: Scale::over(heights.iter().map(|(time, _)| *time).chain([0.0]), 10),
            y: Scale::over(heights.iter().map(|(_, height)| *height).chain([0.0]), 3),
        };
        axes.draw(sheet);
        axes.name(sheet, "seconds since the loss", "height, m");
        sheet.line(heights.iter().map(|(time, height)| axes.at(*time, *height)), Pen::plain(Ink::BLACK, 1.0));
    }

    fn draw_list(&self, sheet: &mut Sheet, room: Frame) {
        let split = room.low.y + room.size().y * 0.52;
        let above = Frame { low: room.low, high: DVec2::new(room.high.x, split) };
        let inside = boxed(sheet, above, "Stop flying when");
        list(sheet, Room::new(inside, 5.6, 3.2), &self.stop_list());
        let below = Frame { low: DVec2::new(room.low.x, split + GAP), high: room.high };
        let inside = boxed(sheet, below, "Say, and hear");
        let middle = inside.middle().x;
        let said = self.phrases_said();
        #[allow(clippy::cast_precision_loss, reason = "nine")]
        let each = inside.size().y / said.len() as f64;
        for (index, phrase) in (0_u8..).zip(said) {
            let y = inside.low.y + f64::from(index) * each;
            let cell = |from: f64, to: f64| Frame { low: DVec2::new(from, y), high: DVec2::new(to - 2.0, y + each) };
            let (pilot, spotter) = (cell(inside.low.x, middle), cell(middle, inside.high.x));
            sheet.fitted(Room::new(pilot, 4.4, 2.6), &[phrase.pilot.into()], Lettering::new(0.0).bold());
            sheet.fitted(Room::new(spotter, 4.4, 2.6), &[phrase.spotter], Lettering::new(0.0));
        }
    }
}
