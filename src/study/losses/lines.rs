//! Two lines on the map in closed form, as a check of what is flown: from where the jet still turns back inside the
//! boundary on whatever heading it is lost, and from where the energy still reaches home.

use std::f64::consts::TAU;

use glam::DVec2;

use crate::jet::{JetNumbers, turn};
use crate::run::{Scenario, Trial, WindChoice, draw, setting};
use crate::study::losses::LossAsk;
use crate::units::G0;

/// Directions of the turn-back line.
const TURN_BACK: u32 = 36;
/// Directions of the point of no return: every 5 degrees.
const NO_RETURN: u32 = 72;
/// Corners of the buffer's disc, which lies inside them.
const DISC: u32 = 16;

/// How far out along a direction a jet may still go, metres, on whatever heading it is lost and whichever way round it
/// turns, before a turn at a maximum bank in rad brings it back.
///
/// `along` is the wind along that direction, m/s, and `delay` the time until the turn begins, s: the time until the
/// failsafe acts, that of the perception and [`roll_delay_s`]. Infinite where the wind is no less than the airspeed.
///
/// Closed form: on a heading `d` off the direction, then turning through it until it no longer goes that way, at `b` beyond
/// it with `cos b = -W / V`, the jet goes `t (V cos d + W) + r (sin d + sin b) + W (d + b) / q` with
/// `r = V^2 / (g tan bank)` and `q = g tan bank / V`. With `A = sqrt((t V)^2 + r^2)` that is most where
/// `A sin(d - e) = r W / V` and `tan e = r / (t V)`: in still air `A + r`. Wind across the direction has no part in it.
pub fn turn_back_m(airspeed: f64, along: f64, bank: f64, delay: f64) -> f64 {
    if along >= airspeed {
        return f64::INFINITY;
    }
    if along <= -airspeed {
        return 0.0;
    }
    let (radius, rate) = (turn::radius(airspeed, bank), turn::rate(airspeed, bank));
    let straight = delay * airspeed;
    let off = radius.atan2(straight) + (radius * along / (airspeed * straight.hypot(radius))).asin();
    let beyond = (-along / airspeed).acos();
    straight * off.cos() + delay * along + radius * (off.sin() + beyond.sin()) + along * (off + beyond) / rate
}

/// By how much a turn lags one that has its whole bank at once, s: the bank grows at `rate` at most, rad/s, and nears what
/// is wanted with a time constant `lag`, s. Closed form: the bank missed, summed over time, over the bank wanted.
pub fn roll_delay_s(bank: f64, lag: f64, rate: f64) -> f64 {
    let linear = rate * lag;
    if bank <= linear { lag } else { bank / (2.0 * rate) + rate * lag * lag / (2.0 * bank) }
}

/// Where a level loss on any heading, at any height and speed asked about, still turns back inside the boundary less
/// its buffer: rings, metres. None where the plan doesn't turn.
pub(super) fn turn_back(scenario: &Scenario, ask: &LossAsk) -> Vec<Vec<DVec2>> {
    if !turns_home(scenario) {
        return Vec::new();
    }
    let trial = draw(scenario, 0, WindChoice::Mean);
    let jet = &trial.jet;
    let delay = trial.plan.failsafe_delay
        + scenario.file.recovery.perception.delay.s()
        + roll_delay_s(jet.maximum_bank, jet.roll_lag, jet.roll_rate);
    let furthest = |along: DVec2| {
        let each = ask.heights_m.iter().flat_map(|&height| ask.speeds_mps.iter().map(move |&speed| (height, speed)));
        let each = each.map(|(height, speed)| {
            let wind = wind_at(scenario, &trial, height).dot(along);
            turn_back_m(speed, wind, jet.maximum_bank, delay)
        });
        each.fold(0.0, f64::max)
    };
    let buffer = scenario.file.limits.buffer.m() / (TAU / f64::from(2 * DISC)).cos();
    let ends: Vec<DVec2> = directions(TURN_BACK).map(|along| along * furthest(along)).collect();
    if ends.iter().any(|end| !end.is_finite()) {
        return Vec::new();
    }
    let reach: Vec<DVec2> =
        ends.iter().flat_map(|&end| directions(DISC).map(move |along| end + along * buffer)).collect();
    scenario.field.boundary.shrunk(&reach)
}

/// Furthest place in every direction from the centre from which the energy of the loss reaches home with the reserve
/// and the laps asked for: metres, clockwise from north. None where there is no such place, or no way against the wind.
pub(super) fn no_return(scenario: &Scenario, ask: &LossAsk) -> Vec<DVec2> {
    let trial = draw(scenario, 0, WindChoice::Mean);
    let (jet, plan) = (&trial.jet, &trial.plan);
    let wind = wind_at(scenario, &trial, plan.height);
    let speed = jet.return_speed;
    let lowest = ask.heights_m.iter().copied().fold(f64::INFINITY, f64::min);
    let Some(lap) = lap_energy_j(jet, wind.length(), plan.radius).filter(|_| turns_home(scenario)) else {
        return Vec::new();
    };
    let limits = &scenario.file.limits;
    let spare = trial.energy_j
        - limits.reserve.share() * jet.pack
        - limits.laps_to_reserve * lap
        - climb_energy_j(jet, (plan.height - lowest).max(0.0));
    let centre = DVec2::new(plan.centre_x, plan.centre_y);
    let power = jet.power(speed, jet.drag(speed, 1.0, 0.0));
    let place = |out: DVec2| centre + out * (spare / power * ground_speed(speed, -wind.dot(out), wind.perp_dot(out)));
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
    let bank = bank.min(jet.maximum_bank);
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
    !setting.cuts() && setting.standing.has_position
}

