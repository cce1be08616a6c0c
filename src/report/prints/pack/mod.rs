//! The pack for a committee: what is asked for, from which numbers, by which method, with what result, how sure, how tested.

mod field;
mod flow;
mod inputs;
mod results;
mod risks;
mod sensitivity;
mod studies;
mod summary;
mod table;
mod uncertainty;
mod verification;
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

impl Plan<'_> {
    /// The pack: several pages of A4, behind the sheet of what stops the plan.
    pub(super) fn pack(&self, stopped: Option<Sheet>) -> Vec<Sheet> {
        let mut flow = Flow::new(|| self.pack_page());
        self.pack_summary(&mut flow);
        self.pack_inputs(&mut flow);
        method(&mut flow);
        self.pack_results(&mut flow);
        self.pack_sensitivity(&mut flow);
        self.pack_uncertainty(&mut flow);
        verification::tell(&mut flow);
        self.pack_risks(&mut flow);
        in_sight(&mut flow, !self.release().stopped());
        before_you_rely(&mut flow);
        let mut pages: Vec<Sheet> = stopped.into_iter().chain(flow.finish()).collect();
        let count = pages.len();
        for (page, number) in pages.iter_mut().zip(1..) {
            let at = DVec2::new(size::A4.x - EDGE, EDGE - 1.6);
            page.words(at, format!("page {number} of {count}"), Lettering::new(3.0).bold().end());
        }
        pages
    }

    /// An empty page with its head and foot, and the room between them.
    fn pack_page(&self) -> (Sheet, Frame) {
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
        let told = format!("committee pack; {}", file.jet.name);
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

fn method(flow: &mut Flow<'_>) {
    flow.section("Method");
    words::METHOD.iter().for_each(|(head, told)| flow.paragraph(&format!("{head}: {told}")));
    let model = crate::words::help::Topic::Model.help();
    flow.paragraph(&format!("Not modelled: {} {} {}", model.what, model.how, model.not_modelled));
}

/// A plan that something stops has no boxes to tick.
fn in_sight(flow: &mut Flow<'_>, ticked: bool) {
    flow.section("Tests in sight, before the plan is relied on");
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
