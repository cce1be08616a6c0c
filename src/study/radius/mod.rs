//! Which radius, which way round, here, today, and how sure are we.

mod answer;
mod bands;
mod buffers;
mod cases;
mod choice;
mod closed;
mod hub;
mod openers;
mod sensitivity;
mod step;
mod trials;

pub use answer::{
    Band, Bands, BestHub, Buffer, Choice, ClosedForm, End, Family, Opener, RadiusAsk, RadiusPoint, RadiusStudy,
    Sensitivity,
};
pub use step::Step;

use crate::run::{Scenario, WindChoice};
use crate::study::Tally;
use crate::study::work::Work;
use choice::Candidate;
use trials::{Circle, Flight, Trials};

/// The study of a scenario. Where `work` is stopped it is marked partial: every radius then has the same fewer cases,
/// and what comes after the cases is left out.
pub fn study(scenario: &Scenario, ask: &RadiusAsk, work: &Work) -> RadiusStudy {
    let trials = Trials::new(scenario, work);
    let mut study = asked_for(&trials, ask);
    if !study.partial {
        look_around(&trials, &mut study);
    }
    study.partial |= !work.go_on();
    study
}

/// The same without what looks beyond the radii asked for: no buffers, sensitivity, family, best hub and openers.
pub fn study_briefly(scenario: &Scenario, ask: &RadiusAsk, work: &Work) -> RadiusStudy {
    asked_for(&Trials::new(scenario, work), ask)
}

/// The radii asked for, their bands and the choice among them.
fn asked_for(trials: &Trials<'_>, ask: &RadiusAsk) -> RadiusStudy {
    let (scenario, work) = (trials.scenario, trials.work);
    let asked = bands::circles(&ask.turns, &ask.radii_m);
    work.expect(asked.len() as u64 * ask.cases);

    let fine = bands::circles(&ask.turns, &bands::between(&ask.radii_m, ask.finest_m));
    // What is written is always answered for, however soon the stop: the cases are what takes long.
    let written = trials.regardless();
    let [mean, gust] = [WindChoice::Mean, WindChoice::Gust].map(|wind| written.fly(&fine, wind));
    let (tallies, complete) = cases::tallies(trials, &asked, ask.cases);
    let points = points(&mean, &gust, &asked, tallies);
    let bands = Bands {
        mean: bands::bands(&written, &mean, WindChoice::Mean),
        gust: bands::bands(&written, &gust, WindChoice::Gust),
        cases: cases::bands(trials.limits(), &points, ask),
    };

    let mut study = RadiusStudy {
        ask: ask.clone(),
        limits: trials.limits().to_vec(),
        points,
        bands,
        already: trials.already_short(&mean),
        choice: None,
        least_bad: None,
        closed: closed::closed_form(scenario),
        buffers: Vec::new(),
        free_m: 0.0,
        free_to: String::new(),
        falls_m: buffers::falls_m(trials),
        looked_at: (scenario.file.recovery.radius.m(), scenario.file.recovery.turn),
        sensitivity: Vec::new(),
        family: Vec::new(),
        openers: Vec::new(),
        best_hub: None,
        partial: !complete,
    };
    (study.free_m, study.free_to) = closed::room(scenario, trials.hub, 0.0);
    choose(trials, &mut study, &mean, &gust);
    study
}

/// Mean, gust and cases of every radius asked for.
fn points(mean: &[Flight], gust: &[Flight], asked: &[Circle], tallies: Vec<Tally>) -> Vec<RadiusPoint> {
    let score = |flights: &[Flight], circle: Circle| {
        flights.iter().find(|flight| flight.circle == circle).map(|flight| flight.score.clone())
    };
    let point = |(&circle, cases): (&Circle, Tally)| {
        let (mean, gust) = (score(mean, circle)?, score(gust, circle)?);
        Some(RadiusPoint { radius_m: circle.radius_m, turn: circle.turn, mean, gust, cases })
    };
    asked.iter().zip(tallies).filter_map(point).collect()
}

/// Recommends a circle, or names the one that fails by least.
fn choose(trials: &Trials<'_>, study: &mut RadiusStudy, mean: &[Flight], gust: &[Flight]) {
    let flown = |circle: Circle| {
        let mut points = study.points.iter();
        points.find(|point| (point.radius_m, point.turn) == (circle.radius_m, circle.turn)).map(|point| &point.cases)
    };
    let both = mean.iter().zip(gust).map(|(mean, gust)| Candidate { mean, gust });
    // A study that was stopped flies no further cases, and so chooses among the radii that have theirs.
    let candidates: Vec<Candidate<'_>> =
        both.filter(|candidate| !study.partial || flown(candidate.circle()).is_some()).collect();
    let Some((best, meets)) = choice::best(trials, &study.bands, &candidates) else { return };
    let circle = best.circle();
    let (cases, complete) = match flown(circle) {
        Some(tally) => (tally.clone(), true),
        None => {
            trials.work.expect(study.ask.cases);
            let (mut tallies, complete) = cases::tallies(trials, &[circle], study.ask.cases);
            (tallies.pop().unwrap_or_else(|| Tally::new(0)), complete)
        }
    };
    study.partial |= !complete;
    let choice = Some(best.choice(trials, cases));
    if meets {
        study.looked_at = (circle.radius_m, circle.turn);
        study.choice = choice;
    } else {
        study.least_bad = choice;
    }
}

/// Everything that looks beyond the radii asked for.
fn look_around(trials: &Trials<'_>, study: &mut RadiusStudy) {
    let (radius_m, turn) = study.looked_at;
    let circle = Circle { radius_m, turn };
    study.buffers = buffers::buffers(trials, circle, study.ask.cases);
    if trials.circles() && trials.work.go_on() {
        study.sensitivity = sensitivity::sensitivity(trials, circle);
        study.family = sensitivity::family(trials, circle);
    }
    if !trials.work.go_on() {
        // What was only begun is left out.
        (study.buffers, study.sensitivity, study.family) = Default::default();
    }
    if trials.work.go_on() {
        study.best_hub = hub::best_hub(trials, &study.ask);
    }
    let empty = [(&study.bands.mean, WindChoice::Mean), (&study.bands.gust, WindChoice::Gust)];
    if let Some((_, wanted)) = empty.into_iter().find(|(bands, _)| bands.is_empty())
        && trials.work.go_on()
    {
        study.openers = openers::openers(trials, &study.ask, wanted, study.best_hub.as_ref());
    }
}
