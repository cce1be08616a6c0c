//! A plan with everything known of it: what all prints are made from.

use crate::VERSION;
use crate::error::Fault;
use crate::margins::{Lap, LookCue, Margins, People, TakeOver, judge, lap, look, people, take_over};
use crate::run::{Review, Run, Scenario, WindChoice, fly};
use crate::study::envelope::Envelope;
use crate::study::glare::{Glare, GlareAsk, glare};
use crate::study::keep_inside::KeepInside;
use crate::study::losses::LossStudy;
use crate::study::radius::{RadiusPoint, RadiusStudy};
use crate::study::remedy::Found;
use crate::study::wind_limit::WindLimitStudy;
use crate::verify::Checked;

/// The studies of a plan, as far as they were made. A print says what it lacks.
#[derive(Debug, Clone, Copy, Default)]
pub struct Studies<'a> {
    /// The plan's own circle, in many trials: one radius, one way round.
    pub own_circle: Option<&'a RadiusStudy>,
    /// Which radius.
    pub radius: Option<&'a RadiusStudy>,
    /// Up to what wind.
    pub wind_limit: Option<&'a WindLimitStudy>,
    /// Where it is really flown.
    pub envelope: Option<&'a Envelope>,
    /// From where a loss is recovered.
    pub losses: Option<&'a LossStudy>,
    /// Inside which line it is; that of the losses where this one is missing.
    pub keep_inside: Option<&'a KeepInside>,
    /// What it would take for it to hold.
    pub remedy: Option<&'a Found>,
}

/// A plan on the day it is printed.
#[derive(Debug, Clone)]
pub struct Plan<'a> {
    /// Field, jet, wind, loss, plan and limits.
    pub scenario: &'a Scenario,
    /// Day of the print, year-month-day.
    pub on: &'a str,
    /// What was studied.
    pub studies: Studies<'a>,
    /// What is odd about the scenario's file.
    pub warnings: &'a [Fault],
    /// What was asked for differently than the file says, in words.
    pub changes: &'a [String],
    /// The plan as entered, in the mean wind.
    pub run: Run,
    /// Its margins.
    pub margins: Margins,
    /// Its margins in the gust wind.
    pub gust: Margins,
    /// Its last whole lap, where it flies one.
    pub lap: Option<Lap>,
    /// Where to take over.
    pub take_over: Option<TakeOver>,
    /// Where to look.
    pub look: Option<LookCue>,
    /// How much of that lap lies in the glare of the sun, and when.
    pub glare: Glare,
    /// What the program was checked against by itself, where that was handed in.
    pub checks: Option<&'a Checked>,
}

impl<'a> Studies<'a> {
    /// The plan's own circle with the study that flew its trials.
    pub fn own_point(&self) -> Option<(&'a RadiusStudy, &'a RadiusPoint)> {
        self.own_circle.and_then(|study| Some((study, study.points.first()?)))
    }

    /// The keep-inside line, from whichever study has it.
    pub fn line(&self) -> Option<&'a KeepInside> {
        self.keep_inside.or_else(|| self.losses.and_then(|losses| losses.keep_inside.as_ref()))
    }
}

impl<'a> Plan<'a> {
    /// Flies the plan as entered and puts it beside its studies.
    pub fn new(
        scenario: &'a Scenario,
        on: &'a str,
        studies: Studies<'a>,
        warnings: &'a [Fault],
        changes: &'a [String],
    ) -> Self {
        let run = fly(scenario, 0, WindChoice::Mean);
        let margins = judge(scenario, &run);
        let gust = judge(scenario, &fly(scenario, 0, WindChoice::Gust));
        let lap = lap(scenario, &run);
        let take_over = lap.as_ref().and_then(|lap| take_over(scenario, lap));
        let look = lap.as_ref().map(|lap| look(scenario, lap, take_over.as_ref()));
        let glare = glare(scenario, &run, &GlareAsk::default());
        Self { scenario, on, studies, warnings, changes, run, margins, gust, lap, take_over, look, glare, checks: None }
    }

    /// The same with a run of the program's own checks beside it.
    pub fn with_checks(self, checks: Option<&'a Checked>) -> Self {
        Self { checks, ..self }
    }

    /// How near people the plan as entered passes, in the mean wind.
    pub fn people(&self) -> People {
        people(self.scenario, &self.run, &self.margins)
    }

    /// Whether the plan still holds on the day it is printed.
    pub fn review(&self) -> Review {
        self.scenario.file.review(self.on)
    }

    /// What a print can be made again from: version, scenario, hash, seed, day.
    pub fn stamp(&self) -> String {
        let file = &self.scenario.file;
        let review = match (&file.brief.review_by, self.review()) {
            (Some(by), Review::Expired) => format!("EXPIRED {by}"),
            (Some(by), _) => format!("review by {by}"),
            (None, _) => "no review day".into(),
        };
        let changed = if self.changes.is_empty() {
            String::new()
        } else {
            format!(" Not as in the file: {}.", self.changes.join("; "))
        };
        format!(
            "Peewit {VERSION}, {} for {}, hash {}, seed {}, printed {}, {review}.{changed}",
            file.name,
            file.date,
            self.scenario.hash(),
            file.seed,
            self.on
        )
    }
}
