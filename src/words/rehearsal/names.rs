//! What the choices of an exercise and the stages of the drill are called.

use crate::rehearsal::{Exercise, From, Hands, Heading, Lean, Lost, SeenAttitude, Stage, When};
use crate::words::{Measure, Units, number};

/// What is lost, in the words in which it is called.
pub const fn lost(lost: Lost) -> &'static str {
    match lost {
        Lost::Video => "video lost",
        Lost::Control => "control lost",
        Lost::Both => "both lost",
        Lost::Position => "position lost",
        Lost::Flicker => "link and video come and go",
    }
}

/// When it is lost.
pub fn when(when: When, units: &Units) -> String {
    match when {
        When::AfterS(at) => format!("{} s after the beginning", number(at)),
        When::BetweenS([from, to]) => format!("at some moment between {} and {} s", number(from), number(to)),
        When::OnCircuitM(along) => format!("{} along the circuit", units.short(Measure::Distance, along)),
        When::Pressed => "when the instructor says so".into(),
    }
}

/// How the sticks reach the jet.
pub const fn hands(hands: Hands) -> &'static str {
    match hands {
        Hands::Levelling => "through the stabiliser, which levels when the sticks are let go",
        Hands::StraightThrough => "straight through, nothing levels it",
    }
}

/// From where it is flown, for a trial.
pub fn from(from: From, trial: u64) -> String {
    match (from, trial) {
        (From::Plan, 0) => "from the loss that the plan writes down".into(),
        (From::Plan, _) => "from a loss drawn by the trial".into(),
        (From::Upwind { aside_deg, share }, _) => {
            let side = match aside_deg.rem_euclid(360.0) {
                aside if !(22.5..337.5).contains(&aside) => "upwind of the centre".into(),
                aside if (67.5..112.5).contains(&aside) || (247.5..292.5).contains(&aside) => {
                    "across the wind from the centre".to_owned()
                }
                aside if (157.5..202.5).contains(&aside) => "downwind of the centre".into(),
                aside => format!("{aside:.0} deg clockwise from upwind of the centre"),
            };
            format!("from {side}, {:.0} % of the way to the edge", share * 100.0)
        }
    }
}

/// How much of the wind blows.
pub fn wind(share: f64) -> String {
    match share {
        0.0 => "no wind".into(),
        1.0 => "the wind of the plan".into(),
        share => format!("{:.0} % of the wind of the plan", share * 100.0),
    }
}

/// An exercise in a sentence.
pub fn exercise(exercise: &Exercise, units: &Units) -> String {
    format!(
        "{}, {}; flown {}, in {}; sticks {}.",
        crate::words::capital(lost(exercise.lost)),
        when(exercise.when, units),
        from(exercise.from, exercise.trial),
        wind(exercise.wind_share),
        hands(exercise.hands)
    )
}

/// What to do now, verb first.
pub fn to_do(stage: Stage, what: Lost) -> String {
    match stage {
        Stage::Noticed => "Notice what is lost".into(),
        Stage::Called => match what {
            Lost::Flicker => "Call \u{201c}both lost\u{201d}".into(),
            what => format!("Call \u{201c}{}\u{201d}", lost(what)),
        },
        Stage::GogglesOff => "Take the goggles off".into(),
        Stage::Cued => "Hear from the spotter where to look".into(),
        Stage::Found => "Find it by eye and point at it".into(),
        Stage::Said => "Say how it flies, and which wing is down".into(),
        Stage::TakenOver => "Take over".into(),
    }
}

/// What was done.
pub const fn done(stage: Stage) -> &'static str {
    match stage {
        Stage::Noticed => "noticed",
        Stage::Called => "called",
        Stage::GogglesOff => "goggles off",
        Stage::Cued => "told where to look",
        Stage::Found => "found",
        Stage::Said => "attitude said",
        Stage::TakenOver => "taken over",
    }
}

