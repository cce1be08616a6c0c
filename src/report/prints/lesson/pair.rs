//! A circle that is too small beside the plan's: the same field, the same wind, two commands.

use super::super::plot::Shown;
use crate::draw::{Frame, Lettering, Room, Sheet};
use crate::ledger::{judge, lap};
use crate::recovery::Policy;
use crate::report::prints::{Plan, Studies};
use crate::report::text::number;
use crate::run::{Scenario, WindChoice, fly};
use crate::units::Length;

/// What comes of a circle that is too small.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Small {
    /// Told, metres.
    pub(super) radius_m: f64,
    /// Flown out to, metres.
    pub(super) outermost_m: Option<f64>,
}

impl Plan<'_> {
    /// A circle half as wide as the least that the wind allows, to the next 5 m.
    pub(super) fn small(&self) -> Small {
        let least = self.ledger.figures.smallest_radius_m[1];
        let half = if least.is_finite() { least / 2.0 } else { self.scenario.file.recovery.radius.m() / 2.0 };
        let radius_m = (half / 5.0).round().max(2.0) * 5.0;
        let outermost_m = self.told_radius(radius_m).and_then(|scenario| {
            let run = fly(&scenario, 0, WindChoice::Mean);
            judge(&scenario, &run).figures.outermost_m.filter(|_| lap(&scenario, &run).is_some())
        });
        Small { radius_m, outermost_m }
    }

    /// How far out the plan's own circle is flown, metres.
    pub(super) fn big(&self) -> Option<f64> {
        let scenario = self.told_radius(self.scenario.file.recovery.radius.m())?;
        judge(&scenario, &fly(&scenario, 0, WindChoice::Mean)).figures.outermost_m
    }

    /// The same scenario told another radius.
    fn told_radius(&self, radius_m: f64) -> Option<Scenario> {
        let mut file = self.scenario.file.clone();
        file.recovery.radius = Length::new(radius_m);
        // A plan that stops the fan is shown as if it returned: else there is no circle to compare.
        file.recovery.policy = Policy::Return;
        Scenario::from_file(file).ok()
    }

    /// Both, side by side.
    pub(super) fn draw_pair(&self, sheet: &mut Sheet, room: Frame) {
        let small = self.small();
        let half = room.middle().x;
        let left = Frame { low: room.low, high: glam::DVec2::new(half - 2.0, room.high.y) };
        let right = Frame { low: glam::DVec2::new(half + 2.0, room.low.y), high: room.high };
        let shown =
            Shown { path: false, hand_back: false, envelope: false, keep_inside: false, sun: false, times: false };
        if let Some(scenario) = self.told_radius(small.radius_m) {
            let other = Plan::new(&scenario, self.on, Studies::default(), &[], &[]);
            one(sheet, left, &format!("told {} m", number(small.radius_m)), small.outermost_m, &other, shown);
        }
        let radius_m = self.scenario.file.recovery.radius.m();
        if let Some(scenario) = self.told_radius(radius_m) {
            let other = Plan::new(&scenario, self.on, Studies::default(), &[], &[]);
            let told = format!("told {} m", number(radius_m));
            one(sheet, right, &told, other.ledger.figures.outermost_m, &other, shown);
        }
    }
}

fn one(sheet: &mut Sheet, room: Frame, told: &str, outermost: Option<f64>, plan: &Plan<'_>, shown: Shown) {
    let flown = outermost.map_or_else(|| "no whole lap".into(), |far| format!("flown out to {far:.0} m"));
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
