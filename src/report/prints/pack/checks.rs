//! What the sums are checked against: the run that was handed in, line by line, or that none was.

use super::table::{Cell, digits, text};
use super::{Flow, words};
use crate::brief::Plan;
use crate::draw::Lettering;
use crate::verify::{Checked, Group, Line};
use crate::words::checks as told;

impl Plan<'_> {
    pub(super) fn pack_checks(&self, flow: &mut Flow<'_>) {
        flow.section("What the sums are checked against");
        flow.paragraph(words::CHECKED);
        match self.checks {
            None => flow.paragraph(words::NOT_RUN),
            Some(checked) => run(flow, checked),
        }
    }
}

fn run(flow: &mut Flow<'_>, checked: &Checked) {
    flow.paragraph(&format!("{}.", told::ran(checked)));
    flow.paragraph(&told::outcome(checked));
    for warning in told::warnings(checked) {
        flow.lettered(&warning, Lettering::new(super::flow::TEXT).bold());
    }
    if !checked.holds() {
        flow.paragraph(told::MISSED);
    }
    let columns = [
        text("what is worked out", 62.0),
        digits("expected", 22.0),
        digits("got", 20.0),
        digits("tolerance", 16.0),
        text("unit", 14.0),
        text("source", 58.0),
        text("held", 13.0),
    ];
    for group in Group::ALL {
        let lines = checked.lines.iter().filter(|line| line.group == group);
        let rows: Vec<Vec<Cell>> = lines.map(row).collect();
        if !rows.is_empty() {
            flow.part(told::group(group));
            flow.table(&columns, &rows);
        }
    }
}

fn row(line: &Line) -> Vec<Cell> {
    let held = line.held();
    vec![
        line.name.as_str().into(),
        told::expected(line).into(),
        told::got(line).into(),
        told::tolerance(line).into(),
        line.unit.as_str().into(),
        line.source.as_str().into(),
        Cell::loud(told::held(held), !held),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::Studies;
    use crate::draw::Sheet;
    use crate::run::Scenario;
    use crate::verify::{Expected, Machine};

    fn checked(version: &str, got: f64) -> Checked {
        let line = |group, name: &str| Line {
            group,
            name: name.into(),
            expected: Expected::Near { value: 22.9477, within: 5.1e-5 },
            got,
            unit: "s".into(),
            source: "closed form of the elliptic integral".into(),
        };
        let lines =
            (0..60).map(|index| line(Group::ALL[index % 7], &format!("lap number {index} in a wind"))).collect();
        let machine = Machine { version: version.into(), ..Machine::this() };
        Checked { at: "2026-04-18 09:41:07".into(), took_s: 9.0, seed: 7, machine, partial: false, lines }
    }

    /// All that the pack says, without the spaces: a line may end anywhere.
    fn said(checks: Option<&Checked>) -> String {
        let scenario = Scenario::demo();
        let plan = Plan::new(&scenario, "2026-04-20", Studies::default(), &[], &[]).with_checks(checks);
        let lettered: Vec<_> = plan.pack().iter().flat_map(Sheet::lettered).map(|(words, ..)| words + " ").collect();
        lettered.concat().split_whitespace().collect()
    }

    #[track_caller]
    fn holds(said: &str, words: &str, wanted: bool) {
        let words: String = words.split_whitespace().collect();
        assert_eq!(said.contains(&words), wanted, "{words}");
    }

    #[test]
    fn without_a_run_the_pack_says_so_and_how_to_make_one() {
        let said = said(None);
        holds(&said, "These checks were not run for this pack", true);
        holds(&said, "peewit verify --out checks.json", true);
        holds(&said, told::ASK, true);
    }

    #[test]
    fn a_run_is_printed_line_by_line_with_when_and_where() {
        let (run, version) = (checked(crate::VERSION, 22.947_7), crate::VERSION);
        let said = said(Some(&run));
        holds(&said, "were not run for this pack", false);
        for words in [
            &format!("Peewit {version}, begun 2026-04-18 09:41:07 UTC"),
            "seed 7",
            "All 60 checks held.",
            "closed form of the elliptic integral",
            "lap number 59 in a wind",
            "22.94770",
            "5.1e-5",
        ] {
            holds(&said, words, true);
        }
        for words in ["NOT HELD", "did NOT hold", "The checks were made by version"] {
            holds(&said, words, false);
        }
    }

    #[test]
    fn another_version_a_stop_and_a_line_that_did_not_hold_are_said_plainly() {
        let run = Checked { partial: true, ..checked("0.0.1", 23.0) };
        let said = said(Some(&run));
        for words in [
            "The checks were made by version 0.0.1",
            "stopped before every check was made",
            "60 of 60 checks did NOT hold",
            "Not held: lap number 59 in a wind.",
            "NOT HELD",
            "Run it again with another seed",
        ] {
            holds(&said, words, true);
        }
    }
}
