//! No number that a scenario may hold makes anything panic, go on for ever, or give a margin that is no number (V26).

use peewit::jet::turn::{blown_wide, lap_time, on_circle, smallest_radius, wind_limit};
use peewit::margins::{Margins, judge};
use peewit::run::{LONGEST_S, WindChoice, fly};
use proptest::prelude::*;

use crate::support::dice::Dice;
use crate::support::path::drawn_path;

/// Whether every number among the margins is one.
fn finite(margins: &Margins) -> Result<(), TestCaseError> {
    for row in &margins.rows {
        let numbers = [row.margin, row.buffer, row.at_s, row.at.x, row.at.y, row.height_m];
        prop_assert!(numbers.iter().all(|number| number.is_finite()), "{row:?}");
    }
    let figures = &margins.figures;
    let some =
        [figures.furthest_m, figures.joining_overshoot_m, figures.lap_s, figures.home_s, figures.laps_to_reserve];
    let all = some.into_iter().flatten().chain(figures.smallest_radius_m).chain(figures.wind_at_circle_mps);
    let rest = [figures.turn_back_m, figures.energy_left_j, figures.drift_m, figures.glide_footprint_m];
    prop_assert!(all.chain(rest).all(f64::is_finite), "{figures:?}");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn any_scenario_can_be_flown_and_judged(seed: u64, trial in 0..50_u64, gust: bool) {
        let Some(scenario) = Dice::new(seed).scenario() else { return Ok(()) };
        let run = fly(&scenario, trial, if gust { WindChoice::Gust } else { WindChoice::Mean });
        let trace = &run.trace;
        prop_assert!(!trace.is_empty() && trace.time_s(trace.len() - 1) <= LONGEST_S + 1.0);
        let lists = [&trace.x_m, &trace.y_m, &trace.height_m, &trace.airspeed_mps, &trace.nose_x, &trace.nose_y];
        let more = [&trace.bank_rad, &trace.load, &trace.energy_j];
        for list in lists.into_iter().chain(more) {
            let first = list.iter().position(|value| !value.is_finite());
            prop_assert!(first.is_none(), "sample {first:?} of {}: {:?} {:?} {:?}", trace.len(), run.drawn.jet, run.drawn.start, scenario.file.recovery);
        }
        finite(&judge(&scenario, &run))?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(20_000))]

    #[test]
    fn any_path_can_be_judged(
        seed: u64,
        corners in prop::collection::vec([-900.0..900.0_f64, -900.0..900.0_f64, -50.0..400.0_f64], 1..12),
        step_s in 0.01..5.0_f64,
    ) {
        let Some(scenario) = Dice::new(seed).scenario() else { return Ok(()) };
        finite(&judge(&scenario, &drawn_path(&scenario, &corners, step_s)))?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(70_000))]

    #[test]
    fn closed_forms_answer_everything(v in 1.0..100.0_f64, w in 0.0..100.0_f64, r in 1.0..2000.0_f64, bank in 0.01..1.4_f64, off in -7.0..7.0_f64) {
        // A circle is no smaller than the smallest in a wind exactly where the wind is no more than its most_wind.
        let most_wind = wind_limit(v, r, bank);
        prop_assert!((w - most_wind).abs() < 1e-9 || (smallest_radius(v, w, bank) < r) == (w < most_wind), "{most_wind}");
        prop_assert_eq!(lap_time(v, w, r).is_some(), w < v);
        if w < v {
            let (ground, wanted) = on_circle(v, w, r, off);
            prop_assert!(ground > 0.0 && (0.0..std::f64::consts::FRAC_PI_2).contains(&wanted), "{ground} {wanted}");
            // The smallest circle takes all of the bank downwind, and no more anywhere.
            let smallest = smallest_radius(v, w, bank);
            prop_assert!((on_circle(v, w, smallest, 0.0).1 - bank).abs() < 1e-9);
            prop_assert!(on_circle(v, w, smallest, off).1 < bank + 1e-9);
            prop_assert!(lap_time(v, w, r).is_some_and(|lap| lap.is_finite() && lap * v >= std::f64::consts::TAU * r * (1.0 - 1e-12)));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn blown_wide_is_never_inside_the_circle(v in 3.0..60.0_f64, share in 0.0..0.99_f64, r in 5.0..500.0_f64, bank in 0.1..1.2_f64) {
        let furthest = blown_wide(v, v * share, r, bank).unwrap_or_default();
        prop_assert!(furthest >= r * (1.0 - 1e-12), "{furthest}");
        // Where the limit holds the circle, the circle it is.
        prop_assert!(smallest_radius(v, v * share, bank) > r || furthest == r);
    }
}

#[test]
fn most_of_the_random_scenarios_are_scenarios() {
    assert!((0..200).filter(|&seed| Dice::new(seed).scenario().is_some()).count() > 100);
}
