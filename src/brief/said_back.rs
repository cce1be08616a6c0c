//! What do the numbers of a jet amount to? Said back to the person who entered them, to compare with what they know.

use super::items::told;
use crate::jet::{JetNumbers, JetSheet, turn};
use crate::run::ScenarioFile;
use crate::words::{Measure, Units, number};

/// What a jet does, in the air and the wind of its scenario; speeds through the air, a full pack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaidBack {
    /// Level stall speed, m/s.
    pub stall_mps: f64,
    /// Stall speed in a level turn at the maximum bank, m/s.
    pub stall_in_turn_mps: f64,
    /// Fastest level flight, m/s; 0 where it can't fly level at all.
    pub top_speed_mps: f64,
    /// Rate of the steepest steady climb at the return speed, m/s.
    pub climb_mps: f64,
    /// Its angle, deg; the climb limit is not applied.
    pub climb_deg: f64,
    /// Time in level flight at the return speed from a full pack to the reserve, s.
    pub endurance_s: f64,
    /// Metres forward a metre down, fan stopped, at the speed of the flattest glide.
    pub glide_ratio: f64,
    /// That speed, m/s.
    pub glide_mps: f64,
    /// Smallest circle that the maximum bank holds at the return speed, m: in still air, in the wind, in the gusts, both at
    /// the height of the circle.
    pub smallest_circle_m: [f64; 3],
}

/// One of them in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SaidLine {
    /// Its name.
    pub name: &'static str,
    /// Its value in the person's unit.
    pub value: String,
    /// The same in their second unit, or what else belongs to it.
    pub second: String,
    /// How it is found.
    pub how: &'static str,
}

impl SaidBack {
    /// What the jet of a scenario does.
    pub fn of(file: &ScenarioFile) -> Self {
        let jet = JetNumbers::new(&file.jet, file.air.density());
        let (speed, bank) = (jet.return_speed, jet.maximum_bank);
        let [mean, gust] = file.wind.aloft(file.recovery.height.m());
        let climb = jet.climb_angle(speed);
        Self {
            stall_mps: jet.stall_speed(1.0),
            stall_in_turn_mps: jet.stall_speed(turn::load(bank)),
            top_speed_mps: jet.top_speed(),
            climb_mps: speed * climb.sin(),
            climb_deg: climb.to_degrees(),
            endurance_s: jet.endurance_s(speed) * (1.0 - file.limits.reserve.share()),
            glide_ratio: jet.glide_ratio(),
            glide_mps: jet.glide_speed(),
            smallest_circle_m: [0.0, mean, gust].map(|wind| turn::smallest_radius(speed, wind, bank)),
        }
    }

    /// In words, in the order people ask.
    pub fn lines(&self, units: &Units) -> [SaidLine; 9] {
        let line = |name, measure, si, how| SaidLine {
            name,
            value: units.short(measure, si),
            second: units.second(measure, si),
            how,
        };
        let speed = |name, mps, how| line(name, Measure::Speed, mps, how);
        let circle = |name, of: usize, how| line(name, Measure::Distance, self.smallest_circle_m[of], how);
        let climb =
            speed("climb at full throttle", self.climb_mps, "(thrust \u{2212} drag) / weight \u{d7} return speed");
        let glide = speed("glide", self.glide_mps, "lift / drag at its best, fan stopped");
        let in_wind = "(V + W)\u{b2} / (g tan bank), wind at the height of the circle";
        [
            speed("level stall", self.stall_mps, "\u{221a}(2 m g / (\u{3c1} S CL))"),
            speed("stall at maximum bank", self.stall_in_turn_mps, "level stall / \u{221a}(cos bank)"),
            speed("top speed", self.top_speed_mps, "where full thrust and drag are alike"),
            SaidLine { second: format!("{:.0} deg steep", self.climb_deg), ..climb },
            SaidLine {
                name: "lasts at the return speed",
                value: format!("{:.1} min", self.endurance_s / 60.0),
                second: "to the reserve".into(),
                how: "energy of a full pack less the reserve / power in level flight",
            },
            SaidLine {
                value: format!("{} to 1", number((10.0 * self.glide_ratio).round() / 10.0)),
                second: format!("at {}", glide.value),
                ..glide
            },
            circle("smallest circle, still air", 0, "V\u{b2} / (g tan bank)"),
            circle("smallest circle, wind", 1, in_wind),
            circle("smallest circle, gusts", 2, in_wind),
        ]
    }
}

