//! `peewit card`: what goes out on paper, with the studies it rests on.

use std::path::Path;

use super::args::CardArgs;
use super::desk::{Desk, open_one};
use super::progress::watched;
use super::{Outcome, say};
use crate::brief::{Plan, Studies};
use crate::report::Format;
use crate::report::prints::Print;
use crate::run::{WholeFile, sources, today};
use crate::study::envelope::{EnvelopeAsk, envelope};
use crate::study::keep_inside::{KeepAsk, keep_inside};
use crate::study::losses::{LossAsk, first, refine};
use crate::study::radius::{RadiusAsk, study, study_briefly};
use crate::study::remedy::{DECIDING, search};
use crate::study::verdict::Answer;
use crate::study::wind_limit::{WindLimitAsk, wind_limit};
use crate::study::work::Work;
use crate::verify::Checked;
use crate::{Error, Result};

/// Most trials of a circle and a wind where nobody says: where they decide sooner, no more are flown.
const MOST: u64 = 2048;

pub(super) fn card(args: &CardArgs) -> Result<Outcome> {
    let on = args.on.clone().unwrap_or_else(today);
    let desk = Desk::lay_on((&on, args.checks.as_slice()), &args.file, &args.change, &args.output, Plan::FORMATS)?;
    if args.checks.is_some() && args.print != Print::Pack && args.into.is_none() {
        return Err(Error::Asked(
            "checks go into the committee pack: add --print pack, or --into for every print".into(),
        ));
    }
    let checks = args.checks.as_deref().map(Checked::read).transpose()?;
    args.effort.set_up()?;
    let folder = args.into.as_ref().map(|folder| open(folder, &args.file, args.output.force)).transpose()?;
    folder.iter().flatten().try_for_each(|(_, file)| desk.writes_elsewhere_than(file.path()))?;
    let wanted: Vec<Print> = if folder.is_some() { Print::ALL.to_vec() } else { vec![args.print] };
    let wants = |needs: fn(Print) -> bool| wanted.iter().copied().any(needs);
    let (scenario, confidence) = (&desk.scenario, args.effort.confidence.unwrap_or(0.95));
    let trials = args.trials.unwrap_or(MOST);
    desk.warn();
    // One piece of work, so that one Ctrl-C ends all of it.
    let work = &Work::default();
    let own_circle = watched(work, "the plan's circle", || {
        study_briefly(scenario, &RadiusAsk { trials, confidence, ..RadiusAsk::own_circle(scenario) }, work)
    });
    let ring = watched(work, "where it circles", || envelope(scenario, &EnvelopeAsk::usual(), work));
    let wind_limit = watched(work, "wind limits", || {
        let usual = WindLimitAsk::usual(scenario);
        wind_limit(scenario, &WindLimitAsk { trials: args.trials.unwrap_or(usual.trials), confidence, ..usual }, work)
    });
    let radius = wants(Print::needs_radius).then(|| {
        let ask = RadiusAsk { trials, confidence, ..RadiusAsk::usual() };
        watched(work, "radius study", || study(scenario, &ask, work))
    });
    let losses = wants(Print::needs_losses).then(|| {
        let usual = LossAsk::usual(scenario);
        let ask = LossAsk { confidence, trials: usual.trials.min(trials), ..usual };
        watched(work, "loss map", || refine(scenario, first(scenario, &ask, work), work))
    });
    let keep = watched(work, "keep-inside line", || {
        let usual = KeepAsk::usual(scenario);
        keep_inside(scenario, &KeepAsk { confidence, most: trials.min(usual.most), ..usual }, work)
    });
    // More trials answer what is undecided; a no is answered by another plan.
    let says_no = own_circle.plan.is_some_and(|verdict| verdict.answer == Answer::No);
    let looks = says_no && trials >= DECIDING && work.go_on();
    let remedy = looks.then(|| watched(work, "what would make it hold", || search(scenario, Answer::No, work)));
    if !work.go_on() {
        say("stopped before it was complete: the print rests on what was flown until then");
    }
    let studies = Studies {
        own_circle: Some(&own_circle),
        radius: radius.as_ref(),
        wind_limit: Some(&wind_limit),
        envelope: Some(&ring),
        losses: losses.as_ref(),
        keep_inside: Some(&keep),
        remedy: remedy.as_ref(),
    };
    let plan = Plan::new(scenario, &on, studies, &desk.warnings, &desk.changes).with_checks(checks.as_ref());
    let refused = desk.strict && !plan.facts().alarms.is_empty();
    let rendered = desk.render(|format| plan.render(args.print, format, args.page as usize))?;
    let sheaf = folder.map(|files| render_all(&plan, files)).transpose()?;
    for (file, bytes) in sheaf.into_iter().flatten() {
        let name = file.path().display().to_string();
        file.write(&bytes)?;
        say(&format!("wrote {name}"));
    }
    desk.put_out(&rendered)?;
    Ok(if refused { Outcome::No } else { Outcome::Done })
}

/// Opens a file for every print in a folder, which is made where it is not there, before any work.
fn open(folder: &Path, scenario: &Path, force: bool) -> Result<Vec<(Print, WholeFile)>> {
    if folder.exists() && !folder.is_dir() {
        return Err(Error::Asked(format!("{} is a file: --into takes a folder for the prints", folder.display())));
    }
    if !folder.exists() {
        std::fs::create_dir_all(folder).map_err(|source| Error::Write { path: folder.into(), source })?;
        say(&format!("made the folder {}", folder.display()));
    }
    let read = sources(scenario);
    let stem = scenario.file_stem().unwrap_or_default().to_string_lossy();
    let file = |print: Print| {
        let path = folder.join(format!("{stem}-{}.pdf", print.name()));
        Ok((print, open_one(&path, &read, Format::Pdf, force)?))
    };
    Print::ALL.into_iter().map(file).collect()
}

/// Every print of a folder, made before the first is put in place.
fn render_all(plan: &Plan<'_>, files: Vec<(Print, WholeFile)>) -> Result<Vec<(WholeFile, Vec<u8>)>> {
    files.into_iter().map(|(print, file)| Ok((file, plan.render(print, Format::Pdf, 1)?))).collect()
}
