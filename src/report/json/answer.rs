//! The answer in five lines, what it would take for a plan to hold, and how near it passes to people.

use serde::Serialize;

use super::blocks::Point;
use super::trials::Verdict;
use crate::brief::{self, FiveLines};
use crate::recovery::Turn;
use crate::study::remedy;
use crate::words;

#[derive(Serialize)]
pub(in crate::report) struct Answer {
    does_it_hold: String,
    what_limits_it: String,
    what_it_would_take: Option<String>,
    people: String,
    where_it_is_flown: String,
}

/// The plan proposed instead, whole.
#[derive(Serialize)]
pub(super) struct Remedy {
    changes: Vec<String>,
    radius_m: f64,
    turn: Turn,
    centre: Point,
    height_m: f64,
    return_speed_mps: f64,
    maximum_bank_deg: f64,
    loss_height_m: f64,
    usable_radii_low_m: f64,
    usable_radii_high_m: f64,
    verdict: Verdict,
}

/// How near people it passes, in words and numbers.
#[derive(Serialize)]
pub(in crate::report) struct People {
    told: String,
    nearest_m: f64,
    to: String,
    fall_nearest_m: f64,
    fall_to: String,
    fall_share: Option<f64>,
    glide_share: Option<f64>,
    areas: usize,
}

impl From<FiveLines> for Answer {
    fn from(five: FiveLines) -> Self {
        Self {
            does_it_hold: five.verdict,
            what_limits_it: five.limited_by,
            what_it_would_take: five.remedy,
            people: five.people,
            where_it_is_flown: five.flown,
        }
    }
}

impl Remedy {
    /// None where no changes were found.
    pub(super) fn of(found: Option<&remedy::Found>) -> Option<Self> {
        let Some(remedy::Found::Changes(found)) = found else { return None };
        let design = found.design;
        let [usable_radii_low_m, usable_radii_high_m] = found.usable_m;
        Some(Self {
            changes: found.changes.iter().map(words::change).collect(),
            radius_m: design.radius_m,
            turn: design.turn,
            centre: design.centre.into(),
            height_m: design.height_m,
            return_speed_mps: design.return_mps,
            maximum_bank_deg: design.bank_deg,
            loss_height_m: design.loss_m,
            usable_radii_low_m,
            usable_radii_high_m,
            verdict: (&found.verdict.verdict).into(),
        })
    }
}

impl From<brief::People> for People {
    fn from(people: brief::People) -> Self {
        Self {
            told: words::people(&people),
            nearest_m: people.nearest_m,
            fall_nearest_m: people.fall_nearest_m,
            fall_share: people.fall_share,
            glide_share: people.glide_share,
            to: people.to,
            fall_to: people.fall_to,
            areas: people.areas,
        }
    }
}
