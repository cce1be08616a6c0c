//! The pack for a committee: a decision paper of four pages that says what to decide, and behind it a technical annex with
//! every number, the method and all results.

mod answers;
mod by_case;
mod checks;
mod conditions;
mod decision;
mod field;
mod flow;
mod grid;
mod inputs;
mod results;
mod risks;
mod sensitivity;
mod studies;
mod table;
mod to_scale;
mod uncertainty;
mod words;

#[cfg(test)]
mod tests;

use glam::DVec2;

use super::paper::{size, strip};
use crate::brief::{DO_NOT_FLY, Plan};
use crate::draw::{Frame, Ink, Lettering, Pen, Room, Sheet};
use crate::run::Review;
use crate::words::cautions;
use flow::Flow;
use table::{Cell, Sign, text};

/// Paper left free on every side, so that the pages can be filed.
pub(super) const EDGE: f64 = 13.0;

/// What each page of the decision paper says in a room.
type Page<'p> = fn(&Plan<'p>, &mut Sheet, Frame);

impl<'p> Plan<'p> {
    /// The pack: the decision paper, and the annex behind it.
    pub(super) fn pack(&self) -> Vec<Sheet> {
        let paper: [Page<'p>; 4] =
            [Self::page_of_decision, Self::page_to_scale, Self::page_of_risks, Self::page_of_conditions];
        let decision = paper.map(|draw| {
            let (mut sheet, room) = self.pack_page("decision paper");
            draw(self, &mut sheet, room);
            sheet
        });
        let mut pages: Vec<Sheet> = decision.into_iter().chain(self.annex()).collect();
        let count = pages.len();
        for (page, number) in pages.iter_mut().zip(1..) {
            let at = DVec2::new(size::A4.x - EDGE, EDGE - 1.6);
            page.words(at, format!("page {number} of {count}"), Lettering::new(3.0).bold().end());
        }
        pages
    }

    fn annex(&self) -> Vec<Sheet> {
        let mut flow = Flow::new(|| self.pack_page("technical annex"));
        flow.lettered("Technical annex", Lettering::new(8.0).bold());
        self.pack_answers(&mut flow);
        self.pack_inputs(&mut flow);
        method(&mut flow);
        self.pack_results(&mut flow);
        self.pack_sensitivity(&mut flow);
        self.pack_uncertainty(&mut flow);
        self.pack_checks(&mut flow);
        self.pack_risks(&mut flow);
        in_sight(&mut flow, !self.release().stopped());
        before_you_rely(&mut flow);
        flow.finish()
    }

    /// An empty page with its head and foot, and the room between them.
    fn pack_page(&self, part: &str) -> (Sheet, Frame) {
        let file = &self.scenario.file;
        let name = &file.name;
        let facts = self.facts();
        let about =
            format!("Committee pack of {name}: circle of {} at {} {}", facts.radius, facts.height[0], facts.turn[0]);
        let mut sheet = Sheet::new(size::A4.x, size::A4.y, format!("{name}: committee pack"), about);
        let foot = self.foot(&mut sheet, EDGE, 2.5);
        let (left, right) = (EDGE, size::A4.x - EDGE);
        let room = Frame { low: DVec2::new(left, EDGE + 14.0), high: DVec2::new(right, foot - 2.0) };
        let split = right - 62.0;
        let above = Frame { low: DVec2::new(left, EDGE), high: DVec2::new(split, EDGE + 6.4) };
        sheet.fitted(Room::new(above, 4.4, 2.4), std::slice::from_ref(name), Lettering::new(0.0).bold());
        let below = Frame { low: DVec2::new(left, EDGE + 6.2), high: DVec2::new(split, EDGE + 10.6) };
        let told = format!("{part}; {}", file.jet.name);
        if self.release().stopped() {
            let white = strip(&mut sheet, below.low - DVec2::new(0.0, 0.3), below.high);
            let room = Frame { low: below.low + DVec2::new(1.5, 0.2), high: below.high };
            sheet.fitted(Room::new(room, 3.0, 2.4), &[format!("{DO_NOT_FLY}: {told}")], white);
        } else {
            sheet.fitted(Room::new(below, 3.0, 2.4), &[told], Lettering::new(0.0));
        }
        let late = Frame { low: DVec2::new(split + 2.0, EDGE + 6.2), high: DVec2::new(right, EDGE + 10.6) };
        let valid = Lettering { bold: self.review() == Review::Expired, ..Lettering::new(0.0).end() };
        sheet.fitted(Room::new(late, 3.0, 2.4), &[facts.valid], valid);
        let rule = EDGE + 11.0;
        sheet.line([DVec2::new(left, rule), DVec2::new(right, rule)], Pen::plain(Ink::BLACK, 0.4));
        (sheet, room)
    }
}

/// The number and title of a page of the decision paper, and the one thing it says; returns the lower edge.
fn heading(sheet: &mut Sheet, room: Frame, number: &str, title: &str, told: &[String]) -> f64 {
    let foot = room.low.y + 7.6;
    sheet.words(DVec2::new(room.low.x, foot), format!("{number}  {title}"), Lettering::new(8.0).bold());
    let below = Frame { low: DVec2::new(room.low.x, foot + 3.2), high: DVec2::new(room.high.x, foot + 21.0) };
    sheet.fitted(Room::new(below, 4.6, 2.6), told, Lettering::new(0.0)).1 + 2.5
}

/// The title of a part of a page; returns the room under it.
fn under(sheet: &mut Sheet, room: Frame, title: &str) -> Frame {
    let foot = room.low.y + 4.2;
    sheet.words(DVec2::new(room.low.x, foot), title, Lettering::new(4.2).bold());
    let rule = foot + 1.8;
    sheet.line([DVec2::new(room.low.x, rule), DVec2::new(room.high.x, rule)], Pen::plain(Ink::BLACK, 0.5));
    Frame { low: DVec2::new(room.low.x, rule + 0.6), high: room.high }
}

fn method(flow: &mut Flow<'_>) {
    flow.section("Method");
    words::METHOD.iter().for_each(|(head, told)| flow.paragraph(&format!("{head}: {told}")));
    let model = crate::words::help::Topic::Model.help();
    flow.paragraph(&format!("Not modelled: {} {} {}", model.what, model.how, model.not_modelled));
}

/// A plan that something stops has no boxes to tick.
fn in_sight(flow: &mut Flow<'_>, ticked: bool) {
    flow.section("Steps in sight, still to be flown before the plan is relied on");
    flow.paragraph(words::LADDER_LEAD);
    let columns = [
        text("step", 9.0),
        text("what is done, and what must come of it", 108.0),
        text("day", 22.0),
        text("name", 34.0),
    ];
    let rows: Vec<Vec<Cell>> = (0..)
        .zip(words::LADDER)
        .map(|(step, told)| {
            let number = format!("{step}");
            let number = if ticked { Cell::signed(Sign::Tick, number) } else { number.into() };
            vec![number, told.into(), "".into(), "".into()]
        })
        .collect();
    flow.tall_table(&columns, &rows, 11.0);
}

fn before_you_rely(flow: &mut Flow<'_>) {
    flow.section("Before you rely on this");
    (1..).zip(cautions::ALL).for_each(|(number, caution)| flow.item(&format!("{number}."), caution));
}
