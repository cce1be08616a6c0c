//! Losses drawn from the circuit.
//!
//! They take a stream of their own, so that no other input of a trial depends on whether the field has one.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_6, TAU};

use glam::DVec2;

use super::{Draws, generator};
use crate::field::{Circuit, Loop, Way, Where};
use crate::jet::{JetNumbers, turn};
use crate::run::{Loss, Scenario};
use crate::units::{Angle, Bearing, G0, Quantity};
use crate::wind::ProfileNumbers;

/// Steepest bank drawn over an area, where nobody has said which way the jet turns: judgement, an easy turn.
const EASY_BANK: f64 = FRAC_PI_6;
/// Most of the airspeed that a wind across the course is let take: beyond it no course is held.
const MOST_CRAB: f64 = 0.95;

/// The loss of a trial; none for the trial as entered and where the field has no circuit.
///
/// Place uniform along the line with a normal spread sideways, or uniform over the area; height, airspeed and charge
/// uniform; nose and bank those of the jet that follows the line over the ground in the wind of the trial.
pub(super) fn loss(scenario: &Scenario, trial: u64, jet: &JetNumbers<f64>, wind: &ProfileNumbers<f64>) -> Option<Loss> {
    let circuit = scenario.field.circuit.as_ref().filter(|_| trial > 0)?;
    let mut random = generator(scenario.file.seed, trial);
    random.jump();
    let mut draws = Draws(Some(random));
    let Circuit { heights_m, speeds_mps, charges, .. } = circuit;
    let [height, airspeed, charge] = [heights_m, speeds_mps, charges].map(|&[least, most]| draws.uniform(least, most));
    let (at, nose, bank) = match &circuit.place {
        Where::Line(line) => {
            let air = wind.at(scenario.file.wind.profile, height);
            flown(line, circuit, [airspeed, jet.maximum_bank], DVec2::new(air.x, air.y), &mut draws)
        }
        Where::Area(area) => {
            let at = Circuit::place_in(area, || draws.uniform(0.0, 1.0));
            let nose = DVec2::from_angle(draws.uniform(0.0, TAU));
            (at, nose, draws.uniform(-EASY_BANK, EASY_BANK))
        }
    };
    Some(Loss {
        at_m: at.to_array(),
        height: Quantity::from_si(height),
        speed: Quantity::from_si(airspeed),
        heading: Bearing::of(nose),
        climb: Angle::default(),
        bank: Angle::new(bank.clamp(-jet.maximum_bank, jet.maximum_bank)),
        charge: Quantity::from_si(charge),
        ..scenario.file.loss
    })
}

/// Place, nose and bank of a jet on its way along the line.
fn flown(
    line: &Loop,
    circuit: &Circuit,
    [airspeed, maximum_bank]: [f64; 2],
    air: DVec2,
    draws: &mut Draws,
) -> (DVec2, DVec2, f64) {
    let along = draws.uniform(0.0, line.length_m());
    let aside = draws.capped(0.0, circuit.width_m);
    let reversed = match circuit.way {
        Way::Drawn => false,
        Way::Reversed => true,
        Way::Both => draws.uniform(0.0, 1.0) < 0.5,
    };
    let window = rounding_m(airspeed, maximum_bank).min(line.length_m() / 4.0);
    let drawn = line.course(along, window);
    // Seen the other way round, a turn to the right is one to the left.
    let (course, curvature) = (drawn * way(reversed), line.curvature(along, window) * way(reversed));
    let (nose, bank) = following(course, curvature, airspeed, air);
    (line.place(along) + drawn.perp() * aside, nose, bank)
}

/// 1 as drawn, -1 against it.
const fn way(reversed: bool) -> f64 {
    if reversed { -1.0 } else { 1.0 }
}

/// Over how much of a line a jet rounds a square corner at its steepest bank, metres: a quarter of its circle.
fn rounding_m(airspeed: f64, maximum_bank: f64) -> f64 {
    turn::radius(airspeed, maximum_bank) * FRAC_PI_2
}

