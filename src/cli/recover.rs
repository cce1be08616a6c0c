//! `peewit recover`: one recovery, flown and judged.

use super::Outcome;
use super::args::RecoverArgs;
use super::desk::Desk;
use crate::Result;
use crate::ledger::{Verdict, judge};
use crate::report::Recovery;
use crate::run::{WindChoice, fly};

pub(super) fn recover(args: &RecoverArgs) -> Result<Outcome> {
    let desk = Desk::lay(&args.file, &args.change, &args.output, Recovery::FORMATS)?;
    desk.warn();
    let wind = if args.gust { WindChoice::Gust } else { WindChoice::Mean };
    let run = fly(&desk.scenario, args.case, wind);
    let ledger = judge(&desk.scenario, &run);
    let recovery = Recovery {
        scenario: &desk.scenario,
        run: &run,
        wind,
        ledger: &ledger,
        warnings: &desk.warnings,
        changes: &desk.changes,
    };
    let rendered = desk.render(|format| recovery.render(format))?;
    let breached = desk.strict && recovery.ledger.verdict() == Verdict::Breached;
    desk.put_out(&rendered)?;
    Ok(if breached { Outcome::Breached } else { Outcome::Done })
}
