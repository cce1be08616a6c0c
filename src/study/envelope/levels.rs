//! One rank for whole recoveries: a family of rings, each around the one before, and the smallest of them that holds a
//! trial.
//!
//! Half of the trials lay down the family: at level `k / n` every sector has the k-th shortest reach of the n trials, with
//! straight lines between, and above 1 the largest grow in proportion. The score of a trial is the smallest level whose
//! ring it stays inside in every sector at once, and the ring of a share is the level of one rank among the scores of the
//! other half. Those scores and that of a fresh trial are drawn alike, so the rank says how likely the fresh one is to stay
//! inside, whatever the family (split conformal prediction: V. Vovk, A. Gammerman and G. Shafer, Algorithmic Learning in a
//! Random World, Springer 2005; J. Lei et al., J. Am. Stat. Assoc. 113, 2018, 1094-1111; statement from memory).

use super::Reach;

/// The family of rings.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Levels {
    /// Reaches a sector, metres, ascending; never empty.
    sorted_m: Vec<Vec<f64>>,
}

impl Levels {
    /// Laid down by trials. No ring of it is worth less than the commanded one, so that sectors where few flew have one.
    pub(super) fn of(trials: &[Reach], sectors: usize, radius_m: f64) -> Self {
        let sector = |sector: usize| {
            let mut reach: Vec<f64> = trials.iter().map(|trial| trial.whole_m[sector].max(radius_m)).collect();
            if reach.is_empty() {
                reach.push(radius_m);
            }
            reach.sort_by(f64::total_cmp);
            reach
        };
        Self { sorted_m: (0..sectors).map(sector).collect() }
    }

    /// The smallest level that holds a trial everywhere.
    pub(super) fn score(&self, trial: &Reach) -> f64 {
        self.sorted_m.iter().zip(&trial.whole_m).map(|(sorted, &reach)| level(sorted, reach)).fold(0.0, f64::max)
    }

    /// The ring at a level, metres a sector.
    pub(super) fn ring_m(&self, level: f64) -> Vec<f64> {
        self.sorted_m.iter().map(|sorted| reach(sorted, level)).collect()
    }
}

/// The level of a reach among some, by straight lines from nothing through each of them.
fn level(sorted: &[f64], reach: f64) -> f64 {
    let count = sorted.len() as f64;
    let above = sorted.partition_point(|known| *known < reach);
    match sorted.get(above) {
        Some(high) => {
            let low = above.checked_sub(1).map_or(0.0, |below| sorted[below]);
            (above as f64 + (reach - low) / (high - low)) / count
        }
        None => reach / sorted[sorted.len() - 1],
    }
}

/// The reach at a level.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "below the number of reaches")]
fn reach(sorted: &[f64], level: f64) -> f64 {
    let last = sorted[sorted.len() - 1];
    if level >= 1.0 {
        return level * last;
    }
    let at = level.max(0.0) * sorted.len() as f64;
    let above = at as usize;
    let low = above.checked_sub(1).map_or(0.0, |below| sorted[below]);
    low + (sorted[above] - low) * (at - above as f64)
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    fn trial(whole_m: [f64; 2]) -> Reach {
        Reach { whole_m: whole_m.into(), circle_m: None }
    }

    #[test]
    fn levels_by_hand() {
        // Two sectors, four trials, radius 10: 10, 12, 14, 20 in the one, 10, 10, 30, 40 in the other.
        let trials = [[12.0, 40.0], [20.0, 0.0], [14.0, 30.0], [9.0, 4.0]].map(trial);
        let levels = Levels::of(&trials, 2, 10.0);
        for (level, ring) in [(0.25, [10.0, 10.0]), (0.625, [13.0, 20.0]), (1.0, [20.0, 40.0]), (1.5, [30.0, 60.0])] {
            assert_eq!(levels.ring_m(level), ring, "{level}");
        }
        // The worst sector decides.
        for (reach, score) in [([5.0, 0.0], 0.125), ([13.0, 10.0], 0.625), ([13.0, 35.0], 0.875), ([30.0, 1.0], 1.5)] {
            assert_abs_diff_eq!(levels.score(&trial(reach)), score, epsilon = 1e-12);
        }
        assert_eq!(Levels::of(&[], 2, 10.0).ring_m(1.2), [12.0, 12.0]);
    }

    #[test]
    fn a_ring_at_a_score_just_holds_the_trial() {
        let trials: Vec<_> =
            (0..40_i32).map(|n| trial([f64::from(n * n % 37) + 80.0, f64::from(n * 7 % 31)])).collect();
        let levels = Levels::of(&trials[..20], 2, 15.0);
        for trial in &trials {
            let score = levels.score(trial);
            let left = |level: f64| {
                let ring = levels.ring_m(level);
                ring.iter().zip(&trial.whole_m).map(|(ring, reach)| ring - reach).fold(f64::INFINITY, f64::min)
            };
            assert!(left(score) > -1e-9 && left(score * 0.99) < 0.0, "{trial:?} {score}");
        }
    }
}
