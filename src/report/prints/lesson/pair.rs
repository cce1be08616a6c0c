//! Two maps: a circle that is too small beside the plan's.

use super::super::plot::Shown;
use crate::brief::{Plan, Studies};
use crate::draw::{Frame, Lettering, Room, Sheet};
use crate::words::number;

impl Plan<'_> {
    /// Both, side by side.
    pub(super) fn draw_pair(&self, sheet: &mut Sheet, room: Frame) {
        let small = self.small();
        let half = room.middle().x;
        let left = Frame { low: room.low, high: glam::DVec2::new(half - 2.0, room.high.y) };
        let right = Frame { low: glam::DVec2::new(half + 2.0, room.low.y), high: room.high };
        let shown =
            Shown { path: false, take_over: false, envelope: false, keep_inside: false, sun: false, times: false };
        if let Some(scenario) = self.told_radius(small.radius_m) {
            let other = Plan::new(&scenario, self.on, Studies::default(), &[], &[]);
            draw_circle(sheet, left, &format!("told {} m", number(small.radius_m)), small.furthest_m, &other, shown);
        }
        let radius_m = self.scenario.file.recovery.radius.m();
        if let Some(scenario) = self.told_radius(radius_m) {
            let other = Plan::new(&scenario, self.on, Studies::default(), &[], &[]);
            let told = format!("told {} m", number(radius_m));
            draw_circle(sheet, right, &told, other.margins.figures.furthest_m, &other, shown);
        }
    }
}

fn draw_circle(sheet: &mut Sheet, room: Frame, told: &str, furthest: Option<f64>, plan: &Plan<'_>, shown: Shown) {
    let flown = furthest.map_or_else(|| "no whole lap".into(), |far| format!("flown out to {far:.0} m"));
    let head = Frame { low: room.low, high: glam::DVec2::new(room.high.x, room.low.y + 8.0) };
    sheet.fitted(Room::new(head, 5.4, 3.4), &[format!("{told}: {flown}")], Lettering::new(0.0).bold());
    let map = Frame {
        low: glam::DVec2::new(room.low.x, head.high.y),
        high: glam::DVec2::new(room.high.x, room.high.y - 11.0),
    };
    let left_out = plan.map(sheet, map, shown);
    let key = Frame { low: glam::DVec2::new(room.low.x, map.high.y + 1.0), high: room.high };
    plan.key(sheet, key, shown, left_out);
}
