//! Classes of jet to start a sheet from, by the numbers that people know: invented, as jets of club size are said to fly, and
//! nobody's measurements.

use crate::jet::{Entry, JetSheet, MASS_KG, Origin, PlainEntry};
use crate::units::{Mass, Quantity};

/// A class of jet, by one of its jets. Judgement, no source.
#[derive(Debug, Clone, Copy)]
pub struct AirframeClass {
    /// What people call it.
    pub name: &'static str,
    /// What it says about itself.
    pub about: &'static str,
    mass_kg: f64,
    stall_mps: f64,
    top_mps: f64,
    return_mps: f64,
    /// Where it is not that of a sport jet.
    full_power_w: Option<f64>,
    /// Time in level flight until a fifth of the pack is left.
    flight_s: f64,
    cells: u32,
    capacity_mah: f64,
    maximum_bank_deg: f64,
    roll_lag_s: f64,
    roll_rate_deg: f64,
}

const CLASSES: [AirframeClass; 4] = [
    AirframeClass {
        name: "sport",
        about: "a sport fan jet of 2 kg, the class of the jet that other sheets are filled in from",
        mass_kg: MASS_KG,
        stall_mps: 12.1,
        top_mps: 41.5,
        return_mps: 22.0,
        full_power_w: None,
        flight_s: 480.0,
        cells: 6,
        capacity_mah: 5000.0,
        maximum_bank_deg: 35.0,
        roll_lag_s: 0.55,
        roll_rate_deg: 90.0,
    },
    AirframeClass {
        name: "light foam",
        about: "a small jet of foam, 1 kg, which is slow and rolls fast",
        mass_kg: 0.95,
        stall_mps: 10.5,
        top_mps: 30.0,
        return_mps: 18.0,
        full_power_w: Some(500.0),
        flight_s: 420.0,
        cells: 4,
        capacity_mah: 2200.0,
        maximum_bank_deg: 35.0,
        roll_lag_s: 0.45,
        roll_rate_deg: 120.0,
    },
    AirframeClass {
        name: "scale",
        about: "a scale model of 3.5 kg with gear and stores, which drags and rolls slowly",
        mass_kg: 3.4,
        stall_mps: 13.5,
        top_mps: 38.0,
        return_mps: 24.0,
        full_power_w: Some(2800.0),
        flight_s: 420.0,
        cells: 6,
        capacity_mah: 8000.0,
        maximum_bank_deg: 35.0,
        roll_lag_s: 0.65,
        roll_rate_deg: 70.0,
    },
    AirframeClass {
        name: "fast",
        about: "a clean, heavily loaded jet of 2 kg, made for speed",
        mass_kg: 1.9,
        stall_mps: 14.5,
        top_mps: 58.0,
        return_mps: 27.0,
        full_power_w: Some(2600.0),
        flight_s: 420.0,
        cells: 6,
        capacity_mah: 5000.0,
        maximum_bank_deg: 40.0,
        roll_lag_s: 0.45,
        roll_rate_deg: 120.0,
    },
];

/// Every class, the usual one first.
pub fn airframe_classes() -> &'static [AirframeClass] {
    &CLASSES
}

/// Three digits, as people write.
fn round(number: f64) -> f64 {
    format!("{number:.2e}").parse().unwrap_or(number)
}

fn entry<Q: Quantity>(si: f64) -> Entry<Q> {
    Entry::si(round(si), 0.0, Origin::Default)
}

fn degrees<Q: Quantity>(degrees: f64) -> Entry<Q> {
    Entry::si(round(degrees).to_radians(), 0.0, Origin::Default)
}

fn plain(value: f64) -> PlainEntry {
    PlainEntry { value, spread: 0.0, origin: Origin::Default }
}