/// Nose and bank that follow a course over the ground, turning by `curvature` (1/m, positive to the right) in a wind.
///
/// The speed over the ground along the course is `V_g = V cos crab + W_along`. A turn pulls square to the nose, and what
/// of that is square to the course turns the path: `g tan bank cos crab = V_g^2 curvature` (closed form).
fn following(course: DVec2, curvature: f64, airspeed: f64, air: DVec2) -> (DVec2, f64) {
    let crab_sin = (course.perp_dot(air) / airspeed).clamp(-MOST_CRAB, MOST_CRAB);
    let crab_cos = (1.0 - crab_sin * crab_sin).sqrt();
    let nose = course * crab_cos - course.perp() * crab_sin;
    let ground = (airspeed * crab_cos + course.dot(air)).max(0.0);
    (nose, (ground * ground * curvature / (G0 * crab_cos)).atan())
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::field::CircuitFile;
    use crate::run::{Trial, WindChoice, draw};
    use crate::units::{Length, Ratio, Speed};

    const TRIALS: u64 = 4000;

    fn scenario(edit: impl FnOnce(&mut CircuitFile)) -> Scenario {
        // 200 m east to west, 100 m south to north.
        let line = vec![[-100.0, 0.0], [100.0, 0.0], [100.0, 100.0], [-100.0, 100.0]];
        let mut circuit = CircuitFile::of_line(line, [Speed::new(20.0), Speed::new(34.0)]);
        edit(&mut circuit);
        let mut file = Scenario::tight_strip().file;
        file.field.as_mut().unwrap().circuit = Some(circuit);
        Scenario::from_file(file).unwrap()
    }

    fn drawn(scenario: &Scenario) -> Vec<Trial> {
        (1..=TRIALS).map(|trial| draw(scenario, trial, WindChoice::Mean)).collect()
    }

    /// Share of trials, within four standard deviations of what is expected.
    #[track_caller]
    fn share(trials: &[Trial], expected: f64, what: impl Fn(&Trial) -> bool) {
        let (count, all) = (trials.iter().filter(|trial| what(trial)).count() as f64, trials.len() as f64);
        let off = 4.0 * (expected * (1.0 - expected) / all).sqrt();
        assert!((count / all - expected).abs() < off, "{} is not {expected} within {off}", count / all);
    }

    /// Uniform between two values: inside them, and each quarter of the range has its quarter of the trials.
    #[track_caller]
    fn uniform(trials: &[Trial], low: f64, high: f64, value: impl Fn(&Trial) -> f64) {
        assert!(trials.iter().all(|trial| (low..=high).contains(&value(trial))));
        for quarter in 1..=4 {
            let end = |part: i32| low + (high - low) * f64::from(part) / 4.0;
            share(trials, 0.25, |trial| (end(quarter - 1)..end(quarter)).contains(&value(trial)));
        }
    }

    #[test]
    fn each_side_of_the_line_has_the_share_of_its_length() {
        let trials = drawn(&scenario(|circuit| circuit.width = Length::new(0.0)));
        let on = |trial: &Trial, y: f64| (trial.start.y - y).abs() < 1e-6 && trial.start.x.abs() < 100.0;
        share(&trials, 200.0 / 600.0, |trial| on(trial, 0.0));
        share(&trials, 200.0 / 600.0, |trial| on(trial, 100.0));
        share(&trials, 100.0 / 600.0, |trial| (trial.start.x - 100.0).abs() < 1e-6);
        share(&trials, 100.0 / 600.0, |trial| (trial.start.x + 100.0).abs() < 1e-6);
        // Within the southern side by its quarters.
        let south: Vec<Trial> = trials.iter().filter(|trial| on(trial, 0.0)).copied().collect();
        uniform(&south, -100.0, 100.0, |trial| trial.start.x);
    }

    #[test]
    fn height_speed_and_charge_are_uniform() {
        // job.md, Appendix C: loss speed uniform from return speed to top speed.
        let scenario = scenario(|circuit| circuit.charge_low = Ratio::new(0.5));
        let trials = drawn(&scenario);
        uniform(&trials, 40.0, 80.0, |trial| trial.start.height);
        uniform(&trials, 20.0, 34.0, |trial| trial.start.airspeed);
        uniform(&trials, 0.5, 0.9, |trial| trial.energy_j / trial.jet.pack);
    }

    #[test]
    fn sideways_is_normal_and_cut_and_either_way_is_as_likely() {
        // A line so long that its ends hardly count: what is across it is the sideways part alone.
        let long = vec![[-5000.0, 0.0], [5000.0, 0.0], [5000.0, 0.1], [-5000.0, 0.1]];
        let trials = drawn(&scenario(|circuit| circuit.line_m = long));
        let aside = |trial: &Trial| (trial.start.y / 15.0).abs();
        // Capped at three standard deviations from either side, which are 0.1 m apart.
        assert!(trials.iter().all(|trial| aside(trial) <= 3.0 + 0.1 / 15.0 + 1e-9));
        // Shares of a normal within one and two standard deviations: any table.
        share(&trials, 0.682_69, |trial| aside(trial) < 1.0);
        share(&trials, 0.954_50, |trial| aside(trial) < 2.0);
        share(&trials, 0.5, |trial| trial.start.nose_x > 0.0);
        let one_way = scenario(|circuit| (circuit.way, circuit.width) = (Way::Reversed, Length::new(0.0)));
        // Against the way drawn the southern side is flown to the west.
        let south = |trial: &&Trial| trial.start.y.abs() < 1e-6 && trial.start.x.abs() < 60.0;
        assert!(drawn(&one_way).iter().filter(south).all(|trial| trial.start.nose_x < 0.0));
    }

    #[test]
    fn the_jet_follows_its_course_over_the_ground_in_wind() {
        let (course, curvature) = (DVec2::X, 0.01);
        // Still air: tan bank = V^2 / (g r).
        let (nose, bank) = following(course, curvature, 20.0, DVec2::ZERO);
        assert_abs_diff_eq!(nose.distance(course), 0.0, epsilon = 1e-12);
        assert_abs_diff_eq!(bank.tan(), 4.0 / G0, epsilon = 1e-12);
        // 12 m/s square to 20 m/s: the triangle 12, 16, 20 by hand.
        let air = DVec2::new(0.0, 12.0);
        let (nose, bank) = following(course, curvature, 20.0, air);
        assert_abs_diff_eq!((nose * 20.0 + air).distance(DVec2::new(16.0, 0.0)), 0.0, epsilon = 1e-9);
        assert_abs_diff_eq!(bank.tan(), 2.56 / (G0 * 0.8), epsilon = 1e-12);
        // The same as on a circle held exactly, from the other derivation of it.
        for from_downwind in [0.0, 1.0, 2.5, 4.0] {
            let air = DVec2::from_angle(-from_downwind) * 8.0;
            let (_, held) = turn::on_circle(20.0, 8.0, 100.0, from_downwind);
            assert_abs_diff_eq!(following(course, curvature, 20.0, air).1, held, epsilon = 1e-9);
        }
    }

    #[test]
    fn a_square_corner_takes_the_steepest_bank_and_nothing_takes_more() {
        let line = Loop::new(&[[0.0, 0.0], [900.0, 0.0], [900.0, 900.0], [0.0, 900.0]].map(DVec2::from_array));
        let limit = 0.6;
        // A quarter turn over a quarter of the circle flown at the limit.
        let curvature = line.curvature(900.0, rounding_m(25.0, limit));
        assert_abs_diff_eq!(following(DVec2::X, curvature, 25.0, DVec2::ZERO).1, -limit, epsilon = 1e-9);
        let trials = drawn(&scenario(|_| {}));
        assert!(trials.iter().all(|trial| trial.start.bank.abs() <= trial.jet.maximum_bank));
        assert!(
            trials.iter().any(|trial| trial.start.bank > 0.5) && trials.iter().any(|trial| trial.start.bank < -0.5)
        );
    }

    #[test]
    fn over_an_area_place_and_heading_are_uniform() {
        // An L of 30,000 m^2, of which 10,000 lie north of y = 100.
        let ell = vec![[-100.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0], [0.0, 200.0], [-100.0, 200.0]];
        let trials = drawn(&scenario(|circuit| (circuit.line_m, circuit.area_m) = (vec![], ell)));
        assert!(trials.iter().all(|trial| trial.start.x <= 0.0 || trial.start.y <= 100.0));
        share(&trials, 1.0 / 3.0, |trial| trial.start.y > 100.0);
        share(&trials, 1.0 / 3.0, |trial| trial.start.x > 0.0);
        uniform(&trials, -TAU / 2.0, TAU / 2.0, |trial| trial.start.nose_y.atan2(trial.start.nose_x));
        let easy: Vec<Trial> = trials.iter().filter(|trial| trial.jet.maximum_bank > EASY_BANK).copied().collect();
        uniform(&easy, -EASY_BANK, EASY_BANK, |trial| trial.start.bank);
    }

    #[test]
    fn nothing_else_of_a_trial_depends_on_the_circuit() {
        let (with, without) = (scenario(|_| {}), Scenario::tight_strip());
        assert_eq!(draw(&with, 0, WindChoice::Mean), draw(&without, 0, WindChoice::Mean));
        for trial in [1, 7, 123_456] {
            let [drawn, plain] = [&with, &without].map(|scenario| draw(scenario, trial, WindChoice::Mean));
            assert_ne!(drawn.start, plain.start);
            // The charge is the loss's.
            let jet = JetNumbers { charge: plain.jet.charge, ..drawn.jet };
            assert_eq!(Trial { jet, start: plain.start, energy_j: plain.energy_j, ..drawn }, plain);
            // A written loss, as on a map of losses, goes before one drawn.
            assert_eq!(drawn.lost(&with.file.loss), plain.lost(&with.file.loss));
            assert_eq!(drawn, draw(&with, trial, WindChoice::Mean));
        }
    }
}
