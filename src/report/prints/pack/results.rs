//! What came of it: the ledgers, the bands with their reasons, the wind ceilings, the map of losses, the drawn cases.

use super::Flow;
use super::inputs::explained;
use super::studies::circles;
use super::table::{Cell, Sign, digits, text};
use super::words::not_made;
use crate::brief::Plan;
use crate::ledger::{Outcome, Row, Verdict};
use crate::report::picture::look;
use crate::study::Tally;
use crate::study::radius::RadiusStudy;
use crate::study::stats::percent;
use crate::words::{self, asks, counted, way};

impl Plan<'_> {
    pub(super) fn pack_results(&self, flow: &mut Flow<'_>) {
        flow.section("Results");
        self.margin_table(flow);
        self.case_tables(flow);
        flow.part("Which circle: the bands");
        match self.studies.radius {
            Some(study) => circles(flow, study),
            None => flow.paragraph(&not_made("Bands of radii")),
        }
        match self.studies.ceiling {
            Some(study) => self.wind_tables(flow, study),
            None => unmade(flow, "Up to what wind", "Wind ceilings"),
        }
        match self.studies.losses {
            Some(study) => self.loss_tables(flow, study),
            None => unmade(flow, "From where a loss is recovered", "The map of losses"),
        }
    }

    /// The ledgers of the plan as written, in both winds.
    fn margin_table(&self, flow: &mut Flow<'_>) {
        flow.part("The plan as written, in the mean wind and in the gust wind");
        let [mean, gust] = [&self.ledger, &self.gust]
            .map(|ledger| format!("{} after {:.0} s", words::ending(ledger.ending), ledger.end_s));
        explained(
            flow,
            &format!(
                "Its end: in the mean wind {mean}, in the gust wind {gust}. Counted are seconds over ground to avoid. A patch \
                 breached is told by how deep inside it the way went: half its width at most."
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
        let asked = |row: &Row| {
            if row.verdict == Verdict::Counted {
                "-".into()
            } else {
                format!("{} {}", words::amount(row.standoff, row.limit), row.unit)
            }
        };
        let left = |row: Option<&Row>| {
            row.map_or_else(
                || "-".into(),
                |row| format!("{} {}", words::leaving(row.margin, row.standoff, row.limit), row.unit),
            )
        };
        // What is asked for may hang on the wind as well: energy for laps, speed for the load.
        let of = |gust: Option<&Row>, mean: &Row| match gust {
            Some(gust) if (gust.standoff - mean.standoff).abs() >= 0.05 => {
                format!("{} of {}", left(Some(gust)), words::amount(gust.standoff, gust.limit))
            }
            other => left(other),
        };
        let rows: Vec<Vec<Cell>> = self
            .ledger
            .rows
            .iter()
            .map(|row| {
                let gust = self.gust.rows.iter().find(|other| other.limit == row.limit);
                let [x, y] = [row.at.x, row.at.y].map(|metres| metres.round() + 0.0);
                let at = format!("{:.0} s, {}, ({x:.0},{y:.0})", row.at_s, row.stretch.name());
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
        self.ledger.remarks.iter().for_each(|remark| flow.item("-", remark));
    }

    /// The drawn cases of the plan's circle: every outcome, and what was missed.
    fn case_tables(&self, flow: &mut Flow<'_>) {
        flow.part("The plan in drawn cases");
        let Some((study, point)) = self.studies.alone.and_then(|study| Some((study, study.points.first()?))) else {
            flow.paragraph(&not_made("Drawn cases of the plan"));
            return;
        };
        let (tally, confidence) = (&point.cases, study.ask.confidence);
        let stopped = if study.partial { " The study was stopped before it was complete." } else { "" };
        flow.paragraph(&format!(
            "{} N = {} trials of {}, each with another draw of everything in the list of what was varied; {} confidence. \
             {}. Asked for: {}.{stopped}",
            self.scenario.losses_told(),
            tally.cases,
            way(point.radius_m, point.turn),
            percent(confidence),
            point.verdict.map_or_else(|| "None was judged".into(), |verdict| verdict.told()),
            asks(&study.demand)
        ));
        let columns = [
            text("what came of it, the worst first; each case counts once", 92.0),
            digits("cases, with interval", 60.0),
        ];
        let rows: Vec<Vec<Cell>> = Outcome::ALL
            .iter()
            .zip(tally.outcomes)
            .map(|(outcome, count)| {
                vec![
                    Cell::signed(Sign::Swatch(look(*outcome)), outcome.name()),
                    counted(count, tally.cases, confidence).into(),
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

fn verdict(row: Option<&Row>) -> Cell {
    row.map_or_else(Cell::default, |row| match row.verdict {
        Verdict::Breached => Cell::bold("BREACHED"),
        Verdict::Thin => Cell::bold("thin"),
        other => other.name().into(),
    })
}

/// The limits that were missed in some case.
fn missed(flow: &mut Flow<'_>, study: &RadiusStudy, tally: &Tally) {
    let missed = study.limits.iter().zip(&tally.limits).filter(|(_, limit)| limit.breached + limit.thin > 0);
    let rows: Vec<Vec<Cell>> = missed
        .map(|(info, limit)| {
            vec![
                info.name.as_str().into(),
                counted(limit.breached, tally.cases, study.ask.confidence).into(),
                format!("{} of {}", limit.thin, tally.cases).into(),
                format!("{} {}, case {}", words::leaving(limit.least, 0.0, info.limit), info.unit, limit.least_case)
                    .into(),
            ]
        })
        .collect();
    if rows.is_empty() {
        flow.paragraph("No limit was breached or thin in any of these cases.");
    } else {
        let columns = [
            text("limit that was missed", 62.0),
            digits("breached", 48.0),
            digits("thin", 26.0),
            digits("least left, and in which case", 46.0),
        ];
        flow.table(&columns, &rows);
    }
}

/// Where the middle and the ends of the cases lie.
fn spreads(flow: &mut Flow<'_>, tally: &Tally) {
    let metres = |value: Option<f64>| value.map_or_else(|| "-".into(), |value| format!("{value:.0} m"));
    let seconds = |value: Option<f64>| value.map_or_else(|| "-".into(), |value| format!("{value:.0} s"));
    let laps = |value: Option<f64>| value.map_or_else(|| "-".into(), |value| format!("{value:.1}"));
    let row = |name: &str, spread: &crate::study::stats::Spread, told: &dyn Fn(Option<f64>) -> String| -> Vec<Cell> {
        let [low, middle, high] = [0.05, 0.5, 0.95].map(|p| told(spread.quantile(p)));
        vec![name.into(), low.into(), middle.into(), high.into(), format!("{}", spread.missing()).into()]
    };
    let columns = [
        text("of the cases that have it", 78.0),
        digits("5 % lie below", 26.0),
        digits("half", 20.0),
        digits("95 % lie below", 26.0),
        digits("cases without it", 32.0),
    ];
    flow.table(
        &columns,
        &[
            row("outermost distance from the hub", &tally.outermost_m, &metres),
            row("outside the ring while joining", &tally.join_overshoot_m, &metres),
            row("time from the loss to the circle", &tally.home_s, &seconds),
            row("laps in hand", &tally.laps_in_hand, &laps),
        ],
    );
}