impl AirframeClass {
    /// The class of the jet that a new scenario starts with.
    pub const fn usual() -> &'static Self {
        &CLASSES[0]
    }

    /// The mass of its jet.
    pub fn mass(&self) -> Mass {
        Mass::new(self.mass_kg)
    }

    /// The sheet of a jet of this class with a mass: the same shape and density, flown alike, so that speeds and times go with
    /// the power 1/6 of the mass and power with 7/6, with a pack of the same share of it. Every number is a default with a
    /// spread by judgement.
    pub fn sheet(&self, mass: Mass) -> JetSheet {
        let heavier = mass.kg() / self.mass_kg;
        let slower = heavier.powf(1.0 / 6.0);
        let mut sheet = JetSheet {
            name: "my jet".into(),
            mass: Entry { value: mass, ..entry(0.0) },
            stall_speed: Some(entry(self.stall_mps * slower)),
            top_speed: Some(entry(self.top_mps * slower)),
            climb: None,
            wing_area: None,
            span: None,
            lift_max: None,
            drag_zero_lift: None,
            drag_fan_stopped: plain(0.02),
            span_efficiency: plain(0.75),
            nozzle_area: None,
            full_power: self.full_power_w.map(|power| entry(power * heavier.powf(7.0 / 6.0))),
            fan_efficiency: None,
            part_throttle_loss: plain(2.5),
            return_power: None,
            flight_time: Some(entry(self.flight_s / slower)),
            fan_lag: entry(0.4 * slower),
            avionics_power: entry(12.0),
            cells: self.cells,
            capacity: Entry::si(3.6 * round(self.capacity_mah * heavier), 0.0, Origin::Default),
            cold: false,
            maximum_bank: degrees(self.maximum_bank_deg),
            roll_lag: entry(self.roll_lag_s * slower),
            roll_rate: degrees(self.roll_rate_deg / slower),
            climb_limit: degrees(15.0),
            return_speed: entry(self.return_mps * slower),
        };
        sheet.spread_out();
        sheet
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jet::JetNumbers;
    use crate::run::Scenario;

    #[test]
    fn every_class_is_a_jet_without_a_fault_at_any_mass_of_a_club_jet() {
        for class in airframe_classes() {
            for times in [0.4, 0.7, 1.0, 1.6, 2.5, 4.0] {
                let mut file = Scenario::demo().file;
                file.jet = class.sheet(Mass::new(class.mass_kg * times));
                let jet = file.jet.clone();
                let scenario = Scenario::from_file(file).unwrap();
                let about_jet = scenario.warnings().into_iter().filter(|fault| fault.place.starts_with("/jet"));
                assert_eq!(about_jet.collect::<Vec<_>>(), [], "{} times {times}", class.name);
                assert_eq!(jet.taken_as_exact(), Vec::<String>::new());
                // The same shape flown alike: thrust over weight and speed over stall stay (closed form), but for rounding.
                let [one, other] = [&class.sheet(class.mass()), &jet].map(|sheet| JetNumbers::new(sheet, 1.225));
                for of in [
                    |jet: &JetNumbers<f64>| jet.thrust_full(0.0) / jet.mass,
                    |jet: &JetNumbers<f64>| jet.return_speed / jet.stall_speed(1.0),
                    |jet: &JetNumbers<f64>| jet.area / jet.mass.powf(2.0 / 3.0),
                ] {
                    approx::assert_relative_eq!(of(&one), of(&other), max_relative = 0.03);
                }
            }
        }
    }

    #[test]
    fn the_usual_class_is_the_jet_of_the_demo_by_what_people_know_of_it() {
        let demo = JetNumbers::new(&Scenario::demo().file.jet, 1.225);
        let class = AirframeClass::usual();
        let sport = JetNumbers::new(&class.sheet(class.mass()), 1.225);
        for of in [
            |jet: &JetNumbers<f64>| jet.area * jet.lift_max,
            |jet: &JetNumbers<f64>| jet.area,
            |jet: &JetNumbers<f64>| jet.drag_zero,
            |jet: &JetNumbers<f64>| jet.nozzle,
            |jet: &JetNumbers<f64>| jet.efflux_full,
            |jet: &JetNumbers<f64>| jet.drag_lift,
        ] {
            approx::assert_relative_eq!(of(&demo), of(&sport), max_relative = 0.01);
        }
    }
}
