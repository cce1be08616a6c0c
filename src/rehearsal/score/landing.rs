//! How did it end: as a landing, flown on, or neither?

use super::{Part, PartKind, share};
use crate::geometry::Edge;
use crate::rehearsal::Rehearsal;
use crate::run::Floor;

/// Fastest descent at which a touch-down is still a landing, m/s, and one that nobody minds (judgement).
const SINK_MPS: [f64; 2] = [3.0, 1.0];
/// Steepest bank at a touch-down that is still a landing, degrees (judgement).
const LANDS_BANK_DEG: f64 = 20.0;
/// Speed at a touch-down in stall speeds: too fast to stop, and comfortable (judgement).
const TOUCH_STALLS: [f64; 2] = [2.0, 1.4];
/// Distance from the middle line of the runway at a touch-down: nothing of a place to land, and comfortable, metres beyond
/// half its width (judgement).
const BESIDE_M: [f64; 2] = [30.0, 0.0];
/// How far below the height of the take-over a climb away may end, metres.
const BELOW_M: f64 = 5.0;
/// Steepest bank that is flown on with, degrees.
const FLIES_ON_BANK_DEG: f64 = 45.0;

/// A touch-down.
#[derive(Debug, Clone, Copy)]
pub(super) struct TouchDown {
    /// Rate of descent, m/s.
    pub(super) sink_mps: f64,
    /// Bank, degrees.
    pub(super) bank_deg: f64,
    /// Airspeed in stall speeds.
    stalls: f64,
    /// Beside the runway, m; none where none is drawn.
    beside_m: Option<f64>,
}

impl TouchDown {
    /// Whether anybody would call it a landing.
    pub(super) fn is_a_landing(self) -> bool {
        self.sink_mps <= SINK_MPS[0] && self.bank_deg.abs() <= LANDS_BANK_DEG
    }
}

/// How it touched the ground.
pub(super) fn touch_down(flown: &Rehearsal) -> TouchDown {
    let trace = flown.trace();
    let last = trace.len().saturating_sub(1);
    let before = last.saturating_sub(2);
    let floor = Floor::of(flown.scenario());
    let over_ground = |index: usize| trace.height_m[index] - floor.height_m(trace.point(index));
    let passed = trace.time_s(last) - trace.time_s(before);
    let sink_mps = if passed > 0.0 { (over_ground(before) - over_ground(last)) / passed } else { 0.0 };
    let stall = flown.trial().jet.stall_speed(1.0);
    let beside_m = flown.scenario().field.runway.map(|runway| {
        let strip = Edge { from: runway.from, to: runway.to };
        (strip.distance2(trace.point(last)).sqrt() - runway.width_m / 2.0).max(0.0)
    });
    TouchDown {
        sink_mps,
        bank_deg: trace.bank_rad[last].to_degrees(),
        stalls: trace.airspeed_mps[last] / stall,
        beside_m,
    }
}

/// What the landing comes to, or the climb away from it.
pub(super) fn landing(flown: &Rehearsal, touch: Option<TouchDown>, taken_over: Option<usize>) -> Part {
    let kind = PartKind::Landing;
    let trace = flown.trace();
    let last = trace.len().saturating_sub(1);
    let (share, value) = match (touch, taken_over) {
        (Some(touch), _) => {
            let shares = [share(touch.sink_mps, SINK_MPS), share(touch.stalls, TOUCH_STALLS)];
            let on_it = touch.beside_m.map(|beside_m| share(beside_m, BESIDE_M));
            let all: Vec<f64> = shares.into_iter().chain(on_it).collect();
            #[allow(clippy::cast_precision_loss, reason = "two or three")]
            let mean = all.iter().sum::<f64>() / all.len() as f64;
            (mean, Some(touch.sink_mps))
        }
        (None, Some(at)) if flown.ending().is_none() && at < trace.len() => {
            let limits = &flown.scenario().file.limits;
            let level = trace.bank_rad[last].to_degrees().abs() <= FLIES_ON_BANK_DEG;
            let speed = trace.airspeed_mps[last] / flown.trial().jet.stall_speed(1.0);
            let kept = trace.height_m[last] >= trace.height_m[at] - BELOW_M;
            (if level && kept { share(speed, [1.0, limits.stall_factor]) } else { 0.0 }, None)
        }
        _ => (0.0, None),
    };
    Part { kind, points: kind.most() * share, value, at_s: Some(trace.time_s(last)), row: None }
}
