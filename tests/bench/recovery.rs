//! How many seconds of flight are simulated in a second: the bare step, whole recoveries, scored recoveries, on one core
//! and on all; and what more trials or more corners cost.
//!
//! Criterion's "elements" are simulated seconds. Each bench checks the answer it times. At the end stands a table beside a
//! numpy kernel.

mod peer;

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group};
use peewit::jet::{Command, Gust, JetNumbers, State, step};
use peewit::lane::{Lane, LaneWork, Wide, widest};
use peewit::margins::{Score, Scorer};
use peewit::run::{Sample, Scenario, Trial, Watch, Watched, WindChoice, draw, setting, watch_wide};
use rayon::prelude::*;

const TRIALS: u64 = 64;
const STEP_S: f64 = 0.1;

fn seconds(scores: &[Score]) -> f64 {
    scores.iter().map(|score| score.end_s).sum()
}

/// Looks on and keeps nothing but where the jets are.
struct Onlooker<L: Lane>(Option<[L; 2]>);

impl<L: Lane> Watch<L> for Onlooker<L> {
    #[inline(always)]
    fn see(&mut self, sample: &Sample<'_, L>, _: L::Words) {
        self.0 = Some([sample.state.x, sample.state.y]);
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole simulated seconds")]
fn elements(seconds: f64) -> Throughput {
    Throughput::Elements(seconds.round() as u64)
}

/// The step alone: a banked turn in a steady wind, a hundred seconds of it in every lane.
fn bare_step<L: Lane>(criterion: &mut Criterion, name: &str) {
    let trial = draw(&Scenario::demo(), 0, WindChoice::Mean);
    let jet = JetNumbers::<L>::gather(&[trial.jet]);
    let start = State::<L>::gather(&[trial.start]);
    let lane = |value: f64| L::splat(value);
    let command = Command { bank: lane(0.5), climb: lane(0.0), thrust: start.thrust, stopped: lane(0.0) };
    let zero = lane(0.0);
    let air = Gust {
        x: lane(6.0),
        y: zero,
        z: zero,
        shear_x: zero,
        shear_y: zero,
        rate_x: zero,
        rate_y: zero,
        rate_z: zero,
        height: start.height,
    };
    let fly = |start: State<L>| (0..1000).fold(start, |state, _| step(&jet, &state, &command, &air, STEP_S));
    let mut group = criterion.benchmark_group("step");
    #[allow(clippy::cast_precision_loss, reason = "a handful of lanes")]
    group.throughput(elements(100.0 * L::WIDTH as f64));
    group.bench_function(name, |bencher| {
        bencher.iter(|| {
            let end = fly(black_box(start));
            assert!((end.nose_x.lane(0).hypot(end.nose_y.lane(0)) - 1.0).abs() < 1e-9);
            end
        });
    });
    group.finish();
}

/// Trials flown with nobody but an onlooker.
struct Unscored<'a> {
    flight: Watched<'a>,
    trials: &'a [Trial],
}

impl LaneWork for Unscored<'_> {
    type Output = ();

    #[inline(always)]
    fn run<L: Lane>(self) {
        for few in self.trials.chunks(L::WIDTH) {
            let mut onlooker = Onlooker::<L>(None);
            let endings = watch_wide(&self.flight, few, &mut onlooker);
            assert!(endings.len() == few.len() && onlooker.0.is_some());
        }
    }
}

