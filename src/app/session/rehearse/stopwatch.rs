//! The drill with a stopwatch and a real pair of goggles, without flying: a call after a while that nobody knows, then a
//! press a stage. Twenty tries are the club's own take-over times.

use rand::{RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;

use super::super::Session;
use crate::rehearsal::Stage;

/// Shortest and longest time from ready to the call, seconds.
const WAITS_S: [f64; 2] = [4.0, 15.0];
/// Tries that are asked for.
pub const TRIES: usize = 20;
/// A try that takes longer than this is given up, seconds.
const LONGEST_S: f64 = 180.0;

/// The stages of a try.
const STAGES: [Stage; 6] = [Stage::Noticed, Stage::Called, Stage::GogglesOff, Stage::Cued, Stage::Found, Stage::Said];

/// The stopwatch.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stopwatch {
    /// Seconds until the call.
    waits_s: Option<f64>,
    /// Seconds since the call.
    since_s: Option<f64>,
    /// When each stage was done, seconds since the call.
    pub done_s: Vec<f64>,
    /// Whether the last press came before the call.
    pub early: bool,
}

/// What is asked of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StopwatchCommand {
    /// Goggles on: the call comes after a while.
    Ready,
    /// The next stage is done.
    Press,
    /// This try does not count.
    GiveUp,
    /// Forgets a try that was timed.
    Forget(usize),
    /// Forgets all of them.
    ForgetAll,
    /// Enters the fit into the plan.
    Use,
}

impl Stopwatch {
    /// Whether it waits or runs.
    pub const fn runs(&self) -> bool {
        self.waits_s.is_some() || self.since_s.is_some()
    }

    /// Seconds since the call; none before it.
    pub const fn since_s(&self) -> Option<f64> {
        self.since_s
    }

    /// The stage that is pressed next; none where no try runs.
    pub fn next(&self) -> Option<Stage> {
        self.since_s.and_then(|_| STAGES.get(self.done_s.len()).copied())
    }

    /// The stages of a try, in order.
    pub const fn stages() -> [Stage; 6] {
        STAGES
    }
}

impl Session {
    pub(super) fn stopwatch_obeys(&mut self, command: StopwatchCommand) {
        let (watch, tries) = (&mut self.rehearse.stopwatch, &mut self.settings.practice.tries_s);
        match command {
            StopwatchCommand::Ready => {
                // A wait that nobody knows beforehand, and another one for every try.
                let seed = tries.iter().fold(tries.len() as u64, |seed, time| seed.rotate_left(7) ^ time.to_bits());
                let share: f64 = Xoshiro256PlusPlus::seed_from_u64(seed).random();
                let waits_s = Some(WAITS_S[0] + (WAITS_S[1] - WAITS_S[0]) * share);
                *watch = Stopwatch { waits_s, ..Stopwatch::default() };
            }
            StopwatchCommand::Press => match watch.since_s {
                Some(since) => {
                    watch.done_s.push(since);
                    if watch.done_s.len() == STAGES.len() {
                        tries.push((since * 10.0).round() / 10.0);
                        watch.since_s = None;
                    }
                }
                None => watch.early = watch.waits_s.is_some(),
            },
            StopwatchCommand::GiveUp => *watch = Stopwatch::default(),
            StopwatchCommand::Forget(index) => {
                if index < tries.len() {
                    tries.remove(index);
                }
            }
            StopwatchCommand::ForgetAll => tries.clear(),
            StopwatchCommand::Use => self.take_over_measured(),
        }
    }

    pub(super) fn stopwatch_tick(&mut self, by_s: f64) {
        let watch = &mut self.rehearse.stopwatch;
        if let Some(waits) = &mut watch.waits_s {
            *waits -= by_s;
            if *waits <= 0.0 {
                (watch.waits_s, watch.since_s) = (None, Some(0.0));
                self.rehearse.to_say.push("Video lost.".into());
            }
        } else if let Some(since) = &mut watch.since_s {
            *since += by_s;
            if *since > LONGEST_S {
                *watch = Stopwatch::default();
            }
        }
    }
}
