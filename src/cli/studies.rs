//! `peewit radius`, `peewit wind-limit`, `peewit losses`: many recoveries flown, with the way shown and an end on
//! Ctrl-C.

use super::args::{LossArgs, RadiusArgs, WindLimitArgs};
use super::common::Effort;
use super::desk::Desk;
use super::progress::watched;
use super::{Outcome, say};
use crate::brief::{Answer, StudyReport};
use crate::error::Fault;
use crate::run::Scenario;
use crate::study::keep_inside::{KeepAsk, keep_inside};
use crate::study::losses::{LossAsk, LossStudy, first, refine};
use crate::study::radius::{RadiusAsk, study as radius_study};
use crate::study::remedy::{DECIDING, Found, search};
use crate::study::verdict;
use crate::study::wind_limit::{WindLimitAsk, wind_limit as wind_limits};
use crate::study::work::Work;
use crate::{Error, Result};

pub(super) fn radius(args: &RadiusArgs) -> Result<Outcome> {
    let desk = Desk::lay(&args.file, &args.change, &args.output, StudyReport::CIRCLE_FORMATS)?;
    args.effort.set_up()?;
    let usual = RadiusAsk::usual();
    let ask = RadiusAsk {
        radii_m: args.radii.as_ref().map_or(usual.radii_m, |radii| radii.0.clone()),
        turns: args.change.turn.map_or(usual.turns, |turn| vec![turn]),
        finest_m: usual.finest_m,
        trials: args.trials.unwrap_or(usual.trials),
        confidence: args.effort.confidence.unwrap_or(usual.confidence),
        first_look: false,
    };
    which_radius(desk, &ask)
}

/// The radius study of a scenario as it stands, on the screen, with few trials: nobody has asked for more yet.
pub(super) fn plain_radius(scenario: Scenario, warnings: Vec<Fault>) -> Result<Outcome> {
    let quick = RadiusAsk { trials: 512, ..RadiusAsk::usual() };
    which_radius(Desk::plain(scenario, warnings), &quick)
}

fn which_radius(desk: Desk, ask: &RadiusAsk) -> Result<Outcome> {
    let study = flown(&desk, "radius study", |work| radius_study(&desk.scenario, ask, work));
    let looks = !study.partial && ask.trials >= DECIDING;
    let own = study.plan.map(|verdict| verdict.answer).filter(|answer| looks && *answer != verdict::Answer::Yes);
    let remedy = own.map(|own| {
        let work = Work::default();
        watched(&work, "what would make it hold", || search(&desk.scenario, own, &work))
    });
    answered(desk, Answer::Radius(&study), remedy.as_ref())
}

pub(super) fn wind_limit(args: &WindLimitArgs) -> Result<Outcome> {
    let desk = Desk::lay(&args.file, &args.change, &args.output, StudyReport::CIRCLE_FORMATS)?;
    args.effort.set_up()?;
    let usual = WindLimitAsk::usual(&desk.scenario);
    let ask = WindLimitAsk {
        directions: args.directions.unwrap_or(usual.directions),
        trials: args.trials.unwrap_or(usual.trials),
        confidence: args.effort.confidence.unwrap_or(usual.confidence),
        ..usual
    };
    let study = flown(&desk, "wind limits", |work| wind_limits(&desk.scenario, &ask, work));
    answered(desk, Answer::WindLimit(&study), None)
}

pub(super) fn losses(args: &LossArgs) -> Result<Outcome> {
    let desk = Desk::lay(&args.file, &args.change, &args.output, StudyReport::LOSS_FORMATS)?;
    args.effort.set_up()?;
    let usual = LossAsk::usual(&desk.scenario);
    let ask = LossAsk {
        cells: args.cells.unwrap_or(usual.cells),
        headings: args.headings.unwrap_or(usual.headings),
        heights_m: args.heights.as_ref().map_or(usual.heights_m, |heights| heights.0.clone()),
        speeds_mps: args.speeds.as_ref().map_or(usual.speeds_mps, |speeds| speeds.0.clone()),
        trials: args.trials.unwrap_or(usual.trials),
        confidence: args.effort.confidence.unwrap_or(usual.confidence),
    };
    if let Some(told) = ask.too_much() {
        return Err(Error::Asked(told));
    }
    let study = flown(&desk, "loss map", |work| {
        let coarse = first(&desk.scenario, &ask, work);
        refine(&desk.scenario, coarse, work)
    });
    let keep = KeepAsk { confidence: ask.confidence, ..KeepAsk::usual(&desk.scenario) };
    let keep = (ask.trials > 0 && !study.partial)
        .then(|| flown(&desk, "keep-inside line", |work| keep_inside(&desk.scenario, &keep, work)));
    let study = LossStudy {
        partial: study.partial || keep.as_ref().is_some_and(|keep| keep.partial),
        keep_inside: keep,
        ..study
    };
    answered(desk, Answer::Losses(&study), None)
}

/// Flies a study while showing how far it is.
fn flown<T>(desk: &Desk, what: &str, fly: impl FnOnce(&Work) -> T) -> T {
    desk.warn();
    let work = Work::default();
    watched(&work, what, || fly(&work))
}

/// Puts the answer out; with `--strict` a no is told by the exit code.
fn answered(desk: Desk, answer: Answer<'_>, remedy: Option<&Found>) -> Result<Outcome> {
    let (warnings, changes) = (&desk.warnings, &desk.changes);
    let report = StudyReport { scenario: &desk.scenario, answer, remedy, warnings, changes };
    if report.partial() {
        say("stopped before it was complete: the answer rests on what was flown until then");
    }
    let yes = report.plan_holds().or(report.under_the_wind_limit()).or(report.loss_recovered());
    let refused = desk.strict && yes == Some(false);
    let rendered = desk.render(|format| report.render(format))?;
    desk.put_out(&rendered)?;
    Ok(if refused { Outcome::No } else { Outcome::Done })
}

impl Effort {
    /// Gives the work the threads it may take.
    pub(super) fn set_up(&self) -> Result<()> {
        let Some(threads) = self.threads else { return Ok(()) };
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads as usize).build_global();
        pool.map_err(|why| Error::Asked(format!("can't start {threads} threads: {why}")))
    }
}
