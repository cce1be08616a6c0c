//! The flight as time passes: steps of the study's own length at the screen's own rate, with what the sticks say, what was
//! done since, and what the spotter says meanwhile.

use super::super::Session;
use super::{FOUND_DEG, Gaze, SEARCHING_DEG};
use crate::rehearsal::{Deed, Lost, Rehearsal, Stage};
use crate::words::capital;
use crate::words::rehearsal::{lost, spotter_line};

/// Longest time that one frame may bring, seconds: where the machine stalls the flight waits for it.
const MOST_S: f64 = 0.25;
/// How long the spotter takes from goggles off to the cue, where the program speaks it, seconds (judgement).
const CUE_AFTER_S: f64 = 1.0;
/// How often it is said again until the jet is found, seconds.
const AGAIN_S: f64 = 6.0;
/// How quickly the eye follows a jet that it has found: share of the way a second.
const FOLLOWS: f64 = 4.0;

/// A line that was said.
#[derive(Debug, Clone, PartialEq)]
pub struct Caption {
    /// Who says it.
    pub who: &'static str,
    /// What.
    pub line: String,
    /// When, seconds since the beginning.
    pub at_s: f64,
}

impl Session {
    pub(super) fn begin_rehearsal(&mut self) {
        let Some(flown) = &self.flown else { return };
        match Rehearsal::new(&flown.scenario, &self.rehearse.exercise) {
            Ok(rehearsal) => {
                let sticks = rehearsal.sticks();
                self.rest_gaze();
                let rehearse = &mut self.rehearse;
                rehearse.desk.put(sticks);
                rehearse.flying = Some(Box::new(rehearsal));
                (rehearse.paused, rehearse.last, rehearse.heading) = (None, None, None);
                rehearse.pending.clear();
                rehearse.to_say.clear();
                (rehearse.owed_s, rehearse.switch) = (0.0, false);
                self.say_line("Spotter", "I have lookout. Sky clear. Ground clear.".into(), 0.0);
            }
            Err(faults) => self.word = faults.first().map_or_else(String::new, ToString::to_string),
        }
    }

    /// Lets some seconds pass.
    pub fn rehearse_tick(&mut self, by_s: f64) {
        self.stopwatch_tick(by_s);
        if let Some(last) = self.rehearse.last.as_mut().filter(|last| last.playing) {
            last.at_s = (last.at_s + by_s).min(last.flown.time_s());
            last.playing = last.at_s < last.flown.time_s();
        }
        let (sticks, switch) = self.rehearse.desk.sticks(if self.rehearse.paused.is_some() { 0.0 } else { by_s });
        if self.rehearse.desk.unplugged() && self.rehearses() {
            self.rehearse.paused =
                Some("What it was flown with is unplugged. Plug it in again, or fly by keyboard.".into());
        }
        if !self.rehearses() {
            return;
        }
        let rehearse = &mut self.rehearse;
        rehearse.owed_s += by_s.min(MOST_S);
        while let Some(flown) = rehearse.flying.as_mut().filter(|flown| rehearse.owed_s >= flown.step_s()) {
            rehearse.owed_s -= flown.step_s();
            let mut deeds = std::mem::take(&mut rehearse.pending);
            if sticks != flown.sticks() {
                deeds.insert(0, Deed::Sticks(sticks));
            }
            if switch != rehearse.switch {
                deeds.push(if switch { Deed::Return } else { Deed::TakeOver });
                rehearse.switch = switch;
            }
            if !self.settings.practice.with_spotter {
                deeds.extend(cue(flown));
            }
            let before = *flown.stages();
            let goes_on = flown.step(&deeds);
            let (after, at_s) = (*flown.stages(), flown.time_s());
            let lines = lines(flown, &before);
            for stage in Stage::ALL.into_iter().filter(|stage| before.at(*stage) != after.at(*stage)) {
                match stage {
                    Stage::GogglesOff => rehearse.gaze.width_deg = SEARCHING_DEG,
                    Stage::Found => rehearse.gaze.width_deg = FOUND_DEG,
                    _ => {}
                }
            }
            for (who, line) in lines {
                if who == "Spotter" && self.settings.practice.spoken {
                    rehearse.to_say.push(line.clone());
                }
                rehearse.caption = Some(Caption { who, line, at_s });
            }
            if !goes_on {
                self.finish_rehearsal();
                return;
            }
        }
        self.follow(by_s);
    }

