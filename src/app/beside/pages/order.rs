//! From a plan and what is known of it to the words of the briefing and the dots of a page.

use std::sync::Arc;

use bevy_egui::egui::{ColorImage, TextureHandle};

use crate::app::session::{Answers, Session};
use crate::brief::{Plan, Step, Studies};
use crate::draw::{Sheet, dots};
use crate::error::Fault;
use crate::report::prints::Print;
use crate::run::Scenario;
use crate::verify::Checked;

/// What is to be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// No picture: the words of the briefing.
    Words,
    /// The picture of a step, by its number from 0.
    Step(usize),
    /// A page of a print, by its number from 0; the last where it has fewer.
    Page(Print, usize),
}

/// A plan with what is known of it, held on to while a page is made from it.
#[derive(Debug, Clone)]
pub struct Known {
    scenario: Scenario,
    today: String,
    answers: Answers,
    warnings: Vec<Fault>,
    checks: Option<Arc<Checked>>,
}

impl Known {
    /// The plan on the screen; none where it can't be flown.
    pub fn of(session: &Session) -> Option<Self> {
        if !session.is_current() {
            return None;
        }
        // A loss elsewhere that is replayed is not the plan's.
        let scenario = match (&session.flown, session.lost) {
            (Some(flown), None) => flown.scenario.clone(),
            _ => Scenario::from_file(session.draft.file().clone()).ok()?,
        };
        let today = session.today.clone();
        let warnings = session.draft.faults().iter().cloned().chain(scenario.file.expiry(&today)).collect();
        let answers = session.answers.carried(session.edition, session.edition);
        Some(Self { scenario, today, answers, warnings, checks: session.checks.made.clone() })
    }

    /// Flies it and puts it beside its studies and the program's own checks.
    pub fn plan(&self) -> Plan<'_> {
        let known = &self.answers;
        let studies = Studies {
            own_circle: known.own_circle.as_ref().map(|answer| &*answer.found),
            radius: known.radius.as_ref().map(|answer| &*answer.found),
            wind_limit: known.wind_limit.as_ref().map(|answer| &*answer.found),
            envelope: known.envelope.as_ref().map(|answer| &*answer.found),
            losses: known.losses.as_ref().map(|answer| &*answer.found),
            keep_inside: None,
            remedy: known.remedy.as_ref().map(|answer| &*answer.found),
        };
        Plan::new(&self.scenario, &self.today, studies, &self.warnings, &[]).with_checks(self.checks.as_deref())
    }
}

/// The words of a plan.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Told {
    /// The steps of the briefing.
    pub steps: Vec<Step>,
    /// What must not be overlooked.
    pub alarms: Vec<String>,
}

/// A picture that can be shown, and the words of its plan.
#[derive(Clone)]
pub struct DrawnPages {
    /// Edition of the plan it shows.
    pub edition: u64,
    /// The words.
    pub told: Told,
    /// The picture; none where only words were asked for, or where it could not be drawn.
    pub picture: Option<TextureHandle>,
    /// What it shows, for those who can't see it; or why there is none.
    pub about: String,
    /// Pages of the print, 1 for anything else.
    pub pages: usize,
}

/// The same before it is handed to the graphics card.
pub(super) struct PageSketch {
    pub(super) told: Told,
    pub(super) image: Option<ColorImage>,
    pub(super) about: String,
    pub(super) pages: usize,
}

impl PageSketch {
    /// Draws as large as fits a room of so many dots.
    pub(super) fn of(known: &Known, what: What, room: [u32; 2]) -> Self {
        let plan = known.plan();
        let told = Told { steps: plan.steps(), alarms: plan.facts().alarms };
        let (sheet, pages) = match what {
            What::Words => (None, 1),
            What::Step(number) => (Some(plan.step_picture(number)), 1),
            What::Page(print, page) => {
                let mut sheets = plan.pages(print);
                let pages = sheets.len();
                let page = page.min(pages.saturating_sub(1));
                ((page < pages).then(|| sheets.swap_remove(page)), pages)
            }
        };
        let (image, about) = match sheet.map(|sheet| (draw(&sheet, room), sheet.title)) {
            Some((Ok(image), title)) => (Some(image), title),
            Some((Err(why), _)) => (None, why.to_string()),
            None => (None, String::new()),
        };
        Self { told, image, about, pages }
    }
}

fn draw(sheet: &Sheet, room: [u32; 2]) -> crate::Result<ColorImage> {
    let [wide, high] = room.map(f64::from);
    let dots_an_inch = (wide / sheet.size_mm.x).min(high / sheet.size_mm.y) * 25.4;
    let (size, dots) = dots(sheet, dots_an_inch)?;
    Ok(ColorImage::from_rgba_premultiplied(size.map(|length| length as usize), &dots))
}