/// The mean wind of a trial at a height, m/s.
fn wind_at(scenario: &Scenario, trial: &Trial, height: f64) -> DVec2 {
    let wind = trial.wind.at(scenario.file.wind.profile, height);
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

    const BANK: f64 = 35.0 * std::f64::consts::PI / 180.0;

    #[test]
    fn in_still_air_it_is_the_radius_and_the_longer_side_of_way_and_radius() {
        // Closed form, by hand: r = 22^2 / (9.80665 tan 35 deg) = 70.48 m, t V = 26.4 m, r + sqrt(r^2 + (t V)^2) = 145.8 m.
        assert!((turn_back_m(22.0, 0.0, BANK, 1.2) - 145.8).abs() < 0.1);
        // Without a delay it is the circle across, on a heading square to the direction.
        assert!((turn_back_m(22.0, 0.0, BANK, 0.0) - 2.0 * turn::radius(22.0, BANK)).abs() < 1e-9);
        assert_eq!(turn_back_m(10.0, 10.0, 0.6, 1.5), f64::INFINITY);
        assert_eq!(turn_back_m(10.0, -11.0, 0.6, 1.5), 0.0);
    }

    /// Flown in small steps north on a heading in rad, turning to a side: the furthest north until it is on its way back.
    fn flown(airspeed: f64, along: f64, delay: f64, heading: f64, side: f64, roll: Option<[f64; 2]>) -> f64 {
        let (dt, mut north, mut best) = (2e-3, 0.0_f64, 0.0_f64);
        let (mut at_s, mut course, mut bank) = (0.0, heading, if roll.is_some() { 0.0 } else { BANK });
        // Through the direction and beyond, as far as it goes that way.
        while at_s < 60.0 {
            let going = airspeed * course.cos() + along;
            north += going * dt;
            best = best.max(north);
            at_s += dt;
            if at_s > delay {
                if let Some([lag, rate]) = roll {
                    bank += ((BANK - bank) / lag).min(rate) * dt;
                }
                course += side * turn::rate(airspeed, bank.max(1e-9)) * dt;
            }
            if side * course > 0.0 && going < 0.0 {
                break;
            }
        }
        best
    }

    fn furthest(airspeed: f64, along: f64, delay: f64, roll: Option<[f64; 2]>) -> f64 {
        let headings = (0..360).flat_map(|deg| [1.0, -1.0].map(|side| (f64::from(deg - 180).to_radians(), side)));
        headings.map(|(heading, side)| flown(airspeed, along, delay, heading, side, roll)).fold(0.0, f64::max)
    }

    #[test]
    fn it_is_the_furthest_of_all_headings_and_both_ways_round_flown_in_small_steps() {
        for (airspeed, along) in [(24.0, 8.0), (24.0, 0.0), (24.0, -8.0), (17.0, 13.0), (17.0, -15.0), (40.0, 6.0)] {
            let (found, brute) = (turn_back_m(airspeed, along, BANK, 1.5), furthest(airspeed, along, 1.5, None));
            assert!((found - brute).abs() < 0.003 * found + 0.1, "{airspeed} {along}: {found} {brute}");
        }
    }

    #[test]
    fn a_roll_that_lags_is_a_later_turn() {
        for roll in [[0.3, 10.0], [0.3, 1.5], [0.8, 1.0], [0.05, 0.7]] {
            let delay = roll_delay_s(BANK, roll[0], roll[1]);
            let (mut bank, mut missed) = (0.0, 0.0);
            for _ in 0..20_000 {
                missed += (BANK - bank) / BANK * 1e-3;
                bank += ((BANK - bank) / roll[0]).min(roll[1]) * 1e-3;
            }
            assert!((delay - missed).abs() < 2e-3, "{roll:?}: {delay} {missed}");
            // A bank on its way has less than its share of the turn, and the way bends: good to 2 %.
            let (found, brute) = (turn_back_m(22.0, 5.0, BANK, 1.2 + delay), furthest(22.0, 5.0, 1.2, Some(roll)));
            assert!((found - brute).abs() < 0.02 * found, "{roll:?}: {found} {brute}");
        }
    }

    fn blowing(from: f64, mean: f64) -> (Scenario, LossAsk) {
        let mut scenario = Scenario::tight_strip();
        scenario.file.wind.from = crate::units::Bearing::from_deg(from);
        scenario.file.wind.mean = Speed::new(mean);
        let ask = LossAsk::usual(&scenario);
        (scenario, ask)
    }

    #[test]
    fn the_turn_back_line_is_the_boundary_moved_in() {
        // Wind from the south, the boundary a rectangle: each side comes in by its own distance and the buffer.
        let (scenario, ask) = blowing(180.0, 6.0);
        let rings = turn_back(&scenario, &ask);
        assert_eq!(rings.len(), 1);
        let trial = draw(&scenario, 0, WindChoice::Mean);
        let delay = trial.plan.failsafe_delay
            + scenario.file.recovery.perception.delay.s()
            + roll_delay_s(trial.jet.maximum_bank, trial.jet.roll_lag, trial.jet.roll_rate);
        let back = |along| turn_back_m(22.0, along, trial.jet.maximum_bank, delay) + 20.0;
        let (low, high) = scenario.field.boundary.bounds();
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
            let centre = scenario.field.centre;
            no_return(&scenario, &ask).iter().map(|at| at.distance(centre)).collect::<Vec<_>>()
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
