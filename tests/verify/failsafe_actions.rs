//! What each failsafe action and each kind of loss comes to, against what a hand reckons.

use peewit::margins::Limit;
use peewit::recovery::FailsafeAction;
use peewit::run::{Ending, LossKind, Stretch};
use peewit::units::{Angle, Length, Time};

use crate::support::{at_speed, brisk, close, eastward, flown, maximum_bank, near, open};

#[test]
fn a_cut_glides_the_ratio_times_the_height_in_still_air() {
    let scenario = open(|file| {
        eastward(file, 0.0);
        file.recovery.failsafe_action = FailsafeAction::Cut;
        file.loss.height = Length::new(120.0);
    });
    let (run, margins) = flown(&scenario);
    assert_eq!(run.ending, Ending::Landed);
    // Closed form, after the way flown before anything noticed; the glide is not all flown at its flattest.
    let silent = run.drawn.plan.failsafe_delay * run.drawn.start.airspeed;
    let reach = run.drawn.jet.glide_ratio() * 120.0;
    close(margins.figures.drift_m - silent, reach, 0.05);
    assert!(run.trace.stretch.iter().all(|&stretch| matches!(stretch, Stretch::BeforeFailsafe | Stretch::Gliding)));
    // It is meant to end on the ground, so the ground is no limit; and it is not meant to come home.
    assert!(!margins.rows.iter().any(|row| matches!(row.limit, Limit::Ground | Limit::TimeHome)));
    assert!(margins.remarks.iter().any(|remark| remark.starts_with("Comes down")));
}

#[test]
fn a_cut_drifts_with_the_wind_all_the_way_down() {
    let reach = |wind: f64| {
        let scenario = open(|file| {
            eastward(file, wind);
            file.recovery.failsafe_action = FailsafeAction::Cut;
        });
        let (run, margins) = flown(&scenario);
        (run.trace.x_m.last().unwrap() - run.trace.x_m[0], margins.end_s)
    };
    let ((still, seconds), (with, same)) = (reach(0.0), reach(8.0));
    near(seconds, same, 1e-9);
    // Closed form: wind times time; the nose points east.
    near(with - still, 8.0 * seconds, 1e-6);
}

#[test]
fn a_wait_before_the_cut_flies_on_that_much_further() {
    let scenario = open(|file| {
        eastward(file, 0.0);
        file.recovery.failsafe_action = FailsafeAction::WaitThenCut;
        file.recovery.wait = Time::new(8.0);
    });
    let (run, _) = flown(&scenario);
    assert_eq!(run.ending, Ending::Landed);
    let cut = run.trace.stretch.iter().position(|&stretch| stretch == Stretch::Gliding).unwrap();
    near(run.trace.time_s(cut), run.drawn.plan.failsafe_delay + 8.0, 0.11);
    // Closed form: wings level at the return speed, which is that of the loss, until then.
    near(run.trace.point(cut).distance(run.trace.point(0)), 22.0 * run.trace.time_s(cut), 1.0);
    assert!(run.trace.stretch.contains(&Stretch::Waiting));
}

#[test]
fn a_glide_in_a_bank_comes_down_near_where_it_was_cut() {
    let drift = |bank: f64| {
        let scenario = open(|file| {
            eastward(file, 0.0);
            file.recovery.failsafe_action = FailsafeAction::Cut;
            file.recovery.glide_bank = Angle::new(bank);
        });
        flown(&scenario).1.figures.drift_m
    };
    assert!(drift(0.5) < 150.0 && drift(-0.5) < 150.0 && drift(0.0) > 400.0);
}

