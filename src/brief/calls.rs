//! The sentences of the prints: what to do when something is lost, what stops the flying, what is said on the flight line.
//!
//! Verbs first, no abbreviations, one place.

use super::{Facts, Plan};
use crate::recovery::FailsafeAction;
use crate::run::LossKind;
use crate::words::number;

/// A box of what to do when something is lost.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LossBox {
    /// What is lost.
    pub title: &'static str,
    /// What to do, one thing a line.
    pub lines: Vec<String>,
}

/// One moment on the flight line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Phrase {
    /// When.
    pub moment: &'static str,
    /// What the pilot says.
    pub pilot: &'static str,
    /// What the spotter says.
    pub spotter: &'static str,
}

/// What pilot and spotter say whatever the plan: a proposal, to be agreed by the club. Places and animals are examples.
const SAID: [Phrase; 9] = [
    Phrase {
        moment: "goggles down",
        pilot: "Goggles down. You are my eyes.",
        spotter: "Jet in sight. Sky clear. Ground clear.",
    },
    Phrase {
        moment: "video lost",
        pilot: "Video lost. Goggles off.",
        spotter: "Two o'clock, three fists, going right, level.",
    },
    Phrase {
        moment: "control lost",
        pilot: "Control lost. Sticks centred.",
        spotter: "It turns. Heading home. Clear of the animals.",
    },
    Phrase { moment: "still looking", pilot: "Looking.", spotter: "Along my arm. Over the barn. Slow side now." },
    Phrase { moment: "found", pilot: "Seen. Going away, level.", spotter: "Yes, that one.  Or: No, yours is lower." },
    Phrase { moment: "taking over", pilot: "My jet. I have it.", spotter: "Your jet. Circuit clear." },
    Phrase {
        moment: "not seen for a lap",
        pilot: "Not seen.",
        spotter: "Leave it circling.  Or: Cut it. Everyone clear.",
    },
    Phrase { moment: "leaving the field", pilot: "Cutting.", spotter: "It leaves us. Cut, cut." },
    Phrase { moment: "falling", pilot: "Heads!", spotter: "Heads! North side!" },
];

/// What is said instead where the plan stops the fan.
const SAID_GLIDING: [Phrase; 3] = [
    Phrase {
        moment: "control lost",
        pilot: "Control lost. Sticks centred.",
        spotter: "It glides. Straight, going left. Clear below it.",
    },
    Phrase { moment: "still looking", pilot: "Looking.", spotter: "Along my arm. Over the barn. Still high." },
    Phrase { moment: "not seen", pilot: "Not seen.", spotter: "Down behind the hedge. Nobody runs." },
];

/// What stops the flying everywhere.
const STOP: [&str; 5] = [
    "the spotter loses sight of the jet",
    "animals have moved, or people are on or beside the field",
    "somebody else's circle or circuit lies in this one",
    "home is not captured in its place, or the height is not zero",
    "pilot or spotter is tired, cold, or not happy with it",
];

