//! Flights for checks: the demo's jet over open ground, with whatever a check needs changed.

use std::path::Path;

use peewit::jet::{JetNumbers, State};
use peewit::margins::{Margins, judge};
use peewit::run::{Run, Scenario, ScenarioFile, WindChoice, draw, fly, read, read_text};
use peewit::units::{Angle, AngularRate, Bearing, Frequency, G0, Length, Power, Quantity, Ratio, Speed, Time};
pub(crate) use peewit::verify::by_hand::{hold, steady, trimmed};
use peewit::wind::Profile;

pub(crate) mod dice;
pub(crate) mod dubins;
pub(crate) mod path;

/// A strip hemmed in by a paddock, its circle over the people: the place that the checks' hand-worked distances belong to.
pub(crate) fn tight_strip() -> Scenario {
    read_text(include_str!("../fixtures/tight-strip.json"), None).scenario.expect("a fixture without a fault")
}

/// The tight strip's jet over a plain square 20 km wide: centre and home at the datum, no area, obstacle or line, one
/// wind at every height, a fresh pack, no limit on the time home, and the loss 200 m to the east on the way further
/// east.
pub(crate) fn open(edit: impl FnOnce(&mut ScenarioFile)) -> Scenario {
    let mut file = tight_strip().file;
    let field = file.field.as_mut().expect("the demo has its field inline");
    let half = 10_000.0;
    field.boundary.ring_m = vec![[-half, -half], [half, -half], [half, half], [-half, half]];
    field.areas.clear();
    field.obstacles.clear();
    field.centre_m = None;
    file.wind.profile = Profile::Uniform;
    file.loss.at_m = [200.0, 30.0];
    file.loss.heading = Bearing::from_deg(90.0);
    file.loss.charge = Ratio::new(1.0);
    file.limits.home_within = None;
    edit(&mut file);
    Scenario::from_file(file).expect("an edit that keeps it a scenario")
}

/// Wind of one strength for mean and gust, blowing towards the east.
pub(crate) fn eastward(file: &mut ScenarioFile, wind: f64) {
    file.wind.mean = Speed::new(wind);
    file.wind.gust = Some(Speed::new(wind));
    file.wind.from = Bearing::from_deg(270.0);
}

/// What an ideal tracker has: roll, thrust and senses fast enough to leave only the maximum bank.
pub(crate) fn brisk(file: &mut ScenarioFile) {
    let jet = &mut file.jet;
    jet.roll_lag.value = Time::new(0.05);
    jet.roll_rate.value = AngularRate::new(1000.0_f64.to_radians());
    jet.fan_lag.value = Time::new(0.05);
    jet.full_power.iter_mut().for_each(|power| power.value = Power::new(20_000.0));
    jet.drag_zero_lift.iter_mut().for_each(|drag| drag.value = 0.01);
    file.recovery.load_lag = Time::new(0.0);
    file.recovery.perception.fix_rate = Frequency::new(50.0);
    file.recovery.perception.delay = Time::new(0.0);
}

/// Return speed and speed at the loss.
pub(crate) fn at_speed(file: &mut ScenarioFile, speed: f64) {
    file.jet.return_speed.value = Speed::new(speed);
    file.loss.speed = Speed::new(speed);
}

/// A circle of a radius, flown for some laps, at the height of the loss.
pub(crate) fn circle(file: &mut ScenarioFile, radius: f64, laps: f64) {
    file.recovery.radius = Length::new(radius);
    file.recovery.laps = laps;
    file.recovery.height = file.loss.height;
}

/// The maximum bank, degrees.
pub(crate) fn maximum_bank(file: &mut ScenarioFile, deg: f64) {
    file.jet.maximum_bank.value = Angle::new(deg.to_radians());
}

/// The plan as entered, flown in the mean wind and judged.
pub(crate) fn flown(scenario: &Scenario) -> (Run, Margins) {
    let run = fly(scenario, 0, WindChoice::Mean);
    let margins = judge(scenario, &run);
    (run, margins)
}

/// The numbers of the demo's jet.
pub(crate) fn demo_jet() -> JetNumbers<f64> {
    draw(&tight_strip(), 0, WindChoice::Mean).jet
}

/// Energy of motion through the air and of height, J.
pub(crate) fn mechanical_j(jet: &JetNumbers<f64>, state: &State<f64>) -> f64 {
    jet.mass * (state.airspeed * state.airspeed / 2.0 + G0 * state.height)
}

/// Within an absolute tolerance.
#[track_caller]
pub(crate) fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "found {found}, expected {expected} within {tolerance}");
}

/// Within a share of the expected value.
#[track_caller]
pub(crate) fn close(found: f64, expected: f64, share: f64) {
    assert!(
        (found - expected).abs() <= share * expected.abs(),
        "found {found}, expected {expected} within {share} of it"
    );
}

/// A quantity as people type it, in SI.
pub(crate) fn si<Q: Quantity>(text: &str) -> f64 {
    text.parse::<Q>().expect("a quantity with a unit").si()
}

/// The scenarios that ship with the tool.
pub(crate) fn shipped() -> Vec<Scenario> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let entries = std::fs::read_dir(&folder).expect("the folder of scenarios");
    let mut paths: Vec<_> = entries.map(|entry| entry.expect("an entry").path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
    paths.sort();
    assert!(paths.len() >= 10, "{paths:?}");
    paths.iter().map(|path| read(path).expect("a file").scenario.expect("no fault")).collect()
}
