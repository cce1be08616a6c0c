//! The poster for the clubhouse wall, A3, read from two metres: how far to keep off the circle, where it lies, why it is not
//! smaller, when flying stops, whom to ring.

use glam::DVec2;

use super::paper::{GAP, boxed_larger, list, one_by_one, size, strip};
use super::plot::Shown;
use crate::brief::Plan;
use crate::draw::{Axes, Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Room, Scale, Sheet};
use crate::recovery::FailsafeAction;
use crate::study::radius::{RadiusPoint, RadiusStudy};

/// Paper left free.
pub(super) const EDGE: f64 = 12.0;
/// Smallest letters that are read from two metres, mm: 28 points.
pub(super) const READ: f64 = 9.9;
/// Height of the pictures, of the list and of the telephone numbers.
const PICTURES: f64 = 110.0;
const STOP: f64 = 98.0;
const RING: f64 = 48.0;
/// How much larger than on a card the map and its names are: its names have 3.1 mm there.
const LARGER: f64 = 3.2;
/// How many things that stop the flying there is room for.
const STOPS: usize = 5;

impl Plan<'_> {
    /// The poster.
    pub(super) fn poster(&self) -> Sheet {
        let (facts, file) = (self.facts(), &self.scenario.file);
        let about = format!(
            "Poster of {}: where a {} circles by itself when its control is lost: {} {}, {} up",
            file.name, file.jet.name, facts.radius, facts.turn[0], facts.height[0]
        );
        let paper = size::A3;
        let mut sheet = Sheet::new(paper.x, paper.y, format!("{}: poster", file.name), about);
        let foot = self.foot(&mut sheet, EDGE, 3.6);
        let (left, right) = (EDGE, paper.x - EDGE);
        let rows = |low: f64, tall: f64| Frame { low: DVec2::new(left, low), high: DVec2::new(right, low + tall) };
        let head = rows(EDGE, 21.0);
        let white = strip(&mut sheet, head.low, head.high);
        let title = Frame { low: head.low + DVec2::new(5.0, 2.6), high: head.high - DVec2::new(5.0, 0.0) };
        sheet.fitted(Room::new(title, 14.0, READ), std::slice::from_ref(&file.name), white);

        let ring = rows(foot - GAP - RING, RING);
        let stop = rows(ring.low.y - GAP - STOP, STOP);
        let pictures = rows(stop.low.y - GAP - PICTURES, PICTURES);
        let words =
            Frame { low: DVec2::new(left, head.high.y + 2.0 * GAP), high: DVec2::new(right, pictures.low.y - GAP) };
        self.told_to_others(&mut sheet, words);
        self.pictures(&mut sheet, pictures);

        let inside = boxed_larger(&mut sheet, stop, "Stop flying when", 2.5);
        let stops: Vec<String> = self.stop_list().into_iter().take(STOPS).collect();
        list(&mut sheet, Room::new(inside, 11.0, READ), &stops);
        let inside = boxed_larger(&mut sheet, ring, "Ring", 2.5);
        let help = &file.brief.emergency;
        let blank = |words: &str| if words.trim().is_empty() { "_".repeat(14) } else { words.to_owned() };
        let call = if help.call.is_empty() { blank("") } else { help.call.join("; ") };
        one_by_one(&mut sheet, inside, [12.0, READ], &[call, format!("Gate: {}", blank(&help.gate))]);
        sheet
    }

    /// What happens by itself, and what everybody else does.
    fn told_to_others(&self, sheet: &mut Sheet, room: Frame) {
        let facts = self.facts();
        let circles = self.scenario.file.recovery.failsafe_action == FailsafeAction::Return;
        let first = if circles {
            format!(
                "Control lost: it circles by itself, {} radius, {} up, {}.",
                facts.radius, facts.height[0], facts.turn[0]
            )
        } else {
            "Control lost: the fan stops, and it glides down.".into()
        };
        let told: Vec<String> = std::iter::once(first).chain(facts.others()).collect();
        sheet.fitted(Room::new(room, 13.0, READ), &told, Lettering::new(0.0).bold());
    }

    /// Where the circle lies, and beside it why it is as large as it is.
    fn pictures(&self, sheet: &mut Sheet, room: Frame) {
        let study = self.studies.radius.filter(|_| self.lap.is_some());
        let split = if study.is_some() { room.middle().x - GAP / 2.0 } else { room.high.x };
        // What never circles is shown by the way it goes.
        let shown = Shown {
            path: self.lap.is_none(),
            take_over: false,
            envelope: false,
            keep_inside: false,
            sun: false,
            furniture: false,
            ..Shown::ALL
        };
        let size = (DVec2::new(split, room.high.y) - room.low) / LARGER;
        let mut small = Sheet::new(size.x, size.y, "", "");
        // What is on it has its name beside it: it needs no key.
        self.map(&mut small, Frame { low: DVec2::ZERO, high: size }, shown);
        sheet.paste(small, room.low, LARGER);
        if let Some(study) = study {
            self.draw_u(sheet, Frame { low: DVec2::new(split + GAP, room.low.y), high: room.high }, study);
        }
    }

    /// The U, in words instead of numbers: what is asked too small is blown wide, what is asked too large leaves the field.
    fn draw_u(&self, sheet: &mut Sheet, room: Frame, study: &RadiusStudy) {
        let plan = &self.scenario.file.recovery;
        let far = |point: &RadiusPoint| {
            let flown = [point.mean.furthest_m, point.gust.furthest_m];
            flown.into_iter().collect::<Option<Vec<f64>>>().map(|flown| flown.into_iter().fold(0.0, f64::max))
        };
        let flown: Vec<(f64, Option<f64>)> = study
            .points
            .iter()
            .filter(|point| point.turn == plan.turn && point.radius_m <= 2.0 * plan.radius.m())
            .map(|point| (point.radius_m, far(point)))
            .collect();
        let most = 1.35 * study.free_m.max(plan.radius.m());
        let radii = flown.iter().map(|(radius, _)| *radius);
        let frame = Frame { low: room.low, high: room.high - DVec2::new(0.0, 1.6 * READ) };
        let axes = Axes { frame, x: Scale::over(radii, 8), y: Scale { from: 0.0, to: most, step: most } };
        let words = Lettering::new(READ).bold().rimmed();
        sheet.rectangle(frame.low, frame.high, Some(Pen::plain(Ink::BLACK, 0.8)), Fill::None);
        sheet.clipped(frame.low, frame.high, |sheet| {
            let beyond = Hatch { pattern: Pattern::Rising, ink: Ink::RULE, ground: None, step: 300 };
            let edge = axes.at(axes.x.to, study.free_m.max(0.0)).y;
            sheet.rectangle(frame.low, DVec2::new(frame.high.x, edge), None, Fill::Hatch(beyond));
            let line = [DVec2::new(frame.low.x, edge), DVec2::new(frame.high.x, edge)];
            sheet.line(line, Pen::plain(Ink::BLACK, 1.6));
            let place = |(radius, far): &(f64, Option<f64>)| far.map(|far| axes.at(*radius, far));
            for piece in flown.iter().map(place).collect::<Vec<_>>().chunk_by(|a, b| a.is_some() && b.is_some()) {
                sheet.line(piece.iter().flatten().copied(), Pen::plain(Ink::BLACK, 2.6));
            }
            let own = plan.radius.m();
            let upright = [axes.at(own, axes.y.from), axes.at(own, axes.y.to)];
            sheet.line(upright, Pen::plain(Ink::BLACK, 1.2).dashed(&[4.0, 2.4]));
        });
        sheet.words(frame.low + DVec2::new(3.0, 1.2 * READ), "no room out here", words);
        let foot = frame.high - DVec2::new(0.0, 0.6 * READ);
        sheet.words(DVec2::new(axes.at(plan.radius.m(), 0.0).x, foot.y), "ours", words.middle());
        let under = DVec2::new(0.0, 1.2 * READ);
        sheet.words(DVec2::new(frame.low.x, frame.high.y) + under, "too small", words);
        sheet.words(frame.high + under, "too big", words.end());
    }
}
