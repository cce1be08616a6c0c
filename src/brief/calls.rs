//! The sentences of the prints: what to do when something is lost, what stops the flying, what is said on the flight line.
//!
//! Verbs first, no abbreviations, one place.

use super::{Facts, Plan};
use crate::recovery::FailsafeAction;
use crate::words::{self, number};

/// A box of what to do when something is lost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LossBox {
    /// What is lost.
    pub title: &'static str,
    /// What to do, one thing a line.
    pub lines: Vec<String>,
}

/// One moment on the flight line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Phrase {
    /// When.
    pub moment: &'static str,
    /// What the pilot says.
    pub pilot: &'static str,
    /// What the spotter says: worked out for this field, or with blanks for the moment.
    pub spotter: String,
}

/// What stops the flying everywhere.
const STOP: [&str; 5] = [
    "the spotter loses sight of the jet",
    "animals have moved, or people are on or beside the field",
    "somebody else's circle or circuit lies in this one",
    "home is not captured in its place, or the height is not zero",
    "pilot or spotter is tired, cold, or not happy with it",
];

impl Plan<'_> {
    /// What pilot and spotter say: a proposal, to be agreed by the club.
    pub fn phrases_said(&self) -> Vec<Phrase> {
        let returns = self.scenario.file.recovery.failsafe_action == FailsafeAction::Return;
        let look = self.look.as_ref().filter(|_| returns);
        let (hour, fists) = look.map_or_else(
            || ("____".to_owned(), "____ fists".to_owned()),
            |look| (look.clock.to_string(), words::fists(look.fists)),
        );
        let going = match look.and_then(|look| look.to_right) {
            Some(true) => "right",
            Some(false) => "left",
            None => "____",
        };
        let over = look.and_then(|look| look.landmark.as_ref()).map_or("________", |(name, _)| name.as_str());
        let said = |moment, pilot, spotter: &str| Phrase { moment, pilot, spotter: spotter.into() };
        let (acts, slow, unseen) = if returns {
            (
                "\u{201c}Turning.\u{201d}  Or: \u{201c}Not turning.\u{201d}",
                "Slow side now.",
                said("not seen for a lap", "Not seen.", "Leave it circling.  Or: Cut it. Everyone clear."),
            )
        } else {
            (
                "It glides, going ____. Clear below it.",
                "Still high.",
                said("not seen", "Not seen.", "Down by the ________. Nobody runs."),
            )
        };
        vec![
            said("goggles down", "Goggles down. You have lookout.", "I have lookout. Sky clear. Ground clear."),
            said("video lost", "Video lost. Goggles off.", &format!("{hour} o'clock, {fists}, going {going}, ____.")),
            said("control lost", "Control lost. Goggles off.", acts),
            said("still looking", "Looking.", &format!("Along my arm. By the {over}. {slow}")),
            said("found", "Seen. Going away, level.", "Yes, that one.  Or: No, yours is ____."),
            said("taking over", "I have control.", "You have control. Circuit clear."),
            unseen,
            said("flying away", "Cutting.", "It leaves us. Cut, cut. Last seen at ____ o'clock."),
            said("falling", "Heads!", "Heads! ________ side!"),
        ]
    }

    /// What is done in each emergency, one action a line, the most urgent first: the club's own where it says so.
    ///
    /// Few short actions in the order in which they are done, beginning with a verb, the decision before the explanation:
    /// as guidance on emergency and abnormal checklists of crewed aviation asks (CAP 676, Civil Aviation Authority of the
    /// United Kingdom; source from memory). The actions themselves are judgement.
    pub fn loss_boxes(&self) -> [LossBox; 5] {
        let club = &self.scenario.file.brief.drills;
        let own = |title, club: &[String], ours: Vec<String>| {
            // A line that is still to be written takes nothing away.
            let club: Vec<String> = club.iter().filter(|line| !line.trim().is_empty()).cloned().collect();
            LossBox { title, lines: if club.is_empty() { ours } else { club } }
        };
        [
            own("Video lost", &club.video_lost, self.video_lost()),
            own("Control lost", &club.control_lost, self.control_lost()),
            own("Both lost", &club.both_lost, self.both_lost()),
            own("Falling", &club.falling, falling()),
            own("Flying away, or a crewed aircraft", &club.flying_away, self.flying_away()),
        ]
    }

    /// What is done in every emergency, a line each.
    pub fn in_any(&self) -> [&'static str; 3] {
        [
            "STOP ALL FLYING: everybody else lands, or keeps away until it is down.",
            "FIRST AID before the jet. Ring the first number on this sheet.",
            "STOCK: shut the gates, move nobody's animals, ring the landowner.",
        ]
    }

    /// Whether the jet can be told to return, and it is allowed.
    fn returns(&self) -> bool {
        let file = &self.scenario.file;
        file.recovery.failsafe_action == FailsafeAction::Return && !file.limits.no_automatic_return
    }

    fn video_lost(&self) -> Vec<String> {
        let (sticks, then, last) = if self.returns() {
            (
                "STICKS centred, self-level ON, climbing power.",
                "COMMAND return, unless the spotter has it.",
                "TAKE OVER by eye on the slow side.",
            )
        } else {
            (
                "STICKS centred, self-level ON if it has it.",
                "ASK: \u{201c}have you got it?\u{201d} If nobody has, CUT the fan.",
                "FLY it back by eye, and land.",
            )
        };
        let lines = [
            "SAY \u{201c}video lost\u{201d}.",
            sticks,
            then,
            "GOGGLES OFF.",
            "LOOK along the spotter's arm.",
            "SAY its attitude: coming, going, left, right.",
            last,
        ];
        lines.map(String::from).into()
    }

    fn control_lost(&self) -> Vec<String> {
        let plan = &self.scenario.file.recovery;
        let delay = plan.failsafe_delay.value;
        let after = number(delay.s());
        let mut lines =
            vec!["SAY \u{201c}control lost\u{201d}.".to_owned(), self.quiet().into(), "GOGGLES OFF.".into()];
        match plan.failsafe_action {
            FailsafeAction::Return => {
                lines.push(format!(
                    "SPOTTER: \u{201c}turning\u{201d} or \u{201c}not turning\u{201d} (after {after} s)."
                ));
                lines.push(self.home_after_s(delay).map_or_else(
                    || "CLEAR below it: it never gets on the circle.".into(),
                    |home| format!("CLEAR below it: it circles {home:.0} s after the loss."),
                ));
                lines.push("LINK BACK: take over by eye on the slow side.".into());
                lines.push(match self.circles_min() {
                    Some(minutes) => {
                        format!("NEVER BACK: {minutes:.0} min of circling, then it comes down. Clear the ground, ring.")
                    }
                    None => "NEVER BACK: it comes down. Clear the ground, ring.".into(),
                });
            }
            FailsafeAction::Cut => lines.push(format!("WATCH it glide: the fan stops after {after} s.")),
            FailsafeAction::WaitThenCut => lines.push(format!(
                "WATCH it: wings level after {after} s, the fan stops {} s later.",
                number(plan.wait.s())
            )),
        }
        if plan.failsafe_action != FailsafeAction::Return {
            lines.push("CLEAR people from under it.".into());
            lines.push("NOTE where it goes down. Ring.".into());
        }
        lines
    }

    /// How the sticks are left, so that a link that comes back does not surprise.
    fn quiet(&self) -> &'static str {
        if self.returns() {
            "SET return, half throttle, in case it comes back."
        } else {
            "THROTTLE closed, sticks centred, in case it comes back."
        }
    }

    fn both_lost(&self) -> Vec<String> {
        let mut lines: Vec<String> =
            vec!["SAY \u{201c}both lost\u{201d}.".into(), "GOGGLES OFF. LOOK UP, all of you.".into()];
        lines.push(self.quiet().into());
        let goes = if self.returns() {
            "SPOTTER: \u{201c}turning\u{201d} or \u{201c}not turning\u{201d}."
        } else {
            "SPOTTER points at it, and says where it goes."
        };
        lines.extend([goes.to_owned(), "NOT SEEN: treat it as falling.".into()]);
        lines
    }

    fn flying_away(&self) -> Vec<String> {
        let leaving = if self.returns() {
            "LEAVING: command the return. Still leaving: CUT."
        } else {
            "LEAVING: CUT the fan while it still answers."
        };
        let lines = [
            "AIRCRAFT: go low, turn away from it, LAND.",
            leaving,
            "NOTE its last bearing and the time.",
            "RING the numbers on this sheet, and the nearest airfield.",
        ];
        lines.map(String::from).into()
    }

    /// What stops the flying: the number first, then what matters most everywhere, then what is of this
    /// place, then the rest.
    pub fn stop_list(&self) -> Vec<String> {
        let mut stops = Vec::new();
        if let Some(wind) = self.studies.wind_limit.and(self.facts().wind_for_card()) {
            stops.push(format!(
                "the hand-held meter reads over {:.1} m/s, or {:.1} m/s in gusts",
                wind.mean_mps, wind.gust_mps
            ));
            if let Some(none) = wind.none_from {
                stops.push(format!("there is any wind from {none}"));
            }
        }
        let [sight, ground, rest @ ..] = STOP.map(String::from);
        stops.extend([sight, ground]);
        stops.extend(self.scenario.file.brief.stop_also.iter().cloned());
        stops.extend(rest);
        stops
    }
}

fn falling() -> Vec<String> {
    let lines = [
        "SHOUT \u{201c}heads!\u{201d} and the side.",
        "TAKE COVER. Leave the goggles.",
        "CUT the throttle, in case it answers.",
        "WAIT until it is down. NOTE where.",
        "FIRE: stay upwind, keep off, wait. Never handle the battery.",
    ];
    lines.map(String::from).into()
}

impl Facts {
    /// What everybody else does, one thing a line.
    pub(crate) fn others(&self) -> Vec<String> {
        let [height, feet] = &self.height;
        let first = match &self.keep_off {
            Some(off) => format!("KEEP OFF {off} from its centre ({}), and off {height} ({feet}).", self.apart),
            None => "CLEAR the sky and the ground on its way.".into(),
        };
        vec![first, "LAND if you can. Leave pilot and spotter alone until it is down.".into()]
    }
}
