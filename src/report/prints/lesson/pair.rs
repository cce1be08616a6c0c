//! Two maps: a circle that is too small beside the plan's.

use glam::DVec2;

use crate::brief::Plan;
use crate::draw::{Frame, Lettering, Room, Sheet};
use crate::report::prints::plot::Shown;
use crate::words::number;

/// What both maps show.
const SHOWN: Shown = Shown {
    path: false,
    take_over: false,
    envelope: false,
    keep_inside: false,
    sun: false,
    times: false,
    clock: false,
    furniture: true,
};

impl Plan<'_> {
    /// Both, side by side.
    pub(super) fn draw_pair(&self, sheet: &mut Sheet, room: Frame) {
        let half = room.middle().x;
        let left = Frame { low: room.low, high: DVec2::new(half - 2.0, room.high.y) };
        let right = Frame { low: DVec2::new(half + 2.0, room.low.y), high: room.high };
        for (room, told) in [left, right].into_iter().zip(self.pair()) {
            let Some(plan) = told.plan(self.on) else { continue };
            let flown = told.furthest_m.map_or_else(|| "no whole lap".into(), |far| format!("flown out to {far:.0} m"));
            let split = room.low.y + 8.0;
            let head = Frame { low: room.low, high: DVec2::new(room.high.x, split) };
            let below = Frame { low: DVec2::new(room.low.x, split), high: room.high };
            let words = format!("told {} m: {flown}", number(told.radius_m));
            sheet.fitted(Room::new(head, 5.4, 3.4), &[words], Lettering::new(0.0).bold());
            plan.mapped(sheet, below, SHOWN);
        }
    }
}
