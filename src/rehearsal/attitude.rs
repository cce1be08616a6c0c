//! How does the jet look from where the pilot stands: which way does it fly, and to which side does it lean?

use glam::DVec2;
use serde::{Deserialize, Serialize};

/// A bank nearer than this to one that looks otherwise may be called either, degrees (judgement).
const UNSURE_BANK_DEG: f64 = 7.0;
/// Bank from which the wings are seen not to be level, degrees (judgement).
const LEANS_DEG: f64 = 12.0;
/// A direction nearer than this to one that looks otherwise may be called either, degrees (judgement).
const UNSURE_HEADING_DEG: f64 = 20.0;

/// Which way it flies, as the pilot sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Heading {
    /// Away from the pilot.
    Going,
    /// Towards the pilot.
    Coming,
    /// From the right to the left.
    Left,
    /// From the left to the right.
    Right,
}

/// To which side its wings lean, for somebody who sits in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lean {
    /// Wings level.
    Level,
    /// Its left wing is down.
    Left,
    /// Its right wing is down.
    Right,
}

/// What a pilot says of a jet that has been found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SeenAttitude {
    /// Which way it flies.
    pub heading: Heading,
    /// To which side it leans.
    pub lean: Lean,
}

impl Heading {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Going, Self::Coming, Self::Left, Self::Right];

    /// In the middle of which direction of the nose it lies, degrees clockwise from straight away.
    const fn middle_deg(self) -> f64 {
        match self {
            Self::Going => 0.0,
            Self::Right => 90.0,
            Self::Coming => 180.0,
            Self::Left => 270.0,
        }
    }
}

impl Lean {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Level, Self::Left, Self::Right];
}

impl SeenAttitude {
    /// How a jet looks: `away` leads from the eyes to it, its nose and its bank in radians, positive to the right.
    pub fn of(away: DVec2, nose: DVec2, bank_rad: f64) -> Self {
        let off = |heading: &Heading| aside_deg(away, nose, *heading);
        let heading = Heading::ALL.into_iter().min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(Heading::Going);
        let lean = match bank_rad.to_degrees() {
            bank if bank > LEANS_DEG => Lean::Right,
            bank if bank < -LEANS_DEG => Lean::Left,
            _ => Lean::Level,
        };
        Self { heading, lean }
    }

    /// Whether that may be said of it: what lies between two words may be called either.
    pub fn fits(self, away: DVec2, nose: DVec2, bank_rad: f64) -> bool {
        let bank = bank_rad.to_degrees();
        let leans = match self.lean {
            Lean::Level => bank.abs() <= LEANS_DEG + UNSURE_BANK_DEG,
            Lean::Right => bank > LEANS_DEG - UNSURE_BANK_DEG,
            Lean::Left => bank < -(LEANS_DEG - UNSURE_BANK_DEG),
        };
        leans && aside_deg(away, nose, self.heading) <= 45.0 + UNSURE_HEADING_DEG
    }
}

/// How far the nose is from the middle of a heading, from 0 to 180 degrees.
fn aside_deg(away: DVec2, nose: DVec2, heading: Heading) -> f64 {
    let clockwise = (-away.angle_to(nose)).to_degrees();
    ((clockwise - heading.middle_deg() + 180.0).rem_euclid(360.0) - 180.0).abs()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn north_of_the_pilot_every_way_has_its_word() {
        for (nose, heading) in [
            (DVec2::Y, Heading::Going),
            (DVec2::NEG_Y, Heading::Coming),
            (DVec2::X, Heading::Right),
            (DVec2::NEG_X, Heading::Left),
        ] {
            let seen = SeenAttitude::of(DVec2::Y, nose, 0.0);
            assert_eq!(seen, SeenAttitude { heading, lean: Lean::Level });
            for other in Heading::ALL {
                assert_eq!(SeenAttitude { heading: other, ..seen }.fits(DVec2::Y, nose, 0.0), other == heading);
            }
        }
        // East of the pilot, and to the right wing down.
        let seen = SeenAttitude::of(DVec2::X, DVec2::X, 0.5);
        assert_eq!(seen, SeenAttitude { heading: Heading::Going, lean: Lean::Right });
        assert!(!SeenAttitude { lean: Lean::Level, ..seen }.fits(DVec2::X, DVec2::X, 0.5));
    }

    #[test]
    fn what_lies_between_two_words_may_be_called_either() {
        let between = DVec2::new(1.0, 1.0).normalize();
        for heading in [Heading::Going, Heading::Right] {
            assert!(SeenAttitude { heading, lean: Lean::Level }.fits(DVec2::Y, between, 0.0));
        }
        let bank = LEANS_DEG.to_radians();
        for lean in [Lean::Level, Lean::Right] {
            assert!(SeenAttitude { heading: Heading::Going, lean }.fits(DVec2::Y, DVec2::Y, bank));
        }
    }
}
