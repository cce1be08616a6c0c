//! Rules of a law, an association or a club, as notes that a person has to compare with the text in force.
//!
//! A note sets nothing: what the tool keeps stands in the limits. It says where such a number came from, and who looked.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::date;
use crate::error::Fault;

/// One rule, and whether anybody has compared it with its text.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RuleNote {
    /// What it is about, such as "height".
    pub label: String,
    /// What it is said to ask for, with its unit.
    pub value: String,
    /// Where that was read.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub source: String,
    /// Day on which somebody compared it with the text in force, year-month-day; left out until then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub checked_on: Option<String>,
    /// Who did; empty until then.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub checked_by: String,
}

impl RuleNote {
    /// Whether it is said who compared it with the text in force, and when.
    pub fn is_checked(&self) -> bool {
        !self.checked_by.trim().is_empty() && self.checked_on.as_deref().is_some_and(|day| date::month(day).is_some())
    }
}

/// What is to be said of the rules of a scenario of that date: every one that nobody has checked, and what makes no sense.
pub(super) fn check(rules: &[RuleNote], date: Option<&str>) -> Vec<Fault> {
    rules.iter().enumerate().flat_map(|(index, rule)| note(&format!("/rules/{index}"), rule, date)).collect()
}

fn note(place: &str, rule: &RuleNote, date: Option<&str>) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut empty = |key: &str, text: &str, what: &str| {
        if text.trim().is_empty() {
            faults.push(Fault::warning(
                format!("{place}/{key}"),
                format!("the rule has no {what}"),
                "Write it, or take the rule out",
            ));
        }
    };
    empty("label", &rule.label, "label");
    empty("value", &rule.value, "value");
    let place_of_day = format!("{place}/checked_on");
    let day = rule.checked_on.as_deref();
    if let Some(day) = day.filter(|day| date::month(day).is_none()) {
        let problem = format!("\"{day}\" is not a day of the calendar");
        faults.push(Fault::error(
            place_of_day,
            problem,
            "Write year-month-day, such as \"2026-04-18\", or take it out",
        ));
    } else if let (Some(day), Some(date)) = (day, date.filter(|date| date::month(date).is_some()))
        && day > date
    {
        let problem = format!("{day} lies after the day of the flight, {date}");
        faults.push(Fault::warning(place_of_day, problem, "Write the day on which it was compared, or fix the date"));
    }
    if !rule.is_checked() {
        let source = match rule.source.trim() {
            "" => "no source named".into(),
            source => format!("source: {source}"),
        };
        let problem = format!("nobody has checked \"{}: {}\" ({source})", rule.label, rule.value);
        let way_out = "Compare it with the text in force, then write who did (checked_by) and when (checked_on)";
        faults.push(Fault::warning(place, problem, way_out));
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::Severity;
    use crate::recovery::FailsafeAction;
    use crate::run::Scenario;

    fn rule(checked_on: Option<&str>, checked_by: &str) -> RuleNote {
        RuleNote {
            label: "height".into(),
            value: "120 m".into(),
            source: "club rules, 2025".into(),
            checked_on: checked_on.map(String::from),
            checked_by: checked_by.into(),
        }
    }

    #[track_caller]
    fn says(rule: &RuleNote, expected: &[(Severity, &str, &str)]) {
        let found = check(std::slice::from_ref(rule), Some("2026-04-18"));
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for (fault, (severity, place, says)) in found.iter().zip(expected) {
            assert!(
                fault.severity == *severity && fault.place == *place && fault.to_string().contains(says),
                "{fault}"
            );
        }
    }

    #[test]
    fn a_rule_counts_as_checked_when_it_is_said_who_did_and_when() {
        use Severity::{Error, Warning};
        let nobody = (Warning, "/rules/0", "nobody has checked \"height: 120 m\" (source: club rules, 2025)");
        says(&rule(Some("2026-04-18"), "A. Member"), &[]);
        says(&rule(None, ""), &[nobody]);
        says(&rule(None, "A. Member"), &[nobody]);
        says(&rule(Some("2026-03-01"), " "), &[nobody]);
        says(
            &rule(Some("2026-04-19"), "A. Member"),
            &[(Warning, "/rules/0/checked_on", "after the day of the flight")],
        );
        says(&rule(Some("18 April"), "A. Member"), &[(Error, "/rules/0/checked_on", "not a day"), nobody]);
        let empty = RuleNote { label: " ".into(), value: String::new(), source: String::new(), ..rule(None, "") };
        let missing = (Warning, "/rules/0", "no source named");
        says(&empty, &[(Warning, "/rules/0/label", "no label"), (Warning, "/rules/0/value", "no value"), missing]);
    }

    #[test]
    fn a_scenario_warns_of_its_rules_and_of_a_return_that_is_not_permitted() {
        let mut file = Scenario::tight_strip().file;
        file.rules = vec![rule(Some("2026-04-01"), "A. Member"), rule(None, "")];
        file.limits.no_automatic_return = true;
        let scenario = Scenario::from_file(file.clone()).unwrap();
        let places = |scenario: &Scenario| -> Vec<String> {
            let places = scenario.warnings().into_iter().map(|fault| fault.place);
            places.filter(|place| place.starts_with("/rules") || place == "/recovery/failsafe_action").collect()
        };
        assert_eq!(places(&scenario), ["/recovery/failsafe_action", "/rules/1"]);
        assert!(scenario.return_not_permitted());
        file.recovery.failsafe_action = FailsafeAction::Cut;
        let scenario = Scenario::from_file(file).unwrap();
        assert!(!scenario.return_not_permitted());
        assert_eq!(places(&scenario), ["/rules/1"]);
    }
}
