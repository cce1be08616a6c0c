//! What each shipped scenario teaches, flown: the figures of the domain expert's first cut, computed again.
//!
//! The first cuts come from a simpler simulation with one law; the tolerances are what a different join and a lag in
//! roll account for. Where the difference is larger, the reason stands beside the check.

mod heights;
mod room;
mod sheets;
mod sun_and_battery;

use peewit::ledger::{Ledger, Limit, Row, judge};
use peewit::recovery::Turn;
use peewit::run::{Run, Scenario, ScenarioFile, Stretch, WindChoice, fly};
use peewit::units::Length;

const BOTH_WAYS: [Turn; 2] = [Turn::Anticlockwise, Turn::Clockwise];
const BOTH_WINDS: [WindChoice; 2] = [WindChoice::Mean, WindChoice::Gust];

fn shipped(name: &str) -> ScenarioFile {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    Scenario::load(path.as_ref()).unwrap().0.file
}

fn hub(file: &mut ScenarioFile, hub_m: [f64; 2]) {
    file.field.as_mut().unwrap().hub_m = Some(hub_m);
}

fn planned(mut file: ScenarioFile, radius_m: f64, turn: Turn) -> Scenario {
    file.recovery.radius = Length::new(radius_m);
    file.recovery.turn = turn;
    Scenario::from_file(file).unwrap()
}

fn run(file: ScenarioFile, radius_m: f64, turn: Turn, wind: WindChoice) -> (Run, Ledger) {
    let scenario = planned(file, radius_m, turn);
    let run = fly(&scenario, 0, wind);
    let ledger = judge(&scenario, &run);
    (run, ledger)
}

/// As the file has it, but for hub and radius, and the way round where one is given; in the mean wind.
fn flown(mut file: ScenarioFile, hub_m: [f64; 2], radius_m: f64, turn: Option<Turn>) -> Ledger {
    hub(&mut file, hub_m);
    let turn = turn.unwrap_or(file.recovery.turn);
    run(file, radius_m, turn, WindChoice::Mean).1
}

/// The sweep that the first cut suggests: 40 to 260 m in steps of 10 m, both ways round.
fn swept(file: &ScenarioFile, wind: WindChoice) -> impl Iterator<Item = (String, Ledger)> {
    let plans = (4..=26).flat_map(|tens| BOTH_WAYS.map(|turn| (10.0 * f64::from(tens), turn)));
    plans.map(move |(radius, turn)| (format!("{radius} m {turn:?} {wind:?}"), run(file.clone(), radius, turn, wind).1))
}

fn row(ledger: &Ledger, limit: Limit) -> &Row {
    ledger.rows.iter().find(|row| row.limit == limit).unwrap()
}

fn margin(ledger: &Ledger, limit: Limit) -> f64 {
    row(ledger, limit).margin
}

/// Mean speed over the ground on the way to the hub, m/s.
fn inbound_mps(run: &Run) -> f64 {
    let trace = &run.trace;
    let inbound = |index: &usize| trace.stretch[*index] == Stretch::Inbound;
    let first = (0..trace.len()).find(inbound).unwrap();
    let last = (0..trace.len()).rfind(inbound).unwrap();
    trace.point(first).distance(trace.point(last)) / (trace.time_s(last) - trace.time_s(first))
}

#[track_caller]
fn near(found: f64, first_cut: f64, tolerance: f64) {
    assert!((found - first_cut).abs() <= tolerance, "{found}, first cut {first_cut}");
}
