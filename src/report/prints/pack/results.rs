//! What came of it: the margins, the usable radii with their reasons, the wind limits, the map of losses, the trials.

use super::Flow;
use super::inputs::explained;
use super::studies::circles;
use super::table::{Cell, Sign, digits, text};
use crate::brief::{MarginLine, MissedLine, Plan, SpreadLine};
use crate::margins::{Outcome, Verdict};
use crate::report::picture::look;
use crate::words::{self, not_made};

impl Plan<'_> {
    pub(super) fn pack_results(&self, flow: &mut Flow<'_>) {
        flow.section("Results");
        self.margin_table(flow);
        self.trial_tables(flow);
        flow.part("Which circle: the usable radii");
        match self.studies.radius {
            Some(study) => circles(flow, study, &self.scenario.file.recovery),
            None => flow.paragraph(&not_made("Usable radii")),
        }
        match self.studies.wind_limit {
            Some(study) => self.wind_tables(flow, study),
            None => unmade(flow, "Up to what wind", "Wind limits"),
        }
        match self.studies.losses {
            Some(study) => self.loss_tables(flow, study),
            None => unmade(flow, "From where a loss is recovered", "The map of losses"),
        }
    }

    /// The margins of the plan as entered, in both winds.
    fn margin_table(&self, flow: &mut Flow<'_>) {
        flow.part("The plan as entered, in the mean wind and in the gust wind");
        let [mean, gust] = [&self.margins, &self.gust]
            .map(|margins| format!("{} after {:.0} s", words::ending(margins.ending), margins.end_s));
        explained(
            flow,
            &format!(
                "Its end: in the mean wind {mean}, in the gust wind {gust}. Counted are seconds over caution areas. An area \
                 crossed is told by how deep inside it the way went: half its width at most."
            ),
        );
        let columns = [
            text("limit", 50.0),
            digits("asked for", 21.0),
            digits("mean: left", 21.0),
            text("", 18.0),
            digits("gust: left", 21.0),
            text("", 18.0),
            text("when and where, mean wind", 44.0),
        ];
        let none = || "-".to_owned();
        let row = |line: MarginLine| -> Vec<Cell> {
            let [left, amounts] = match line.gust {
                Some(gust) => [gust.told.into(), verdict(gust.verdict)],
                None => [none().into(), Cell::default()],
            };
            let (asked, mean) = (line.asked.unwrap_or_else(none), line.mean);
            vec![line.name.into(), asked.into(), mean.told.into(), verdict(mean.verdict), left, amounts, line.at.into()]
        };
        let rows: Vec<Vec<Cell>> = self.margin_lines().into_iter().map(row).collect();
        flow.table(&columns, &rows);
        self.margins.remarks.iter().for_each(|remark| flow.item("-", remark));
    }

    /// The trials of the plan's circle: every outcome, and what was missed.
    fn trial_tables(&self, flow: &mut Flow<'_>) {
        flow.part("The plan in trials");
        let Some(trials) = self.own_trials() else {
            flow.paragraph(&not_made("Trials of the plan"));
            return;
        };
        flow.paragraph(&trials.told);
        let columns = [
            text("what came of it, the worst first; each trial counts once", 92.0),
            digits("trials, with interval", 60.0),
        ];
        let row = |(outcome, count): (Outcome, String)| -> Vec<Cell> {
            vec![Cell::signed(Sign::Swatch(look(outcome)), outcome.name()), count.into()]
        };
        flow.table(&columns, &trials.outcomes.into_iter().map(row).collect::<Vec<_>>());
        missed(flow, trials.missed);
        spreads(flow, trials.spreads);
    }
}

/// A part that was not worked out.
fn unmade(flow: &mut Flow<'_>, title: &str, what: &str) {
    flow.part(title);
    flow.paragraph(&not_made(what));
}

fn verdict(verdict: Verdict) -> Cell {
    match verdict {
        Verdict::Crossed => Cell::bold("CROSSED"),
        Verdict::InsideBuffer => Cell::bold("inside the buffer"),
        other => other.name().into(),
    }
}

/// The limits that were missed in some trial, the one that most fail by first.
fn missed(flow: &mut Flow<'_>, missed: Vec<MissedLine<'_>>) {
    if missed.is_empty() {
        flow.paragraph("No limit was crossed or inside the buffer in any of these trials.");
        return;
    }
    let columns = [
        text("limit that was missed, what limits it first", 62.0),
        digits("crossed", 48.0),
        digits("inside the buffer", 26.0),
        digits("least left, and in which trial", 46.0),
    ];
    let row = |line: MissedLine| -> Vec<Cell> {
        vec![line.name.into(), line.crossed.into(), line.inside_buffer.into(), line.least.into()]
    };
    flow.table(&columns, &missed.into_iter().map(row).collect::<Vec<_>>());
}

/// Where the middle and the ends of the trials lie.
fn spreads(flow: &mut Flow<'_>, spreads: [SpreadLine; 4]) {
    let columns = [
        text("of the trials that have it", 78.0),
        digits("5 % lie below", 26.0),
        digits("half", 20.0),
        digits("95 % lie below", 26.0),
        digits("trials without it", 32.0),
    ];
    let row = |line: SpreadLine| -> Vec<Cell> {
        let [low, middle, high] = line.quantiles.map(|told| told.unwrap_or_else(|| "-".into()).into());
        vec![line.name.into(), low, middle, high, line.missing.to_string().into()]
    };
    flow.table(&columns, &spreads.map(row));
}
