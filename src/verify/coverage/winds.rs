//! The wind that a log tells, against logs of circles that nothing of the program has flown.

use glam::DVec2;
use rand::Rng as _;

use super::{Depth, dice, share};
use crate::debrief::wind;
use crate::study::work::{Work, in_order};
use crate::verify::another::Flight;
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines, depth: &Depth, seed: u64, work: &Work) {
    work.expect(depth.logs);
    let found = in_order(work, 0..depth.logs, |job| {
        let mut dice = dice(seed, 4, job);
        let flight = Flight::any(&mut dice);
        let log = flight.log(dice.next_u64());
        work.add(1);
        // A gap in two laps may leave too little of a turn: that is said, and counts for nothing here.
        let fit = log.and_then(|log| wind(&log, 0..log.time_s().len()).ok())?;
        Some([
            fit.holds(flight.wind),
            fit.along(DVec2::X).holds(flight.wind.x),
            fit.speed_within.holds(flight.wind.length()),
            fit.airspeed_within.holds(flight.airspeed),
        ])
    });
    let told: Vec<_> = found.results.iter().flatten().collect();
    let source = "flights by another guidance, integration and wind, whose truth is known; a hundredth is left to what the \
                  method leaves out (judgement)";
    let names = [
        "ellipse of the wind holds the wind",
        "interval of its east part holds that",
        "interval of its speed holds that",
        "interval of the airspeed holds that",
    ];
    for (part, name) in names.iter().enumerate() {
        let held = told.iter().filter(|holds| holds[part]).count() as f64;
        let name = format!("how often the 95 % {name}, of {} fresh logs", depth.logs);
        share(lines, &name, (held, told.len() as f64), (0.95, 0.01), source);
    }
    let few = told.len() as f64 / depth.logs as f64;
    let source = "judgement: two laps and more tell a wind but for one log in twenty, cut apart by a gap";
    lines.add(
        "share of the fresh logs that tell a wind at all",
        few,
        crate::verify::line::Expected::Between(0.95, 1.0),
        "",
        source,
    );
}
