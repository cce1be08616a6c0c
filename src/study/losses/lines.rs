//! Two lines on the map in closed form: from where the jet still turns back inside the outline, and from where the
//! energy still reaches home.

use std::f64::consts::TAU;

use glam::DVec2;

use crate::jet::{JetNumbers, turn};
use crate::run::{Case, Scenario, WindChoice, draw, setting};
use crate::study::losses::LossAsk;
use crate::units::G0;

/// Directions of the turn-back line.
const TURN_BACK: u32 = 36;
/// Directions of the point of no return: every 5 degrees.
const NO_RETURN: u32 = 72;
/// Corners of the standoff's disc, which lies inside them.
const DISC: u32 = 16;

/// How far a jet on its way in a direction still goes that way, metres, before a turn at a bank limit in rad brings it
/// back: `t (V + W) + max over s of (r sin(q s) + W s)`, with `r = V^2 / (g tan bank)` and `q = g tan bank / V`.
///
/// `along` is the wind along that direction, m/s, and `t` the time until the turn begins, s. Infinite where the wind
/// along it is no less than the airspeed. Roll and thrust take no time here.
pub fn turn_back_m(airspeed: f64, along: f64, bank: f64, t: f64) -> f64 {
    if along >= airspeed {
        return f64::INFINITY;
    }
    if along <= -airspeed {
        return 0.0;
    }
    // Outward motion ends where V cos(q s) + W is nothing.
    let turned = (-along / airspeed).acos();
    t * (airspeed + along) + turn::radius(airspeed, bank) * turned.sin() + along * turned / turn::rate(airspeed, bank)
}

/// Where a level loss on any heading, at any height and speed asked about, still turns back inside the outline less its
/// standoff: rings, metres. None where the plan doesn't turn.
pub(super) fn turn_back(scenario: &Scenario, ask: &LossAsk) -> Vec<Vec<DVec2>> {
    if !turns_home(scenario) {
        return Vec::new();
    }
    let case = draw(scenario, 0, WindChoice::Mean);
    let furthest = |along: DVec2| {
        let each = ask.heights_m.iter().flat_map(|&height| ask.speeds_mps.iter().map(move |&speed| (height, speed)));
        let each = each.map(|(height, speed)| {
            let wind = wind_at(scenario, &case, height).dot(along);
            turn_back_m(speed, wind, case.jet.bank_limit, case.plan.recognition)
        });
        each.fold(0.0, f64::max)
    };
    let standoff = scenario.file.limits.standoff.m() / (TAU / f64::from(2 * DISC)).cos();
    let ends: Vec<DVec2> = directions(TURN_BACK).map(|along| along * furthest(along)).collect();
    if ends.iter().any(|end| !end.is_finite()) {
        return Vec::new();
    }
    let reach: Vec<DVec2> =
        ends.iter().flat_map(|&end| directions(DISC).map(move |along| end + along * standoff)).collect();
    scenario.field.outline.shrunk(&reach)
}

/// Furthest place in every direction from the hub from which the energy of the loss reaches home with the reserve and
/// the laps asked for: metres, clockwise from north. None where there is no such place, or no way against the wind.
pub(super) fn no_return(scenario: &Scenario, ask: &LossAsk) -> Vec<DVec2> {
    let case = draw(scenario, 0, WindChoice::Mean);
    let (jet, plan) = (&case.jet, &case.plan);
    let wind = wind_at(scenario, &case, plan.height);
    let speed = jet.return_speed;
    let lowest = ask.heights_m.iter().copied().fold(f64::INFINITY, f64::min);
    let Some(lap) = lap_energy_j(jet, wind.length(), plan.radius).filter(|_| turns_home(scenario)) else {
        return Vec::new();
    };
    let limits = &scenario.file.limits;
    let spare = case.energy_j
        - limits.reserve.share() * jet.pack
        - limits.laps_in_hand * lap
        - climb_energy_j(jet, (plan.height - lowest).max(0.0));
    let hub = DVec2::new(plan.hub_x, plan.hub_y);
    let power = jet.power(speed, jet.drag(speed, 1.0, 0.0));
    let place = |out: DVec2| hub + out * (spare / power * ground_speed(speed, -wind.dot(out), wind.perp_dot(out)));
    if spare > 0.0 { directions(NO_RETURN).map(place).collect() } else { Vec::new() }
}

/// Ground speed on a course with wind along it and across it, m/s: `sqrt(V^2 - Wx^2) - Wh`.
fn ground_speed(airspeed: f64, along: f64, across: f64) -> f64 {
    (airspeed * airspeed - across * across).max(0.0).sqrt() + along
}

/// Energy of one lap, J, at the bank that holds the circle in still air, the limit at most; none where the wind is no
/// less than the return speed.
fn lap_energy_j(jet: &JetNumbers<f64>, wind: f64, radius: f64) -> Option<f64> {
    let speed = jet.return_speed;
    let (_, bank) = turn::on_circle(speed, 0.0, radius, 0.0);
    let bank = bank.min(jet.bank_limit);
    let power = jet.power(speed, jet.drag(speed, turn::load(bank), 0.0));
    turn::lap_time(speed, wind, radius).map(|time| power * time)
}

/// Energy of a climb, J: `m g dh` over the share of the battery's power that moves the jet in level flight.
fn climb_energy_j(jet: &JetNumbers<f64>, height: f64) -> f64 {
    let (speed, drag) = (jet.return_speed, jet.drag(jet.return_speed, 1.0, 0.0));
    let share = drag * speed / (jet.power(speed, drag) - jet.avionics);
    jet.mass * G0 * height / share
}

