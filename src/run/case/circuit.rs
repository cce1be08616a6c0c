//! Losses drawn from the circuit.
//!
//! They take a stream of their own, so that no other input of a case depends on whether the field has one.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_6, TAU};

use glam::DVec2;

use super::{Draws, generator};
use crate::field::{Circuit, Loop, Way, Where};
use crate::jet::{JetNumbers, turn};
use crate::run::{Loss, Scenario};
use crate::units::{Angle, Bearing, G0, Quantity};
use crate::wind::ProfileNumbers;

/// Steepest bank drawn over an area, where nobody has said which way the jet turns: judgement, an easy turn.
const EASY_BANK: f64 = FRAC_PI_6;
/// Most of the airspeed that a wind across the course is let take: beyond it no course is held.
const MOST_CRAB: f64 = 0.95;

/// The loss of a drawn case; none for the case as written and where the field has no circuit.
///
/// Place uniform along the line with a normal spread sideways, or uniform over the area; height, airspeed and charge
/// uniform; nose and bank those of the jet that follows the line over the ground in the wind of the case.
pub(super) fn loss(scenario: &Scenario, case: u64, jet: &JetNumbers<f64>, wind: &ProfileNumbers<f64>) -> Option<Loss> {
    let circuit = scenario.field.circuit.as_ref().filter(|_| case > 0)?;
    let mut random = generator(scenario.file.seed, case);
    random.jump();
    let mut draws = Draws(Some(random));
    let Circuit { heights_m, speeds_mps, charges, .. } = circuit;
    let [height, airspeed, charge] = [heights_m, speeds_mps, charges].map(|&[least, most]| draws.uniform(least, most));
    let (at, nose, bank) = match &circuit.place {
        Where::Line(line) => {
            let air = wind.at(scenario.file.wind.profile, height);
            flown(line, circuit, [airspeed, jet.bank_limit], DVec2::new(air.x, air.y), &mut draws)
        }
        Where::Area(area) => {
            let at = Circuit::place_in(area, || draws.uniform(0.0, 1.0));
            let nose = DVec2::from_angle(draws.uniform(0.0, TAU));
            (at, nose, draws.uniform(-EASY_BANK, EASY_BANK))
        }
    };
    Some(Loss {
        at_m: at.to_array(),
        height: Quantity::from_si(height),
        speed: Quantity::from_si(airspeed),
        heading: Bearing::of(nose),
        climb: Angle::default(),
        bank: Angle::new(bank.clamp(-jet.bank_limit, jet.bank_limit)),
        charge: Quantity::from_si(charge),
        ..scenario.file.loss
    })
}

/// Place, nose and bank of a jet on its way along the line.
fn flown(
    line: &Loop,
    circuit: &Circuit,
    [airspeed, bank_limit]: [f64; 2],
    air: DVec2,
    draws: &mut Draws,
) -> (DVec2, DVec2, f64) {
    let along = draws.uniform(0.0, line.length_m());
    let aside = draws.capped(0.0, circuit.width_m);
    let reversed = match circuit.way {
        Way::Drawn => false,
        Way::Reversed => true,
        Way::Both => draws.uniform(0.0, 1.0) < 0.5,
    };
    let window = rounding_m(airspeed, bank_limit).min(line.length_m() / 4.0);
    let drawn = line.course(along, window);
    // Seen the other way round, a turn to the right is one to the left.
    let (course, curvature) = (drawn * way(reversed), line.curvature(along, window) * way(reversed));
    let (nose, bank) = following(course, curvature, airspeed, air);
    (line.place(along) + drawn.perp() * aside, nose, bank)
}

/// 1 as drawn, -1 against it.
const fn way(reversed: bool) -> f64 {
    if reversed { -1.0 } else { 1.0 }
}

/// Over how much of a line a jet rounds a square corner at its steepest bank, metres: a quarter of its circle.
fn rounding_m(airspeed: f64, bank_limit: f64) -> f64 {
    turn::radius(airspeed, bank_limit) * FRAC_PI_2
}

/// Nose and bank that follow a course over the ground, turning by `curvature` (1/m, positive to the right) in a wind.
///
/// The speed over the ground along the course is `V_g = V cos crab + W_along`. A turn pulls square to the nose, and what
/// of that is square to the course turns the path: `g tan bank cos crab = V_g^2 curvature` (closed form).
fn following(course: DVec2, curvature: f64, airspeed: f64, air: DVec2) -> (DVec2, f64) {
    let crab_sin = (course.perp_dot(air) / airspeed).clamp(-MOST_CRAB, MOST_CRAB);
    let crab_cos = (1.0 - crab_sin * crab_sin).sqrt();
    let nose = course * crab_cos - course.perp() * crab_sin;
    let ground = (airspeed * crab_cos + course.dot(air)).max(0.0);
    (nose, (ground * ground * curvature / (G0 * crab_cos)).atan())
}
