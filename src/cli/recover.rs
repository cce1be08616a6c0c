//! `peewit recover`: one recovery, flown and judged, beside the trials that say what it is worth.

use super::Outcome;
use super::args::RecoverArgs;
use super::desk::Desk;
use super::progress::watched;
use crate::Result;
use crate::brief::Recovery;
use crate::margins::{Verdict, judge};
use crate::run::{WindChoice, fly};
use crate::study::verdict::{Answer, Demand, plan};
use crate::study::work::Work;

pub(super) fn recover(args: &RecoverArgs) -> Result<Outcome> {
    let desk = Desk::lay(&args.file, &args.change, &args.output, Recovery::FORMATS)?;
    desk.warn();
    args.effort.set_up()?;
    let demand = Demand::of(&desk.scenario.file.limits);
    let confidence = args.effort.confidence.unwrap_or(demand.confidence);
    let demand = Demand { most: args.trials, confidence, ..demand };
    let work = Work::default();
    let trials = (args.trials > 0).then(|| watched(&work, "trials", || plan(&desk.scenario, &demand, &work)));
    let wind = if args.gust { WindChoice::Gust } else { WindChoice::Mean };
    let run = fly(&desk.scenario, args.trial, wind);
    let margins = judge(&desk.scenario, &run);
    let recovery = Recovery {
        scenario: &desk.scenario,
        run: &run,
        wind,
        margins: &margins,
        trials: trials.as_ref(),
        remedy: None,
        warnings: &desk.warnings,
        changes: &desk.changes,
    };
    let rendered = desk.render(|format| recovery.render(format))?;
    let holds = trials.as_ref().is_none_or(|trials| trials.verdict.answer == Answer::Yes);
    let no = desk.strict && (recovery.margins.verdict() == Verdict::Crossed || !holds);
    desk.put_out(&rendered)?;
    Ok(if no { Outcome::No } else { Outcome::Done })
}