/// A number of the jet that its sheet leaves out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOut {
    /// Its key.
    pub key: String,
    /// Its value in print.
    pub value: String,
    /// One standard deviation in print.
    pub spread: String,
    /// Whether it is the tool's own, by the mass; otherwise it is worked out from what is known.
    pub by_default: bool,
}

impl LeftOut {
    /// In words, such as "wing area 0.228 m2, spread 0.034 m2".
    pub fn in_words(&self) -> String {
        format!("{} {}, spread {}", self.key.replace('_', " "), self.value, self.spread)
    }
}

/// What a sheet leaves out, and what it is taken for.
pub fn left_out(jet: &JetSheet) -> Vec<LeftOut> {
    let [written, whole] = [jet, &jet.whole()].map(|sheet| serde_json::to_value(sheet).unwrap_or_default());
    let entries = whole.as_object().into_iter().flatten().filter(|(key, _)| written.get(key.as_str()).is_none());
    entries
        .map(|(key, entry)| LeftOut {
            key: key.clone(),
            value: told(&entry["value"]),
            spread: told(&entry["spread"]),
            by_default: entry["origin"] == "default",
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jet::{Entry, Origin};
    use crate::run::Scenario;
    use crate::units::{Area, Mass, Speed};

    #[test]
    fn a_jet_of_the_worked_examples_is_said_back() {
        let mut file = Scenario::tight_strip().file;
        // job.md 10, airframe B in 6 m/s, gust 9, at every height: stall 12.1 m/s, circles 70, 114 and 140 m.
        file.jet.mass.value = Mass::new(1.75);
        file.jet.wing_area = Some(Entry::<Area>::si(0.19, 0.0, Origin::Measured));
        file.wind.profile = crate::wind::Profile::Uniform;
        (file.wind.mean, file.wind.gust) = (Speed::new(6.0), Some(Speed::new(9.0)));
        let said = SaidBack::of(&file);
        approx::assert_abs_diff_eq!(said.stall_mps, 12.1, epsilon = 0.05);
        // Closed form: 12.1 / sqrt(cos 35 deg).
        approx::assert_abs_diff_eq!(said.stall_in_turn_mps, 13.4, epsilon = 0.05);
        for (found, wanted) in said.smallest_circle_m.into_iter().zip([70.0, 114.0, 140.0]) {
            approx::assert_abs_diff_eq!(found, wanted, epsilon = 0.6);
        }
        let lines = said.lines(&Units::default());
        assert_eq!((lines[0].name, &*lines[0].value), ("level stall", "12.1 m/s"));
        assert!(lines.iter().all(|line| !line.value.is_empty() && !line.how.is_empty()));
    }

    #[test]
    fn what_is_left_out_is_told_with_what_it_is_taken_for() {
        let mut jet = Scenario::tight_strip().file.jet;
        assert_eq!(left_out(&jet), []);
        jet.mass.value = Mass::new(4.0);
        (jet.wing_area, jet.lift_max) = (None, None);
        jet.stall_speed = Some(Entry::si(13.0, 0.5, Origin::Measured));
        let found = left_out(&jet);
        // By hand: 2 * 4 * 9.80665 / (1.225 * 169 * 1) = 0.3790 m2, by a lift coefficient that nobody has measured.
        let wing = found.iter().find(|one| one.key == "wing_area").unwrap();
        assert_eq!((&*wing.value, wing.by_default), ("0.379 m2", true));
        assert!(wing.in_words().starts_with("wing area 0.379 m2, spread 0.0"), "{}", wing.in_words());
        let lift = found.iter().find(|one| one.key == "lift_max").unwrap();
        assert_eq!((&*lift.value, lift.by_default, found.len()), ("1", true, 2));
    }
}
