//! May a plan go out as a card? What stops it is worked out here, once: every print and the text of the card ask.

use std::collections::BTreeSet;

use super::{FiveLines, Plan};
use crate::run::{Authority, Review, ScenarioFile, Version};
use crate::study::verdict::{Answer, PlanVerdict};
use crate::words::capital;

/// Why nobody flies by a plan. The wind of its file is none of them: the day's reading is compared on the day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stop {
    /// The trials say no; by what most of them fail.
    DoesNotHold(String),
    /// The trials don't tell; what they came to.
    Undecided(String),
    /// No trials have judged it: none were flown, or too few.
    NotStudied,
    /// The law, the club or the place allows no automatic return.
    NotPermitted,
    /// Nobody agreed to what the jet does by itself.
    NotAuthorised,
    /// Names stand under a version that the plan is no longer.
    OtherVersion,
    /// Fewer than two people signed this version; how many did.
    NotSigned(usize),
    /// Its day is past; which.
    Expired(String),
}

/// What stops a plan; where nothing does, it prints as a card.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Release {
    /// All that stops it, the worst first.
    pub stops: Vec<Stop>,
}

/// How many people sign a plan: who made it, and a second person.
const SIGN: usize = 2;

/// What stands across every print of a plan that something stops.
pub const DO_NOT_FLY: &str = "DO NOT FLY";

impl Stop {
    /// What stops a plan on a day, year-month-day, by what stands in its file, whatever its trials say.
    pub fn of_file(file: &ScenarioFile, on: &str) -> Vec<Self> {
        let mut stops = Vec::new();
        if file.return_not_permitted() {
            stops.push(Self::NotPermitted);
        }
        let signed = file.signed();
        let counting = signed.iter().filter(|(_, version)| version.counts());
        let names: BTreeSet<String> = counting.map(|(one, _)| one.name.trim().to_lowercase()).collect();
        let short = names.len() < SIGN;
        let authority = file.authority();
        let another = short && signed.iter().any(|(_, version)| *version == Version::Another)
            || matches!(authority, Authority::By(_, Version::Another));
        if another {
            stops.push(Self::OtherVersion);
        } else if short {
            stops.push(Self::NotSigned(names.len()));
        }
        if matches!(authority, Authority::Nobody | Authority::By(_, Version::Unsaid)) {
            stops.push(Self::NotAuthorised);
        }
        if let (Review::Expired, Some(by)) = (file.review(on), &file.brief.review_by) {
            stops.push(Self::Expired(by.clone()));
        }
        stops
    }

    /// Why, in a sentence or two.
    pub fn told(&self) -> String {
        match self {
            Self::DoesNotHold(reason) => format!("The trials say no. {reason}."),
            Self::Undecided(shares) => format!("The trials have not decided: {shares}."),
            Self::NotStudied => "No trials have judged it yet.".into(),
            Self::NotPermitted => "An automatic return is not permitted here.".into(),
            Self::NotAuthorised => "Nobody has authorised the failsafe action.".into(),
            Self::OtherVersion => "It was signed for another version: the plan has changed since.".into(),
            Self::NotSigned(0) => "Nobody has signed it: two people must.".into(),
            Self::NotSigned(_) => "Only one person has signed it: two people must.".into(),
            Self::Expired(by) => format!("EXPIRED: this plan was to be checked again by {by}."),
        }
    }

    /// What to do about it.
    pub const fn way_out(&self) -> &'static str {
        match self {
            Self::DoesNotHold(_) => "Change the plan until its trials say yes.",
            Self::Undecided(_) => "Fly more trials, or leave it more room.",
            Self::NotStudied => "Fly its trials.",
            Self::NotPermitted => "Plan for the fan to stop, or ask whoever forbids the return.",
            Self::NotAuthorised => "Ask those entitled to decide, and enter who agreed to the failsafe action.",
            Self::OtherVersion => "Show the changed plan to those who signed; they authorise and sign it again.",
            Self::NotSigned(_) => "Two people read the plan and sign this version of it.",
            Self::Expired(_) => "Check the plan against the field as it is now, set a new day, and sign it again.",
        }
    }
}

impl Release {
    /// Whether anything stops the plan.
    pub fn stopped(&self) -> bool {
        !self.stops.is_empty()
    }

    /// Why nobody flies by it, a sentence or two each.
    pub fn reasons(&self) -> Vec<String> {
        self.stops.iter().map(Stop::told).collect()
    }

