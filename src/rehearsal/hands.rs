//! What do sticks ask of the jet?
//!
//! Levelling: the stabiliser holds the bank and the climb that the sticks point at, as far as the sheet's limits, and levels
//! when they are let go. Straight through: the stick rolls the jet at a rate and pulls a load, and nothing levels it.

use serde::{Deserialize, Serialize};

use super::Sticks;
use crate::jet::{Command, JetNumbers, PITCH_LAG, State};
use crate::units::G0;

/// Load factor that a stick pulled all the way back asks for, straight through; pushed all the way it asks for none
/// (judgement).
const MOST_PULL: f64 = 3.0;
/// Steepest bank straight through, rad: what flies on beyond it is no recovery any more.
const STEEPEST: f64 = 1.3;

/// How the sticks reach the jet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hands {
    /// Through the stabiliser, which levels.
    #[default]
    Levelling,
    /// Straight through.
    StraightThrough,
}

impl Hands {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Levelling, Self::StraightThrough];

    /// What sticks command in a state. `bank` is the bank asked for so far, radians, which straight through the stick
    /// changes; `dt` is how long the command stands, seconds.
    pub(super) fn command(
        self,
        sticks: Sticks,
        state: &State<f64>,
        jet: &JetNumbers<f64>,
        bank: &mut f64,
        dt: f64,
    ) -> Command<f64> {
        let climb = match self {
            Self::Levelling => {
                *bank = sticks.roll_share * jet.maximum_bank;
                sticks.pitch_share * jet.climb_limit
            }
            Self::StraightThrough => {
                *bank = (*bank + sticks.roll_share * jet.roll_rate * dt).clamp(-STEEPEST, STEEPEST);
                let load = 1.0 + sticks.pitch_share * if sticks.pitch_share > 0.0 { MOST_PULL - 1.0 } else { 1.0 };
                // The climb whose pull, by the lag of the pitch, is that load along the banked wing.
                let pull = load * state.bank.cos() - state.climb.cos();
                state.climb + pull * G0 * PITCH_LAG / state.airspeed
            }
        };
        let thrust = thrust(jet, state, sticks.throttle_share);
        Command { bank: *bank, climb, thrust, stopped: 0.0 }
    }
}

/// Thrust at a share of the full fan speed, N: the efflux goes with the fan speed, and gives nothing below the airspeed.
fn thrust(jet: &JetNumbers<f64>, state: &State<f64>, throttle: f64) -> f64 {
    let efflux = throttle * jet.worn(state.energy).efflux_full;
    (jet.density * jet.nozzle * efflux * (efflux - state.airspeed)).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::{Scenario, WindChoice, draw};

    #[test]
    fn the_throttle_of_level_flight_gives_the_thrust_of_level_flight() {
        let trial = draw(&Scenario::demo(), 0, WindChoice::Mean);
        let jet = trial.jet;
        let state = State { airspeed: jet.return_speed, energy: 0.0, ..trial.start };
        let full = JetNumbers { charge: 1.0, ..jet };
        let level = full.drag(state.airspeed, 1.0, 0.0);
        let found = thrust(&full, &state, full.trim_throttle(state.airspeed));
        assert!((found - level).abs() < 1e-9 * level, "{found} for {level}");
        assert_eq!(thrust(&full, &state, 0.0), 0.0);
        assert!((thrust(&full, &state, 1.0) - full.thrust_full(state.airspeed)).abs() < 1e-9);
    }

    #[test]
    fn let_go_the_stabiliser_levels_and_straight_through_nothing_does() {
        let trial = draw(&Scenario::demo(), 0, WindChoice::Mean);
        let state = State { bank: 0.5, ..trial.start };
        let mut bank = 0.5;
        let sticks = Sticks { throttle_share: 0.5, ..Sticks::default() };
        let through = Hands::StraightThrough.command(sticks, &state, &trial.jet, &mut bank, 0.1);
        assert_eq!((bank, through.bank), (0.5, 0.5));
        // One g along a banked wing carries less than the weight: the nose goes down.
        assert!(through.climb < state.climb);
        let levelled = Hands::Levelling.command(sticks, &state, &trial.jet, &mut bank, 0.1);
        assert_eq!((levelled.bank, levelled.climb), (0.0, 0.0));
    }
}
