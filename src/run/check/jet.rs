//! Which numbers of a jet sheet make no sense, and which contradict each other.

use super::Checks;
use crate::jet::{Entry, JetNumbers, JetSheet, LEAST_DRAG, MOST_LOSS, Origin, PlainEntry};
use crate::units::{Angle, AngularRate, Area, Charge, Length, Mass, Power, Quantity, Ratio, Speed, Time};

/// Least and most that make sense, entered or worked out: wing area, m^2; largest lift coefficient; drag at no lift; battery
/// power, W; share of it in the efflux.
pub(super) const AREA: [f64; 2] = [0.005, 5.0];
pub(super) const LIFT: [f64; 2] = [0.2, 4.0];
pub(super) const DRAG: [f64; 2] = [LEAST_DRAG, 0.5];
pub(super) const POWER: [f64; 2] = [10.0, 50_000.0];
pub(super) const EFFICIENCY: [f64; 2] = [0.05, 1.0];

/// Two measurements of one power that differ by more than this share contradict each other (judgement).
const CONTRADICTION: f64 = 0.15;

/// Level stall speed of a jet, m/s, in air of a density in kg/m^3.
pub(super) fn stall(jet: &JetSheet, density: f64) -> f64 {
    JetNumbers::new(jet, density).stall_speed(1.0)
}

impl Checks {
    pub(super) fn jet(&mut self, jet: &JetSheet, density: f64) {
        if jet.name.trim().is_empty() {
            self.warn("/jet/name", "the jet has no name", "Write what its owner calls it");
        }
        let sound = self.sound(|checks| checks.numbers(jet));
        // What is known is weighed where each number makes sense by itself.
        if !sound {
            return;
        }
        self.known(jet);
        let stall = stall(jet, density);
        if jet.return_speed.value.mps() <= stall {
            let problem =
                format!("the jet can't hold {}: it stalls at {stall:.1} m/s in level flight", jet.return_speed.value);
            let way_out = "Raise the return speed, or check mass, stall_speed, wing_area and lift_max";
            self.warn("/jet/return_speed/value", problem, way_out);
        }
        self.powers(jet, density);
    }

    /// Each number by itself.
    fn numbers(&mut self, jet: &JetSheet) {
        self.own::<Mass>("mass", jet.mass, 0.05, 50.0);
        self.maybe::<Speed>("stall_speed", jet.stall_speed, 2.0, 60.0);
        self.maybe::<Speed>("top_speed", jet.top_speed, 4.0, 150.0);
        self.maybe::<Speed>("climb", jet.climb, 0.1, 150.0);
        self.maybe::<Area>("wing_area", jet.wing_area, AREA[0], AREA[1]);
        self.maybe::<Length>("span", jet.span, 0.2, 6.0);
        self.maybe_plain("lift_max", jet.lift_max, LIFT);
        self.maybe_plain("drag_zero_lift", jet.drag_zero_lift, DRAG);
        self.own_plain("drag_fan_stopped", jet.drag_fan_stopped, 0.0, 0.5);
        self.own_plain("span_efficiency", jet.span_efficiency, 0.2, 1.2);
        self.maybe::<Area>("nozzle_area", jet.nozzle_area, 0.0001, 0.2);
        self.maybe::<Power>("full_power", jet.full_power, POWER[0], POWER[1]);
        self.maybe::<Ratio>("fan_efficiency", jet.fan_efficiency, EFFICIENCY[0], EFFICIENCY[1]);
        self.own_plain("part_throttle_loss", jet.part_throttle_loss, 0.0, MOST_LOSS);
        self.maybe::<Power>("return_power", jet.return_power, 5.0, 50_000.0);
        self.maybe::<Time>("flight_time", jet.flight_time, 20.0, 7200.0);
        self.own::<Time>("fan_lag", jet.fan_lag, 0.0, 10.0);
        self.own::<Power>("avionics_power", jet.avionics_power, 0.0, 500.0);
        self.plain("/jet/cells", f64::from(jet.cells), 1.0, 28.0);
        self.own::<Charge>("capacity", jet.capacity, 36.0, 360_000.0);
        self.own::<Angle>("maximum_bank", jet.maximum_bank, 5.0_f64.to_radians(), 60.0_f64.to_radians());
        self.own::<Time>("roll_lag", jet.roll_lag, 0.0, 5.0);
        self.own::<AngularRate>("roll_rate", jet.roll_rate, 5.0_f64.to_radians(), 1000.0_f64.to_radians());
        self.own::<Angle>("climb_limit", jet.climb_limit, 1.0_f64.to_radians(), 60.0_f64.to_radians());
        self.own::<Speed>("return_speed", jet.return_speed, 3.0, 150.0);
    }

    fn own<Q: Quantity>(&mut self, key: &str, entry: Entry<Q>, low: f64, high: f64) {
        self.entry(&format!("/jet/{key}"), entry, low, high);
        self.exact(key, entry.spread.si(), entry.origin);
    }