/// Whether the plan flies home under power and knows the way.
fn turns_home(scenario: &Scenario) -> bool {
    let setting = setting(scenario);
    !setting.cuts() && setting.standing.has_fix
}

/// The mean wind of a case at a height, m/s.
fn wind_at(scenario: &Scenario, case: &Case, height: f64) -> DVec2 {
    let wind = case.wind.at(scenario.file.wind.profile, height);
    DVec2::new(wind.x, wind.y)
}

/// Unit vectors all round, clockwise from north.
fn directions(count: u32) -> impl Iterator<Item = DVec2> {
    (0..count).map(move |index| {
        let (east, north) = (TAU * f64::from(index) / f64::from(count)).sin_cos();
        DVec2::new(east, north)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Speed;

    #[track_caller]
    fn check(airspeed: f64, along: f64, expected: f64, tolerance: f64) {
        let found = turn_back_m(airspeed, along, 35.0_f64.to_radians(), 1.5);
        assert!((found - expected).abs() <= tolerance, "{found}, expected {expected}");
    }

    #[test]
    fn turning_back_takes_what_the_domain_expert_found() {
        // Closed form, as quoted to two figures: 24 m/s and 40 m/s, 8 m/s behind, 35 degrees, 1.5 s.
        check(24.0, 8.0, 180.0, 5.0);
        check(40.0, 8.0, 380.0, 5.0);
    }

    #[test]
    fn turning_back_agrees_with_the_way_flown_in_small_steps() {
        for (airspeed, along) in [(24.0, 8.0), (24.0, 0.0), (24.0, -8.0), (17.0, 13.0), (17.0, -16.0)] {
            let (bank, dt) = (35.0_f64.to_radians(), 1e-3);
            let (mut out, mut best, mut course) = (1.5 * (airspeed + along), 0.0_f64, 0.0_f64);
            while course < std::f64::consts::PI {
                best = best.max(out);
                out += (airspeed * course.cos() + along) * dt;
                course += turn::rate(airspeed, bank) * dt;
            }
            check(airspeed, along, best, 0.05);
        }
        assert_eq!(turn_back_m(10.0, 10.0, 0.6, 1.5), f64::INFINITY);
        assert_eq!(turn_back_m(10.0, -11.0, 0.6, 1.5), 0.0);
    }

    fn blowing(from: f64, mean: f64) -> (Scenario, LossAsk) {
        let mut scenario = Scenario::demo();
        scenario.file.wind.from = crate::units::Bearing::from_deg(from);
        scenario.file.wind.mean = Speed::new(mean);
        let ask = LossAsk::usual(&scenario);
        (scenario, ask)
    }

    #[test]
    fn the_turn_back_line_is_the_outline_moved_in() {
        // Wind from the south, the outline a rectangle: each side comes in by its own distance and the standoff.
        let (scenario, ask) = blowing(180.0, 6.0);
        let rings = turn_back(&scenario, &ask);
        assert_eq!(rings.len(), 1);
        let case = draw(&scenario, 0, WindChoice::Mean);
        let back = |along| turn_back_m(22.0, along, case.jet.bank_limit, case.plan.recognition) + 20.0;
        let (low, high) = scenario.field.outline.bounds();
        let side = |pick: fn(DVec2) -> f64, least: fn(f64, f64) -> f64, start: f64| {
            rings[0].iter().map(|&corner| pick(corner)).fold(start, least)
        };
        let found = [
            side(|at| at.y, f64::max, f64::NEG_INFINITY),
            side(|at| at.y, f64::min, f64::INFINITY),
            side(|at| at.x, f64::max, f64::NEG_INFINITY),
        ];
        // Sideways it goes furthest on a heading somewhat downwind of square, so at least what square takes.
        for (found, expected) in found.into_iter().zip([high.y - back(6.0), low.y + back(-6.0)]) {
            assert!((found - expected).abs() < 1.0, "{found} {expected}");
        }
        assert!(found[2] <= high.x - back(0.0) + 1.0 && found[2] > high.x - back(6.0), "{found:?}");
    }

    #[test]
    fn a_wind_as_fast_as_the_jet_leaves_no_line() {
        let (scenario, ask) = blowing(180.0, 30.0);
        assert!(turn_back(&scenario, &ask).is_empty() && no_return(&scenario, &ask).is_empty());
    }

    #[test]
    fn the_point_of_no_return_is_nearer_downwind_and_comes_nearer_with_wind() {
        let distances = |mean: f64| {
            // From the north: downwind is south, the 37th of 72 directions.
            let (scenario, ask) = blowing(0.0, mean);
            let hub = scenario.field.hub;
            no_return(&scenario, &ask).iter().map(|at| at.distance(hub)).collect::<Vec<_>>()
        };
        let still = distances(0.0);
        assert!(still.iter().all(|distance| (distance - still[0]).abs() < 1e-6 && *distance > 0.0), "{still:?}");
        let mut downwind = still[36];
        for mean in [3.0, 6.0, 9.0, 12.0] {
            let found = distances(mean);
            assert_eq!(found.len(), 72);
            assert!(found[36] < found[18] && found[18] < found[0] && found[36] < downwind, "{mean}: {found:?}");
            downwind = found[36];
        }
    }
}