#[test]
fn without_a_position_it_drifts_with_the_wind() {
    let scenario = open(|file| {
        eastward(file, 8.0);
        file.loss.kind = LossKind::Position;
        file.limits.take_over.value = Time::new(60.0);
    });
    let (run, margins) = flown(&scenario);
    assert_eq!(run.ending, Ending::TakenOver);
    near(margins.end_s, 60.0 + run.drawn.plan.failsafe_delay, 0.11);
    // Closed form: 480 m in a minute at 8 m/s, about which it circles: within a turn's diameter at the held bank.
    let around = 2.0 * peewit::jet::turn::radius(22.0, run.drawn.plan.drift_bank.abs());
    near(run.trace.x_m.last().unwrap() - run.trace.x_m[0], 8.0 * margins.end_s, around);
    assert!(run.trace.stretch.contains(&Stretch::Drifting) && !run.trace.stretch.contains(&Stretch::HeadingHome));
    assert!(margins.remarks.iter().any(|remark| remark.contains("Without a position it drifts")));
}

#[test]
fn a_lost_video_leaves_the_sticks_where_they_were_until_the_pilot_acts() {
    let scenario = open(|file| {
        eastward(file, 0.0);
        file.loss.kind = LossKind::Video;
        let home = file.field.as_ref().unwrap().home_m;
        file.loss.at_m = [home[0] + 400.0, home[1]];
        file.loss.heading = peewit::units::Bearing::from_deg(90.0);
        file.recovery.failsafe_delay.value = Time::new(4.0);
    });
    let (run, margins) = flown(&scenario);
    assert_eq!(run.ending, Ending::TakenOver);
    let acts = run.trace.stretch.iter().position(|&stretch| stretch > Stretch::BeforeFailsafe).unwrap();
    near(run.trace.time_s(acts), 4.0, 0.11);
    // Closed form: blind for 4 s at 22 m/s.
    near(run.trace.point(acts).distance(run.trace.point(0)), 22.0 * run.trace.time_s(acts), 0.01);
    // And that much further from the centre, nearly along a radius, before it turns.
    assert!(margins.figures.turn_back_m > 87.0);
    assert!(margins.remarks.iter().any(|remark| remark.contains("the pilot gives the command")));
}

#[test]
fn turning_back_takes_the_room_of_the_trochoid() {
    // Closed form: 1.5 s straight on with 8 m/s of wind behind, then a turn at 35 deg until the path is square to the
    // wind: 180.5 m at 24 m/s, and 382.9 m from a fast pass at 40 m/s.
    for (speed, expected) in [(24.0, 180.5), (40.0, 382.9)] {
        let scenario = open(|file| {
            brisk(file);
            at_speed(file, speed);
            eastward(file, 8.0);
            maximum_bank(file, 35.0);
            file.loss.at_m = [6000.0, 0.0];
            file.recovery.height = file.loss.height;
            file.recovery.failsafe_delay.value = Time::new(1.5);
        });
        let (run, margins) = flown(&scenario);
        let furthest = run.trace.x_m.iter().copied().fold(0.0, f64::max) - 6000.0;
        near(furthest, expected, 0.01 * expected);
        // From the centre, 6 km off, it is at most the way aside squared over twice that further.
        let aside = 2.0 * peewit::jet::turn::radius(speed, 35.0_f64.to_radians());
        let found = margins.figures.turn_back_m;
        assert!(found >= furthest && found <= furthest + aside.powi(2) / 12_000.0, "{found} {furthest}");
    }
}

#[test]
fn both_lost_is_flown_as_a_lost_control() {
    let margins = |kind: LossKind| flown(&open(|file| file.loss.kind = kind)).1.rows;
    assert_eq!(margins(LossKind::Both), margins(LossKind::Control));
}

#[test]
fn stretches_come_in_their_order() {
    for scenario in crate::support::shipped() {
        let (run, _) = flown(&scenario);
        assert!(run.trace.stretch.windows(2).all(|pair| pair[0] <= pair[1]), "{}", scenario.file.name);
        // Where the battery does not last, the run ends on the circle.
        let last = if run.ending == Ending::Empty { Stretch::Circling } else { Stretch::TakenOver };
        assert_eq!(run.trace.stretch.last(), Some(&last), "{}", scenario.file.name);
    }
}
