//! Which of the numbers that people know of a jet say a thing twice, and which contradict each other?

use super::Checks;
use super::jet::{AREA, DRAG, EFFICIENCY, LIFT, POWER};
use crate::jet::{JetNumbers, JetSheet, LEAST_DRAG, MOST_OF_TOP};
use crate::units::{Power, Speed};
use crate::wind::isa_density;

/// How near the top speed of the model has to come to the one entered.
const SAME: f64 = 0.005;

fn outside(number: f64, [low, high]: [f64; 2]) -> bool {
    !(low..=high).contains(&number)
}

impl Checks {
    /// What is known of stall, top speed and climb, against the rest of the sheet.
    pub(super) fn known(&mut self, jet: &JetSheet) {
        if self.twice(jet) {
            return;
        }
        // A power measured at the return speed says nothing of full throttle.
        let plain = JetSheet { return_power: None, flight_time: None, ..jet.clone() };
        let numbers = JetNumbers::new(&plain, isa_density(0.0));
        if let Some(stall) = jet.stall_speed {
            self.stall_known(jet, stall.value, &numbers);
        }
        // A climb that can't be flown leaves a fan that says nothing of the top speed.
        let flown = jet.climb.is_none_or(|rate| self.climb_known(jet, rate.value, &numbers));
        if let Some(top) = jet.top_speed.filter(|_| flown) {
            self.top_known(top.value, &numbers);
        }
    }

    /// Whether something is entered that is worked out as well.
    fn twice(&mut self, jet: &JetSheet) -> bool {
        let (wing, power) = (jet.wing_area.is_some(), jet.full_power.is_some());
        let pairs = [
            ("lift_max", jet.lift_max.is_some() && wing && jet.stall_speed.is_some(), "stall_speed", " and wing_area"),
            ("drag_zero_lift", jet.drag_zero_lift.is_some() && jet.top_speed.is_some(), "top_speed", ""),
            (
                "fan_efficiency",
                jet.fan_efficiency.is_some() && power && jet.climb.is_some(),
                "climb",
                " and full_power",
            ),
        ];
        let mut found = false;
        for (key, _, known, beside) in pairs.into_iter().filter(|&(_, both, ..)| both) {
            found = true;
            let problem = format!("{key} is worked out from {known}{beside}, and entered as well");
            self.error(&format!("/jet/{key}"), problem, format!("Take {key} out; or {known}, if {key} is surer"));
        }
        found
    }

    fn stall_known(&mut self, jet: &JetSheet, stall: Speed, numbers: &JetNumbers<f64>) {
        let place = "/jet/stall_speed/value";
        if outside(numbers.lift_max, LIFT) {
            let [low, high] = LIFT;
            let problem = format!(
                "a stall at {stall} with {} on this wing asks for a largest lift coefficient of {:.2}; wings have {low} to \
                 {high}",
                jet.mass.value, numbers.lift_max
            );
            self.error(place, problem, "Check stall_speed, mass and wing_area");
        } else if outside(numbers.area, AREA) {
            let [low, high] = AREA;
            let problem = format!(
                "a stall at {stall} with {} asks for a wing of {:.3} m2; wings have {low} to {high} m2",
                jet.mass.value, numbers.area
            );
            self.error(place, problem, "Check stall_speed, mass and lift_max");
        }
    }

    fn top_known(&mut self, top: Speed, numbers: &JetNumbers<f64>) {
        let place = "/jet/top_speed/value";
        let stall = numbers.stall_speed(1.0);
        if top.mps() <= stall {
            let problem = format!("a top speed of {top} is not above the stall speed, {stall:.1} m/s");
            self.error(place, problem, "Check top_speed, and stall_speed, mass, wing_area and lift_max");
        } else if numbers.drag_zero <= LEAST_DRAG || (numbers.top_speed() / top.mps() - 1.0).abs() > SAME {
            let problem = format!("this fan does not drive this jet at {top}, even with the least drag a jet has");
            self.error(place, problem, "Check top_speed, full_power, fan_efficiency, nozzle_area and climb");
        } else if outside(numbers.drag_zero, DRAG) {
            let [low, high] = DRAG;
            let problem = format!(
                "no more than {top} with this fan asks for a drag coefficient of {:.2}; jets have {low} to {high}",
                numbers.drag_zero
            );
            self.error(place, problem, "Check top_speed, full_power, fan_efficiency, nozzle_area and climb");
        }
    }

    /// Whether the climb can be flown.
    fn climb_known(&mut self, jet: &JetSheet, rate: Speed, numbers: &JetNumbers<f64>) -> bool {
        let (home, useful) = (jet.return_speed.value, numbers.rest_power());
        let problem = if rate >= home {
            format!("climbing at {rate} is no slower than flying home at {home}: steeper than straight up")
        } else if let Some(top) = jet.top_speed.filter(|top| home.mps() >= top.value.mps() * MOST_OF_TOP) {
            format!("at the return speed, {home}, nothing is left to climb with: the top speed is {}", top.value)
        } else if let Some(full) = jet.full_power.filter(|_| outside(numbers.efficiency, EFFICIENCY)) {
            let [low, high] = EFFICIENCY.map(|share| Power::new(share * full.value.w()));
            format!(
                "climbing at {rate} asks for {:.0} in the efflux, and a fan on {} has {low:.0} to {high:.0} there",
                Power::new(useful),
                full.value
            )
        } else if outside(useful / numbers.efficiency, POWER) {
            let [low, high] = POWER.map(Power::new);
            format!(
                "climbing at {rate} asks for a full power of {:.0}; jets have {low} to {high}",
                Power::new(useful / numbers.efficiency)
            )
        } else {
            return true;
        };
        self.error("/jet/climb/value", problem, "Check climb, return_speed, top_speed, mass and full_power");
        false
    }
}
