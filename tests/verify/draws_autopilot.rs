//! Whether what the autopilot knows, does and takes is drawn as it is stated: mean, spread and shape.

use peewit::jet::{Entry, Origin};
use peewit::recovery::{Firmness, Guidance};
use peewit::run::{Case, Scenario, ScenarioFile, WindChoice, draw};
use peewit::units::{Length, Time};

use crate::support::near;

const DRAWN: u32 = 6000;
/// Shares within one standard deviation of the mean: normal (tables), uniform (1 / sqrt 3).
const NORMAL: f64 = 0.682_69;
const EVEN: f64 = 0.577_35;

/// So many drawn cases of the demo with an edit.
fn drawn(edit: impl FnOnce(&mut ScenarioFile)) -> Vec<Case> {
    let mut file = crate::support::tight_strip().file;
    edit(&mut file);
    let scenario = Scenario::from_file(file).unwrap();
    (1..=u64::from(DRAWN)).map(|case| draw(&scenario, case, WindChoice::Mean)).collect()
}

/// Mean, spread and share within one spread of the mean, each within four of its own standard errors.
#[track_caller]
fn check(cases: &[Case], value: impl Fn(&Case) -> f64, mean: f64, sd: f64, within: f64) {
    let n = f64::from(DRAWN);
    let values: Vec<f64> = cases.iter().map(value).collect();
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
        let cases = drawn(|file| file.recovery.perception.flew_early = early);
        check(&cases, |case| case.plan.home_error_x, 0.0, sd, NORMAL);
        check(&cases, |case| case.plan.home_error_y, 0.0, sd, NORMAL);
    }
}

#[test]
fn height_is_known_within_4_m_and_an_even_drift_of_1_hpa() {
    // 100 Pa / (1.225 kg/m^3 x 9.80665 m/s^2) = 8.32 m.
    let none = Length::new(0.0);
    let cases = drawn(|file| file.recovery.perception.height_drift = none);
    check(&cases, |case| case.plan.height_error, 0.0, 4.0, NORMAL);
    let cases = drawn(|file| file.recovery.perception.height_error = none);
    check(&cases, |case| case.plan.height_error, 0.0, 8.3 / 3.0_f64.sqrt(), EVEN);
    assert!(cases.iter().all(|case| case.plan.height_error.abs() <= 8.3));
    let both = drawn(|_| ());
    let variance = 16.0 + 8.3 * 8.3 / 3.0;
    let n = f64::from(DRAWN);
    let found = both.iter().map(|case| case.plan.height_error.powi(2)).sum::<f64>() / n;
    near(found, variance, 4.0 * variance * (2.0 / n).sqrt());
    check(&both, |case| case.plan.static_error, 0.0, 0.05, NORMAL);
}

#[test]
fn recognition_is_even_between_half_a_second_and_two() {
    let sd = 1.5 / 12.0_f64.sqrt();
    let cases = drawn(|file| file.recovery.recognition = Entry::si(1.25, sd, Origin::Default));
    check(&cases, |case| case.plan.recognition, 1.25, sd, EVEN);
    assert!(cases.iter().all(|case| (0.5 - 1e-9..=2.0 + 1e-9).contains(&case.plan.recognition)));
}

#[test]
fn hand_back_is_log_normal_with_its_middle_between_17_and_32_s() {
    let cases = drawn(|_| ());
    let (mean, sd) = (23.6_f64, 3.8_f64);
    let sigma = (sd / mean * sd / mean).ln_1p().sqrt();
    check(&cases, |case| case.plan.hand_back.ln(), f64::ln(mean) - sigma * sigma / 2.0, sigma, NORMAL);
    let inside = cases.iter().filter(|case| (17.0..=32.0).contains(&case.plan.hand_back)).count();
    near(inside as f64 / f64::from(DRAWN), 0.95, 0.015);
    let timed = drawn(|file| file.limits.hand_back.value = Time::new(40.0));
    assert!(timed.iter().map(|case| case.plan.hand_back).sum::<f64>() > 39.0 * f64::from(DRAWN));
}

#[test]
fn law_and_firmness_are_drawn_from_what_no_log_has_ruled_out() {
    let share = |cases: &[Case], which: &dyn Fn(&Case) -> bool| {
        cases.iter().filter(|case| which(case)).count() as f64 / f64::from(DRAWN)
    };
    let all = drawn(|_| ());
    for guidance in Guidance::ALL {
        for firmness in Firmness::ALL {
            let found = share(&all, &|case| (case.guidance, case.firmness) == (guidance, firmness));
            near(found, 1.0 / 9.0, 4.0 * (8.0 / 81.0 / f64::from(DRAWN)).sqrt());
        }
    }
    let left = drawn(|file| file.recovery.laws_ruled_out = vec![Guidance::RingField, Guidance::StraightAt]);
    assert!(left.iter().all(|case| case.guidance == Guidance::LookAhead && case.plan.law == 1.0));
    let mut file = crate::support::tight_strip().file;
    (file.recovery.guidance, file.recovery.firmness) = (Guidance::StraightAt, Firmness::Sharp);
    let plain = draw(&Scenario::from_file(file).unwrap(), 0, WindChoice::Mean);
    assert_eq!((plain.guidance, plain.firmness), (Guidance::StraightAt, Firmness::Sharp));
}

#[test]
fn all_laws_ruled_out_leave_no_plan() {
    let mut file = crate::support::tight_strip().file;
    file.recovery.laws_ruled_out = Guidance::ALL.to_vec();
    let faults = Scenario::from_file(file).unwrap_err();
    assert!(format!("{faults:?}").contains("/recovery/laws_ruled_out"), "{faults:?}");
}
