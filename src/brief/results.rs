//! What came of the plan as entered in both winds, and of its trials, line by line.

use super::Plan;
use crate::margins::{MarginRow, Outcome, Verdict};
use crate::run::Stretch;
use crate::study::Tally;
use crate::study::stats::{Spread, percent};
use crate::study::verdict::Answer;
use crate::words::{self, asks, counted, way};

/// A margin of the plan as entered, in the mean wind and in the gust wind.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct MarginLine<'a> {
    /// The limit.
    pub(crate) name: &'a str,
    /// What is asked for, with its unit; none where seconds are only counted.
    pub(crate) asked: Option<String>,
    /// What is left in the mean wind.
    pub(crate) mean: Left,
    /// What is left in the gust wind, and what is asked for there where that differs; none where the limit does not apply.
    pub(crate) gust: Option<Left>,
    /// When and where in the mean wind.
    pub(crate) at: String,
}

/// What is left of a limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Left {
    /// With its unit.
    pub(crate) told: String,
    /// What that amounts to.
    pub(crate) verdict: Verdict,
}

/// The trials of the plan's own circle.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct OwnTrials<'a> {
    /// How many, of what, and what they say.
    pub(crate) told: String,
    /// Every outcome, the worst first, with its trials.
    pub(crate) outcomes: Vec<(Outcome, String)>,
    /// The limits that were missed in some trial, the one that most fail by first.
    pub(crate) missed: Vec<MissedLine<'a>>,
    /// Where the middle and the ends of the trials lie.
    pub(crate) spreads: [SpreadLine; 4],
}

/// A limit that was missed in some trial.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct MissedLine<'a> {
    /// The limit.
    pub(crate) name: &'a str,
    /// Trials that crossed it.
    pub(crate) crossed: String,
    /// Trials inside the buffer.
    pub(crate) inside_buffer: String,
    /// Least of all, and in which trial.
    pub(crate) least: String,
}

/// A quantity over the trials.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct SpreadLine {
    /// What.
    pub(crate) name: &'static str,
    /// What 5 %, half and 95 % of the trials lie below, with the unit; none where that many trials don't have it.
    pub(crate) quantiles: [Option<String>; 3],
    /// Trials without it.
    pub(crate) missing: u64,
}

impl Plan<'_> {
    /// Every margin of the plan as entered.
    pub(crate) fn margin_lines(&self) -> Vec<MarginLine<'_>> {
        let line = |row| margin_line(row, self.gust.rows.iter().find(|other| other.limit == row.limit));
        self.margins.rows.iter().map(line).collect()
    }

    /// The trials of the plan's own circle; none where they were not flown.
    pub(crate) fn own_trials(&self) -> Option<OwnTrials<'_>> {
        let (study, point) = self.studies.own_point()?;
        let (tally, confidence) = (&point.trials, study.ask.confidence);
        let stopped = if study.partial { " The study was stopped before it was complete." } else { "" };
        let told = format!(
            "{} N = {} trials of {}, each with another draw of everything in the list of what was varied; {} confidence. \
             {}. Asked for: {}.{stopped}",
            self.scenario.losses_told(),
            tally.trials,
            way(point.radius_m, point.turn),
            percent(confidence),
            study.plan.map_or_else(|| "None was judged".into(), |verdict| verdict.in_words()),
            asks(&study.demand)
        );
        let outcomes = Outcome::ALL.into_iter().zip(tally.outcomes);
        let missed =
            study.limits.iter().zip(&tally.limits).filter(|(_, limit)| limit.crossed + limit.inside_buffer > 0);
        let mut missed: Vec<_> = missed.collect();
        // What limits it comes first: what most trials fail by.
        let crossing = study.plan.is_some_and(|plan| plan.not_crossing != Answer::Yes);
        missed.sort_by_key(|(_, limit)| std::cmp::Reverse(if crossing { limit.crossed } else { limit.inside_buffer }));
        let missed = missed.into_iter().map(|(info, limit)| MissedLine {
            name: &info.name,
            crossed: counted(limit.crossed, tally.trials, confidence),
            inside_buffer: format!("{} of {}", limit.inside_buffer, tally.trials),
            least: format!("{} {}, trial {}", words::left_of(limit.least, 0.0)[0], info.unit, limit.least_trial),
        });
        Some(OwnTrials {
            told,
            outcomes: outcomes.map(|(outcome, count)| (outcome, counted(count, tally.trials, confidence))).collect(),
            missed: missed.collect(),
            spreads: spreads(tally),
        })
    }
}

fn margin_line<'a>(row: &'a MarginRow, gust: Option<&MarginRow>) -> MarginLine<'a> {
    let left = |row: &MarginRow| format!("{} {}", words::left_of(row.margin, row.buffer)[0], row.unit);
    // What is asked for may hang on the wind as well: energy for laps, speed for the load.
    let of = |gust: &MarginRow| match (gust.buffer - row.buffer).abs() >= 0.05 {
        true => format!("{} of {}", left(gust), words::number(gust.buffer)),
        false => left(gust),
    };
    let [x, y] = [row.at.x, row.at.y].map(|metres| metres.round() + 0.0);
    MarginLine {
        name: &row.name,
        asked: (row.verdict != Verdict::Counted).then(|| format!("{} {}", words::number(row.buffer), row.unit)),
        mean: Left { told: left(row), verdict: row.verdict },
        gust: gust.map(|gust| Left { told: of(gust), verdict: gust.verdict }),
        at: format!("{:.0} s, {}, ({x:.0},{y:.0})", row.at_s, row.stretch.map_or("", Stretch::name)),
    }
}

fn spreads(tally: &Tally) -> [SpreadLine; 4] {
    let line = |name, spread: &Spread, told: fn(f64) -> String| SpreadLine {
        name,
        quantiles: [0.05, 0.5, 0.95].map(|p| spread.quantile(p).map(told)),
        missing: spread.missing(),
    };
    let metres = |value| format!("{value:.0} m");
    [
        line("furthest distance from the centre", &tally.furthest_m, metres),
        line("outside the ring while joining", &tally.joining_overshoot_m, metres),
        line("time from the loss to the circle", &tally.home_s, |value| format!("{value:.0} s")),
        line("laps to the reserve", &tally.laps_to_reserve, |value| format!("{value:.1}")),
    ]
}
