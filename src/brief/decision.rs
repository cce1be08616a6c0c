//! What a plan asks of whom and by when, and whether what is asked for is what was studied and signed.

use time::{Date, Month};

use super::{Plan, SignLine};
use crate::run::{Review, day};
use crate::words::{cautions, place, stands, way};

/// What a plan asks of somebody.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Request {
    /// Of whom.
    pub(crate) of: &'static str,
    /// What.
    pub(crate) asked: String,
    /// By when.
    pub(crate) by: String,
    /// What they have said so far; empty where nothing is known.
    pub(crate) so_far: String,
}

impl Plan<'_> {
    /// What is asked for, in a sentence.
    pub(crate) fn asked_for(&self) -> String {
        let (file, facts) = (&self.scenario.file, self.facts());
        format!(
            "Asked for: leave to fly the jet \u{201c}{}\u{201d} here by its video. When its link is lost: {}. Circle of {} about {}, {} \
             ({}) above home, {}.",
            file.jet.name,
            facts.failsafe_action,
            facts.radius,
            place(self.scenario.field.centre),
            facts.height[0],
            facts.height[1],
            facts.turn[0],
        )
    }

    /// What is asked of each, by when, and what they have said so far.
    pub(crate) fn requests(&self) -> Vec<Request> {
        let (file, facts) = (&self.scenario.file, self.facts());
        let before =
            if self.on <= file.date.as_str() { format!("before {}", file.date) } else { "before any flight".into() };
        let request = |of, asked: &str, so_far: String| Request { of, asked: asked.into(), by: before.clone(), so_far };
        let lines = self.sign_lines();
        // The lines of those wanted come first, in this order: author, second person, committee, landowner.
        let signed = |at: usize| lines.get(at).map_or_else(String::new, said);
        vec![
            request("Committee", "Authorise what the jet does by itself, for this version.", facts.authority),
            request("Pilot", "Sign this version.", signed(0)),
            request("Second person", "Read the annex against the field, and sign this version.", signed(1)),
            request("Landowner", "Agree to the ground, the months and the access on page 3.", signed(3)),
            request("Insurer", "Say in writing that such a flight is covered.", String::new()),
            request("Who keeps the rules", "Compare each rule with the text in force.", self.rules_gate().here),
            Request { by: self.review_day(), ..request("Committee", "Check the plan again.", String::new()) },
        ]
    }

    /// What the plan holds under, each in a sentence or two.
    pub(crate) fn conditions(&self) -> Vec<(&'static str, String)> {
        let hours = self
            .hours()
            .map_or_else(|| "none are named".to_owned(), |hours| format!("{hours}, on {}", self.scenario.file.date));
        vec![
            ("Authorised", self.authority_gate().here),
            ("Hours", format!("{hours}; the sun: {}", self.sun_briefly())),
            ("Spotter", cautions::SPOTTER.into()),
            ("Flying stops when", self.stop_list().join("; ")),
            ("Rules", self.rules_gate().here),
            ("Any change", "It is another version then: flown in trials, authorised and signed again.".into()),
            ("Yearly review", self.review_day()),
        ]
    }

    /// The day of the next review, or what is wrong with it: once a year is asked for.
    pub(crate) fn review_day(&self) -> String {
        let year_on = day(self.on).and_then(a_year_on).map_or_else(String::new, |day| day.to_string());
        match (&self.scenario.file.brief.review_by, self.review()) {
            (Some(by), Review::Expired) => format!("EXPIRED {by}"),
            (Some(by), _) if *by > year_on => format!("{year_on}: the file's {by} is more than a year off"),
            (Some(by), _) => by.clone(),
            (None, _) => format!("{year_on}: the file sets no day"),
        }
    }

    /// The one plan: what is asked for, studied and signed; and what is another one.
    pub(crate) fn one_plan(&self) -> Vec<(&'static str, String)> {
        let file = &self.scenario.file;
        let changed = match self.changes {
            [] => String::new(),
            changes => format!(", NOT AS IN THE FILE: {}", changes.join("; ")),
        };
        let studied = match self.studies.own_point() {
            Some((_, point)) => format!("the same, in {} trials of its circle", point.trials.trials),
            None => "not studied: no trials of it were flown".into(),
        };
        let signed = file.signed();
        let all_count = signed.iter().all(|(_, version)| version.counts());
        let named =
            signed.iter().map(|(one, version)| version.mark(&format!("{}, {}, {}", one.name, one.role, one.on)));
        let signed = match named.collect::<Vec<_>>().join("; ") {
            names if names.is_empty() => "by nobody yet".into(),
            names if all_count => format!("the same, by {names}"),
            names => names,
        };
        let asked = ("Asked for", format!("version {}{changed}", file.plan_hash()));
        let another = self.another_circle().map(|told| ("Not asked for", told));
        [asked, ("Studied", studied), ("Signed", signed)].into_iter().chain(another).collect()
    }

    /// The circle that the study of radii found, where it is another than the plan's.
    pub(crate) fn another_circle(&self) -> Option<String> {
        let (study, plan) = (self.studies.radius?, &self.scenario.file.recovery);
        let choice =
            study.choice.as_ref().filter(|choice| (choice.radius_m, choice.turn) != (plan.radius.m(), plan.turn))?;
        Some(format!(
            "{} {}. It is another plan: a proposal of its own, with its own trials, version and signatures.",
            way(choice.radius_m, choice.turn),
            stands(study.standing(choice.radius_m, choice.turn))
        ))
    }
}

/// The same day of the next year; the last of February for a leap day.
fn a_year_on(day: Date) -> Option<Date> {
    let next = day.year() + 1;
    day.replace_year(next).or_else(|_| Date::from_calendar_date(next, Month::February, 28)).ok()
}

/// Who signed and when.
fn said(line: &SignLine<'_>) -> String {
    match (line.name, line.lapsed.as_str()) {
        ("", _) => String::new(),
        (name, "") => format!("{name}, {}", line.on),
        (name, lapsed) => format!("{name} ({lapsed})"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_year_on_is_a_day_of_the_calendar() {
        for (on, next) in [("2026-04-18", "2027-04-18"), ("2028-02-29", "2029-02-28"), ("2026-12-31", "2027-12-31")] {
            assert_eq!(a_year_on(day(on).unwrap()).map(|day| day.to_string()).as_deref(), Some(next));
        }
    }
}
