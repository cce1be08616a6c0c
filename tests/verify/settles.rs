//! Where each law ends up, with the demo's own jet and senses: on the ring in still air, and one of them not in wind.

use glam::DVec2;
use peewit::recovery::{Gain, Guidance, Turn};
use peewit::run::{Run, Stretch};

use crate::support::{at_speed, circle, eastward, flown, maximum_bank, near, open};

/// Round 120 m at 22 m/s in a wind to the east.
fn circling(law: Guidance, gain: Gain, turn: Turn, wind: f64) -> Run {
    let scenario = open(|file| {
        eastward(file, wind);
        at_speed(file, 22.0);
        maximum_bank(file, 45.0);
        circle(file, 120.0, 5.0);
        (file.recovery.guidance, file.recovery.gain) = (law, gain);
        file.recovery.turn = turn;
    });
    flown(&scenario).0
}

/// Least and most distance from the centre in the last part of the circling, and the middle of where it was.
fn last_laps(run: &Run) -> (f64, f64, DVec2) {
    let trace = &run.trace;
    let first = trace.stretch.iter().position(|&stretch| stretch == Stretch::Circling).expect("reaches the circle");
    let points: Vec<DVec2> = ((first + trace.len()) / 2..trace.len()).map(|i| trace.point(i)).collect();
    let low = points.iter().fold(DVec2::INFINITY, |low, &point| low.min(point));
    let high = points.iter().fold(DVec2::NEG_INFINITY, |high, &point| high.max(point));
    let distances = || points.iter().map(|point| point.length());
    (distances().fold(f64::INFINITY, f64::min), distances().fold(0.0, f64::max), low.midpoint(high))
}

#[test]
fn every_law_settles_on_the_ring_in_still_air() {
    for law in Guidance::ALL {
        for (gain, firm) in [(Gain::Soft, 2.0 / 3.0), (Gain::Nominal, 1.0), (Gain::Sharp, 1.5)] {
            // The nose-on-the-centre law holds its nose of now against a place of 0.1 s ago, V / R x 0.1 s = d of the
            // ring behind. It must fly wide by what turns the field by d, and by d / (gain lead) for the feed-forward
            // that takes the same d for a way inward: together V lead d (1 + 1 / (gain lead)), with 3 s and 0.8 / s as
            // nominal.
            let (lead, correction) = (3.0 / firm, 0.8 * firm);
            let behind = 0.1 * 22.0 / 120.0;
            let wide = if law == Guidance::NoseOnTheCentre {
                22.0 * lead * behind * (1.0 + 1.0 / (correction * lead))
            } else {
                0.0
            };
            for turn in [Turn::Clockwise, Turn::Anticlockwise] {
                let (least, most, _) = last_laps(&circling(law, gain, turn, 0.0));
                println!("{law:?} {gain:?} {turn:?}: {least:.2} to {most:.2} m");
                near(least, 120.0 + wide, 0.2);
                near(most, 120.0 + wide, 0.2);
            }
        }
    }
}

#[test]
fn the_nose_drifts_downwind_and_the_path_does_not() {
    for turn in [Turn::Clockwise, Turn::Anticlockwise] {
        for law in [Guidance::FieldOfDirections, Guidance::LookAhead] {
            let (_, _, middle) = last_laps(&circling(law, Gain::Nominal, turn, 5.0));
            assert!(middle.length() < 5.0, "{law:?} {middle}");
        }
        let (_, _, middle) = last_laps(&circling(Guidance::NoseOnTheCentre, Gain::Nominal, turn, 5.0));
        assert!(middle.x > 10.0, "{middle}");
    }
}
