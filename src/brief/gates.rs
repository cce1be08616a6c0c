//! The gates of a flying day: what is asked, what the plan has, and whether that is a no, as far as the plan can know.

use super::Plan;
use crate::field::Rule;
use crate::margins::{MarginRow, Margins, Verdict};
use crate::run::{Authority, Review};
use crate::study::verdict::{Answer, Demand};
use crate::words::{self, asks, left, number};

/// Names of areas are told one by one up to so many letters.
const LONGEST: usize = 100;

/// What the plan knows about a gate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// What is asked for is met.
    Met,
    /// It is not.
    No,
    /// Nobody has worked it out.
    Unknown,
    /// People have to check.
    Check,
}

impl Said {
    /// In print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::No => "NO",
            Self::Unknown => "not known",
            Self::Check => "check",
        }
    }
}

/// A gate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gate {
    /// What it is.
    pub name: &'static str,
    /// What is asked.
    pub asked: String,
    /// What the plan has, with what is left.
    pub here: String,
    /// What that comes to.
    pub said: Said,
}

impl Plan<'_> {
    /// Every gate that the plan knows something of.
    pub fn gates(&self) -> Vec<Gate> {
        vec![
            self.wind_gate(),
            margins_gate("margins, mean wind", &self.margins),
            margins_gate("margins, gust wind", &self.gust),
            self.trials_gate(),
            self.laps_gate(),
            self.day_gate(),
            self.review_gate(),
            self.authority_gate(),
            self.rules_gate(),
            self.areas_gate(),
            self.sun_gate(),
        ]
    }

    /// The wind at the circle, over the range of profiles, against the wind limit from there.
    fn wind_gate(&self) -> Gate {
        let (wind, plan) = (&self.scenario.file.wind, &self.scenario.file.recovery);
        let [[low, _], _, [high, _]] = wind.aloft_range(plan.height.m());
        let range = if high - low < 0.05 { format!("{high:.1} m/s") } else { format!("{low:.1} to {high:.1} m/s") };
        let wind_limits = self.studies.wind_limit.and(self.facts().wind_limits);
        let (asked, here, said) = match wind_limits {
            None => ("the wind limit is not worked out".into(), format!("{range} in the file"), Said::Unknown),
            Some(wind_limits) => match wind_limits.aloft_mps {
                None => (format!("none from {} will do", wind_limits.from), format!("{range} in the file"), Said::No),
                Some(most) => (
                    format!("at most {most:.1} m/s, from {}", wind_limits.from),
                    format!("{range} in the file: {}", spare(most - high)),
                    if high <= most { Said::Met } else { Said::No },
                ),
            },
        };
        Gate { name: "wind at the circle", asked, here, said }
    }

    fn trials_gate(&self) -> Gate {
        let name = "trials";
        let asked = asks(&Demand::of(&self.scenario.file.limits));
        let Some(verdict) = self.studies.own_circle.and_then(|study| study.plan) else {
            return Gate { name, asked, here: "none flown".into(), said: Said::Unknown };
        };
        let said = match verdict.answer {
            Answer::Yes => Said::Met,
            Answer::No => Said::No,
            Answer::Undecided => Said::Unknown,
        };
        Gate { name, asked, here: verdict.shares_told(), said }
    }

    fn laps_gate(&self) -> Gate {
        let asked = self.scenario.file.limits.laps_to_reserve;
        let laps = self.margins.figures.laps_to_reserve;
        Gate {
            name: "laps to the reserve",
            asked: format!("{} or more", number(asked)),
            here: laps.map_or_else(
                || "no lap is flown".into(),
                |laps| {
                    format!(
                        "{laps:.1}: {:.1} {}",
                        (laps - asked).abs(),
                        if laps < asked { "SHORT OF IT" } else { "over it" }
                    )
                },
            ),
            said: if laps.is_some_and(|laps| laps >= asked) { Said::Met } else { Said::No },
        }
    }

    /// The months' rules are those of the day that the scenario is for.
    fn day_gate(&self) -> Gate {
        let date = &self.scenario.file.date;
        let same = date.get(..7) == self.on.get(..7);
        Gate {
            name: "day",
            asked: format!("the month the plan is for: {}", date.get(..7).unwrap_or(date)),
            here: format!("printed on {}", self.on),
            said: if same { Said::Met } else { Said::No },
        }
    }

    fn review_gate(&self) -> Gate {
        let (here, said) = match (&self.scenario.file.brief.review_by, self.review()) {
            (Some(by), Review::Expired) => (format!("EXPIRED {by}"), Said::No),
            (Some(by), _) => (format!("by {by}"), Said::Met),
            (None, _) => ("no day is set".into(), Said::No),
        };
        Gate { name: "review", asked: "a day that is still to come".into(), here, said }
    }

    fn authority_gate(&self) -> Gate {
        let forbidden = self.scenario.return_not_permitted();
        let authority = self.scenario.file.authority();
        let (here, said) = match (forbidden, authority) {
            (true, _) => ("AN AUTOMATIC RETURN IS NOT PERMITTED HERE".to_owned(), Said::No),
            (false, Authority::Nobody) => ("nobody yet".into(), Said::No),
            (false, Authority::By(by, version)) => (
                format!("{}: {}", words::failsafe_action(&self.scenario.file.recovery), version.mark(by)),
                if version.counts() { Said::Met } else { Said::No },
            ),
        };
        Gate { name: "failsafe action", asked: "authorised by somebody named, for this version".into(), here, said }
    }

    fn rules_gate(&self) -> Gate {
        let rules = &self.scenario.file.rules;
        let checked = rules.iter().filter(|rule| rule.is_checked()).count();
        let (here, said) = match rules.len() {
            0 => ("none are written in the file".to_owned(), Said::Check),
            all if checked == all => (format!("{all} of them, all checked"), Said::Met),
            all => (format!("{} of {all} NOT CHECKED", all - checked), Said::No),
        };
        Gate { name: "rules", asked: "each compared with its text".into(), here, said }
    }

    fn areas_gate(&self) -> Gate {
        let named = |rule: Rule| match rule {
            Rule::NoFly => Some("no-fly"),
            Rule::Above(_) => Some("only above a height"),
            Rule::People => Some("people"),
            Rule::Caution => Some("caution"),
            Rule::Idle => None,
        };
        let areas = &self.scenario.field.areas;
        let told: Vec<String> =
            areas.iter().filter_map(|area| Some(format!("{} ({})", area.name, named(area.rule)?))).collect();
        let all = told.join("; ");
        let here = match told.len() {
            0 => "none in force".into(),
            count if all.chars().count() <= LONGEST => format!("{count}: {all}"),
            count => {
                let kept = areas
                    .iter()
                    .filter(|area| matches!(area.rule, Rule::NoFly | Rule::Above(_) | Rule::People))
                    .count();
                format!("{count} in force, {kept} to be kept out of and {} with caution: see the map", count - kept)
            }
        };
        Gate { name: "areas this month", asked: "where the plan has them".into(), here, said: Said::Check }
    }

    /// Whether the circle keeps out of the glare in the hours of the flight.
    fn sun_gate(&self) -> Gate {
        let said = match self.glare.in_hours() {
            Some(true) => Said::No,
            Some(false) => Said::Met,
            None => Said::Check,
        };
        let hours = self.hours().unwrap_or_else(|| "no hours named".into());
        let here = format!("{hours}: {}", self.sun_briefly());
        Gate { name: "sun", asked: "not in the circle while flying".into(), here, said }
    }
}

