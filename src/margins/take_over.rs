//! On which part of the lap to take over: where the jet is slow over the ground, not at its maximum bank, and flying
//! away.

use std::ops::Range;

use super::Lap;
use crate::recovery::Turn;
use crate::run::Scenario;

/// Shortest part that is worth a call, seconds.
const SHORTEST_S: f64 = 3.0;
/// A lap whose ground speed varies by less than this has no slow half, m/s.
const STEADY_MPS: f64 = 1.0;

/// A part of the lap.
#[derive(Debug, Clone, PartialEq)]
pub struct TakeOver {
    /// Numbers into the lap's lists, in the order of flight.
    pub bearings: Vec<usize>,
    /// How long it lasts, seconds.
    pub seconds: f64,
    /// Whether all of it is slow: below the median ground speed of the lap, which is the half against the wind.
    pub slow: bool,
    /// Whether all of it leads away from the pilot position.
    pub away: bool,
}

impl TakeOver {
    /// The number in its middle by time.
    pub fn middle(&self, lap: &Lap) -> Option<usize> {
        let half = self.seconds / 2.0;
        let mut gone = 0.0;
        let past = self.bearings.iter().find(|&&index| {
            gone += lap.lasts_s(index);
            gone >= half
        });
        past.or(self.bearings.last()).copied()
    }
}

/// The part of a lap on which to take over; none where the jet is at its maximum bank wherever it is slow.
///
/// The longest stretch that is both slow and leads away from the pilot position; where that is short, the longest that
/// is slow. Never the fast half: there the jet runs with the wind.
pub fn take_over(scenario: &Scenario, lap: &Lap) -> Option<TakeOver> {
    let order = lap.in_flight_order();
    let speeds = &lap.ground_speed_mps;
    let mut sorted = speeds.clone();
    sorted.sort_by(f64::total_cmp);
    let (least, most) = (sorted.first()?, sorted.last()?);
    let steady = most - least < STEADY_MPS;
    let median = sorted[sorted.len() / 2];
    let pilot = scenario.field.pilot;
    let slow = |index: usize| !lap.saturated[index] && (steady || speeds[index] <= median);
    let away = |index: usize| slow(index) && lap.course(index).dot(lap.place[index] - pilot) > 0.0;
    let part = |fits: &dyn Fn(usize) -> bool, away: bool| {
        let run = longest(&order, lap, fits)?;
        let seconds = run.iter().map(|&index| lap.lasts_s(index)).sum();
        Some(TakeOver { bearings: run, seconds, slow: !steady, away })
    };
    part(&away, true).filter(|part| part.seconds >= SHORTEST_S).or_else(|| part(&slow, false))
}

/// The run in a ring of numbers that lasts longest and fits throughout.
fn longest(ring: &[usize], lap: &Lap, fits: &dyn Fn(usize) -> bool) -> Option<Vec<usize>> {
    let count = ring.len();
    let at = |place: usize| ring[place % count];
    if (0..count).all(|place| fits(at(place))) {
        return Some(ring.to_vec());
    }
    let begins = (0..count).filter(|&place| fits(at(place)) && !fits(at(place + count - 1)));
    let runs = begins.map(|begin| {
        let end = (begin..begin + count).find(|&place| !fits(at(place))).unwrap_or(begin + count);
        Range { start: begin, end }.map(at).collect::<Vec<_>>()
    });
    let lasts = |run: &Vec<usize>| run.iter().map(|&index| lap.lasts_s(index)).sum::<f64>();
    runs.max_by(|a, b| lasts(a).total_cmp(&lasts(b)))
}

impl Lap {
    /// Numbers into the lists in the order of flight.
    pub fn in_flight_order(&self) -> Vec<usize> {
        let clockwise = 0..self.at_deg.len();
        if self.turn == Turn::Clockwise { clockwise.collect() } else { clockwise.rev().collect() }
    }

    /// The number that is flown after another.
    pub fn after(&self, index: usize) -> usize {
        let count = self.at_deg.len();
        (index + if self.turn == Turn::Clockwise { 1 } else { count - 1 }) % count
    }

    /// How long the jet takes from a bearing to the next one, seconds: by the way between them and the speeds at both.
    pub fn lasts_s(&self, index: usize) -> f64 {
        let next = self.after(index);
        let speed = f64::midpoint(self.ground_speed_mps[index], self.ground_speed_mps[next]);
        self.place[index].distance(self.place[next]) / speed.max(0.1)
    }

    /// Direction over the ground, a unit vector.
    pub fn course(&self, index: usize) -> glam::DVec2 {
        (self.place[self.after(index)] - self.place[index]).normalize_or_zero()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::margins::lap;
    use crate::run::{WindChoice, fly};
    use crate::units::{Bearing, Speed};

    fn flown(wind: f64, from: f64, turn: Turn, pilot: [f64; 2]) -> (Scenario, Lap) {
        let mut file = Scenario::tight_strip().file;
        file.wind.mean = Speed::new(wind);
        file.wind.gust = Some(Speed::new(wind));
        file.wind.from = Bearing::from_deg(from);
        file.recovery.turn = turn;
        if let Some(field) = &mut file.field {
            field.pilot_m = pilot;
        }
        let scenario = Scenario::from_file(file).unwrap();
        let run = fly(&scenario, 0, WindChoice::Mean);
        let lap = lap(&scenario, &run).unwrap();
        (scenario, lap)
    }

    #[test]
    fn the_parts_of_a_lap_last_as_long_as_the_lap() {
        let (_, lap) = flown(6.0, 180.0, Turn::Clockwise, [0.0, -15.0]);
        let all: f64 = (0..lap.at_deg.len()).map(|index| lap.lasts_s(index)).sum();
        // T = 4 R V E(m) / (V^2 - W^2), m = (W / V)^2, of the perfect circle in steady wind: by hand with the series of E,
        // R 115 m, V 22 m/s and W 6 m/s give 34.8 s. This circle is just wide enough for it to be held.
        assert!((all - 34.8).abs() < 0.2, "{all}");
    }

    #[test]
    fn one_takes_over_against_the_wind_and_going_away() {
        for turn in [Turn::Clockwise, Turn::Anticlockwise] {
            for from in [0.0, 90.0, 180.0, 270.0] {
                let (scenario, lap) = flown(6.0, from, turn, [0.0, -15.0]);
                let part = take_over(&scenario, &lap).unwrap();
                let upwind = Bearing::from_deg(from).unit();
                let middle = part.middle(&lap).unwrap();
                assert!(part.slow && lap.course(middle).dot(upwind) > 0.0, "{turn:?} {from}");
                assert!(part.seconds > SHORTEST_S && part.seconds < 25.0, "{}", part.seconds);
                if part.away {
                    let pilot = scenario.field.pilot;
                    assert!(part.bearings.iter().all(|&i| lap.course(i).dot(lap.place[i] - pilot) > 0.0));
                }
                let jump = part.bearings.windows(2).find(|pair| lap.after(pair[0]) != pair[1]);
                assert_eq!(jump, None);
            }
        }
    }

    #[test]
    fn in_a_calm_the_half_that_leads_away_is_all_there_is_to_say() {
        let (scenario, lap) = flown(0.0, 0.0, Turn::Clockwise, [0.0, -1000.0]);
        let part = take_over(&scenario, &lap).unwrap();
        assert!(!part.slow && part.away);
        let whole: f64 = (0..lap.at_deg.len()).map(|index| lap.lasts_s(index)).sum();
        // From far off, half of any circle leads away.
        assert!((part.seconds / whole - 0.5).abs() < 0.05, "{} of {whole}", part.seconds);
    }
}
