//! What eats the room between the circle and the nearest limit, line by line.

use super::answer::Buffer;
use super::cases::tracking;
use super::choice::both_winds;
use super::trials::{Circle, Trials};
use crate::ledger::reach;

/// One-sided 95 % of a normal distribution, in standard deviations.
const MOST: f64 = 1.645;

/// The lines of the stack at a circle.
pub(super) fn buffers(trials: &Trials<'_>, circle: Circle, cases: u64) -> Vec<Buffer> {
    let file = &trials.scenario.file;
    let perception = &file.recovery.perception;
    let normal = |name, spread: f64| Buffer {
        name,
        metres: MOST * spread,
        origin: format!("95 % of a spread of {spread:.1} m towards the limit"),
    };
    let mut lines = vec![
        Buffer {
            name: "survey error",
            metres: 0.0,
            origin: "the field file has none: add what your survey may be off to the standoff".into(),
        },
        normal("position noise", perception.position_noise.m()),
        normal("home capture error", perception.home_spread().m()),
    ];
    if trials.circles() {
        let [mean, gust] = both_winds(trials, circle).map(|flight| flight.and_then(|flight| flight.score.outermost_m));
        let beyond = tracking(trials, circle, cases);
        if let Some(metres) = beyond.quantile(0.95) {
            lines.push(Buffer {
                name: "tracking error",
                metres: metres.max(0.0),
                origin: format!(
                    "95 % of the {} drawn cases that settle are no further beyond the radius, home and position being right",
                    beyond.count()
                ),
            });
        }
        if let (Some(mean), Some(gust)) = (mean, gust) {
            lines.push(Buffer {
                name: "gust excursion",
                metres: (gust - mean).max(0.0),
                origin: format!("outermost {gust:.0} m in the gust wind all the time, {mean:.0} m in the mean wind"),
            });
        }
    }
    lines.push(Buffer { name: "standoff", metres: file.limits.standoff.m(), origin: "asked for in the limits".into() });
    lines
}

/// How far what falls from the circle may land, metres: thrown at its speed over the ground, and no less than its
/// height.
pub(super) fn falls_m(trials: &Trials<'_>) -> f64 {
    let file = &trials.scenario.file;
    let height = file.recovery.height.m();
    let ground_speed = file.jet.return_speed.value.mps() + trials.scenario.wind_at_circle()[0];
    reach::fall_m(ground_speed, height).max(height)
}
