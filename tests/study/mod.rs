//! Studies from outside: what they answer on the shipped scenarios, and what must hold for any.

mod envelope;
mod glare;
mod keep_inside;
mod opened;
mod order;
mod probability;
mod radius;
mod whole;

use peewit::run::{Scenario, ScenarioFile};
use peewit::study::radius::{RadiusAsk, RadiusStudy, study_briefly};
use peewit::study::work::Work;

/// The demo, Goatwillow Strip, about a centre and with whatever else a check needs changed.
fn goatwillow(centre_m: [f64; 2], edit: impl FnOnce(&mut ScenarioFile)) -> Scenario {
    let mut file = crate::support::tight_strip().file;
    file.field.as_mut().unwrap().centre_m = Some(centre_m);
    // The pilot stands within its circles: how far off people they pass is asked elsewhere.
    file.limits.people_buffer = peewit::units::Length::new(0.0);
    edit(&mut file);
    Scenario::from_file(file).unwrap()
}

/// Some radii, both ways round.
fn ask(radii_m: &[f64], trials: u64) -> RadiusAsk {
    RadiusAsk { radii_m: radii_m.to_vec(), trials, ..RadiusAsk::usual() }
}

/// Usable radii and choice without a trial.
fn plain(scenario: &Scenario, radii_m: &[f64]) -> RadiusStudy {
    study_briefly(scenario, &ask(radii_m, 0), &Work::default())
}
