//! Once round the circle, bearing by bearing: the bank and speed flown against the closed form of a perfect circle.

use std::f64::consts::PI;

use peewit::jet::turn::on_circle;
use peewit::margins::{Lap, judge, lap};
use peewit::recovery::Turn;
use peewit::run::{Scenario, ScenarioFile, WindChoice, fly};
use peewit::units::G0;

use crate::support::{at_speed, brisk, circle, eastward, maximum_bank, near, open};

const SPEED: f64 = 24.0;
const RADIUS: f64 = 190.0;

/// The ideal tracker round 190 m at 24 m/s, in a wind that blows to the east.
fn tracked(wind: f64, turn: Turn, edit: impl FnOnce(&mut ScenarioFile)) -> Scenario {
    open(|file| {
        brisk(file);
        at_speed(file, SPEED);
        eastward(file, wind);
        maximum_bank(file, 35.0);
        circle(file, RADIUS, 3.0);
        file.recovery.turn = turn;
        edit(file);
    })
}

fn flown(scenario: &Scenario) -> Lap {
    let run = fly(scenario, 0, WindChoice::Mean);
    let lap = lap(scenario, &run).expect("a whole lap");
    assert_eq!((lap.at_deg.len(), lap.at_deg[0], lap.at_deg[18]), (72, 0.0, 90.0));
    let lists = [&lap.bank_deg, &lap.needed_bank_deg, &lap.load, &lap.ground_speed_mps, &lap.airspeed_mps];
    assert!(lists.into_iter().chain([&lap.stall_margin_mps, &lap.distance_m]).all(|list| list.len() == 72));
    assert_eq!(lap.saturated.len(), 72);
    // What the margins of the run say of the same lap.
    let figures = judge(scenario, &run).figures;
    let furthest = lap.distance_m.iter().copied().fold(0.0, f64::max);
    near(furthest, figures.furthest_m.unwrap(), 0.5);
    let share = lap.saturated.iter().filter(|&&saturated| saturated).count() as f64 / 72.0;
    near(share, figures.saturated_share.unwrap(), 0.12);
    lap
}

#[test]
fn a_calm_lap_is_the_same_all_the_way_round() {
    for turn in [Turn::Clockwise, Turn::Anticlockwise] {
        let scenario = tracked(0.0, turn, |_| ());
        let lap = flown(&scenario);
        assert_eq!(lap.turn, turn);
        // Closed form: tan bank is V^2 / (g R), the load 1 / cos bank.
        let bank = (SPEED.powi(2) / (G0 * RADIUS)).atan();
        for index in 0..72 {
            near(lap.needed_bank_deg[index], bank.to_degrees(), 1e-9);
            near(lap.bank_deg[index], bank.to_degrees(), 0.3);
            near(lap.load[index], 1.0 / bank.cos(), 0.01);
            near(lap.ground_speed_mps[index], SPEED, 0.1);
            near(lap.distance_m[index], RADIUS, 0.3);
            assert!(!lap.saturated[index]);
        }
    }
}

/// Bearing from the centre where the course is straight downwind, in a wind to the east, as a number into the lists.
fn downwind(turn: Turn) -> usize {
    // Clockwise it flies east when north of the centre, anticlockwise when south of it.
    if turn == Turn::Clockwise { 0 } else { 36 }
}

fn peak(list: &[f64]) -> usize {
    (0..list.len()).max_by(|&a, &b| list[a].total_cmp(&list[b])).unwrap()
}

#[test]
fn bank_and_speed_peak_with_the_wind_behind() {
    for turn in [Turn::Clockwise, Turn::Anticlockwise] {
        for wind in [4.0, 8.0] {
            let lap = flown(&tracked(wind, turn, |_| ()));
            let (tail, head) = (downwind(turn), (downwind(turn) + 36) % 72);
            // Closed form: (V + W)^2 / (g R) with the wind behind, (V - W)^2 / (g R) against it.
            for (at, ground) in [(tail, SPEED + wind), (head, SPEED - wind)] {
                let bank = (f64::powi(ground, 2) / (G0 * RADIUS)).atan().to_degrees();
                near(lap.needed_bank_deg[at], bank, 1e-9);
                near(lap.bank_deg[at], bank, 0.5);
                near(lap.ground_speed_mps[at], ground, 0.2);
            }
            assert_eq!(peak(&lap.needed_bank_deg), tail);
            for list in [&lap.bank_deg, &lap.ground_speed_mps, &lap.load] {
                let off = (peak(list) + 72 - tail) % 72;
                assert!(off.min(72 - off) <= 2, "{off}");
            }
            // All the way round: the course is a quarter turn ahead of the bearing.
            for index in 0..72_usize {
                let from_tail = 2.0 * PI * (index as f64 - tail as f64) / 72.0;
                let (ground, bank) = on_circle(SPEED, wind, RADIUS, from_tail);
                near(lap.needed_bank_deg[index], bank.to_degrees(), 1e-9);
                near(lap.ground_speed_mps[index], ground, 0.25);
            }
        }
    }
}

#[test]
fn the_stall_margin_is_that_of_the_margins() {
    let scenario = tracked(8.0, Turn::Clockwise, |_| ());
    let run = fly(&scenario, 0, WindChoice::Mean);
    let lap = lap(&scenario, &run).unwrap();
    for index in 0..72 {
        let stall = run.drawn.jet.stall_speed(lap.load[index]);
        let expected = lap.airspeed_mps[index] - scenario.file.limits.stall_factor * stall;
        near(lap.stall_margin_mps[index], expected, 1e-9);
    }
    // Least where the load is greatest, since the ideal tracker keeps its airspeed.
    let least = (0..72).min_by(|&a, &b| lap.stall_margin_mps[a].total_cmp(&lap.stall_margin_mps[b])).unwrap();
    near(lap.load[least], lap.load[peak(&lap.load)], 0.01);
}

#[test]
fn too_small_a_circle_saturates_where_the_closed_form_asks_for_more_than_the_limit() {
    let lap = flown(&tracked(8.0, Turn::Clockwise, |file| circle(file, 120.0, 3.0)));
    let tail = downwind(Turn::Clockwise);
    assert!(lap.needed_bank_deg[tail] > 35.0 && lap.saturated[tail] && !lap.saturated[(tail + 36) % 72]);
    assert!(lap.bank_deg.iter().all(|&bank| bank < 35.5));
    // Closed form: the trochoid at the limit reaches 149.5 m.
    near(lap.distance_m[peak(&lap.distance_m)], 149.5, 0.6);
}

#[test]
fn there_is_no_lap_where_none_was_flown() {
    let cut =
        tracked(0.0, Turn::Clockwise, |file| file.recovery.failsafe_action = peewit::recovery::FailsafeAction::Cut);
    assert_eq!(lap(&cut, &fly(&cut, 0, WindChoice::Mean)), None);
    // Taken over before it is round: the wind is more than it can come home against.
    let blown = tracked(26.0, Turn::Clockwise, |_| ());
    assert_eq!(lap(&blown, &fly(&blown, 0, WindChoice::Mean)), None);
}
