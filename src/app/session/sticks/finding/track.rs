//! What has one axis done since somebody was asked to move one?

/// Time over which jitter is smoothed out, seconds (judgement).
const SMOOTH_S: f64 = 0.1;
/// How far an axis may draw back, or be from its rest, and still count as going on, or as resting (judgement).
pub(super) const LOOSE: f32 = 0.15;
/// How much further it goes before the wait for its end starts anew (judgement).
const GROWN: f32 = 0.05;

/// One axis.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Track {
    /// Where it is, without its jitter.
    pub(super) now: f32,
    /// Where it was before it was to be moved.
    pub(super) rest: f32,
    /// The least that it has been.
    pub(super) low: f32,
    /// The most.
    pub(super) high: f32,
    /// How far it has gone from its rest, straight out; nothing where it rests, or has gone to and fro.
    pub(super) gone: f32,
    /// How long it has stood where it has gone to, seconds.
    pub(super) held_s: f64,
    held_from: f32,
    strayed: bool,
}

impl Track {
    /// An axis heard of for the first time.
    pub(super) const fn new(now: f32, rest: f32) -> Self {
        Self { now, rest, low: now, high: now, gone: 0.0, held_s: 0.0, held_from: 0.0, strayed: false }
    }

    /// Takes a sample, `dt` seconds after the last.
    pub(super) fn follow(&mut self, value: f32, dt: f64) {
        self.now += (value - self.now) * -(-dt / SMOOTH_S).exp_m1() as f32;
        self.low = self.low.min(self.now);
        self.high = self.high.max(self.now);
    }

    /// Calls it at rest where it is.
    pub(super) const fn settle(&mut self) {
        self.rest = self.now;
        (self.gone, self.held_s, self.held_from, self.strayed) = (0.0, 0.0, 0.0, false);
    }

    /// Whether it has left its rest.
    pub(super) fn is_away(&self) -> bool {
        (self.now - self.rest).abs() > LOOSE
    }

    /// Looks where it has gone. Whatever draws back before it has been taken counts again only from its rest.
    pub(super) fn watch(&mut self, dt: f64) {
        if !self.is_away() {
            (self.gone, self.held_s, self.held_from, self.strayed) = (0.0, 0.0, 0.0, false);
            return;
        }
        let away = self.now - self.rest;
        let onward = if self.gone < 0.0 { -away } else { away };
        let furthest = self.gone.abs();
        self.strayed |= furthest > 0.0 && onward < furthest - LOOSE;
        if self.strayed {
            (self.gone, self.held_s) = (0.0, 0.0);
            return;
        }
        if furthest == 0.0 || onward > furthest {
            self.gone = away;
        }
        if self.gone.abs() > self.held_from + GROWN {
            (self.held_from, self.held_s) = (self.gone.abs(), 0.0);
        }
        self.held_s += dt;
    }
}
