//! The numbers of a run that are not margins, and what is to be said about it in words.

use super::clock::position;
use super::flown::Flown;
use super::{Figures, held_within_m, reach};
use crate::jet::turn;
use crate::lane::Lane;
use crate::run::{Authority, Ending, LossKind, Scenario};

/// A bank this near the limit counts as at the limit, rad.
pub(super) const AT_LIMIT: f64 = 0.009;

/// What a scenario's figures have in common, whatever the run.
#[derive(Debug, Clone, Copy)]
pub(super) struct Standard {
    smallest_radius_m: [f64; 3],
    wind_at_circle_mps: [f64; 2],
}

impl Standard {
    pub(super) fn of(scenario: &Scenario) -> Self {
        let file = &scenario.file;
        let wind_at_circle_mps = scenario.wind_at_circle();
        let (speed, bank) = (file.jet.return_speed.value.mps(), file.jet.maximum_bank.value.rad());
        let smallest = |wind: f64| turn::smallest_radius(speed, wind, bank);
        let smallest_radius_m = [0.0, wind_at_circle_mps[0], wind_at_circle_mps[1]].map(smallest);
        Self { smallest_radius_m, wind_at_circle_mps }
    }
}

/// Works the figures out.
pub(super) fn figures<L: Lane>(flown: &Flown<'_, L>, standard: &Standard) -> Figures {
    let (file, seen, jet) = (&flown.scenario.file, &flown.seen, &flown.drawn.jet);
    let round = flown.seen.circle.map(|circle| Round::last(flown, circle));
    let lap = round.as_ref().and_then(|round| round.from).map(|from| (from, position(seen.last())));
    let home = if flown.comes_home() { flown.on_circle() } else { None };
    let reached = home.unwrap_or(seen.last());
    let energy_left_j = flown.drawn.energy_j - seen.energy(position(reached));
    let lap_energy_j = lap.map(|(from, to)| seen.energy(to) - seen.energy(from));
    let reserve_j = file.limits.reserve.share() * jet.pack;
    let height = file.recovery.height.m();
    Figures {
        furthest_m: round.as_ref().map(|round| round.furthest_m),
        joining_overshoot_m: joining_overshoot(flown, settled(lap)),
        turn_back_m: turn_back(flown),
        lap_s: lap.map(|(from, to)| flown.clock.lasts_s(from, to)),
        saturated_share: round.as_ref().and_then(|round| round.from.map(|_| round.saturated_share)),
        home_s: home.map(|index| flown.clock.at_s(position(index))),
        energy_left_j,
        lap_energy_j,
        laps_to_reserve: lap_energy_j.filter(|_| home.is_some()).map(|lap| (energy_left_j - reserve_j) / lap),
        smallest_radius_m: standard.smallest_radius_m,
        wind_at_circle_mps: standard.wind_at_circle_mps,
        drift_m: seen.point(seen.last()).distance(seen.point(0)),
        glide_footprint_m: reach::glide_m(jet.glide_ratio(), height),
        fall_footprint_m: reach::fall_m(jet.return_speed + standard.wind_at_circle_mps[0], height),
    }
}

/// Squared distance from the centre at a sample.
fn centre2<L: Lane>(flown: &Flown<'_, L>, index: usize) -> f64 {
    flown.seen.point(index).distance_squared(flown.centre())
}

/// First sample of the last whole lap: what counts as settled.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
fn settled(lap: Option<(f64, f64)>) -> Option<usize> {
    lap.map(|(from, _)| from as usize)
}

/// How far outside the ring it went before the last lap, once it had stopped coming nearer. Distance is convex along a
/// straight line, so that its largest value lies at a sample.
fn joining_overshoot<L: Lane>(flown: &Flown<'_, L>, settled: Option<usize>) -> Option<f64> {
    let begin = flown.seen.joining?;
    let end = settled.unwrap_or(flown.seen.length);
    let radius = flown.drawn.plan.radius;
    let away2: Vec<f64> = (begin..end).map(|index| centre2(flown, index)).collect();
    let nearer = |pair: &[f64]| pair[1] < pair[0];
    let outward = away2.windows(2).position(nearer).unwrap_or(away2.len());
    let inward = away2[outward..].windows(2).take_while(|pair| nearer(pair) && pair[0] > radius * radius).count();
    let furthest2 = away2[outward + inward..].iter().copied().fold(0.0, f64::max);
    Some((furthest2.sqrt() - radius).max(0.0))
}

