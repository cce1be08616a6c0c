//! What eats the room between the circle and the nearest limit, line by line.
//!
//! Position noise, home capture, tracking and gusts are drawn in every trial, so that whether a limit is crossed counts
//! them already. The buffer is not for them once more: it is for what no trial draws, the survey's error and what the
//! model leaves out. Hence the lines are shown, and only the buffer and the survey are asked for beside the trials.

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
        origin: format!("95 % of a spread of {spread:.1} m towards the limit; simulated in every trial"),
    };
    let mut lines = vec![
        Buffer {
            name: "survey error",
            metres: 0.0,
            origin: "not simulated, and the field file has none: let the buffer hold what your survey may be off"
                .into(),
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
    lines.push(Buffer {
        name: "standoff",
        metres: file.limits.standoff.m(),
        origin:
            "the buffer asked for in the limits, for the survey and what the model leaves out: the errors above are \
                 simulated, and not asked for in it again"
                .into(),
    });
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
