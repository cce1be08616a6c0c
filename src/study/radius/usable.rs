//! Which radii meet the demand in one wind, where each range of them ends, and why there.

use super::Reason;
use super::answer::{End, RadiusRange};
use super::flyer::{Circle, CircleFlyer, Flight};
use crate::recovery::Turn;
use crate::run::WindChoice;

/// How near the ends of usable radii are found, metres.
const NEAR: f64 = 1.0;

/// Most radii that are put between those asked for: what is usable comes in ranges, whose ends are closed in on, and every
/// one more is flown in each wind, each way round and with every change that might help.
const MOST_BETWEEN: f64 = 96.0;
/// Of more radii than this, a few are left out where changes of the plan are tried.
const MOST_TRIED: usize = 48;

/// Radii no further apart than `finest` metres, or than a share of the way from the first to the last; every one of
/// `radii` is among them.
pub(super) fn between(radii: &[f64], finest: f64) -> Vec<f64> {
    let mut all = Vec::new();
    let span = radii.last().zip(radii.first()).map_or(0.0, |(last, first)| last - first);
    let finest = finest.max(span / MOST_BETWEEN);
    for pair in radii.windows(2) {
        let parts = ((pair[1] - pair[0]) / finest).ceil().max(1.0);
        let mut part = 0.0;
        while part < parts {
            all.push(pair[0] + (pair[1] - pair[0]) * part / parts);
            part += 1.0;
        }
    }
    all.extend(radii.last());
    all
}

/// The radii at which a change of the plan is tried: the same, and no more of them than serve.
pub(super) fn tried(radii: &[f64], finest: f64) -> Vec<f64> {
    let last = radii.len().saturating_sub(1);
    let some: Vec<f64> = (0..radii.len())
        .step_by(radii.len().div_ceil(MOST_TRIED).max(1))
        .filter(|&index| index != last)
        .chain([last])
        .filter_map(|index| radii.get(index).copied())
        .collect();
    between(&some, finest)
}

/// Every radius every way round, by way round and then by radius.
pub(super) fn circles(turns: &[Turn], radii: &[f64]) -> Vec<Circle> {
    turns.iter().flat_map(|&turn| radii.iter().map(move |&radius_m| Circle { radius_m, turn })).collect()
}

/// The runs of neighbours that meet, as first and last number.
pub(super) fn runs(meets: &[bool]) -> Vec<(usize, usize)> {
    let starts = (0..meets.len()).filter(|&i| meets[i] && (i == 0 || !meets[i - 1]));
    starts.map(|from| (from, (from..meets.len()).take_while(|&i| meets[i]).last().unwrap_or(from))).collect()
}

/// Between a radius that meets the demand and one that does not.
struct Edge {
    meets: Circle,
    fails: Flight,
}

impl Edge {
    fn middle(&self) -> Circle {
        Circle { radius_m: f64::midpoint(self.meets.radius_m, self.fails.circle.radius_m), ..self.meets }
    }

    fn open(&self) -> bool {
        (self.meets.radius_m - self.fails.circle.radius_m).abs() > NEAR
    }

    fn end(&self, flyer: &CircleFlyer<'_>) -> End {
        let reason = flyer.lacks(self.fails.circle, &self.fails.score).unwrap_or_default();
        End { radius_m: self.meets.radius_m, reason }
    }
}

/// The usable radii among flights by way round and then by radius, their ends found by halving.
pub(super) fn usable(flyer: &CircleFlyer<'_>, flights: &[Flight], wind: WindChoice) -> Vec<RadiusRange> {
    let mut edges: Vec<Edge> = Vec::new();
    // The two ends of each range: the radius where the radii end, or the number of its edge.
    let mut found: Vec<(Turn, [Result<f64, usize>; 2])> = Vec::new();
    for flights in flights.chunk_by(|a, b| a.circle.turn == b.circle.turn) {
        let meets: Vec<bool> = flights.iter().map(|flight| flight.score.meets()).collect();
        for (from, to) in runs(&meets) {
            let mut end = |at: usize, beyond: Option<&Flight>| {
                let circle = flights[at].circle;
                beyond.map_or(Ok(circle.radius_m), |fails| {
                    edges.push(Edge { meets: circle, fails: fails.clone() });
                    Err(edges.len() - 1)
                })
            };
            let low = end(from, from.checked_sub(1).map(|before| &flights[before]));
            let high = end(to, flights.get(to + 1));
            found.push((flights[from].circle.turn, [low, high]));
        }
    }
    halve(flyer, &mut edges, wind);
    let end = |end: Result<f64, usize>| match end {
        Ok(radius_m) => End { radius_m, reason: Reason::NoneFlown },
        Err(edge) => edges[edge].end(flyer),
    };
    found.into_iter().map(|(turn, [low, high])| RadiusRange { turn, low: end(low), high: end(high) }).collect()
}

/// Halves every edge that is still open, all of them side by side, unless the work is stopped.
fn halve(flyer: &CircleFlyer<'_>, edges: &mut [Edge], wind: WindChoice) {
    loop {
        let mut open: Vec<&mut Edge> = edges.iter_mut().filter(|edge| edge.open()).collect();
        if open.is_empty() {
            return;
        }
        let middles: Vec<Circle> = open.iter().map(|edge| edge.middle()).collect();
        let flights = flyer.fly(&middles, wind);
        if flights.is_empty() {
            return;
        }
        for (edge, flight) in open.iter_mut().zip(flights) {
            if flight.score.meets() {
                edge.meets = flight.circle;
            } else {
                edge.fails = flight;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn radii_between_keep_those_asked_for() {
        assert_eq!(between(&[40.0, 50.0, 53.0], 2.5), [40.0, 42.5, 45.0, 47.5, 50.0, 51.5, 53.0]);
        assert_eq!(between(&[40.0], 2.5), [40.0]);
        assert_eq!(between(&[], 2.5), [0.0; 0]);
        assert_eq!(between(&[40.0, 50.0], f64::INFINITY), [40.0, 50.0]);
    }

    #[test]
    fn however_wide_the_radii_lie_apart_no_more_are_flown_than_serve() {
        let usual: Vec<f64> = (4..=26).map(|ten| f64::from(ten) * 10.0).collect();
        assert_eq!((between(&usual, 2.5).len(), tried(&usual, 2.5)), (89, between(&usual, 2.5)));
        assert_eq!(between(&[5.0, 5000.0], 2.5).len(), 97);
        for (count, step) in [(2, 4995.0), (200, 25.0), (1000, 5.0), (1000, 0.1)] {
            let radii: Vec<f64> = (0..count).map(|index| 5.0 + f64::from(index) * step).collect();
            let all = tried(&radii, 2.5);
            assert!(all.len() <= 48 + 97 && all.is_sorted() && all.last() == radii.last(), "{count}: {}", all.len());
            assert_eq!(all.first(), radii.first());
            assert!(between(&radii, 2.5).len() <= radii.len() + 97);
        }
        assert!(tried(&[], 2.5).is_empty());
    }

    #[test]
    fn runs_of_neighbours() {
        let check = |text: &str, wanted: &[(usize, usize)]| {
            let meets: Vec<bool> = text.chars().map(|c| c == '#').collect();
            assert_eq!(runs(&meets), wanted, "{text}");
        };
        check("", &[]);
        check("...", &[]);
        check("###", &[(0, 2)]);
        check("#..##.#", &[(0, 0), (3, 4), (6, 6)]);
    }
}
