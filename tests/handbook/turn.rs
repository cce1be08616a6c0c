//! Level turns: radius, rate, load, and the stall that goes with the load.

use peewit::jet::turn::{load, radius, rate};
use peewit::recovery::turn_demand;
use peewit::units::{Length, Speed};

use crate::support::{close, demo_jet, near, si};

#[track_caller]
fn check_radius(speed: &str, bank_deg: f64, expected: &str, share: f64) {
    close(radius(si::<Speed>(speed), bank_deg.to_radians()), si::<Length>(expected), share);
}

#[test]
fn radius_of_a_turn() {
    // FAA-H-8083-25 (PHAK) ch. 5, worked example, as quoted; its constant 11.26 is rounded, hence 0.6 %.
    check_radius("120 kt", 30.0, "2215 ft", 0.006);
    // PHAK ch. 5, value from memory; the same constant.
    check_radius("240 kt", 30.0, "8861 ft", 0.006);
    // Closed form, exact constant; the PHAK and the Aviation Formulary print 2215 ft and 891 ft.
    check_radius("120 kt", 30.0, "2208.3 ft", 3e-5);
    check_radius("120 kt", 30.0, "673.1 m", 1e-4);
    check_radius("100 kt", 45.0, "885.4 ft", 1e-4);
    // ICAO Doc 8168 Vol II I-2-3 3.1.2.2 c, formula read there, number closed form with its rounded constants.
    check_radius("120 kt", 30.0, "0.36347 NM", 1e-4);
    // ICAO Annex 11 Att. A 7.4, read there; rounded in print.
    check_radius("750 kt", 20.0, "22.51 NM", 0.001);
}

#[test]
fn constants_of_the_procedure_manual() {
    let level = 45.0_f64.to_radians();
    let kmh = si::<Speed>("1 km/h");
    let knot = si::<Speed>("1 kt");
    // ICAO Doc 8168 Vol II, Part I, Sect 2, Ch 3, 3.1.2.2 b, read there: R = 6355 tan a / (pi V) deg/s.
    near(rate(kmh, level).to_degrees() * std::f64::consts::PI, 6355.0, 0.5);
    near(rate(knot, level).to_degrees() * std::f64::consts::PI, 3431.0, 0.5);
    // The same, 3.1.2.2 e, read there: g is 68625 NM/h^2.
    near(si::<Length>("1 NM") / radius(knot, level), 68_625.0, 0.5);
    // Doc 8168 Vol II III-3-1, read there: r[km] = V[km/h]^2 / (127094 tan a).
    near(si::<Length>("1 km") / radius(kmh, level), 127_094.0, 0.5);
}

#[test]
fn rate_of_a_turn() {
    #[track_caller]
    fn check(speed: &str, bank_deg: f64, expected_deg: f64, tolerance: f64) {
        near(rate(si::<Speed>(speed), bank_deg.to_radians()).to_degrees(), expected_deg, tolerance);
    }
    // PHAK ch. 5, as quoted; its constant is rounded, hence 0.6 %.
    check("120 kt", 30.0, 5.25, 0.006 * 5.25);
    // PHAK ch. 5, value from memory.
    check("240 kt", 30.0, 2.62, 0.006 * 2.62);
    // ICAO Doc 8168 Vol II I-2-3 3.1.2.2, formula read there, number closed form with its rounded constants.
    check("120 kt", 30.0, 5.2545, 0.001);
    // Aviation Formulary, as quoted: 3 deg/s at 100 kt takes 15.4 deg of bank; its constant is rounded.
    let bank = turn_demand(si::<Speed>("100 kt"), 3.0_f64.to_radians(), 1.0).atan();
    near(bank.to_degrees(), 15.4, 0.1);
}

#[test]
fn load_factor() {
    // FAA handbooks (PHAK, AFH), as quoted; exact.
    near(load(60.0_f64.to_radians()), 2.0, 1e-12);
    // PHAK ch. 5, as quoted.
    near(load(80.0_f64.to_radians()), 5.76, 0.005);
    // AFH FAA-H-8083-3A p. 9-2, read there: "about 3 g".
    near(load(70.0_f64.to_radians()), 3.0, 0.1);
    // Flight-training text, as quoted: 3.8 g at 74.7 deg.
    close(load(74.7_f64.to_radians()), 3.8, 0.005);
}

#[test]
fn stall_speed_grows_with_the_root_of_the_load() {
    let jet = demo_jet();
    let level = jet.stall_speed(1.0);
    // FAA AC 61-21A ch. 17, read there: 50 kt becomes 100 kt at 4 g; 2.89 g are reached at 102 kt with a stall of 60 kt.
    close(jet.stall_speed(4.0) / level, 100.0 / 50.0, 1e-12);
    close(jet.load_at_stall(102.0 / 60.0 * level), 2.89, 1e-12);
    // PHAK and AFH figure, wording from memory; closed form sqrt 2 in a 60 deg bank.
    close(jet.stall_speed(load(60.0_f64.to_radians())) / level, std::f64::consts::SQRT_2, 1e-12);
    // Closed form, 1 / sqrt(cos 45 deg).
    near(jet.stall_speed(load(45.0_f64.to_radians())) / level, 1.1892, 5e-5);
}

#[test]
fn the_demo_jet_banks_no_more_than_is_practical() {
    // AFH FAA-H-8083-3C ch. 7, read there: no more than 45 deg in manoeuvres about a point on the ground.
    assert!(crate::support::tight_strip().file.jet.maximum_bank.value.rad() <= 45.0_f64.to_radians());
}

#[test]
fn table_of_radii_and_rates() {
    // Closed form, g = 9.80665 m/s^2.
    let banks = [20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 60.0];
    let table = [
        (20.0, [112.07, 87.47, 70.65, 58.25, 48.61, 40.79, 23.55], 16.220, 22.195),
        (25.0, [175.10, 136.67, 110.39, 91.02, 75.95, 63.73, 36.80], 12.976, 27.743),
        (30.0, [252.15, 196.81, 158.96, 131.07, 109.37, 91.77, 52.99], 10.813, 33.292),
        (35.0, [343.20, 267.88, 216.36, 178.40, 148.87, 124.92, 72.12], 9.269, 38.841),
        (40.0, [448.26, 349.89, 282.59, 233.01, 194.44, 163.15, 94.20], 8.110, 44.389),
    ];
    for (speed, radii, rate_deg, lap_s) in table {
        for (bank, expected) in banks.into_iter().zip(radii) {
            near(radius(speed, f64::to_radians(bank)), expected, 0.005_01);
        }
        let turning = rate(speed, 30.0_f64.to_radians());
        near(turning.to_degrees(), rate_deg, 0.000_51);
        near(std::f64::consts::TAU / turning, lap_s, 0.000_51);
    }
}