/// How much further from the centre it went than it was at the loss, before it first came nearer.
fn turn_back<L: Lane>(flown: &Flown<'_, L>) -> f64 {
    let outward = |index: &usize| centre2(flown, index + 1) >= centre2(flown, *index);
    let turned = (0..flown.seen.last()).take_while(outward).count();
    centre2(flown, turned).sqrt() - centre2(flown, 0).sqrt()
}

/// The last whole lap on the circle, or as much of one as was flown.
pub(super) struct Round {
    /// The sample number with a fraction at which the lap began; none where no whole lap was flown.
    pub(super) from: Option<f64>,
    /// Furthest from the centre since then, m.
    furthest_m: f64,
    /// Share of it at the maximum bank.
    saturated_share: f64,
}

impl Round {
    /// Goes back from the end until the way about the centre amounts to one turn.
    ///
    /// The ray from the centre through the end is then crossed once more. Leaving it to the left at the very end counts
    /// as a crossing, so that a whole turn is the second to the left or the first to the right.
    pub(super) fn last<L: Lane>(flown: &Flown<'_, L>, circle: usize) -> Self {
        let (seen, centre, last) = (&flown.seen, flown.centre(), flown.seen.last());
        let limit = flown.drawn.jet.maximum_bank - AT_LIMIT;
        let end = seen.point(last) - centre;
        let (mut after, mut side_after, mut crossings) = (end, 0.0, 0);
        let (mut furthest2, mut at_limit, mut from) = (end.length_squared(), 0, None);
        let mut samples = 0;
        for index in (circle..last).rev() {
            let here = seen.point(index) - centre;
            let side = end.perp_dot(here);
            furthest2 = furthest2.max(here.length_squared());
            if (side > 0.0) != (side_after > 0.0) {
                let share = side_after / (side_after - side);
                if end.dot(after + (here - after) * share) > 0.0 {
                    crossings += if side > 0.0 { 1 } else { -1 };
                    if crossings == 2 || crossings == -1 {
                        from = Some(position(index + 1) - share);
                        break;
                    }
                }
            }
            samples += 1;
            at_limit += u32::from(seen.bank_at(index).abs() >= limit);
            (after, side_after) = (here, side);
        }
        let saturated_share = f64::from(at_limit) / f64::from(samples.max(1));
        Self { from, furthest_m: furthest2.sqrt(), saturated_share }
    }
}

/// What the margins do not say.
pub(super) fn remarks<L: Lane>(flown: &Flown<'_, L>, figures: &Figures, ending: Ending) -> Vec<String> {
    let (file, seen) = (&flown.scenario.file, &flown.seen);
    let mut remarks = Vec::new();
    let end = seen.point(seen.last());
    let end_s = flown.clock.at_s(position(seen.last()));
    match ending {
        Ending::Landed if flown.setting.cuts() => remarks.push(format!(
            "Comes down {end_s:.0} s after the loss at ({:.0}, {:.0}) m, {:.0} m from where it was lost.",
            end.x, end.y, figures.drift_m
        )),
        Ending::Landed => remarks.push(format!("Flies into the ground {end_s:.0} s after the loss.")),
        Ending::Empty => remarks.push(format!("The battery is empty {end_s:.0} s after the loss, in the air.")),
        Ending::OutOfTime => remarks.push(format!("Not home {end_s:.0} s after the loss; the run stops there.")),
        Ending::TakenOver => {}
    }
    if !flown.setting.standing.has_position {
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
            "The maximum bank can't hold {radius:.0} m in this wind: it takes {still:.0} m in still air and {mean:.0} m \
             in the mean wind at circle height. The jet is blown wide of the circle on the downwind side."
        ));
    }
    match (seen.circle, figures.home_s) {
        (Some(_), None) => remarks.push(format!(
            "Flies round, but never on the circle: nowhere within {:.0} m of its ring for a quarter of a lap.",
            held_within_m(radius)
        )),
        (Some(_), Some(_)) if figures.lap_s.is_none() => {
            remarks.push("Reaches the circle but flies no whole lap of it.".into());
        }
        _ => {}
    }
    match file.authority() {
        Authority::Nobody => remarks.push("Nobody is named as having authorised this failsafe action.".into()),
        Authority::By(by, version) if !version.counts() => {
            remarks.push(format!("The authority does not count: {}.", version.mark(by)));
        }
        Authority::By(..) => {}
    }
    if flown.scenario.return_not_permitted() {
        remarks.push("An automatic return is not permitted here, and this plan returns.".into());
    }
    if file.loss.kind == LossKind::Video {
        remarks.push("The video is lost and control is not: the pilot gives the command to return.".into());
    }
    remarks
}