    fn own_plain(&mut self, key: &str, entry: PlainEntry, low: f64, high: f64) {
        self.plain_entry(&format!("/jet/{key}"), entry, low, high);
        self.exact(key, entry.spread, entry.origin);
    }

    /// One of those that may be left out.
    fn maybe<Q: Quantity>(&mut self, key: &str, entry: Option<Entry<Q>>, low: f64, high: f64) {
        if let Some(entry) = entry {
            self.own(key, entry, low, high);
        }
    }

    fn maybe_plain(&mut self, key: &str, entry: Option<PlainEntry>, [low, high]: [f64; 2]) {
        if let Some(entry) = entry {
            self.own_plain(key, entry, low, high);
        }
    }

    /// Says where a number that nobody has measured is taken as exact.
    fn exact(&mut self, key: &str, spread: f64, origin: Origin) {
        if spread == 0.0 && origin != Origin::Measured {
            let problem = "nobody has measured this, and without a spread it is taken as exact";
            self.warn(&format!("/jet/{key}/spread"), problem, "Write how far off it may be: one standard deviation");
        }
    }

    /// What is said of the power in level flight at the return speed, twice or against drag and fan.
    fn powers(&mut self, jet: &JetSheet, density: f64) {
        let Some(measured) = jet.measured_power() else { return };
        let place = if jet.return_power.is_some() { "/jet/return_power" } else { "/jet/flight_time" };
        let differ = |one: f64, other: f64| (one / other - 1.0).abs() > CONTRADICTION;
        if let (Some(power), Some(timed)) = (jet.return_power, jet.timed_power())
            && differ(timed.value.w(), power.value.w())
        {
            let problem = format!(
                "the time flown asks for {:.0} at the return speed, not {}; the power is used",
                timed.value, power.value
            );
            self.warn("/jet/flight_time", problem, "Measure once more, or take one of the two out");
        }
        let plain = JetSheet { return_power: None, flight_time: None, ..jet.clone() };
        let numbers = JetNumbers::new(&plain, density);
        let at = |loss: f64| {
            let lossy = JetNumbers { part_throttle_loss: loss, ..numbers };
            lossy.power(lossy.return_speed, lossy.drag(lossy.return_speed, 1.0, 0.0))
        };
        let (least, most, power) = (at(0.0), at(MOST_LOSS), measured.value.w());
        if (power < least && differ(power, least)) || (power > most && differ(power, most)) {
            let problem = format!(
                "{power:.0} W at the return speed contradicts drag and fan of this sheet, which ask for {least:.0} to \
                 {most:.0} W; the measured power is used"
            );
            self.warn(place, problem, "Check top_speed or drag_zero_lift, fan_efficiency and the measurement");
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::jet::{Entry, JetSheet, Origin};
    use crate::run::Scenario;

    /// Where an edited sheet of the demo is warned about.
    fn warned(edit: impl FnOnce(&mut JetSheet)) -> Vec<String> {
        let mut file = Scenario::tight_strip().file;
        edit(&mut file.jet);
        let warnings = Scenario::from_file(file).unwrap().warnings();
        let places = warnings.iter().map(|fault| fault.place.clone());
        places.filter(|place| place.starts_with("/jet")).collect()
    }

    #[test]
    fn what_nobody_measured_has_a_spread() {
        assert_eq!(warned(|_| ()), [""; 0]);
        let exact = |jet: &mut JetSheet| jet.drag_zero_lift.iter_mut().for_each(|drag| drag.spread = 0.0);
        assert_eq!(warned(exact), ["/jet/drag_zero_lift/spread"]);
        assert_eq!(
            warned(|jet| jet.mass.spread = Entry::<crate::units::Mass>::si(0.0, 0.0, Origin::Default).spread),
            [""; 0]
        );
    }

    #[test]
    fn measured_powers_that_contradict_each_other_or_the_sheet_are_told() {
        let power = |watts: f64| Some(Entry::si(watts, 0.05 * watts, Origin::Measured));
        let time = |minutes: f64| Some(Entry::si(60.0 * minutes, 20.0, Origin::Measured));
        assert_eq!(warned(|jet| jet.return_power = power(600.0)), [""; 0]);
        // 88.8 Wh (handbook 12.5) in 8 min are 666 W, and in 5 min 1066 W.
        assert_eq!(warned(|jet| (jet.return_power, jet.flight_time) = (power(600.0), time(8.0))), [""; 0]);
        assert_eq!(warned(|jet| (jet.return_power, jet.flight_time) = (power(600.0), time(5.0))), ["/jet/flight_time"]);
        assert_eq!(warned(|jet| jet.return_power = power(1800.0)), ["/jet/return_power"]);
        assert_eq!(warned(|jet| jet.flight_time = time(60.0)), ["/jet/flight_time"]);
    }
}
