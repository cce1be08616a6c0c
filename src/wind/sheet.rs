//! What is known of the wind, as people say it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Terrain;
use crate::units::{Angle, Bearing, Length, Ratio, Speed};

/// What a gust that nobody reported is taken for, in multiples of the mean: judgement, near the 3 s gust over a mean of
/// 10 min off the land, 1.52 (WMO/TD-No. 1555, table 1.1).
pub const ASSUMED_GUST: f64 = 1.5;

/// Mean wind up to which its direction wanders most, m/s: the top of Beaufort 2, a light breeze (WMO table).
const LIGHT_MPS: f64 = 3.3;
/// Spread of the direction, degrees, usually and in light wind or near trees: judgement.
const FROM_SPREAD_DEG: [f64; 2] = [15.0, 25.0];

/// How the mean wind grows with height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Profile {
    /// `(h / h_ref)^exponent`.
    #[default]
    Power,
    /// `ln(h / z0) / ln(h_ref / z0)`.
    Log,
    /// The same at every height.
    Uniform,
}

/// The wind today.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WindSheet {
    /// Mean speed at the height it was measured at.
    pub mean: Speed,
    /// Speed in the gusts at the same height; left out where nobody reported one: then 1.5 times the mean.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gust: Option<Speed>,
    /// Direction it blows from, true.
    pub from: Bearing,
    /// Height above the ground it was measured at.
    pub measured_at: Length,
    /// How it grows with height.
    #[serde(default)]
    pub profile: Profile,
    /// What it has blown over: the range of its growth with height, where nothing below says otherwise.
    #[serde(default)]
    pub terrain: Terrain,
    /// Lowest exponent of the power law, instead of the terrain's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exponent_low: Option<f64>,
    /// Highest exponent of the power law, instead of the terrain's; a run without draws uses the middle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exponent_high: Option<f64>,
    /// Roughness length of the log law, instead of the terrain's range of them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roughness: Option<Length>,
    /// One standard deviation of the mean speed, as a share of it.
    #[serde(default = "mean_spread")]
    pub mean_spread: Ratio,
    /// One standard deviation of the mean speed that stays in light wind.
    #[serde(default = "mean_floor")]
    pub mean_floor: Speed,
    /// One standard deviation of the direction; left out, 15 deg, and 25 in light wind or among woods.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from_spread: Option<Angle>,
    /// Whether trials fly through turbulence. The run without draws never does.
    #[serde(default = "turbulence")]
    pub turbulence: bool,
    /// Speed scale of thermals (Deardorff's w*): some 1 to 2 m/s on a sunny summer day; none where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub convection: Option<Speed>,
}

impl WindSheet {
    /// Speed in the gusts where the mean was measured: the one reported, or 1.5 times the mean.
    pub fn gust(&self) -> Speed {
        self.gust.unwrap_or_else(|| Speed::new(ASSUMED_GUST * self.mean.mps()))
    }

    /// Whether nobody reported a gust.
    pub const fn gust_is_assumed(&self) -> bool {
        self.gust.is_none()
    }

    /// What gusts add to the mean, m/s: the same at every height.
    pub fn excess_mps(&self) -> f64 {
        self.gust().mps() - self.mean.mps()
    }

    /// Lowest and highest exponent of the power law.
    pub fn exponents(&self) -> [f64; 2] {
        let [low, high] = self.terrain.exponents();
        [self.exponent_low.unwrap_or(low), self.exponent_high.unwrap_or(high)]
    }

    /// Least and largest roughness length of the log law, m.
    pub fn roughnesses_m(&self) -> [f64; 2] {
        self.roughness.map_or_else(|| self.terrain.roughnesses_m(), |roughness| [roughness.m(); 2])
    }

    /// One standard deviation of the mean speed, m/s.
    pub fn mean_spread_mps(&self) -> f64 {
        self.mean_spread.share() * self.mean.mps() + self.mean_floor.mps()
    }

