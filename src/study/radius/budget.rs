//! The room budget between the circle and the nearest limit, line by line.
//!
//! Position noise, home capture, tracking and gusts are drawn in every trial, so that whether a limit is crossed counts
//! them already. The buffer is not for them once more: it is for what no trial draws, the survey's error and what the
//! model leaves out. Hence the lines are shown, and only the buffer and the survey are asked for beside the trials.

use super::answer::BudgetLine;
use super::choice::both_winds;
use super::flyer::{Circle, CircleFlyer};
use super::trials::tracking;
use crate::margins::reach;

/// One-sided 95 % of a normal distribution, in standard deviations.
const MOST: f64 = 1.645;

/// The lines of the room budget at a circle.
pub(super) fn budget(flyer: &CircleFlyer<'_>, circle: Circle, trials: u64) -> Vec<BudgetLine> {
    let file = &flyer.scenario.file;
    let perception = &file.recovery.perception;
    let normal = |name, spread: f64| BudgetLine {
        name,
        metres: MOST * spread,
        origin: format!("95 % of a spread of {spread:.1} m towards the limit; simulated in every trial"),
    };
    let mut lines = vec![
        BudgetLine {
            name: "survey error",
            metres: 0.0,
            origin: match file.brief.survey_error {
                Some(off) => format!("not simulated: {off} as stated in the file, which the buffer is to hold"),
                None => {
                    "not simulated, and the file states none: let the buffer hold what your survey may be off".into()
                }
            },
        },
        normal("position noise", perception.position_noise.m()),
        normal("home capture error", perception.home_spread().m()),
    ];
    if flyer.circles() {
        let [mean, gust] = both_winds(flyer, circle).map(|flight| flight.and_then(|flight| flight.score.furthest_m));
        let beyond = tracking(flyer, circle, trials);
        if let Some(metres) = beyond.quantile(0.95) {
            lines.push(BudgetLine {
                name: "tracking error",
                metres: metres.max(0.0),
                origin: format!(
                    "95 % of the {} trials that settle are no further beyond the radius, home and position being right",
                    beyond.count()
                ),
            });
        }
        if let (Some(mean), Some(gust)) = (mean, gust) {
            lines.push(BudgetLine {
                name: "gust excursion",
                metres: (gust - mean).max(0.0),
                origin: format!("furthest {gust:.0} m in the gust wind all the time, {mean:.0} m in the mean wind"),
            });
        }
    }
    lines.push(BudgetLine {
        name: "buffer",
        metres: file.limits.buffer.m(),
        origin:
            "the buffer asked for in the limits, for the survey and what the model leaves out: the errors above are \
                 simulated, and not asked for in it again"
                .into(),
    });
    lines
}

/// How far what falls from the circle may land, metres: thrown at its speed over the ground, and no less than its
/// height.
pub(super) fn falls_m(flyer: &CircleFlyer<'_>) -> f64 {
    let file = &flyer.scenario.file;
    let height = file.recovery.height.m();
    let ground_speed = file.jet.return_speed.value.mps() + flyer.scenario.wind_at_circle()[0];
    reach::fall_m(ground_speed, height).max(height)
}
