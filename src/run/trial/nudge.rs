//! The plan as entered with one uncertain input moved and all others at their middle: how much does that one matter.

use super::{Trial, WindChoice, draw};
use crate::jet::{Entry, PlainEntry};
use crate::run::Scenario;
use crate::units::{Length, Quantity, Ratio};
use crate::wind::Profile;

/// An input of which only a value and a spread are known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Input {
    /// Mean wind.
    WindSpeed,
    /// Direction the wind comes from.
    WindFrom,
    /// How the wind grows with height.
    WindExponent,
    /// Gusts: none, or the gust wind all the time.
    Gusts,
    /// Speed held on the way home.
    ReturnSpeed,
    /// Steepest bank.
    MaximumBank,
    /// Time constant of the bank.
    RollLag,
    /// Flying mass.
    Mass,
    /// Largest lift coefficient.
    LiftMax,
    /// Error of the captured home to the east.
    HomeEast,
    /// Error of the captured home to the north.
    HomeNorth,
    /// Error of the height reference, its drift included.
    Height,
    /// Time from the loss until something acts on it.
    FailsafeDelay,
    /// Charge of a full pack.
    Battery,
    /// Time from the circle to the take-over.
    TakeOver,
}

impl Input {
    /// Every one of them.
    pub const ALL: [Self; 15] = [
        Self::WindSpeed,
        Self::WindFrom,
        Self::WindExponent,
        Self::Gusts,
        Self::ReturnSpeed,
        Self::MaximumBank,
        Self::RollLag,
        Self::Mass,
        Self::LiftMax,
        Self::HomeEast,
        Self::HomeNorth,
        Self::Height,
        Self::FailsafeDelay,
        Self::Battery,
        Self::TakeOver,
    ];

    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::WindSpeed => "wind speed",
            Self::WindFrom => "wind direction",
            Self::WindExponent => "growth of the wind with height",
            Self::Gusts => "gusts",
            Self::ReturnSpeed => "return speed",
            Self::MaximumBank => "maximum bank",
            Self::RollLag => "roll lag",
            Self::Mass => "mass",
            Self::LiftMax => "largest lift coefficient",
            Self::HomeEast => "captured home, east",
            Self::HomeNorth => "captured home, north",
            Self::Height => "height reference",
            Self::FailsafeDelay => "failsafe delay",
            Self::Battery => "battery",
            Self::TakeOver => "take-over time",
        }
    }
}

