//! The poster for the clubhouse wall, A3, read from two metres: the circle in one picture, how far to keep off it, when
//! flying stops, whom to ring.

use glam::DVec2;

use super::paper::{GAP, boxed_larger, list, one_by_one, size, strip};
use super::plot::Shown;
use crate::brief::Plan;
use crate::draw::{Frame, Lettering, Room, Sheet};
use crate::recovery::FailsafeAction;

/// Paper left free.
pub(super) const EDGE: f64 = 12.0;
/// Smallest letters that are read from two metres, mm: 28 points.
pub(super) const READ: f64 = 9.9;
/// Width of the words beside the picture.
const COLUMN: f64 = 172.0;
/// Height of the boxes below both.
const BOXES: f64 = 84.0;
/// How much larger than on a card the picture and its names are: its names have 3.1 mm there.
const LARGER: f64 = 3.2;
/// How many things that stop the flying there is room for.
const STOPS: usize = 4;

impl Plan<'_> {
    /// The poster.
    pub(super) fn poster(&self) -> Sheet {
        let (facts, file) = (self.facts(), &self.scenario.file);
        let about = format!(
            "Poster of {}: where a {} circles by itself when its control is lost: {} {}, {} up",
            file.name, file.jet.name, facts.radius, facts.turn[0], facts.height[0]
        );
        let paper = size::A3_LYING;
        let mut sheet = Sheet::new(paper.x, paper.y, format!("{}: poster", file.name), about);
        let foot = self.foot(&mut sheet, EDGE, 3.6);
        let (left, right) = (EDGE, paper.x - EDGE);
        let head = Frame { low: DVec2::splat(EDGE), high: DVec2::new(right, EDGE + 21.0) };
        let white = strip(&mut sheet, head.low, head.high);
        let title = Frame { low: head.low + DVec2::new(5.0, 2.6), high: head.high - DVec2::new(5.0, 0.0) };
        sheet.fitted(Room::new(title, 14.0, READ), std::slice::from_ref(&file.name), white);
        let boxes = Frame { low: DVec2::new(left, foot - GAP - BOXES), high: DVec2::new(right, foot - GAP) };
        let split = right - COLUMN;
        // What never circles is shown by the way it goes.
        let shown = Shown { path: self.lap.is_none(), envelope: false, sun: false, ..Shown::ALL };
        let low = DVec2::new(left, head.high.y + GAP);
        let size = (DVec2::new(split - GAP, boxes.low.y - GAP) - low) / LARGER;
        let mut small = Sheet::new(size.x, size.y, "", "");
        let map = Frame { low: DVec2::ZERO, high: size - DVec2::new(0.0, 9.8) };
        self.map(&mut small, map, shown);
        self.key(&mut small, Frame { low: DVec2::new(0.0, map.high.y), high: size }, shown, 0);
        sheet.paste(small, low, LARGER);

        let words = Frame { low: DVec2::new(split + GAP, low.y), high: DVec2::new(right, boxes.low.y - GAP) };
        let circles = file.recovery.failsafe_action == FailsafeAction::Return;
        let first = if circles {
            "Control lost: it circles by itself."
        } else {
            "Control lost: the fan stops, and it glides down."
        };
        let circle = format!("{} radius, {} up, {}.", facts.radius, facts.height[0], facts.turn[0]);
        let told: Vec<String> =
            [Some(first.to_owned()), circles.then_some(circle)].into_iter().flatten().chain(facts.others()).collect();
        sheet.fitted(Room::new(words, 13.0, READ), &told, Lettering::new(0.0));

        let half = left + (right - left) * 0.62;
        let frame = Frame { low: boxes.low, high: DVec2::new(half, boxes.high.y) };
        let inside = boxed_larger(&mut sheet, frame, "Stop flying when", 2.6);
        let stops: Vec<String> = self.stop_list().into_iter().take(STOPS).collect();
        list(&mut sheet, Room::new(inside, 11.0, READ), &stops);
        let frame = Frame { low: DVec2::new(half + GAP, boxes.low.y), high: boxes.high };
        let inside = boxed_larger(&mut sheet, frame, "Ring", 2.6);
        let help = &file.brief.emergency;
        let blank = |words: &str| if words.trim().is_empty() { "_".repeat(14) } else { words.to_owned() };
        let ring = if help.call.is_empty() { vec![blank("")] } else { help.call.clone() };
        let told: Vec<String> = ring.into_iter().chain([format!("Gate: {}", blank(&help.gate))]).collect();
        one_by_one(&mut sheet, inside, [12.0, READ], &told);
        sheet
    }
}
