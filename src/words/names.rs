//! What the choices of a scenario and the ends of a run are called.

use crate::margins::Outcome;
use crate::recovery::{FailsafeAction, Gain, Guidance, RecoveryPlan, Turn};
use crate::run::{Ending, LossKind, WindChoice};

/// The wind flown in.
pub fn wind(choice: WindChoice) -> &'static str {
    match choice {
        WindChoice::Mean => "mean wind",
        WindChoice::Gust => "gust wind",
    }
}

/// The same, as other programs read it.
pub fn wind_key(choice: WindChoice) -> &'static str {
    match choice {
        WindChoice::Mean => "mean",
        WindChoice::Gust => "gust",
    }
}

/// How a run ended.
pub fn ending(ending: Ending) -> &'static str {
    match ending {
        Ending::TakenOver => "settled on the circle and taken over",
        Ending::Landed => "on the ground",
        Ending::Empty => "the battery was empty in the air",
        Ending::OutOfTime => "neither home nor down when the run was stopped",
    }
}

/// The same, as other programs read it.
pub fn ending_key(ending: Ending) -> &'static str {
    match ending {
        Ending::TakenOver => "taken-over",
        Ending::Landed => "landed",
        Ending::Empty => "empty",
        Ending::OutOfTime => "out-of-time",
    }
}

/// What came of a recovery, as other programs read it, such as `area_or_obstacle`.
pub fn outcome_key(outcome: Outcome) -> String {
    outcome.name().replace(' ', "_")
}

/// The guidance law.
pub fn guidance(guidance: Guidance) -> &'static str {
    guidance.name()
}

/// How hard it corrects.
pub fn gain(gain: Gain) -> &'static str {
    match gain {
        Gain::Soft => "soft",
        Gain::Nominal => "nominal",
        Gain::Sharp => "sharp",
    }
}

/// What was lost.
pub fn loss(kind: LossKind) -> &'static str {
    match kind {
        LossKind::Video => "video",
        LossKind::Control => "control",
        LossKind::Both => "video and control",
        LossKind::Position => "position",
    }
}

/// What the jet does about a loss.
pub fn failsafe_action(plan: &RecoveryPlan) -> String {
    match plan.failsafe_action {
        FailsafeAction::Return => "return under power and circle".into(),
        FailsafeAction::WaitThenCut => format!("wait {}, then cut the fan and glide", plan.wait),
        FailsafeAction::Cut => "cut the fan at once and glide".into(),
    }
}

/// Which way round.
pub fn turn(turn: Turn) -> &'static str {
    match turn {
        Turn::Anticlockwise => "anticlockwise",
        Turn::Clockwise => "clockwise",
    }
}
