//! Which winds are tried, and how does the plan's air blow in one?

use crate::run::Scenario;
use crate::units::{Bearing, Length, Speed};
use crate::wind::WindSheet;

/// Times the last metre a second is halved: down to 0.5 m/s, less than lies undecided between a yes and a no.
pub(super) const HALVINGS: u32 = 1;
/// Steps of a metre a second.
pub(super) const STEPS: u32 = 1 << HALVINGS;

/// The step of a wind that is one.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a handful of steps, none below a calm")]
pub(super) fn step_of(mps: f64) -> u32 {
    (mps * f64::from(STEPS)).round().max(0.0) as u32
}

/// The wind of a step, m/s.
pub(super) fn wind_mps(step: u32) -> f64 {
    f64::from(step) / f64::from(STEPS)
}

/// Whole metres a second from a calm up to the return speed: against more no jet comes home.
pub(super) fn whole_winds(scenario: &Scenario) -> Vec<f64> {
    let fastest = scenario.file.jet.return_speed.value.mps();
    (0_u32..).map(f64::from).take_while(|&wind| wind <= fastest).collect()
}

/// What a direction counts for in the work: about as many winds as there are to try.
pub(super) fn parts(scenario: &Scenario) -> u64 {
    whole_winds(scenario).len() as u64
}

/// The sheet with another wind at a height: its gust in the proportion to the mean that it has there, the spreads as
/// they are. In the plan's own wind that is the plan's own air.
pub(super) fn blowing(sheet: &WindSheet, height: Length, from_deg: f64, wind_mps: f64) -> WindSheet {
    let [mean, gust] = sheet.aloft(height.m()).map(Speed::new);
    // A calm without a reported gust has no proportion but the one assumed.
    let gust = (mean.mps() > 0.0 || !sheet.gust_is_assumed()).then_some(gust);
    let there = WindSheet { mean, gust, from: Bearing::from_deg(from_deg), measured_at: height, ..*sheet };
    there.with_mean(Speed::new(wind_mps))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_wind(mean: f64, gust: Option<f64>, measured_at: f64, wind: f64, expected_gust: f64) {
        let sheet = WindSheet { measured_at: Length::new(measured_at), ..Scenario::tight_strip().file.wind };
        let sheet = WindSheet { mean: Speed::new(mean), gust: gust.map(Speed::new), ..sheet };
        let found = blowing(&sheet, Length::new(80.0), 123.0, wind);
        assert_eq!((found.mean.mps(), found.measured_at.m(), found.from.deg()), (wind, 80.0, 123.0));
        assert_eq!((found.from_spread, found.turbulence), (sheet.from_spread, sheet.turbulence));
        assert!((found.gust().mps() - expected_gust).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn gusts_keep_their_proportion() {
        check_wind(6.0, Some(9.0), 80.0, 4.0, 6.0);
        check_wind(6.0, Some(9.0), 80.0, 0.0, 0.0);
        check_wind(0.0, Some(2.0), 80.0, 3.0, 5.0);
        // Nobody reported one: half more than the mean.
        check_wind(6.0, None, 80.0, 4.0, 6.0);
        check_wind(0.0, None, 80.0, 4.0, 6.0);
        // Hand-held, at 2 m: aloft the mean is 40^0.17 times as much, and the gust still 2 m/s over it.
        let aloft = 4.0 * 40.0_f64.powf(0.17);
        check_wind(4.0, Some(6.0), 2.0, aloft, aloft + 2.0);
        check_wind(4.0, None, 2.0, aloft / 2.0, (aloft + 2.0) / 2.0);
    }

    #[test]
    fn whole_winds_end_at_the_return_speed() {
        let scenario = Scenario::tight_strip();
        assert_eq!(whole_winds(&scenario).last(), Some(&22.0));
    }
}
