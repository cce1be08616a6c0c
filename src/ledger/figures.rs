//! The numbers of a run that are not margins, and what is to be said about it in words.

use std::f64::consts::TAU;

use super::flown::Flown;
use super::{Figures, reach};
use crate::jet::turn;
use crate::run::{Ending, LossKind, Stretch, Trace};
use crate::wind::factor;

/// A bank this near the limit counts as at the limit, rad.
const AT_LIMIT: f64 = 0.009;

/// Works the figures out.
pub(super) fn figures(flown: &Flown<'_>) -> Figures {
    let (file, trace, drawn) = (&flown.scenario.file, flown.trace(), &flown.run.drawn);
    let jet = &drawn.jet;
    let circle = flown.circle();
    let lap = last_lap(flown);
    let reached = circle.unwrap_or(trace.len() - 1);
    let energy_left_j = drawn.energy_j - trace.energy_j[reached];
    let lap_energy_j =
        lap.map(|(from, to)| Trace::between(&trace.energy_j, to) - Trace::between(&trace.energy_j, from));
    let reserve_j = file.limits.reserve.share() * jet.pack;

    let height = file.recovery.height.m();
    let sheet = &file.wind;
    let exponent = f64::midpoint(sheet.exponent_low, sheet.exponent_high);
    let aloft = factor(sheet.profile, exponent, sheet.roughness.m(), sheet.measured_at.m(), height);
    let wind_at_circle_mps = [sheet.mean.mps() * aloft, sheet.gust.mps() * aloft];
    let smallest =
        |wind: f64| turn::smallest_radius(file.jet.return_speed.value.mps(), wind, file.jet.bank_limit.value.rad());

    Figures {
        outermost_m: circle.map(|from| furthest(flown, settled(lap).unwrap_or(from)..trace.len())),
        join_overshoot_m: join_overshoot(flown, settled(lap)),
        turn_back_m: turn_back(flown),
        lap_s: lap.map(|(from, to)| (to - from) * trace.step_s),
        saturated_share: lap.map(|lap| saturated(flown, lap)),
        home_s: circle.map(|index| trace.time_s(index)),
        energy_left_j,
        lap_energy_j,
        laps_in_hand: lap_energy_j.map(|lap| (energy_left_j - reserve_j) / lap),
        smallest_radius_m: [0.0, wind_at_circle_mps[0], wind_at_circle_mps[1]].map(smallest),
        wind_at_circle_mps,
        drift_m: trace.point(trace.len() - 1).distance(trace.point(0)),
        glide_footprint_m: reach::glide_m(jet.glide_ratio(), height),
        fall_footprint_m: reach::fall_m(jet.return_speed + wind_at_circle_mps[0], height),
    }
}

fn hub_distance(flown: &Flown<'_>, index: usize) -> f64 {
    flown.trace().point(index).distance(flown.hub())
}

/// Distance is convex along a straight line, so its largest value lies at a sample.
fn furthest(flown: &Flown<'_>, samples: std::ops::Range<usize>) -> f64 {
    samples.map(|index| hub_distance(flown, index)).fold(0.0, f64::max)
}

/// First sample of the last whole lap: what counts as settled.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
fn settled(lap: Option<(f64, f64)>) -> Option<usize> {
    lap.map(|(from, _)| from as usize)
}

/// How far outside the ring it went before the last lap, once it had stopped coming nearer.
fn join_overshoot(flown: &Flown<'_>, settled: Option<usize>) -> Option<f64> {
    let stretches = &flown.trace().stretch;
    let begin = stretches.iter().position(|&stretch| stretch == Stretch::Join)?;
    let end = settled.unwrap_or(stretches.len());
    let radius = flown.run.drawn.plan.radius;
    let nearer = |index: usize| index + 1 < end && hub_distance(flown, index + 1) < hub_distance(flown, index);
    let outward = (begin..end).take_while(|&index| !nearer(index)).count();
    let inward =
        (begin + outward..end).take_while(|&index| nearer(index) && hub_distance(flown, index) > radius).count();
    let nearest = begin + outward + inward;
    Some((furthest(flown, nearest..end) - radius).max(0.0))
}

