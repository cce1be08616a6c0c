//! What came of it: the margins, the usable radii with their reasons, the wind limits, the map of losses, the trials.

use super::Flow;
use super::inputs::explained;
use super::studies::circles;
use super::table::{Cell, Sign, digits, text};
use super::words::not_made;
use crate::brief::Plan;
use crate::margins::{MarginRow, Outcome, Verdict};
use crate::report::picture::look;
use crate::run::Stretch;
use crate::study::Tally;
use crate::study::radius::RadiusStudy;
use crate::study::stats::percent;
use crate::words::{self, asks, counted, way};

impl Plan<'_> {
    pub(super) fn pack_results(&self, flow: &mut Flow<'_>) {
        flow.section("Results");
        self.margin_table(flow);
        self.trial_tables(flow);
        flow.part("Which circle: the usable radii");
        match self.studies.radius {
            Some(study) => circles(flow, study),
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
        let asked = |row: &MarginRow| {
            if row.verdict == Verdict::Counted {
                "-".into()
            } else {
                format!("{} {}", words::number(row.buffer), row.unit)
            }
        };
        let left = |row: Option<&MarginRow>| {
            row.map_or_else(|| "-".into(), |row| format!("{} {}", words::left_of(row.margin, row.buffer)[0], row.unit))
        };
        // What is asked for may hang on the wind as well: energy for laps, speed for the load.
        let of = |gust: Option<&MarginRow>, mean: &MarginRow| match gust {
            Some(gust) if (gust.buffer - mean.buffer).abs() >= 0.05 => {
                format!("{} of {}", left(Some(gust)), words::number(gust.buffer))
            }
            other => left(other),
        };
        let rows: Vec<Vec<Cell>> = self
            .margins
            .rows
            .iter()
            .map(|row| {
                let gust = self.gust.rows.iter().find(|other| other.limit == row.limit);
                let [x, y] = [row.at.x, row.at.y].map(|metres| metres.round() + 0.0);
                let at = format!("{:.0} s, {}, ({x:.0},{y:.0})", row.at_s, row.stretch.map_or("", Stretch::name));
                vec![
                    row.name.as_str().into(),
                    asked(row).into(),
                    left(Some(row)).into(),
                    verdict(Some(row)),
                    of(gust, row).into(),
                    verdict(gust),
                    at.into(),
                ]
            })
            .collect();
        flow.table(&columns, &rows);
        self.margins.remarks.iter().for_each(|remark| flow.item("-", remark));
    }

    /// The trials of the plan's circle: every outcome, and what was missed.
    fn trial_tables(&self, flow: &mut Flow<'_>) {
        flow.part("The plan in trials");
        let Some((study, point)) = self.studies.own_circle.and_then(|study| Some((study, study.points.first()?)))
        else {
            flow.paragraph(&not_made("Trials of the plan"));
            return;
        };
        let (tally, confidence) = (&point.trials, study.ask.confidence);
        let stopped = if study.partial { " The study was stopped before it was complete." } else { "" };
        flow.paragraph(&format!(
            "{} N = {} trials of {}, each with another draw of everything in the list of what was varied; {} confidence. \
             {}. Asked for: {}.{stopped}",
            self.scenario.losses_told(),
            tally.trials,
            way(point.radius_m, point.turn),
            percent(confidence),
            point.verdict.map_or_else(|| "None was judged".into(), |verdict| verdict.in_words()),
            asks(&study.demand)
        ));
        let columns = [
            text("what came of it, the worst first; each trial counts once", 92.0),
            digits("trials, with interval", 60.0),
        ];
        let rows: Vec<Vec<Cell>> = Outcome::ALL
            .iter()
            .zip(tally.outcomes)
            .map(|(outcome, count)| {
                vec![
                    Cell::signed(Sign::Swatch(look(*outcome)), outcome.name()),
                    counted(count, tally.trials, confidence).into(),
                ]
            })
            .collect();
        flow.table(&columns, &rows);
        missed(flow, study, tally);
        spreads(flow, tally);
    }
}

/// A part that was not worked out.
fn unmade(flow: &mut Flow<'_>, title: &str, what: &str) {
    flow.part(title);
    flow.paragraph(&not_made(what));
}

fn verdict(row: Option<&MarginRow>) -> Cell {
    row.map_or_else(Cell::default, |row| match row.verdict {
        Verdict::Crossed => Cell::bold("CROSSED"),
        Verdict::InsideBuffer => Cell::bold("inside the buffer"),
        other => other.name().into(),
    })
}

/// The limits that were missed in some trial.
fn missed(flow: &mut Flow<'_>, study: &RadiusStudy, tally: &Tally) {
    let missed = study.limits.iter().zip(&tally.limits).filter(|(_, limit)| limit.crossed + limit.inside_buffer > 0);
    let rows: Vec<Vec<Cell>> = missed
        .map(|(info, limit)| {
            vec![
                info.name.as_str().into(),
                counted(limit.crossed, tally.trials, study.ask.confidence).into(),
                format!("{} of {}", limit.inside_buffer, tally.trials).into(),
                format!("{} {}, trial {}", words::left_of(limit.least, 0.0)[0], info.unit, limit.least_trial).into(),
            ]
        })
        .collect();
    if rows.is_empty() {
        flow.paragraph("No limit was crossed or inside the buffer in any of these trials.");
    } else {
        let columns = [
            text("limit that was missed", 62.0),
            digits("crossed", 48.0),
            digits("inside the buffer", 26.0),
            digits("least left, and in which trial", 46.0),
        ];
        flow.table(&columns, &rows);
    }
}

/// Where the middle and the ends of the trials lie.
fn spreads(flow: &mut Flow<'_>, tally: &Tally) {
    let metres = |value: Option<f64>| value.map_or_else(|| "-".into(), |value| format!("{value:.0} m"));
    let seconds = |value: Option<f64>| value.map_or_else(|| "-".into(), |value| format!("{value:.0} s"));
    let laps = |value: Option<f64>| value.map_or_else(|| "-".into(), |value| format!("{value:.1}"));
    let row = |name: &str, spread: &crate::study::stats::Spread, told: &dyn Fn(Option<f64>) -> String| -> Vec<Cell> {
        let [low, middle, high] = [0.05, 0.5, 0.95].map(|p| told(spread.quantile(p)));
        vec![name.into(), low.into(), middle.into(), high.into(), format!("{}", spread.missing()).into()]
    };
    let columns = [
        text("of the trials that have it", 78.0),
        digits("5 % lie below", 26.0),
        digits("half", 20.0),
        digits("95 % lie below", 26.0),
        digits("trials without it", 32.0),
    ];
    flow.table(
        &columns,
        &[
            row("furthest distance from the centre", &tally.furthest_m, &metres),
            row("outside the ring while joining", &tally.joining_overshoot_m, &metres),
            row("time from the loss to the circle", &tally.home_s, &seconds),
            row("laps to the reserve", &tally.laps_to_reserve, &laps),
        ],
    );
}
