//! What a plan needs before it goes out on paper: the hours it is for, until when it holds, whom to call, who signed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Neighbours, date};
use crate::error::Fault;
use crate::field::Metres;
use crate::units::{Length, typed};

/// What the prints tell beside the plan itself. Everything may be left out; a print then leaves a line to write on.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Brief {
    /// Hours of the flight on the day of the scenario.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours: Option<Hours>,
    /// Last day on which the plan holds without being checked again, year-month-day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub review_by: Option<String>,
    /// What the jet looks like from below, and the mark on it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub jet_marks: String,
    /// Things on the horizon by which one finds the jet.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub landmarks: Vec<Landmark>,
    /// What stops the flying here, beside what stops it everywhere.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stop_also: Vec<String>,
    /// Whom to call, and how they get here.
    #[serde(default, skip_serializing_if = "Emergency::is_empty")]
    pub emergency: Emergency,
    /// What is agreed with the people beside the field.
    #[serde(default, skip_serializing_if = "Neighbours::is_empty")]
    pub neighbours: Neighbours,
    /// How far a corner of the field as drawn may be off the ground.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub survey_error: Option<Length>,
    /// What the club wants done in an emergency, where that is not what the tool proposes.
    #[serde(default, skip_serializing_if = "Drills::is_empty")]
    pub drills: Drills,
    /// Who signed the plan.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub signed: Vec<Signature>,
}

/// From when to when, by the clock on the field.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Hours {
    /// First moment, such as "18:30".
    pub from: String,
    /// Last moment.
    pub to: String,
    /// What that clock shows ahead of UTC, such as "+01:00".
    #[serde(default = "utc")]
    pub ahead_of_utc: String,
}

fn utc() -> String {
    "+00:00".into()
}

/// Something on the horizon.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Landmark {
    /// What people call it.
    pub name: String,
    /// Where it is.
    pub at_m: Metres,
}

/// The box for the day something has happened.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Emergency {
    /// Numbers to call, each with whose it is.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub call: Vec<String>,
    /// The gate by which help comes in.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub gate: String,
    /// What to tell them the place is.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub grid_reference: String,
    /// Where the fire kit stands.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub fire_kit: String,
    /// The landowner, and how to reach them.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub landowner: String,
}

/// What is done in each emergency, one action a line; a list left out is the tool's own.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Drills {
    /// When the video is lost.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub video_lost: Vec<String>,
    /// When control is lost.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub control_lost: Vec<String>,
    /// When both are.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub both_lost: Vec<String>,
    /// When it falls.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub falling: Vec<String>,
    /// When it flies away, or a crewed aircraft comes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub flying_away: Vec<String>,
}

/// One who signed.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Signature {
    /// Who.
    pub name: String,
    /// As what, such as "second person".
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub role: String,
    /// When, year-month-day.
    pub on: String,
    /// Which version of the plan, by its hash; any change of the plan lets the signature lapse.
    #[serde(rename = "for", default, skip_serializing_if = "String::is_empty")]
    pub version: String,
}

