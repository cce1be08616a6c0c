//! What would the watch, the wattmeter and the climb of the same jet say at another return speed?

use super::airframe::people_write;
use super::{Entry, JetNumbers, JetSheet, Origin};
use crate::units::{Quantity, Speed};
use crate::wind::isa_density;

/// Least rate of climb that is told, m/s: a jet that flies home at its top speed has none left.
const LEAST_CLIMB: f64 = 0.1;

/// Another value of a number that was found at the return speed so far: no longer a measurement, as far off in its share.
fn told_anew<Q: Quantity>(entry: Entry<Q>, si: f64) -> Entry<Q> {
    let spread = si * entry.spread.si() / entry.value.si();
    let origin = if entry.origin == Origin::Measured { Origin::Estimated } else { entry.origin };
    Entry::si(people_write(si), people_write(spread), origin)
}

impl JetSheet {
    /// The same jet, flown home at another speed in air of a density in kg/m^3. What is known of it at the return speed is
    /// worked out for the new one: the numbers would be another jet's otherwise.
    pub fn returning_at(&self, speed: Speed, density: f64) -> Self {
        let (numbers, at) = (JetNumbers::new(self, density), speed.mps());
        let power = numbers.power(at, numbers.drag(at, 1.0, 0.0));
        let climbs = || JetNumbers::new(self, isa_density(0.0)).climb_angle(at).sin() * at;
        Self {
            return_speed: Entry { value: speed, ..self.return_speed },
            return_power: self.return_power.map(|entry| told_anew(entry, power)),
            flight_time: self.flight_time.map(|entry| told_anew(entry, self.timed_s(power))),
            climb: self.climb.map(|entry| told_anew(entry, climbs().max(LEAST_CLIMB))),
            ..self.clone()
        }
    }
}
