//! What a flight can not do: be shorter than the shortest path (V13), or gain from more wind or more buffer (V24).

use glam::DVec2;
use peewit::jet::turn::{radius, smallest_radius, wind_limit};
use peewit::margins::Verdict;
use peewit::run::{Scenario, Stretch};
use peewit::units::{Bearing, Length};
use proptest::{prelude::ProptestConfig, prop_assert, proptest};

use crate::support::{dubins, eastward, flown, near, open};

/// Way flown from the loss to the circle in still air, and the shortest way there with the tightest turn that was flown.
fn ways(scenario: &Scenario) -> (f64, f64) {
    let (run, _) = flown(scenario);
    let trace = &run.trace;
    let reached = trace.stretch.iter().position(|&stretch| stretch == Stretch::Circling).expect("reaches the circle");
    let way: f64 = (0..reached).map(|i| trace.point(i).distance(trace.point(i + 1))).sum();
    let samples = 0..=reached;
    let slowest = samples.clone().map(|i| trace.airspeed_mps[i]).fold(f64::INFINITY, f64::min);
    let steepest = samples.map(|i| trace.bank_rad[i].abs()).fold(0.0, f64::max);
    let pose = |i: usize| (trace.point(i), DVec2::new(trace.nose_x[i], trace.nose_y[i]));
    (way, dubins::between(pose(0), pose(reached), radius(slowest, steepest.max(0.01))))
}

fn lost_at(x: f64, y: f64, heading: f64) -> Scenario {
    open(|file| {
        eastward(file, 0.0);
        file.loss.at_m = [x, y];
        file.loss.heading = Bearing::from_deg(heading);
        file.recovery.height = file.loss.height;
        file.recovery.laps = 0.5;
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn no_flight_is_shorter_than_the_shortest_path(x in -600.0..600.0_f64, y in -600.0..600.0_f64, heading in 0.0..360.0_f64) {
        let (way, shortest) = ways(&lost_at(x, y, heading));
        // The corners that samples cut off a turn are a ten-thousandth of it.
        prop_assert!(way >= shortest * (1.0 - 2e-4), "flown {way}, shortest {shortest}");
    }

    #[test]
    fn more_wind_never_lowers_the_smallest_radius(v in 5.0..60.0_f64, w in 0.0..40.0_f64, more in 0.0..20.0_f64, bank in 0.1..1.0_f64) {
        prop_assert!(smallest_radius(v, w + more, bank) >= smallest_radius(v, w, bank));
        prop_assert!(smallest_radius(v + more, w, bank) >= smallest_radius(v, w, bank));
    }

    #[test]
    fn the_wind_limit_is_where_the_smallest_radius_is_the_radius(v in 5.0..60.0_f64, w in 0.0..40.0_f64, bank in 0.1..1.0_f64) {
        // Closed form: two views of one inequality.
        prop_assert!((wind_limit(v, smallest_radius(v, w, bank), bank) - w).abs() < 1e-9);
    }
}

#[test]
fn the_bound_is_near_what_is_flown() {
    // Straight at the ring's tangent the flight is all but the shortest path, so that the bound has something to say.
    let (way, shortest) = ways(&lost_at(600.0, 115.0, 270.0));
    near(way / shortest, 1.0, 0.05);
}

#[test]
fn more_wind_never_lowers_the_reported_smallest_radius_nor_more_buffer_the_verdict() {
    let mut before = [0.0; 3];
    for wind in [0.0, 2.0, 5.0, 9.0, 14.0, 21.0] {
        let (_, margins) = flown(&open(|file| eastward(file, wind)));
        let now = margins.figures.smallest_radius_m;
        assert!(now.iter().zip(before).all(|(now, before)| *now >= before), "{now:?} {before:?}");
        before = now;
    }
    let mut worst: Vec<Verdict> = vec![];
    for buffer in [0.0, 5.0, 20.0, 60.0, 500.0] {
        let mut file = crate::support::tight_strip().file;
        file.limits.buffer = Length::new(buffer);
        file.limits.height_buffer = Length::new(buffer);
        file.wind.gust = Some(file.wind.mean);
        let (_, margins) = flown(&Scenario::from_file(file).unwrap());
        let now: Vec<Verdict> = margins.rows.iter().map(|row| row.verdict).collect();
        assert!(worst.iter().zip(&now).all(|(before, now)| now >= before), "{worst:?} {now:?}");
        worst = now;
    }
}