fn recoveries(criterion: &mut Criterion) {
    let scenario = Scenario::demo();
    let scorer = Scorer::new(&scenario);
    let trials: Vec<Trial> = (1..=TRIALS).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect();
    let alone = scorer.score_wide::<f64>(&trials);
    let setting = setting(&scenario);
    let unscored = || Unscored { flight: Watched::of(&scenario, &setting), trials: black_box(&trials) };
    let mut group = criterion.benchmark_group("recovery with turbulence");
    group.throughput(elements(seconds(&alone)));
    group.bench_function("one lane", |bencher| bencher.iter(|| unscored().run::<f64>()));
    group.bench_function("one lane, scored", |bencher| {
        bencher.iter(|| assert!(scorer.score_wide::<f64>(black_box(&trials)) == alone));
    });
    group.bench_function("widest", |bencher| bencher.iter(|| widest(unscored())));
    group.bench_function("widest, scored", |bencher| {
        bencher.iter(|| assert!(scorer.score(black_box(&trials)) == alone));
    });
    group.finish();
}

/// Every core, the work shared out by rayon.
fn all_cores(criterion: &mut Criterion) {
    let scenario = Scenario::demo();
    let scorer = Scorer::new(&scenario);
    let trials: Vec<Trial> = (1..=16 * TRIALS).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect();
    let alone = scorer.score(&trials);
    let mut group = criterion.benchmark_group("recovery with turbulence, scored");
    group.throughput(elements(seconds(&alone)));
    group.bench_function("one core", |bencher| bencher.iter(|| assert!(scorer.score(black_box(&trials)) == alone)));
    group.bench_function("all cores", |bencher| {
        bencher.iter(|| {
            let scores: Vec<Score> = trials.par_chunks(64).flat_map_iter(|some| scorer.score(some)).collect();
            assert!(scores == alone);
        });
    });
    group.finish();
}

/// Cost against work: the number of trials, and of the boundary's corners.
fn cost(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("trials");
    let scenario = Scenario::demo();
    let scorer = Scorer::new(&scenario);
    for count in [1, 10, 100, 1000] {
        group.throughput(Throughput::Elements(count));
        group.bench_function(count.to_string(), |bencher| {
            bencher.iter(|| {
                let trials: Vec<Trial> = (1..=count).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect();
                let scores = scorer.score(&trials);
                assert!(scores.iter().all(|score| score.gaps[0].margin.is_finite()));
                scores
            });
        });
    }
    group.finish();
    let mut group = criterion.benchmark_group("corners");
    let plain = scorer.score(&drawn(&scenario));
    for corners in [4_u32, 100, 10_000] {
        let scenario = with_corners(corners);
        let scorer = Scorer::new(&scenario);
        let trials = drawn(&scenario);
        group.bench_function(corners.to_string(), |bencher| {
            bencher.iter(|| {
                let scores = scorer.score(black_box(&trials));
                // The same boundary, however many corners stand along it.
                assert!((scores[0].gaps[0].margin - plain[0].gaps[0].margin).abs() < 0.02);
                scores
            });
        });
    }
    group.finish();
}

fn drawn(scenario: &Scenario) -> Vec<Trial> {
    (1..=TRIALS).map(|trial| draw(scenario, trial, WindChoice::Mean)).collect()
}

/// The demo with corners spread evenly along its boundary.
fn with_corners(corners: u32) -> Scenario {
    let mut file = Scenario::demo().file;
    let ring = &mut file.field.as_mut().expect("the demo has its field inline").boundary.ring_m;
    let per_side = corners / 4;
    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
    *ring = sides
        .flat_map(|(a, b)| {
            (0..per_side).map(move |part| {
                let share = f64::from(part) / f64::from(per_side);
                [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]
            })
        })
        .collect();
    Scenario::from_file(file).expect("the same boundary")
}

fn all(criterion: &mut Criterion) {
    bare_step::<f64>(criterion, "one lane");
    bare_step::<Wide<8>>(criterion, "eight lanes, baseline instructions");
    recoveries(criterion);
    all_cores(criterion);
    cost(criterion);
}

criterion_group!(benches, all);

fn main() {
    benches();
    Criterion::default().configure_from_args().final_summary();
    let asked = |flag: &str| std::env::args().any(|argument| argument == flag);
    if asked("--bench") && !asked("--list") && !asked("--test") {
        peer::table();
    }
}