/// The plan as entered with one input `spreads` standard deviations off its middle, and that input's value in print.
///
/// What is known by its range goes to the end of it on that side: the growth of the wind with height, and the gusts.
pub fn nudged(scenario: &Scenario, input: Input, spreads: f64) -> (Trial, String) {
    let mut moved = scenario.clone();
    let file = &mut moved.file;
    // What was left out stays what it is, whatever it was worked out from is moved.
    file.jet = file.jet.filled();
    let perception = &scenario.file.recovery.perception;
    let home = spreads * perception.home_spread().m();
    // The drift is even between its ends.
    let height = spreads * perception.height_error.m().hypot(perception.height_drift.m() / 3.0_f64.sqrt());
    let (mut choice, mut home_error, mut height_error) = (WindChoice::Mean, [0.0; 2], 0.0);
    let value = match input {
        Input::WindSpeed => {
            let wind = &mut file.wind;
            wind.mean = Quantity::from_si((wind.mean.mps() + spreads * wind.mean_spread_mps()).max(0.0));
            format!("{:.1}", wind.mean)
        }
        Input::WindFrom => {
            let wind = &mut file.wind;
            let deg = wind.from.deg() + spreads * wind.from_spread().rad().to_degrees();
            wind.from = crate::units::Bearing::from_deg(deg);
            format!("{:.0} deg", wind.from.deg())
        }
        Input::WindExponent => {
            let wind = &mut file.wind;
            let end = usize::from(spreads >= 0.0);
            let (exponent, roughness) = (wind.exponents()[end], Length::new(wind.roughnesses_m()[end]));
            (wind.exponent_low, wind.exponent_high) = (Some(exponent), Some(exponent));
            wind.roughness = Some(roughness);
            match wind.profile {
                Profile::Power => format!("exponent {exponent:.2}"),
                Profile::Log => format!("roughness {roughness}"),
                Profile::Uniform => "none".into(),
            }
        }
        Input::Gusts if spreads > 0.0 => {
            choice = WindChoice::Gust;
            format!("{:.1} all the time", file.wind.gust())
        }
        Input::Gusts => "none".into(),
        Input::ReturnSpeed => {
            let value = shift(&mut file.jet.return_speed, spreads, 1);
            if spreads != 0.0 {
                file.jet = scenario.file.jet.filled().returning_at(file.jet.return_speed.value, file.air.density());
            }
            value
        }
        Input::MaximumBank => shift(&mut file.jet.maximum_bank, spreads, 1),
        Input::RollLag => shift(&mut file.jet.roll_lag, spreads, 2),
        Input::Mass => shift(&mut file.jet.mass, spreads, 2),
        Input::LiftMax => {
            let PlainEntry { value, spread, origin } = file.jet.whole().lift_max.unwrap_or_default();
            let lift = value + spreads * spread;
            // By nothing it stays to the last bit.
            if spreads != 0.0 {
                file.jet = file.jet.with_lift_max(PlainEntry { value: lift, spread, origin });
            }
            format!("{lift:.2}")
        }
        Input::HomeEast => {
            home_error[0] = home;
            format!("{:.1}", Length::new(home))
        }
        Input::HomeNorth => {
            home_error[1] = home;
            format!("{:.1}", Length::new(home))
        }
        Input::Height => {
            height_error = height;
            format!("{:.1}", Length::new(height))
        }
        Input::FailsafeDelay => shift(file.delay_mut(), spreads, 1),
        Input::Battery => {
            let spread = file.jet.capacity.spread.si() / file.jet.capacity.value.si();
            shift(&mut file.jet.capacity, spreads, 0);
            format!("{:.0} of its rated charge", Ratio::new(1.0 + spreads * spread))
        }
        Input::TakeOver => shift(&mut file.limits.take_over, spreads, 1),
    };
    let mut trial = draw(&moved, 0, choice);
    [trial.plan.home_error_x, trial.plan.home_error_y] = home_error;
    trial.plan.height_error = height_error;
    (trial, value)
}

/// Moves an entry by its spread, never to less than a twentieth of itself, and prints it.
fn shift<Q: Quantity>(entry: &mut Entry<Q>, spreads: f64, digits: usize) -> String {
    let value = entry.value.si();
    entry.value = Q::from_si((value + spreads * entry.spread.si()).max(super::draws::LEAST_SHARE * value));
    format!("{:.digits$}", entry.value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_input_of_the_demo_moves_the_trial_both_ways_and_by_nothing_stays() {
        let scenario = Scenario::tight_strip();
        let plain = draw(&scenario, 0, WindChoice::Mean);
        for input in Input::ALL {
            let [(low, below), (high, above)] = [-1.0, 1.0].map(|spreads| nudged(&scenario, input, spreads));
            assert_ne!(low, high, "{input:?}");
            assert_ne!(below, above, "{input:?}");
            // What has ends has no middle of its own.
            if !matches!(input, Input::WindExponent | Input::Gusts) {
                assert_eq!(nudged(&scenario, input, 0.0).0, plain, "{input:?}");
            }
        }
    }

    #[test]
    fn one_spread_of_the_demo_by_hand() {
        let scenario = Scenario::tight_strip();
        // 6 m/s with 15 % and 0.5 m/s: 1.4 m/s; the wind comes from the south.
        let (windy, value) = nudged(&scenario, Input::WindSpeed, 1.0);
        approx::assert_abs_diff_eq!(windy.wind.y, 7.4, epsilon = 1e-9);
        assert_eq!(value, "7.4 m/s");
        let (steep, value) = nudged(&scenario, Input::MaximumBank, -1.0);
        approx::assert_abs_diff_eq!(steep.jet.maximum_bank.to_degrees(), 33.0, epsilon = 1e-9);
        assert_eq!(value, "33.0 deg");
        // 4 m of error, and a drift of at most 8.3 m with a standard deviation of 8.3 / sqrt 3: 6.2 m together.
        let (low, value) = nudged(&scenario, Input::Height, -1.0);
        approx::assert_abs_diff_eq!(low.plan.height_error, -6.25, epsilon = 0.01);
        assert_eq!(value, "-6.2 m");
    }
}
