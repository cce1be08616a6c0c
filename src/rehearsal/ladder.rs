//! What is practised first, and what next? A first exercise of three minutes, and ten more: from calm to gusty, from near to
//! far, from upwind to downwind, from the video to both.

use super::exercise::From;
use super::{Exercise, Hands, Lost, When};

/// One step of the ladder.
#[derive(Debug, Clone, PartialEq)]
pub struct Rung {
    /// The exercise.
    pub exercise: Exercise,
    /// What is new in it.
    pub new: &'static str,
    /// What a good run looks like.
    pub good: &'static str,
}

/// The first exercise and the ten after it, for any field.
pub fn ladder() -> Vec<Rung> {
    let base = Exercise {
        name: String::new(),
        lost: Lost::Video,
        when: When::AfterS(20.0),
        back_after_s: 45.0,
        hands: Hands::Levelling,
        trial: 0,
        wind_share: 0.0,
        from: near(0.0),
    };
    let rung = |name: &str, new, good, exercise: Exercise| Rung {
        exercise: Exercise { name: name.into(), ..exercise },
        new,
        good,
    };
    vec![
        rung(
            "First flight",
            "Fly level for six seconds. Then the picture goes dark: command the return, and go through the drill.",
            "The return is commanded within 3 s. You point at the jet, say how it flies, and take over going away. Then \
             climb to the height of the circle and end it there: no landing yet.",
            Exercise { when: When::AfterS(6.0), ..base.clone() },
        ),
        rung(
            "1 Calm and near",
            "Fly round the centre until the picture goes. The same drill, to the ground: after the take-over one circuit, and a \
             landing.",
            "You are ready within half a minute, and touch down slower than 1.4 stall speeds, sinking less than 1 m/s.",
            Exercise { back_after_s: 40.0, ..base.clone() },
        ),
        rung(
            "2 Any moment",
            "The picture may go at any moment of the first forty seconds.",
            "The call comes at once, whatever you were doing, and the wings are level before the goggles are off.",
            Exercise { when: When::BetweenS([8.0, 40.0]), ..base.clone() },
        ),
        rung(
            "3 Half the wind",
            "Half of the wind of the plan. The circle has a slow side now.",
            "You wait for the slow side, and take over there.",
            Exercise { wind_share: 0.5, ..base.clone() },
        ),
        rung(
            "4 The wind of the day",
            "All of the wind, upwind of the centre.",
            "The jet is handed from the circle to your sticks without losing height.",
            Exercise { wind_share: 1.0, ..base.clone() },
        ),
        rung(
            "5 Downwind",
            "All of the wind, and the jet is lost downwind of the centre: it comes home slowly.",
            "Nobody hurries: it is given the time it needs to come back, and the boundary behind it stays clear.",
            Exercise { wind_share: 1.0, from: near(180.0), ..base.clone() },
        ),
        rung(
            "6 Far out",
            "Three quarters of the way to the boundary, across the wind.",
            "You find a jet that is small: look along the arm of the spotter, not over the whole sky.",
            Exercise { wind_share: 1.0, from: far(90.0), ..base.clone() },
        ),
        rung(
            "7 Control lost",
            "The sticks go dead, the picture stays. The jet acts by itself after its failsafe delay.",
            "You say so, leave the sticks centred and the return switch set, and do not fight it. You take over once the \
             link is back.",
            Exercise { lost: Lost::Control, wind_share: 1.0, from: far(0.0), ..base.clone() },
        ),
        rung(
            "8 A link that flickers",
            "Link and picture come and go for some seconds.",
            "You command the return in the first moment that lets you, and leave it there until all is steady.",
            Exercise { lost: Lost::Flicker, wind_share: 1.0, from: far(90.0), ..base.clone() },
        ),
        rung(
            "9 Position lost",
            "The jet no longer knows where it is: there is no return. It levels, holds its bank and drifts.",
            "You take it by hand within seconds, by the picture or by eye, and bring it back.",
            Exercise { lost: Lost::Position, wind_share: 1.0, from: near(270.0), ..base.clone() },
        ),
        rung(
            "10 Both, on a rough day",
            "Everything uncertain is drawn, turbulence blows, and both links go at any moment, far out and downwind.",
            "Everything above, in order, and nothing crossed.",
            Exercise {
                lost: Lost::Both,
                when: When::BetweenS([10.0, 40.0]),
                trial: 10,
                wind_share: 1.0,
                from: far(180.0),
                ..base
            },
        ),
    ]
}

const fn near(aside_deg: f64) -> From {
    From::Upwind { aside_deg, share: 0.4 }
}

const fn far(aside_deg: f64) -> From {
    From::Upwind { aside_deg, share: 0.75 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rehearsal::Rehearsal;
    use crate::run::{Scenario, samples};

    #[test]
    fn every_rung_can_be_flown_on_every_field_that_ships() {
        let fields = samples().iter().map(|sample| sample.scenario());
        for scenario in fields.chain([Scenario::demo()]) {
            for rung in ladder() {
                assert_eq!(rung.exercise.faults(), Vec::<String>::new());
                let flown = Rehearsal::new(&scenario, &rung.exercise);
                assert!(flown.is_ok(), "{} on {}: {:?}", rung.exercise.name, scenario.file.name, flown.err());
            }
        }
    }
}
