//! What each shipped scenario teaches, flown: which plans hold on their day, what breaks those, and by which limit the
//! others fail. Every distance is reckoned by hand from the numbers in the file.

mod fails;
mod holds;
mod sky;

use peewit::run::{Scenario, ScenarioFile};
use peewit::study::verdict::{Answer, Demand, PlanVerdict, plan};
use peewit::study::work::Work;
use peewit::units::G0;

/// Most trials that a lesson is flown in: enough to tell a plan with room from one without.
const TRIALS: u64 = 1024;

fn shipped(name: &str) -> ScenarioFile {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    Scenario::load(path.as_ref()).unwrap().0.file
}

fn flown(file: ScenarioFile) -> PlanVerdict {
    let scenario = Scenario::from_file(file).unwrap();
    plan(&scenario, &Demand { most: TRIALS, ..Demand::of(&scenario.file.limits) }, &Work::default())
}

/// The plan of a file after an edit says no.
#[track_caller]
fn breaks(name: &str, edit: impl FnOnce(&mut ScenarioFile)) -> PlanVerdict {
    let mut file = shipped(name);
    edit(&mut file);
    let found = flown(file);
    assert_eq!(found.verdict.answer, Answer::No, "{name}: {}", found.verdict.in_words());
    found
}

/// Share of the trials that cross a limit.
#[track_caller]
fn crossing(found: &PlanVerdict, name: &str) -> f64 {
    let index = found.limits.iter().position(|info| info.name == name).expect("a limit of that name");
    found.tally.limits[index].crossed as f64 / found.tally.trials as f64
}

/// Smallest circle over the ground that a bank holds, metres: `(V + W)^2 / (g tan bank)` (ICAO Doc 8168, volume II, part
/// III, section 3, chapter 1, there in km and km/h).
fn smallest_m(speed_mps: f64, wind_mps: f64, bank_deg: f64) -> f64 {
    (speed_mps + wind_mps).powi(2) / (G0 * bank_deg.to_radians().tan())
}
