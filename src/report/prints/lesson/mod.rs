//! The briefing for those who are new to it: eight steps on the club's own field, each with a picture, for the window and
//! for paper.

mod pair;
mod pictures;
mod sky;

use glam::DVec2;

use super::paper::{EDGE, size, strip};
use crate::brief::{DO_NOT_FLY, Plan, Step};
use crate::draw::{Frame, Lettering, Room, Sheet};

/// Size of a step's picture on paper, mm.
const PICTURE: DVec2 = DVec2::new(190.0, 146.0);
/// The same for a screen, on which it is as large as there is room: the smaller it is here, the larger its letters.
const SCREEN: DVec2 = DVec2::new(157.0, 120.6);
/// Number of the step that shows two maps, from 0.
const PAIR: usize = 1;

impl Plan<'_> {
    /// The picture of a step, by its number from 0, on a sheet of its own.
    pub fn step_picture(&self, number: usize) -> Sheet {
        let title = self.steps().get(number).map_or_else(String::new, |step| step.title.to_owned());
        // Two maps side by side need all the room there is.
        let size = if number == PAIR { PICTURE } else { SCREEN };
        let mut sheet = Sheet::new(size.x, size.y, title.clone(), title);
        self.draw_step(&mut sheet, number, Frame { low: DVec2::splat(2.0), high: size - DVec2::splat(2.0) });
        sheet
    }

    /// The briefing on paper: a page a step.
    pub fn lesson(&self) -> Vec<Sheet> {
        let steps = self.steps();
        let count = steps.len();
        steps.iter().enumerate().map(|(number, step)| self.step_page(number, count, step)).collect()
    }

    fn step_page(&self, number: usize, count: usize, step: &Step) -> Sheet {
        let paper = size::A4_LYING;
        let name = &self.scenario.file.name;
        let mut sheet = Sheet::new(paper.x, paper.y, format!("{name}: {}", step.title), step.words.join(" "));
        let foot = self.foot(&mut sheet, EDGE, 2.6);
        let bar = Frame { low: DVec2::splat(EDGE), high: DVec2::new(paper.x - EDGE, EDGE + 12.0) };
        let white = strip(&mut sheet, bar.low, bar.high);
        let title = Frame { low: bar.low + DVec2::new(4.0, 2.0), high: DVec2::new(bar.high.x - 66.0, bar.high.y) };
        sheet.fitted(Room::new(title, 7.0, 4.0), &[format!("{}. {}", number + 1, step.title)], white);
        let stopped = if self.release().stopped() { format!("{DO_NOT_FLY}, ") } else { String::new() };
        let beside =
            Frame { low: DVec2::new(bar.high.x - 64.0, bar.low.y + 3.4), high: bar.high - DVec2::new(4.0, 0.0) };
        sheet.fitted(
            Room::new(beside, 4.2, 2.8),
            &[format!("{} of {count}, {stopped}{name}", number + 1)],
            white.end(),
        );
        let room = Frame { low: DVec2::new(EDGE, bar.high.y + 4.0), high: DVec2::new(EDGE + PICTURE.x, foot - 3.0) };
        self.draw_step(&mut sheet, number, room);
        let words = Frame {
            low: DVec2::new(room.high.x + 6.0, room.low.y + 1.0),
            high: DVec2::new(paper.x - EDGE, room.high.y),
        };
        sheet.fitted(Room::new(words, 5.4, 3.2), &step.words, Lettering::new(0.0));
        sheet
    }
}