/// How much further from the hub it went than it was at the loss, before it first came nearer.
fn turn_back(flown: &Flown<'_>) -> f64 {
    let last = flown.trace().len() - 1;
    let outward = |index: &usize| hub_distance(flown, index + 1) >= hub_distance(flown, *index);
    let turned = (0..last).take_while(outward).count();
    hub_distance(flown, turned) - hub_distance(flown, 0)
}

/// The last whole lap on the circle, as sample numbers with fractions.
fn last_lap(flown: &Flown<'_>) -> Option<(f64, f64)> {
    let trace = flown.trace();
    let (circle, last) = (flown.circle()?, trace.len() - 1);
    let hub = flown.hub();
    let mut swept = 0.0;
    for index in (circle..last).rev() {
        let step = (trace.point(index) - hub).angle_to(trace.point(index + 1) - hub);
        let before = f64::abs(swept);
        swept += step;
        if swept.abs() >= TAU {
            let share = (TAU - before) / (swept.abs() - before);
            let position = super::flown::position;
            return Some((position(index + 1) - share, position(last)));
        }
    }
    None
}

/// Share of a lap flown at the bank limit.
fn saturated(flown: &Flown<'_>, (from, to): (f64, f64)) -> f64 {
    let limit = flown.run.drawn.jet.bank_limit - AT_LIMIT;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sample numbers")]
    let lap = &flown.trace().bank_rad[from.ceil() as usize..to as usize];
    let at_limit = lap.iter().filter(|bank| bank.abs() >= limit).count();
    super::flown::position(at_limit) / super::flown::position(lap.len().max(1))
}

/// What the margins do not say.
pub(super) fn remarks(flown: &Flown<'_>, figures: &Figures) -> Vec<String> {
    let (file, trace) = (&flown.scenario.file, flown.trace());
    let mut remarks = Vec::new();
    let end = trace.point(trace.len() - 1);
    let end_s = trace.time_s(trace.len() - 1);
    match flown.run.ending {
        Ending::Landed if flown.setting.cuts() => remarks.push(format!(
            "Comes down {end_s:.0} s after the loss at ({:.0}, {:.0}) m, {:.0} m from where it was lost.",
            end.x, end.y, figures.drift_m
        )),
        Ending::Landed => remarks.push(format!("Flies into the ground {end_s:.0} s after the loss.")),
        Ending::Empty => remarks.push(format!("The battery is empty {end_s:.0} s after the loss, in the air.")),
        Ending::OutOfTime => remarks.push(format!("Not home {end_s:.0} s after the loss; the run stops there.")),
        Ending::HandedBack => {}
    }
    if !flown.setting.standing.has_fix {
        remarks.push(format!(
            "Without a position it drifts: {:.0} m in {end_s:.0} s, when the pilot takes it by eye.",
            figures.drift_m
        ));
    }
    let [still, mean, _] = figures.smallest_radius_m;
    let radius = file.recovery.radius.m();
    let speed = file.jet.return_speed.value.mps();
    if figures.wind_at_circle_mps[0] >= speed {
        remarks.push(format!(
            "The wind at circle height, {:.1} m/s, is no less than the return speed, {speed:.1} m/s: it can't come home against it.",
            figures.wind_at_circle_mps[0]
        ));
    } else if radius < mean && !flown.setting.cuts() {
        remarks.push(format!(
            "The bank limit can't hold {radius:.0} m in this wind: it takes {still:.0} m in still air and {mean:.0} m \
             in the mean wind at circle height. The jet is thrown outside the circle on the downwind side."
        ));
    }
    if flown.circle().is_some() && figures.lap_s.is_none() {
        remarks.push("Reaches the circle but flies no whole lap of it.".into());
    }
    if file.recovery.authorised_by.trim().is_empty() {
        remarks.push("Nobody is named as having authorised this loss policy.".into());
    }
    if file.loss.kind == LossKind::Picture {
        remarks.push("The picture is lost, not the link: the pilot gives the command to return.".into());
    }
    remarks
}
