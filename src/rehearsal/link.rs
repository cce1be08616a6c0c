//! Is there a picture, do the sticks reach the jet? By what is lost, since when, and for how long.

use rand::{RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;

use super::{Exercise, Lost, When};
use crate::run::Scenario;

/// How long a flickering link is away and how long it is back, seconds: least and most (judgement).
const AWAY_S: [f64; 2] = [0.6, 4.0];
const BACK_S: [f64; 2] = [0.5, 2.5];
/// Times that it goes.
const FLICKERS: usize = 6;

/// What is there at which moment.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Link {
    lost: Lost,
    back_after_s: f64,
    /// Moment of the loss, seconds since the beginning, where it is drawn or written down.
    pub(super) due_s: Option<f64>,
    /// Ends of the spans of a flickering link, seconds since the loss: away, back, away, and so on.
    flickers_s: Vec<f64>,
}

impl Link {
    pub(super) fn of(scenario: &Scenario, exercise: &Exercise) -> Self {
        // A stream that no trial uses.
        let seed = scenario.file.seed ^ exercise.trial.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x05ee_d0fa_1110_55e5;
        let mut random = Xoshiro256PlusPlus::seed_from_u64(seed);
        let mut between = |[least, most]: [f64; 2]| least + (most - least) * random.random::<f64>();
        let due_s = match exercise.when {
            When::AfterS(at) => Some(at),
            When::BetweenS(moments) => Some(between(moments)),
            When::OnCircuitM(_) | When::Pressed => None,
        };
        let mut at = 0.0;
        let spans = (0..2 * FLICKERS - 1).map(|index| {
            at += between(if index % 2 == 0 { AWAY_S } else { BACK_S });
            at
        });
        Self { lost: exercise.lost, back_after_s: exercise.back_after_s, due_s, flickers_s: spans.collect() }
    }

    /// Whether the sticks reach the jet so many seconds after the loss.
    pub(super) fn has_control(&self, since_s: f64) -> bool {
        match self.lost {
            Lost::Video | Lost::Position => true,
            Lost::Control | Lost::Both => since_s >= self.back_after_s,
            Lost::Flicker => self.flickers_in(since_s),
        }
    }

    /// Whether there is a picture then.
    pub(super) fn has_video(&self, since_s: f64) -> bool {
        match self.lost {
            Lost::Control | Lost::Position => true,
            Lost::Video | Lost::Both => false,
            Lost::Flicker => self.flickers_in(since_s),
        }
    }

    /// After an odd number of ends it is back.
    fn flickers_in(&self, since_s: f64) -> bool {
        self.flickers_s.partition_point(|&end| end <= since_s) % 2 == 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_flickering_link_goes_comes_and_stays() {
        let exercise = Exercise { lost: Lost::Flicker, ..Exercise::default() };
        let link = Link::of(&Scenario::demo(), &exercise);
        let states: Vec<bool> = (0..600).map(|tenth| link.has_control(f64::from(tenth) / 10.0)).collect();
        assert!(!states[0] && states[599]);
        assert_eq!(states.windows(2).filter(|pair| !pair[0] && pair[1]).count(), FLICKERS);
        assert_eq!(link, Link::of(&Scenario::demo(), &exercise));
        assert_ne!(link, Link::of(&Scenario::demo(), &Exercise { trial: 1, ..exercise }));
    }

    #[test]
    fn a_drawn_moment_lies_between_its_two_ends() {
        let due = |trial| {
            let exercise = Exercise { trial, when: When::BetweenS([15.0, 40.0]), ..Exercise::default() };
            Link::of(&Scenario::demo(), &exercise).due_s.unwrap()
        };
        let all: Vec<f64> = (0..200).map(due).collect();
        assert!(all.iter().all(|due| (15.0..40.0).contains(due)));
        // Uniform: the mean of 200 lies within four standard errors, 7.2 / sqrt(200), of the middle.
        assert!((all.iter().sum::<f64>() / 200.0 - 27.5).abs() < 4.0 * 7.2 / 200.0_f64.sqrt());
    }
}
