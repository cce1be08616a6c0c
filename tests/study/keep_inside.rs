//! The keep-inside line: whether it lies between what closed forms allow, whether fresh losses at it are recovered as often
//! as it says, and whether it says where there is none.

use glam::DVec2;
use peewit::field::{CircuitFile, Way};
use peewit::margins::Scorer;
use peewit::recovery::FailsafeAction;
use peewit::run::{Scenario, ScenarioFile, WindChoice, draw};
use peewit::study::keep_inside::{Headings, KeepAsk, KeepInside, KeepLine, Pace, keep_inside};
use peewit::study::losses::{Replay, roll_delay_s, turn_back_m};
use peewit::study::stats::Share;
use peewit::study::work::Work;
use peewit::units::{Length, Quantity, Ratio, Speed};

use super::whole::on_threads;
use crate::support::{circle, eastward, open};

/// A square of 1 km with nothing in it, a circle of 120 m in its middle and no height limit.
fn room(edit: impl FnOnce(&mut ScenarioFile)) -> Scenario {
    open(|file| {
        let half = 500.0;
        file.field.as_mut().unwrap().boundary.ring_m = vec![[-half, -half], [half, -half], [half, half], [-half, half]];
        file.limits.height_limit = None;
        // Far from where it is lost: it is asked about room, not about people.
        file.field.as_mut().unwrap().pilot_m = [0.0, -450.0];
        // It is asked about room: no pack runs short.
        file.jet.capacity.value = Quantity::from_si(2.0 * file.jet.capacity.value.si());
        eastward(file, 4.0);
        circle(file, 120.0, 1.0);
        edit(file);
    })
}

fn ask(scenario: &Scenario) -> KeepAsk {
    KeepAsk { bearings: 8, step_m: 20.0, most: 640, ..KeepAsk::usual(scenario) }
}

fn found(scenario: &Scenario) -> KeepInside {
    keep_inside(scenario, &ask(scenario), &Work::default())
}

/// Fresh losses from a ring of places that crossed a limit, on headings spread evenly.
fn crossed(scenario: &Scenario, line: &KeepLine, places: &[DVec2]) -> Share {
    let mut fresh = scenario.clone();
    fresh.file.seed += 77;
    let scorer = Scorer::new(&fresh);
    let each = 400;
    let height_m = fresh.file.loss.height.m();
    let losses = places.iter().enumerate().flat_map(|(place, &at)| {
        (0..each).map(move |number| (place as u64 * each + number + 1, at, number as f64 * 360.0 / each as f64))
    });
    let trials: Vec<_> = losses
        .map(|(trial, at, heading_deg)| {
            let drawn = draw(&fresh, trial, WindChoice::Mean);
            let speed_mps = if line.pace == Pace::Return { drawn.jet.return_speed } else { line.speed_mps };
            drawn.lost(&Replay { at, heading_deg, height_m, speed_mps, trial }.loss(&fresh))
        })
        .collect();
    let scores = scorer.score(&trials);
    Share { count: scores.iter().filter(|score| score.crossed).count() as u64, of: scores.len() as u64 }
}

#[test]
fn fresh_losses_are_recovered_inside_and_not_outside() {
    let scenario = room(|_| {});
    let keep = found(&scenario);
    assert!(!keep.partial && keep.lines.len() == 2);
    for line in &keep.lines {
        assert!(line.bounds.len() == 8 && line.headings == Headings::Any, "{line:?}");
        assert!(line.bounds.iter().all(|bounds| bounds.inside_m < bounds.outside_m), "{line:?}");
        // All places together, headings evenly: fewer cross than of the worst headings, of which it is asked.
        let inside = crossed(&scenario, line, &line.ring(keep.centre));
        assert!(inside.wilson(0.999).low <= 0.01, "{inside:?} {line:?}");
        let outside = crossed(&scenario, line, &line.outside(keep.centre));
        // Of the worst quarter of the headings more than 1 in 100 cross there, so of all of them more than a quarter of that.
        assert!(outside.wilson(0.999).low > 0.01 / 4.0, "{outside:?} {line:?}");
    }
    let [slow, fast] = [&keep.lines[0], &keep.lines[1]];
    assert!(fast.speed_mps > slow.speed_mps + 5.0);
    let mut both = fast.bounds.iter().zip(&slow.bounds);
    assert!(both.all(|(fast, slow)| fast.outside_m < slow.outside_m), "who flies faster needs more room: {keep:?}");
}