/// What is left under a wind limit, or how far over it something is, m/s.
fn spare(left: f64) -> String {
    if left >= 0.0 { format!("{left:.1} m/s left") } else { format!("{:.1} m/s OVER IT", -left) }
}

/// The worst of margins, by name.
fn margins_gate(name: &'static str, margins: &Margins) -> Gate {
    let mut missed: Vec<&MarginRow> =
        margins.rows.iter().filter(|row| matches!(row.verdict, Verdict::InsideBuffer | Verdict::Crossed)).collect();
    let share = |row: &MarginRow| (row.margin - row.buffer) / row.buffer.max(1.0);
    missed.sort_by(|a, b| b.verdict.cmp(&a.verdict).then(share(a).total_cmp(&share(b))));
    let verdict = margins.verdict();
    let here = match (verdict, missed.as_slice()) {
        (Verdict::Clear | Verdict::Counted, _) => {
            let rows = margins.rows.iter().filter(|row| row.verdict == Verdict::Clear && row.buffer > 0.0);
            let nearest = rows.min_by(|a, b| share(a).total_cmp(&share(b)));
            nearest.map_or_else(|| "nothing to keep".into(), |row| format!("nearest: {}, {}", row.name, left(row)))
        }
        (_, []) => words::ending(margins.ending).to_owned(),
        // What the margins alone would call inside the buffer.
        (Verdict::Crossed, _) if margins.worst_margin() != Verdict::Crossed => words::ending(margins.ending).to_owned(),
        (_, [row]) => format!("{}: {}", row.name, left(row)),
        (_, [row, rest @ ..]) => format!("{}: {}; and {} more", row.name, left(row), rest.len()),
    };
    let said = if matches!(verdict, Verdict::Clear | Verdict::Counted) { Said::Met } else { Said::No };
    Gate { name, asked: "every margin asked for".into(), here, said }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::{Studies, fixture};
    use crate::run::{Scenario, ScenarioFile};

    #[track_caller]
    fn says(change: impl FnOnce(&mut ScenarioFile), on: &str, gate: &str, said: Said) {
        let mut file = Scenario::tight_strip().file;
        change(&mut file);
        let scenario = Scenario::from_file(file).unwrap();
        let wind_limit = fixture::wind_limit(&scenario);
        let studies = Studies { wind_limit: Some(&wind_limit), ..Studies::default() };
        let plan = Plan::new(&scenario, on, studies, &[], &[]);
        let gates = plan.gates();
        let found = gates.iter().find(|found| found.name == gate).unwrap();
        assert_eq!(found.said, said, "{found:?}");
    }

    #[test]
    fn every_gate_can_be_met_and_can_be_a_no() {
        use crate::units::Speed;
        let day = "2026-04-20";
        // 6 m/s from the south, against a wind limit of 3.5 m/s there.
        says(|_| {}, day, "wind at the circle", Said::No);
        says(|file| file.wind.mean = Speed::new(3.0), day, "wind at the circle", Said::Met);
        says(|_| {}, day, "margins, mean wind", Said::Met);
        says(|file| file.recovery.radius = crate::units::Length::new(200.0), day, "margins, mean wind", Said::No);
        says(|_| {}, day, "laps to the reserve", Said::Met);
        says(|file| file.limits.laps_to_reserve = 60.0, day, "laps to the reserve", Said::No);
        says(|_| {}, day, "day", Said::Met);
        says(|_| {}, "2026-05-01", "day", Said::No);
        says(|file| file.brief.review_by = None, day, "review", Said::No);
        says(|file| file.brief.review_by = Some("2026-04-19".into()), day, "review", Said::No);
        says(|file| file.brief.review_by = Some("2026-04-20".into()), day, "review", Said::Met);
        says(|_| {}, day, "failsafe action", Said::Met);
        says(|file| file.recovery.authorised_by = " ".into(), day, "failsafe action", Said::No);
        says(|file| file.limits.no_automatic_return = true, day, "failsafe action", Said::No);
        says(|file| file.rules = vec![crate::run::RuleNote::default()], day, "rules", Said::No);
        says(|_| {}, day, "trials", Said::Unknown);
    }
}