    /// The eye follows what it has found.
    fn follow(&mut self, by_s: f64) {
        let Some(flown) = &self.rehearse.flying else { return };
        let by_eye = self.rehearse.view == super::RehearseView::Eye && flown.lost_at().is_none();
        if flown.stages().at(Stage::Found).is_none() && !by_eye {
            return;
        }
        let (sight, gaze) = (flown.sight(), self.rehearse.gaze);
        let share = 1.0 - (-FOLLOWS * by_s).exp();
        let aside = (sight.bearing.deg() - gaze.bearing_deg + 180.0).rem_euclid(360.0) - 180.0;
        self.rehearse.gaze = Gaze {
            bearing_deg: (gaze.bearing_deg + aside * share).rem_euclid(360.0),
            elevation_deg: gaze.elevation_deg + (sight.elevation_deg - gaze.elevation_deg) * share,
            ..gaze
        };
    }

    fn say_line(&mut self, who: &'static str, line: String, at_s: f64) {
        if who == "Spotter" && self.settings.practice.spoken {
            self.rehearse.to_say.push(line.clone());
        }
        self.rehearse.caption = Some(Caption { who, line, at_s });
    }

    /// How far the flight is between two steps, as a share: what the screen shows is drawn there.
    pub fn rehearsal_share(&self) -> f64 {
        let step_s = self.rehearse.flying.as_ref().map_or(0.1, |flown| flown.step_s());
        (self.rehearse.owed_s / step_s).clamp(0.0, 1.0)
    }
}

/// The cue, given by the program where nobody else gives it.
#[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
fn cue(flown: &Rehearsal) -> Option<Deed> {
    let off = flown.stages().at(Stage::GogglesOff)?;
    let due = flown.time_s() >= off as f64 * flown.step_s() + CUE_AFTER_S;
    (due && flown.stages().at(Stage::Cued).is_none()).then_some(Deed::Stage { stage: Stage::Cued })
}

/// What is said in a step, by whom.
#[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
fn lines(flown: &Rehearsal, before: &crate::rehearsal::Stages) -> Vec<(&'static str, String)> {
    let after = flown.stages();
    let done = |stage: Stage| before.at(stage).is_none() && after.at(stage).is_some();
    let mut lines = Vec::new();
    if done(Stage::Called) {
        let lost = match flown.exercise().lost {
            Lost::Flicker => lost(Lost::Both),
            what => lost(what),
        };
        lines.push(("Pilot", format!("{}. Goggles off.", capital(lost))));
    }
    if done(Stage::Cued) {
        lines.push(("Spotter", spotter_line(flown)));
    }
    if let (Some(cued), None) = (after.at(Stage::Cued), after.at(Stage::Found)) {
        let since = (flown.index() - cued) as f64 * flown.step_s();
        let again = since > 0.5 && (since / AGAIN_S).floor() > ((since - flown.step_s()) / AGAIN_S).floor();
        if after.missed > before.missed {
            lines.push(("Spotter", format!("No, not there. {}", spotter_line(flown))));
        } else if again {
            lines.push(("Spotter", spotter_line(flown)));
        }
    }
    if done(Stage::Found) {
        lines.push(("Spotter", "Yes, that one.".into()));
    }
    if after.misread > before.misread {
        lines.push(("Spotter", "No. Look again.".into()));
    }
    if done(Stage::Said) {
        lines.push(("Spotter", "Yes.".into()));
    }
    if done(Stage::TakenOver) {
        lines.push(("Spotter", "You have control. Circuit clear.".into()));
    }
    lines
}