#[test]
fn in_a_calm_it_lies_between_a_turn_from_straight_out_and_the_worst_heading() {
    let scenario = room(|file| eastward(file, 0.0));
    let keep = found(&scenario);
    let trial = draw(&scenario, 0, WindChoice::Mean);
    let (jet, speed) = (&trial.jet, trial.jet.return_speed);
    let delay = trial.plan.failsafe_delay
        + scenario.file.recovery.perception.delay.s()
        + roll_delay_s(jet.maximum_bank, jet.roll_lag, jet.roll_rate);
    let line = keep.line(Headings::Any, Pace::Return).unwrap();
    let radius = speed * speed / (peewit::units::G0 * jet.maximum_bank.tan());
    // To the north, east, south and west the side is square to the direction. A jet straight out needs `t V + r` at least
    // (closed form), one on the worst heading and the wrong way round `r + sqrt(r^2 + (t V)^2)`; numbers drawn off their
    // middle and a wind that is not quite none may need half as much again.
    let (straight, worst) = (delay * speed + radius, turn_back_m(speed, 0.0, jet.maximum_bank, delay));
    for bearing in [0, 2, 4, 6] {
        let bounds = line.bounds[bearing];
        assert!(bounds.inside_m <= 500.0 - straight, "{bearing}: {bounds:?} {straight}");
        assert!(bounds.outside_m >= 500.0 - 1.5 * worst, "{bearing}: {bounds:?} {worst}");
    }
}

#[test]
fn where_the_circle_itself_crosses_there_is_none_and_it_is_said() {
    // Each of the four sides is 1 m off, and the home that the circle goes about off by 3 m (one deviation) east and north:
    // a whole lap stays inside with a chance of (2 Phi(1 / 3) - 1)^2 = 7 %.
    let scenario = room(|file| circle(file, 499.0, 1.0));
    for line in found(&scenario).lines {
        assert!(line.bounds.is_empty() && 2 * line.centre.count > line.centre.of, "{line:?}");
        assert_eq!(line.limit, Some(0), "the boundary");
    }
    let cut = room(|file| file.recovery.failsafe_action = FailsafeAction::Cut);
    assert!(found(&cut).lines.is_empty());
}

#[test]
fn on_a_circuit_along_the_sides_it_lies_further_out_than_on_any_heading() {
    let scenario = room(|file| {
        let half = 450.0;
        file.field.as_mut().unwrap().circuit = Some(CircuitFile {
            line_m: vec![[-half, -half], [half, -half], [half, half], [-half, half]],
            area_m: vec![],
            way: Way::Both,
            width: Length::new(15.0),
            lowest: Length::new(60.0),
            highest: Length::new(90.0),
            slowest: Speed::new(20.0),
            fastest: Speed::new(30.0),
            charge_low: Ratio::new(0.9),
            charge_high: Ratio::new(1.0),
        });
    });
    let keep = found(&scenario);
    let lines = keep.lines.iter().map(|line| (line.headings, line.pace)).collect::<Vec<_>>();
    let both = |headings| [(headings, Pace::Return), (headings, Pace::Fastest)];
    assert_eq!(lines, [both(Headings::Any), both(Headings::Circuit)].concat());
    for pace in [Pace::Return, Pace::Fastest] {
        let [any, circuit] = [Headings::Any, Headings::Circuit].map(|headings| keep.line(headings, pace).unwrap());
        assert!(pace == Pace::Return || (any.speed_mps, circuit.speed_mps) == (30.0, 30.0));
        // North, east, south and west, where the circuit goes along the side.
        let sum = |line: &KeepLine| [0, 2, 4, 6].iter().map(|&bearing| line.bounds[bearing].inside_m).sum::<f64>();
        assert!(sum(circuit) > sum(any) + 4.0 * 20.0, "{any:?} {circuit:?}");
    }
}

#[test]
fn threads_change_nothing_and_a_stop_is_told() {
    let scenario = room(|_| {});
    let few = KeepAsk { bearings: 4, step_m: 50.0, ..ask(&scenario) };
    let [one, three] = [1, 3].map(|threads| on_threads(threads, || keep_inside(&scenario, &few, &Work::default())));
    assert_eq!(one, three);
    let stopped = Work::default();
    stopped.stop();
    let nothing = keep_inside(&scenario, &few, &stopped);
    assert!(nothing.partial && nothing.lines.is_empty());
}
