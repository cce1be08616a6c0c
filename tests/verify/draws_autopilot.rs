//! Whether what the autopilot knows, does and takes is drawn as it is stated: mean, spread and shape.

use peewit::jet::{Entry, Origin};
use peewit::recovery::{Gain, Guidance};
use peewit::run::{LossKind, Scenario, ScenarioFile, Trial, WindChoice, draw};
use peewit::units::{Length, Time};

use crate::support::near;

const DRAWN: u32 = 6000;
/// Shares within one standard deviation of the mean: normal (tables), uniform (1 / sqrt 3).
const NORMAL: f64 = 0.682_69;
const EVEN: f64 = 0.577_35;

/// So many trials of the demo with an edit.
fn drawn(edit: impl FnOnce(&mut ScenarioFile)) -> Vec<Trial> {
    let mut file = crate::support::tight_strip().file;
    edit(&mut file);
    let scenario = Scenario::from_file(file).unwrap();
    (1..=u64::from(DRAWN)).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect()
}

/// Mean, spread and share within one spread of the mean, each within four of its own standard errors.
#[track_caller]
fn check(trials: &[Trial], value: impl Fn(&Trial) -> f64, mean: f64, sd: f64, within: f64) {
    let n = f64::from(DRAWN);
    let values: Vec<f64> = trials.iter().map(value).collect();
    let middle = values.iter().sum::<f64>() / n;
    let spread = (values.iter().map(|value| (value - middle).powi(2)).sum::<f64>() / n).sqrt();
    let inside = values.iter().fold(0.0, |count, value| count + f64::from(u8::from((value - mean).abs() < sd))) / n;
    near(middle, mean, 4.0 * sd / n.sqrt());
    near(spread, sd, 4.0 * sd / (2.0 * n).sqrt());
    near(inside, within, 4.0 * (within * (1.0 - within) / n).sqrt());
}

#[test]
fn home_is_captured_within_3_m_or_15_m_where_it_flew_early() {
    for (early, sd) in [(false, 3.0), (true, 15.0)] {
        let trials = drawn(|file| file.recovery.perception.flew_early = early);
        check(&trials, |trial| trial.plan.home_error_x, 0.0, sd, NORMAL);
        check(&trials, |trial| trial.plan.home_error_y, 0.0, sd, NORMAL);
    }
}

#[test]
fn height_is_known_within_4_m_and_an_even_drift_of_1_hpa() {
    // 100 Pa / (1.225 kg/m^3 x 9.80665 m/s^2) = 8.32 m.
    let none = Length::new(0.0);
    let trials = drawn(|file| file.recovery.perception.height_drift = none);
    check(&trials, |trial| trial.plan.height_error, 0.0, 4.0, NORMAL);
    let trials = drawn(|file| file.recovery.perception.height_error = none);
    check(&trials, |trial| trial.plan.height_error, 0.0, 8.3 / 3.0_f64.sqrt(), EVEN);
    assert!(trials.iter().all(|trial| trial.plan.height_error.abs() <= 8.3));
    let both = drawn(|_| ());
    let variance = 16.0 + 8.3 * 8.3 / 3.0;
    let n = f64::from(DRAWN);
    let found = both.iter().map(|trial| trial.plan.height_error.powi(2)).sum::<f64>() / n;
    near(found, variance, 4.0 * variance * (2.0 / n).sqrt());
    check(&both, |trial| trial.plan.static_error, 0.0, 0.05, NORMAL);
}

#[test]
fn failsafe_delay_is_even_between_half_a_second_and_two() {
    let sd = 1.5 / 12.0_f64.sqrt();
    let trials = drawn(|file| file.recovery.failsafe_delay = Entry::si(1.25, sd, Origin::Default));
    check(&trials, |trial| trial.plan.failsafe_delay, 1.25, sd, EVEN);
    assert!(trials.iter().all(|trial| (0.5 - 1e-9..=2.0 + 1e-9).contains(&trial.plan.failsafe_delay)));
}

#[test]
fn a_lost_video_waits_for_the_pilot_and_a_lost_link_for_the_jet() {
    let slow = |kind| {
        let trials = drawn(|file| {
            file.recovery.reaction_time = Some(Entry::si(4.0, 0.5, Origin::Measured));
            file.loss.kind = kind;
        });
        let mean = trials.iter().map(|trial| trial.plan.failsafe_delay).sum::<f64>() / f64::from(DRAWN);
        mean > 3.5
    };
    assert_eq!([LossKind::Video, LossKind::Control, LossKind::Both].map(slow), [true, false, false]);
}

#[test]
fn take_over_is_log_normal_with_its_middle_between_17_and_32_s() {
    let trials = drawn(|_| ());
    let (mean, sd) = (23.6_f64, 3.8_f64);
    let sigma = (sd / mean * sd / mean).ln_1p().sqrt();
    check(&trials, |trial| trial.plan.take_over.ln(), f64::ln(mean) - sigma * sigma / 2.0, sigma, NORMAL);
    let inside = trials.iter().filter(|trial| (17.0..=32.0).contains(&trial.plan.take_over)).count();
    near(inside as f64 / f64::from(DRAWN), 0.95, 0.015);
    let timed = drawn(|file| file.limits.take_over.value = Time::new(40.0));
    assert!(timed.iter().map(|trial| trial.plan.take_over).sum::<f64>() > 39.0 * f64::from(DRAWN));
}

#[test]
fn law_and_gain_are_drawn_from_what_no_log_has_ruled_out() {
    let share = |trials: &[Trial], which: &dyn Fn(&Trial) -> bool| {
        trials.iter().filter(|trial| which(trial)).count() as f64 / f64::from(DRAWN)
    };
    let all = drawn(|_| ());
    for guidance in Guidance::ALL {
        for gain in Gain::ALL {
            let found = share(&all, &|trial| (trial.guidance, trial.gain) == (guidance, gain));
            near(found, 1.0 / 9.0, 4.0 * (8.0 / 81.0 / f64::from(DRAWN)).sqrt());
        }
    }
    let left =
        drawn(|file| file.recovery.laws_ruled_out = vec![Guidance::FieldOfDirections, Guidance::NoseOnTheCentre]);
    assert!(left.iter().all(|trial| trial.guidance == Guidance::LookAhead && trial.plan.law == 1.0));
    let mut file = crate::support::tight_strip().file;
    (file.recovery.guidance, file.recovery.gain) = (Guidance::NoseOnTheCentre, Gain::Sharp);
    let plain = draw(&Scenario::from_file(file).unwrap(), 0, WindChoice::Mean);
    assert_eq!((plain.guidance, plain.gain), (Guidance::NoseOnTheCentre, Gain::Sharp));
}

#[test]
fn all_laws_ruled_out_leave_no_plan() {
    let mut file = crate::support::tight_strip().file;
    file.recovery.laws_ruled_out = Guidance::ALL.to_vec();
    let faults = Scenario::from_file(file).unwrap_err();
    assert!(format!("{faults:?}").contains("/recovery/laws_ruled_out"), "{faults:?}");
}
