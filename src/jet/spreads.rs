//! How far off a number that nobody has measured may well be: judgement, no source.

use super::{Entry, JetSheet, Origin, PlainEntry};
use crate::units::Quantity;

/// A share of the value as the spread of an entry that has none and was not measured.
fn spread<Q: Quantity>(entry: &mut Entry<Q>, share: f64) {
    if entry.origin != Origin::Measured && entry.spread.si() == 0.0 {
        entry.spread = Q::from_si(entry.value.si() * share);
    }
}

fn plain(entry: &mut PlainEntry, share: f64) {
    if entry.origin != Origin::Measured && entry.spread == 0.0 {
        // Four digits say more than anybody knows here.
        entry.spread = (entry.value * share * 1e4).round() / 1e4;
    }
}

impl JetSheet {
    /// Gives every number that nobody has measured a spread, where it has none: one standard deviation, by judgement.
    ///
    /// What a ruler or scales would tell is off by little; what needs a flight to know, by a tenth or more.
    pub fn spread_out(&mut self) {
        spread(&mut self.mass, 0.05);
        self.stall_speed.iter_mut().for_each(|speed| spread(speed, 0.05));
        self.top_speed.iter_mut().for_each(|speed| spread(speed, 0.05));
        self.climb.iter_mut().for_each(|rate| spread(rate, 0.15));
        self.wing_area.iter_mut().for_each(|entry| spread(entry, 0.05));
        self.span.iter_mut().for_each(|entry| spread(entry, 0.02));
        self.lift_max.iter_mut().for_each(|entry| plain(entry, 0.10));
        self.drag_zero_lift.iter_mut().for_each(|entry| plain(entry, 0.20));
        plain(&mut self.drag_fan_stopped, 0.30);
        plain(&mut self.span_efficiency, 0.08);
        self.nozzle_area.iter_mut().for_each(|entry| spread(entry, 0.05));
        self.full_power.iter_mut().for_each(|entry| spread(entry, 0.10));
        self.fan_efficiency.iter_mut().for_each(|entry| spread(entry, 0.10));
        plain(&mut self.part_throttle_loss, 0.10);
        self.return_power.iter_mut().for_each(|power| spread(power, 0.10));
        self.flight_time.iter_mut().for_each(|time| spread(time, 0.10));
        spread(&mut self.fan_lag, 0.25);
        spread(&mut self.avionics_power, 0.25);
        spread(&mut self.capacity, 0.10);
        spread(&mut self.maximum_bank, 0.06);
        spread(&mut self.roll_lag, 0.30);
        spread(&mut self.roll_rate, 0.20);
        spread(&mut self.climb_limit, 0.15);
        spread(&mut self.return_speed, 0.07);
    }

    /// Names of the numbers that nobody has measured and that are taken as exact all the same.
    pub fn taken_as_exact(&self) -> Vec<String> {
        let sheet = serde_json::to_value(self).unwrap_or_default();
        let exact = |entry: &serde_json::Value| {
            let spread = &entry["spread"];
            let none = spread.as_f64() == Some(0.0) || spread.as_str().is_some_and(|text| text.starts_with("0 "));
            none && entry["origin"] != "measured"
        };
        let entries = sheet.as_object().into_iter().flatten().filter(|(_, entry)| entry.get("origin").is_some());
        entries.filter(|(_, entry)| exact(entry)).map(|(name, _)| name.clone()).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_nobody_measured_is_not_exact_and_what_somebody_did_stays() {
        let text = include_str!("../../tests/fixtures/tight-strip.json");
        let value: serde_json::Value = serde_json::from_str(text).unwrap();
        let mut jet: JetSheet = serde_json::from_value(value["jet"].clone()).unwrap();
        jet.fan_lag.origin = Origin::Default;
        jet.fan_lag.spread = crate::units::Time::new(0.0);
        jet.span = Some(Entry::si(1.1, 0.0, Origin::Measured));
        assert!(jet.taken_as_exact().contains(&"fan_lag".to_owned()));
        assert!(!jet.taken_as_exact().contains(&"span".to_owned()));
        let before = jet.maximum_bank;
        jet.spread_out();
        assert_eq!(jet.taken_as_exact(), Vec::<String>::new());
        assert_eq!((jet.span.unwrap().spread.m(), jet.maximum_bank), (0.0, before));
        // By hand: a quarter of 0.4 s.
        assert!((jet.fan_lag.spread.s() - 0.1).abs() < 1e-12);
    }
}