impl Plan<'_> {
    /// What pilot and spotter say.
    pub fn phrases_said(&self) -> [Phrase; 9] {
        if self.scenario.file.recovery.failsafe_action == FailsafeAction::Return {
            return SAID;
        }
        let mut said = SAID;
        for (place, instead) in [2, 3, 6].into_iter().zip(SAID_GLIDING) {
            said[place] = instead;
        }
        said
    }

    /// The three boxes.
    pub fn loss_boxes(&self) -> [LossBox; 3] {
        [self.video_lost(), self.control_lost(), self.falling()]
    }

    fn video_lost(&self) -> LossBox {
        let blind = self.scenario.file.loss.speed.mps() + self.margins.figures.wind_at_circle_mps[0];
        let then = if self.scenario.file.limits.no_automatic_return {
            "FLY it back by eye. No automatic return is permitted here."
        } else if self.scenario.file.recovery.failsafe_action == FailsafeAction::Return {
            "GIVE the command to return, unless you see it and fly it by eye."
        } else if self.scenario.file.loss.kind == LossKind::Video {
            "CUT the fan, as agreed, unless you see it and fly it by eye."
        } else {
            "FLY it back by eye; cut the fan if you can't find it."
        };
        LossBox {
            title: "Video lost",
            lines: vec![
                "SAY \u{201c}video lost\u{201d}.".into(),
                "HOLD the wings level, climb gently.".into(),
                "LIFT the goggles. LOOK along the spotter's arm.".into(),
                then.into(),
                format!("It flies up to {blind:.0} m on with every second."),
            ],
        }
    }

    fn control_lost(&self) -> LossBox {
        let (plan, figures) = (&self.scenario.file.recovery, &self.margins.figures);
        let after = number(plan.failsafe_delay.value.s());
        let mut lines = vec!["SAY \u{201c}control lost\u{201d}. CENTRE the sticks.".to_owned()];
        match plan.failsafe_action {
            FailsafeAction::Return => {
                lines.push(match figures.home_s {
                    Some(home) => {
                        format!("WAIT: it turns home after {after} s and is on the circle {home:.0} s after the loss.")
                    }
                    None => format!("WATCH: it turns home after {after} s, but is never on the circle in this wind."),
                });
                lines.push("KEEP eyes on it. CLEAR people from under it.".into());
                lines.push("TAKE OVER by eye, on the marked arc, once control is back and it answers.".into());
            }
            FailsafeAction::Cut => lines.push(format!(
                "WATCH it glide: the fan stops after {after} s, and in the plan's wind it is down {:.0} m from where it was lost.",
                figures.drift_m
            )),
            FailsafeAction::WaitThenCut => lines.push(format!(
                "WATCH it: wings level after {after} s, the fan stops {} s later, and in the plan's wind it is down {:.0} m \
                 from where it was lost.",
                number(plan.wait.s()),
                figures.drift_m
            )),
        }
        if plan.failsafe_action != FailsafeAction::Return {
            lines.push("CLEAR people from under it. NOTE where it goes down.".into());
        }
        LossBox { title: "Control lost", lines }
    }

    fn falling(&self) -> LossBox {
        let figures = &self.margins.figures;
        LossBox {
            title: "Both, or falling",
            lines: vec![
                "SHOUT \u{201c}heads!\u{201d} and the side. LOOK UP, all of you.".into(),
                "MOVE away from under it. LEAVE the goggles.".into(),
                format!(
                    "It may fall {:.0} m on, or glide {:.0} m, and further with the wind.",
                    figures.fall_footprint_m, figures.glide_footprint_m
                ),
                "NOTE bearing and time. STAY off land you may not enter. EXPECT a battery fire.".into(),
            ],
        }
    }

    /// What stops the flying: the number first, then what matters most everywhere, then what is of this
    /// place, then the rest.
    pub fn stop_list(&self) -> Vec<String> {
        let mut stops = Vec::new();
        if let Some(wind_limits) = self.studies.wind_limit.and(self.facts().wind_limits) {
            stops.push(match wind_limits.hand_mps {
                Some([low, _]) => format!("the hand-held meter reads over {low:.1} m/s, from {}", wind_limits.from),
                None => format!("there is any wind from {}, or none: this plan holds in no wind", wind_limits.from),
            });
        }
        let [sight, ground, rest @ ..] = STOP.map(String::from);
        stops.extend([sight, ground]);
        stops.extend(self.scenario.file.brief.stop_also.iter().cloned());
        stops.extend(rest);
        stops
    }
}

impl Facts {
    /// What everybody else does.
    pub(crate) fn others(&self) -> LossBox {
        let [height, feet] = &self.height;
        let (title, first) = match &self.keep_off {
            Some(off) => (
                "You see it circle",
                format!("KEEP your circuit outside {off} from the centre, and off {height} ({feet})."),
            ),
            None => ("You see it come down", "CLEAR the sky and the ground on its way.".into()),
        };
        LossBox {
            title,
            lines: vec![
                first,
                "LAND if you can. GIVE it the sky.".into(),
                "LEAVE its pilot and spotter alone until it is down.".into(),
                "STAND clear of the ground under it.".into(),
            ],
        }
    }
}
