//! The gates of a flying day: what is asked, what the plan has, and whether that is a no, as far as the plan can know.

use super::Plan;
use crate::field::Rule;
use crate::run::{Authority, Review};
use crate::study::verdict::{Answer, Demand};
use crate::words::{self, asks, number};

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
        // What the wind of the plan's file does is for its trials to say: the day's wind is read on the day.
        let all = [
            Some(self.trials_gate()),
            Some(self.laps_gate()),
            self.day_gate(),
            Some(self.review_gate()),
            Some(self.authority_gate()),
            Some(self.rules_gate()),
            Some(self.areas_gate()),
            Some(self.sun_gate()),
        ];
        all.into_iter().flatten().collect()
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

    /// The months' rules are those of the day that the scenario is for; none where no area has months.
    fn day_gate(&self) -> Option<Gate> {
        let areas = self.scenario.file.field.as_ref().map(|field| &field.areas);
        if areas.is_some_and(|areas| areas.iter().all(|area| area.months.is_empty())) {
            return None;
        }
        let date = &self.scenario.file.date;
        let same = date.get(..7) == self.on.get(..7);
        Some(Gate {
            name: "day",
            asked: format!("the month the plan is for: {}", date.get(..7).unwrap_or(date)),
            here: format!("printed on {}", self.on),
            said: if same { Said::Met } else { Said::No },
        })
    }

    fn review_gate(&self) -> Gate {
        let (here, said) = match (&self.scenario.file.brief.review_by, self.review()) {
            (Some(by), Review::Expired) => (format!("EXPIRED {by}"), Said::No),
            (Some(by), _) => (format!("by {by}"), Said::Met),
            (None, _) => ("no day is set".into(), Said::No),
        };
        Gate { name: "review", asked: "a day that is still to come".into(), here, said }
    }

    pub(super) fn authority_gate(&self) -> Gate {
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

    pub(super) fn rules_gate(&self) -> Gate {
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
    fn nothing_is_asked_of_the_wind_or_of_the_month_where_the_plan_needs_neither() {
        let mut file = Scenario::tight_strip().file;
        file.wind.mean = crate::units::Speed::new(12.0);
        file.wind.gust = Some(crate::units::Speed::new(18.0));
        file.field.as_mut().unwrap().areas.iter_mut().for_each(|area| (area.months, area.otherwise) = (vec![], None));
        let scenario = Scenario::from_file(file).unwrap();
        let plan = Plan::new(&scenario, "2026-05-01", Studies::default(), &[], &[]);
        let names: Vec<&str> = plan.gates().iter().map(|gate| gate.name).collect();
        assert!(names.iter().all(|name| !name.contains("wind") && *name != "day"), "{names:?}");
    }

    #[test]
    fn every_gate_can_be_met_and_can_be_a_no() {
        let day = "2026-04-20";
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
