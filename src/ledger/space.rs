//! The margins that lie on the ground plan and over it: outline, patches, flight line, ceiling, ground, obstacles.
//!
//! Each is the least along the swept path, between samples too, to edges and not to corners.

use glam::DVec2;

use super::flown::{Flown, position, verdict};
use super::{Limit, Row, Verdict};
use crate::field::{Patch, Rule};
use crate::geometry::{Least, Region, least_along, least_signed};
use crate::run::{HeightAbove, Trace};

/// Every such margin of a run.
pub(super) fn rows(flown: &Flown<'_>) -> Vec<Row> {
    let field = &flown.scenario.field;
    let standoff = flown.scenario.file.limits.standoff.m();
    let mut rows = Vec::new();
    rows.extend(
        signed(flown, &field.outline, false)
            .map(|least| flown.row(Limit::Outline, "outline", "m", (least.value, least.at), standoff)),
    );
    rows.extend(field.patches.iter().enumerate().filter_map(|(index, patch)| patch_row(flown, index, patch)));
    if let Some(line) = field.flight_line {
        rows.extend(
            flat(flown, |at| line.signed_distance(at))
                .map(|least| flown.row(Limit::FlightLine, "flight line", "m", (least.value, least.at), standoff)),
        );
    }
    rows.extend(ceiling(flown));
    rows.extend(ground(flown));
    for (index, obstacle) in field.obstacles.iter().enumerate() {
        let top = obstacle.top_m - flown.home_ground;
        let over = |at: DVec2, height: f64| (-obstacle.region.signed_distance(at), height - top);
        rows.extend(either(flown, Limit::Obstacle(index), format!("obstacle: {}", obstacle.name), over));
    }
    rows
}

/// The least signed distance to a region's edges.
fn signed(flown: &Flown<'_>, region: &Region, outside: bool) -> Option<Least> {
    least_signed(&flown.way, |index| flown.trace().point(index), region, outside)
}

/// The least of a distance in the plane.
fn flat(flown: &Flown<'_>, distance: impl Fn(DVec2) -> f64) -> Option<Least> {
    least_along(&flown.way, |at| distance(flown.trace().point_between(at)))
}

/// The least of a height over the ground or under a ceiling.
fn vertical(flown: &Flown<'_>, margin: impl Fn(DVec2, f64) -> f64) -> Option<Least> {
    let trace = flown.trace();
    least_along(&flown.way_up, |at| margin(trace.point_between(at), Trace::between(&trace.height_m, at)))
}

/// The least of something that changes with place and height.
fn high(flown: &Flown<'_>, margin: impl Fn(DVec2, f64) -> f64) -> Option<Least> {
    let trace = flown.trace();
    least_along(&flown.way_high, |at| margin(trace.point_between(at), Trace::between(&trace.height_m, at)))
}

fn patch_row(flown: &Flown<'_>, index: usize, patch: &Patch) -> Option<Row> {
    let standoff = flown.scenario.file.limits.standoff.m();
    let limit = Limit::Patch(index);
    match patch.rule {
        Rule::Idle => None,
        Rule::Never => signed(flown, &patch.region, true)
            .map(|least| flown.row(limit, format!("never: {}", patch.name), "m", (least.value, least.at), standoff)),
        Rule::Above(height_m) => {
            let over =
                |at: DVec2, height: f64| (-patch.region.signed_distance(at), height - flown.ground(at) - height_m);
            either(flown, limit, format!("above {height_m:.0} m: {}", patch.name), over)
        }
        Rule::Avoid => {
            let (seconds, first) = seconds_over(flown, &patch.region);
            let mut row = flown.row(limit, format!("avoid: {}", patch.name), "s", (seconds, first), 0.0);
            row.verdict = if seconds > 0.0 { Verdict::Counted } else { Verdict::Clear };
            Some(row)
        }
    }
}

/// A limit that is kept by distance or by height, whichever is more: `over` gives both.
fn either(flown: &Flown<'_>, limit: Limit, name: String, over: impl Fn(DVec2, f64) -> (f64, f64)) -> Option<Row> {
    let limits = &flown.scenario.file.limits;
    let (aside, above) = (limits.standoff.m(), limits.height_standoff.m());
    let depth = high(flown, |at, height| {
        let (distance, rise) = over(at, height);
        distance.max(rise)
    })?;
    // Where nothing is breached, the place that matters is the one with the least left of either standoff.
    let slack = high(flown, |at, height| {
        let (distance, rise) = over(at, height);
        (distance - aside).max(rise - above)
    })?;
    let at = if depth.value < 0.0 { depth.at } else { slack.at };
    let trace = flown.trace();
    let (distance, rise) = over(trace.point_between(at), Trace::between(&trace.height_m, at));
    let (margin, standoff) = if distance - aside > rise - above { (distance, aside) } else { (rise, above) };
    let margin = if depth.value < 0.0 { depth.value } else { margin };
    let mut row = flown.row(limit, name, "m", (margin, at), standoff);
    row.verdict = verdict(margin, standoff);
    Some(row)
}

fn ceiling(flown: &Flown<'_>) -> Option<Row> {
    let limits = &flown.scenario.file.limits;
    let ceiling = limits.ceiling?;
    let (height, name) = (
        ceiling.height.m(),
        match ceiling.above {
            HeightAbove::Ground => "ceiling over the ground",
            HeightAbove::Home => "ceiling over home",
        },
    );
    let left = |at: DVec2, now: f64| match ceiling.above {
        HeightAbove::Ground => height - (now - flown.ground(at)),
        HeightAbove::Home => height - now,
    };
    vertical(flown, left)
        .map(|least| flown.row(Limit::Ceiling, name, "m", (least.value, least.at), limits.height_standoff.m()))
}

/// Height over the ground; a glide is meant to end there.
fn ground(flown: &Flown<'_>) -> Option<Row> {
    if flown.setting.cuts() {
        return None;
    }
    let standoff = flown.scenario.file.limits.height_standoff.m();
    vertical(flown, |at, height| height - flown.ground(at))
        .map(|least| flown.row(Limit::Ground, "height over the ground", "m", (least.value, least.at), standoff))
}

/// Seconds spent inside a region, and the first sample number there (0 where there is none).
fn seconds_over(flown: &Flown<'_>, region: &Region) -> (f64, f64) {
    let trace = flown.trace();
    let last = trace.len() - 1;
    let (mut seconds, mut first) = (0.0, None);
    let mut index = 0;
    let mut here = region.signed_distance(trace.point(0));
    while index < last {
        // As far as the way allows, it stays on this side of the edge.
        let stays = flown.way.partition_point(|&way| way < flown.way[index] + here.abs()).saturating_sub(1);
        let next = stays.clamp(index + 1, last);
        let there = region.signed_distance(trace.point(next));
        // The distance is linear across an edge, away from corners.
        let share = match (here > 0.0, there > 0.0) {
            (true, true) => 1.0,
            (false, false) => 0.0,
            _ => here.max(there) / (here - there).abs(),
        };
        seconds += share * (trace.time_s(next) - trace.time_s(index));
        if share > 0.0 {
            first.get_or_insert(position(index));
        }
        (index, here) = (next, there);
    }
    (seconds, first.unwrap_or(0.0))
}
