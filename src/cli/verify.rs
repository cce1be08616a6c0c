//! `peewit verify`: the checks that the program makes by itself, on this machine, with the way shown.

use super::args::VerifyArgs;
use super::common::Effort;
use super::desk::open;
use super::progress::watched;
use super::{Outcome, print, say};
use crate::Result;
use crate::report::Format;
use crate::study::work::Work;
use crate::verify::{Checked, Depth, fresh_seed, verify as checks};

pub(super) fn verify(args: &VerifyArgs) -> Result<Outcome> {
    let files = open(&args.out, args.force, &[], Checked::FORMATS)?;
    Effort { threads: args.threads, ..Effort::default() }.set_up()?;
    let depth = if args.quick { Depth::brief() } else { Depth::usual() };
    let work = Work::default();
    let checked = watched(&work, "checks", || checks(args.seed.unwrap_or_else(fresh_seed), &depth, &work));
    let screen = checked.render(if args.json { Format::Json } else { Format::Text })?;
    let rendered: Vec<Vec<u8>> = files.iter().map(|(format, _)| checked.render(*format)).collect::<Result<_>>()?;
    for ((_, file), bytes) in files.into_iter().zip(&rendered) {
        let name = file.path().display().to_string();
        file.write(bytes)?;
        say(&format!("wrote {name}"));
    }
    print(&screen)?;
    Ok(outcome(&checked))
}

/// One line that does not hold is a no.
fn outcome(checked: &Checked) -> Outcome {
    if checked.holds() { Outcome::Done } else { Outcome::No }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verify::{Expected, Group, Line, Machine};

    #[test]
    fn one_line_that_does_not_hold_is_a_no() {
        let line = |got| Line {
            group: Group::ClosedForms,
            name: "lap".into(),
            expected: Expected::AtMost(1.0),
            got,
            unit: "s".into(),
            source: "closed form".into(),
        };
        let ran = |lines, partial| {
            let (at, machine) = ("2026-04-18 09:41:07".into(), Machine::this());
            outcome(&Checked { at, took_s: 1.0, seed: 7, machine, partial, lines })
        };
        assert_eq!(ran(vec![line(0.5), line(1.0)], false), Outcome::Done);
        assert_eq!(ran(vec![line(0.5), line(1.5)], false), Outcome::No);
        assert_eq!(ran(vec![line(f64::NAN)], false), Outcome::No);
        assert_eq!(ran(vec![line(0.5)], true), Outcome::No);
    }
}