    /// One standard deviation of the direction.
    pub fn from_spread(&self) -> Angle {
        self.from_spread.unwrap_or_else(|| usual_from_spread(self.mean, self.terrain))
    }

    /// The same sheet with another mean; the gust keeps its proportion to it.
    pub fn with_mean(&self, mean: Speed) -> Self {
        let gust = self.gust.map(|gust| match self.mean.mps() {
            // A calm with gusts has no proportion to keep; the gusts then stay on top of the wind.
            calm if calm <= 0.0 => Speed::new(mean.mps() + gust.mps()),
            was => Speed::new(mean.mps() * (gust.mps() / was)),
        });
        Self { mean, gust, ..*self }
    }
}

/// Spread of the direction where nobody knows better.
pub(super) fn usual_from_spread(mean: Speed, terrain: Terrain) -> Angle {
    let wanders = mean.mps() <= LIGHT_MPS || terrain == Terrain::Wooded;
    Angle::new(FROM_SPREAD_DEG[usize::from(wanders)].to_radians())
}

pub(super) fn mean_spread() -> Ratio {
    Ratio::new(0.15)
}

pub(super) fn mean_floor() -> Speed {
    Speed::new(0.5)
}

fn turbulence() -> bool {
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(more: &str) -> WindSheet {
        let text = format!(r#"{{ "mean": "6 m/s", "from": "S", "measured_at": "2 m"{more} }}"#);
        serde_json::from_str(&text).unwrap()
    }

    #[test]
    fn a_gust_that_nobody_reported_is_half_more_than_the_mean() {
        let wind = sheet("");
        assert!(wind.gust_is_assumed());
        assert_eq!((wind.gust().mps(), wind.excess_mps()), (9.0, 3.0));
        let wind = sheet(r#", "gust": "7 m/s""#);
        assert!(!wind.gust_is_assumed());
        assert_eq!((wind.gust().mps(), wind.excess_mps()), (7.0, 1.0));
        assert!(!serde_json::to_string(&sheet("")).unwrap().contains("gust"));
    }

    #[test]
    fn what_is_written_goes_before_the_terrain() {
        assert_eq!(sheet("").exponents(), [0.14, 0.20]);
        assert_eq!(sheet(r#", "terrain": "wooded""#).exponents(), [0.22, 0.30]);
        assert_eq!(sheet(r#", "terrain": "wooded", "exponent_low": 0.1"#).exponents(), [0.1, 0.30]);
        assert_eq!(sheet(r#", "terrain": "sea""#).roughnesses_m(), [0.0001, 0.0005]);
        assert_eq!(sheet(r#", "terrain": "sea", "roughness": "2 cm""#).roughnesses_m(), [0.02, 0.02]);
    }

    #[test]
    fn the_direction_wanders_in_light_wind_and_near_trees() {
        #[track_caller]
        fn check(more: &str, mean: f64, deg: f64) {
            let wind = WindSheet { mean: Speed::new(mean), ..sheet(more) };
            approx::assert_abs_diff_eq!(wind.from_spread().rad().to_degrees(), deg, epsilon = 1e-9);
        }
        check("", 6.0, 15.0);
        check("", 3.0, 25.0);
        check(r#", "terrain": "wooded""#, 6.0, 25.0);
        check(r#", "terrain": "wooded", "from_spread": "8 deg""#, 2.0, 8.0);
    }

    #[test]
    fn gusts_keep_their_proportion_to_another_mean() {
        let gust = |more: &str, was: f64, mean: f64| {
            WindSheet { mean: Speed::new(was), ..sheet(more) }.with_mean(Speed::new(mean)).gust().mps()
        };
        approx::assert_abs_diff_eq!(gust(r#", "gust": "9 m/s""#, 6.0, 4.0), 6.0, epsilon = 1e-12);
        approx::assert_abs_diff_eq!(gust(r#", "gust": "2 m/s""#, 0.0, 3.0), 5.0, epsilon = 1e-12);
        approx::assert_abs_diff_eq!(gust("", 6.0, 4.0), 6.0, epsilon = 1e-12);
    }
}