    /// What stops the plan of a file on a day, by what its trials came to, where any were flown.
    pub fn of(file: &ScenarioFile, on: &str, trials: Option<&PlanVerdict>) -> Self {
        let trials = trials.map_or(Some(Stop::NotStudied), judged);
        Self { stops: trials.into_iter().chain(Stop::of_file(file, on)).collect() }
    }
}

impl Plan<'_> {
    /// What stops this plan on the day it is printed.
    pub fn release(&self) -> Release {
        Release::of(&self.scenario.file, self.on, self.trials().as_ref())
    }

    /// What the trials of the plan's own circle came to; none where none were flown.
    pub fn trials(&self) -> Option<PlanVerdict> {
        let (study, point) = self.studies.own_point()?;
        study.plan_on(point)
    }

    /// The answer in five lines; none where no trial was flown.
    pub fn five_lines(&self) -> Option<FiveLines> {
        self.trials().map(|trials| FiveLines::of(self.scenario, &trials, self.studies.remedy))
    }
}

fn judged(trials: &PlanVerdict) -> Option<Stop> {
    let verdict = &trials.verdict;
    let reason = || trials.reason_told().map(|reason| format!("{} of {}", capital(&reason), verdict.trials));
    match verdict.answer {
        Answer::Yes => None,
        _ if verdict.trials == 0 => Some(Stop::NotStudied),
        Answer::No => Some(Stop::DoesNotHold(reason().unwrap_or_else(|| capital(&verdict.shares_told())))),
        Answer::Undecided => Some(Stop::Undecided(verdict.shares_told())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::{Studies, fixture};
    use crate::run::Scenario;

    #[track_caller]
    fn stops(change: impl FnOnce(&mut ScenarioFile), on: &str, expected: &[Stop]) {
        let mut file = Scenario::tight_strip().file;
        change(&mut file);
        let scenario = Scenario::from_file(file).unwrap();
        let own_circle = fixture::own_circle(&scenario, Answer::Yes);
        let studies = Studies { own_circle: Some(&own_circle), ..Studies::default() };
        assert_eq!(Plan::new(&scenario, on, studies, &[], &[]).release().stops, expected);
    }

    #[test]
    fn each_thing_that_stops_a_plan_is_told_and_nothing_else_is() {
        use crate::units::Length;
        let day = "2026-04-18";
        stops(|_| {}, day, &[]);
        stops(|_| {}, "2099-01-01", &[Stop::Expired("2030-03-31".into())]);
        // Under the name of the version, so that it changes nothing else.
        stops(|file| file.brief.signed.truncate(1), day, &[Stop::NotSigned(1)]);
        stops(|file| file.brief.signed.clear(), day, &[Stop::NotSigned(0)]);
        stops(
            |file| file.brief.signed[1].name = format!(" {} ", file.brief.signed[0].name),
            day,
            &[Stop::NotSigned(1)],
        );
        stops(|file| file.recovery.authorised_by.clear(), day, &[Stop::NotAuthorised]);
        stops(|file| file.recovery.radius = Length::new(116.0), day, &[Stop::OtherVersion]);
        let forbidden = |file: &mut ScenarioFile| {
            file.limits.no_automatic_return = true;
            let version = file.plan_hash();
            file.recovery.authorised_for.clone_from(&version);
            file.brief.signed.iter_mut().for_each(|one| one.version.clone_from(&version));
        };
        stops(forbidden, day, &[Stop::NotPermitted]);
    }

    #[test]
    fn a_plan_is_stopped_by_its_trials_unless_they_say_yes() {
        let scenario = Scenario::tight_strip();
        let of = |answer| {
            let own_circle = fixture::own_circle(&scenario, answer);
            let studies = Studies { own_circle: Some(&own_circle), ..Studies::default() };
            Plan::new(&scenario, "2026-04-18", studies, &[], &[]).release().stops
        };
        assert_eq!(of(Answer::Yes), []);
        assert!(matches!(of(Answer::No)[..], [Stop::DoesNotHold(_)]));
        assert!(matches!(of(Answer::Undecided)[..], [Stop::Undecided(_)]));
        let untried = Plan::new(&scenario, "2026-04-18", Studies::default(), &[], &[]);
        assert_eq!(untried.release().stops, [Stop::NotStudied]);
    }
}