/// The same, as other programs read it.
pub const fn stage_key(stage: Stage) -> &'static str {
    match stage {
        Stage::Noticed => "noticed",
        Stage::Called => "called",
        Stage::GogglesOff => "goggles_off",
        Stage::Cued => "told_where_to_look",
        Stage::Found => "found",
        Stage::Said => "attitude_said",
        Stage::TakenOver => "taken_over",
    }
}

/// How the jet is seen to fly, such as "going away, left wing down".
pub fn seen(seen: SeenAttitude) -> String {
    let heading = match seen.heading {
        Heading::Going => "going away",
        Heading::Coming => "coming",
        Heading::Left => "going left",
        Heading::Right => "going right",
    };
    let lean = match seen.lean {
        Lean::Level => "level",
        Lean::Left => "left wing down",
        Lean::Right => "right wing down",
    };
    format!("{heading}, {lean}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rehearsal::ladder;

    #[test]
    fn an_attitude_is_said_in_five_words_at_most() {
        for (heading, lean, said) in [
            (Heading::Going, Lean::Left, "going away, left wing down"),
            (Heading::Coming, Lean::Level, "coming, level"),
            (Heading::Left, Lean::Right, "going left, right wing down"),
            (Heading::Right, Lean::Level, "going right, level"),
        ] {
            assert_eq!(seen(SeenAttitude { heading, lean }), said);
        }
    }

    #[test]
    fn what_to_do_begins_with_a_verb_and_is_called_by_what_is_lost() {
        for (stage, what, said) in [
            (Stage::Called, Lost::Video, "Call \u{201c}video lost\u{201d}"),
            (Stage::Called, Lost::Control, "Call \u{201c}control lost\u{201d}"),
            (Stage::Called, Lost::Flicker, "Call \u{201c}both lost\u{201d}"),
            (Stage::GogglesOff, Lost::Video, "Take the goggles off"),
        ] {
            assert_eq!(to_do(stage, what), said);
        }
        for stage in Stage::ALL {
            for told in [to_do(stage, Lost::Both), done(stage).into()] {
                assert!(!told.is_empty() && !told.ends_with('.'), "{told}");
            }
            assert!(stage_key(stage).chars().all(|one| one.is_ascii_lowercase() || one == '_'));
        }
    }

    #[test]
    fn moments_and_places_are_told_in_the_units_of_the_reader() {
        let mut feet = Units::default();
        feet.distance.first = "ft".into();
        for (moment, units, said) in [
            (When::AfterS(20.0), &feet, "20 s after the beginning"),
            (When::BetweenS([8.0, 40.5]), &feet, "at some moment between 8 and 40.5 s"),
            // 304.8 m are a thousand feet, exactly.
            (When::OnCircuitM(304.8), &feet, "1000 ft along the circuit"),
            (When::OnCircuitM(304.8), &Units::default(), "305 m along the circuit"),
            (When::Pressed, &feet, "when the instructor says so"),
        ] {
            assert_eq!(when(moment, units), said);
        }
        let place = |aside_deg| from(From::Upwind { aside_deg, share: 0.4 }, 0);
        assert_eq!(place(0.0), "from upwind of the centre, 40 % of the way to the edge");
        assert_eq!(place(-180.0), "from downwind of the centre, 40 % of the way to the edge");
        assert_eq!(place(270.0), "from across the wind from the centre, 40 % of the way to the edge");
        assert_eq!(place(45.0), "from 45 deg clockwise from upwind of the centre, 40 % of the way to the edge");
        assert_ne!(from(From::Plan, 0), from(From::Plan, 3));
    }

    #[test]
    fn every_exercise_of_the_ladder_is_told_in_one_sentence() {
        for rung in ladder() {
            let told = exercise(&rung.exercise, &Units::default());
            assert!(told.ends_with('.') && !told.contains(". ") && !told.contains("  "), "{told}");
            assert!(told.starts_with(|first: char| first.is_uppercase()), "{told}");
        }
    }
}