impl Brief {
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl Emergency {
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl Drills {
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl Hours {
    /// First and last minute of the day by the clock on the field, and the minutes that it is ahead of UTC; none where one
    /// of them makes no sense.
    pub fn minutes(&self) -> Option<[i32; 3]> {
        Some([clock(&self.from)?, clock(&self.to)?, ahead(&self.ahead_of_utc)?])
    }
}

/// Minute of the day of a time such as "18:30".
fn clock(text: &str) -> Option<i32> {
    let (hours, minutes) = text.split_once(':')?;
    let number = |part: &str, below: i32| {
        let fits = part.len() == 2 && part.bytes().all(|byte| byte.is_ascii_digit());
        fits.then(|| part.parse::<i32>().ok()).flatten().filter(|&number| number < below)
    };
    Some(number(hours, 24)? * 60 + number(minutes, 60)?)
}

/// Minutes ahead of UTC of a text such as "+01:00".
fn ahead(text: &str) -> Option<i32> {
    let sign = match text.as_bytes().first()? {
        b'+' => 1,
        b'-' => -1,
        _ => return None,
    };
    clock(&text[1..]).filter(|minutes| *minutes <= 14 * 60).map(|minutes| sign * minutes)
}

/// What makes no sense in it.
pub(super) fn check(brief: &Brief) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut error = |place: String, problem: String, way_out: &str| faults.push(Fault::error(place, problem, way_out));
    if let Some(hours) = &brief.hours {
        let (from, to) = (clock(&hours.from), clock(&hours.to));
        for (key, text, read) in [("from", &hours.from, from), ("to", &hours.to, to)] {
            if read.is_none() {
                let problem = format!("\"{text}\" is no time of day");
                error(format!("/brief/hours/{key}"), problem, "Write hours and minutes, such as \"18:30\"");
            }
        }
        if from.zip(to).is_some_and(|(from, to)| to <= from) {
            let problem = format!("it ends at {}, no later than it begins", hours.to);
            error("/brief/hours/to".into(), problem, "Write a later time of the same day");
        }
        if ahead(&hours.ahead_of_utc).is_none() {
            let problem = format!("\"{}\" is not so much ahead of UTC", hours.ahead_of_utc);
            error("/brief/hours/ahead_of_utc".into(), problem, "Write it as \"+01:00\", or \"-02:00\" for behind");
        }
    }
    let days = brief.signed.iter().enumerate().map(|(index, one)| (format!("signed/{index}/on"), one.on.as_str()));
    let days = brief.review_by.iter().map(|day| ("review_by".to_owned(), day.as_str())).chain(days);
    for (key, day) in days.filter(|(_, day)| date::month(day).is_none()) {
        let problem = format!("\"{day}\" is not a day of the calendar");
        error(format!("/brief/{key}"), problem, "Write year-month-day, such as \"2026-04-18\"");
    }
    if let Some(off) = brief.survey_error.filter(|off| !(0.0..=1000.0).contains(&off.m())) {
        let way_out = "Write a length from 0 to 1,000 m, such as \"2 m\", or take it out while nobody knows";
        error("/brief/survey_error".into(), format!("a survey is not off by {off}"), way_out);
    }
    let nameless = brief.signed.iter().enumerate().filter(|(_, one)| one.name.trim().is_empty());
    nameless.for_each(|(index, _)| {
        error(format!("/brief/signed/{index}/name"), "nobody is named".into(), "Write who signed, or take it out");
    });
    for (index, landmark) in brief.landmarks.iter().enumerate() {
        let [x, y] = landmark.at_m;
        // A landmark may well be a hill far off.
        if !(0.0..=100_000.0).contains(&x.hypot(y)) {
            let problem = format!("({}, {}) is more than 100 km from the datum", typed(x), typed(y));
            error(format!("/brief/landmarks/{index}/at_m"), problem, "Write metres east and north of the datum");
        }
        if landmark.name.trim().is_empty() {
            let way_out = "Write what people call it, or take it out";
            error(format!("/brief/landmarks/{index}/name"), "the landmark has no name".into(), way_out);
        }
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::{Review, Scenario, read_text};

    #[track_caller]
    fn says(brief: &str, expected: &[&str]) {
        let brief: Brief = serde_json::from_str(brief).unwrap();
        let found: Vec<String> = check(&brief).into_iter().map(|fault| fault.place).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn times_and_days_must_be_there() {
        says(r#"{ "hours": { "from": "18:30", "to": "21:00", "ahead_of_utc": "-02:00" } }"#, &[]);
        says(r#"{ "hours": { "from": "24:00", "to": "7:30" } }"#, &["/brief/hours/from", "/brief/hours/to"]);
        says(r#"{ "hours": { "from": "18:30", "to": "18:30" } }"#, &["/brief/hours/to"]);
        for wrong in ["1", "01:00", "+1:00", "+15:00", "", "+\u{e9}1:00"] {
            says(
                &format!(r#"{{ "hours": {{ "from": "01:00", "to": "02:00", "ahead_of_utc": "{wrong}" }} }}"#),
                &["/brief/hours/ahead_of_utc"],
            );
        }
        says(r#"{ "review_by": "2026-02-30" }"#, &["/brief/review_by"]);
        says(r#"{ "survey_error": "2 m" }"#, &[]);
        says(r#"{ "survey_error": "-2 m" }"#, &["/brief/survey_error"]);
        says(
            r#"{ "signed": [{ "name": " ", "on": "today" }], "landmarks": [{ "name": "", "at_m": [1e9, 0] }] }"#,
            &["/brief/signed/0/on", "/brief/signed/0/name", "/brief/landmarks/0/at_m", "/brief/landmarks/0/name"],
        );
    }

    #[test]
    fn a_plan_holds_up_to_its_day_and_not_beyond() {
        let mut file = Scenario::tight_strip().file;
        file.brief.review_by = None;
        assert_eq!(file.review("2026-04-18"), Review::Unsaid);
        file.brief.review_by = Some("2026-09-30".into());
        assert_eq!(file.review("2026-09-30"), Review::Current);
        assert_eq!(file.review("2026-10-01"), Review::Expired);
        assert_eq!(file.review("2027-01-01"), Review::Expired);
        assert_eq!(file.expiry("2026-09-30"), None);
        assert!(file.expiry("2026-10-01").unwrap().problem.contains("EXPIRED"));
    }

    #[test]
    fn a_scenario_without_it_reads_and_names_itself_as_before() {
        let mut file = Scenario::tight_strip().file;
        file.brief = Brief::default();
        assert!(!file.to_text().contains("\"brief\""));
        file.brief.jet_marks = "orange tips".into();
        file.brief.survey_error = Some(Length::new(2.0));
        file.brief.neighbours.noise = "82 dB at 7 m over grass".into();
        let text = file.to_text();
        assert_eq!(read_text(&text, None).scenario.unwrap().file.brief, file.brief);
    }
}
