//! Draws of numbers by their spread and shape, and of a whole jet sheet.

use rand::SeedableRng as _;
use rand_distr::{Distribution as _, StandardNormal};
use rand_xoshiro::Xoshiro256PlusPlus;
use statrs::distribution::{ContinuousCDF as _, Normal};

use crate::jet::{Entry, JetSheet, PlainEntry};
use crate::units::{Quantity, Time};

/// Least share of its value that a number of the sheet is drawn at.
pub(super) const LEAST_SHARE: f64 = 0.05;

/// A source of draws that gives the middle of everything for trial 0.
pub(super) struct Draws(pub(super) Option<Xoshiro256PlusPlus>);

impl Draws {
    pub(super) fn normal(&mut self, mean: f64, sd: f64) -> f64 {
        let z: f64 = self.0.as_mut().map_or(0.0, |random| StandardNormal.sample(random));
        mean + sd * z
    }

    /// Normal, of which what would lie below nothing is spread over the rest. One draw, whatever the numbers.
    pub(super) fn truncated(&mut self, mean: f64, sd: f64) -> f64 {
        let z = self.normal(0.0, 1.0);
        if self.0.is_none() || sd <= 0.0 {
            return mean.max(0.0);
        }
        let normal = Normal::standard();
        // By the share of what lies above, which keeps its digits far out.
        let above = normal.cdf(mean / sd) * normal.cdf(-z);
        (mean - sd * normal.inverse_cdf(above)).max(0.0)
    }

    /// Normal, cut at three standard deviations.
    pub(super) fn capped(&mut self, mean: f64, sd: f64) -> f64 {
        self.normal(mean, sd).clamp(mean - 3.0 * sd, mean + 3.0 * sd)
    }

    /// A number of the sheet, never less than a twentieth of its value: none of them can be nothing.
    pub(super) fn entry<Q: Quantity>(&mut self, entry: Entry<Q>) -> Entry<Q> {
        let (value, spread) = (entry.value.si(), entry.spread.si());
        Entry { value: Q::from_si(self.capped(value, spread).max(LEAST_SHARE * value)), ..entry }
    }

    pub(super) fn plain(&mut self, entry: PlainEntry) -> PlainEntry {
        PlainEntry { value: self.capped(entry.value, entry.spread).max(LEAST_SHARE * entry.value), ..entry }
    }

    pub(super) fn uniform(&mut self, low: f64, high: f64) -> f64 {
        let share = self.0.as_mut().map_or(0.5, rand::RngExt::random::<f64>);
        low + (high - low) * share
    }

    /// Uniform with a standard deviation.
    pub(super) fn even(&mut self, mean: f64, sd: f64) -> f64 {
        let half = 3.0_f64.sqrt() * sd;
        self.uniform(mean - half, mean + half)
    }

    /// Log-normal with a mean and a standard deviation.
    pub(super) fn log_normal(&mut self, mean: f64, sd: f64) -> f64 {
        let variance = (sd / mean).powi(2).ln_1p();
        match &self.0 {
            Some(_) => self.normal(mean.ln() - variance / 2.0, variance.sqrt()).exp(),
            None => mean,
        }
    }
}

/// The generator of one trial: the master seed and the trial, mixed so that neighbours have nothing in common.
pub(super) fn generator(seed: u64, trial: u64) -> Xoshiro256PlusPlus {
    Xoshiro256PlusPlus::seed_from_u64(seed ^ trial.wrapping_mul(0x9e37_79b9_7f4a_7c15))
}

/// The sheet of one trial: every number that others are worked out from drawn with its spread, what was left out too.
pub(super) fn draw_sheet(sheet: &JetSheet, draws: &mut Draws) -> JetSheet {
    let sheet = &sheet.filled();
    JetSheet {
        name: String::new(),
        mass: draws.entry(sheet.mass),
        stall_speed: sheet.stall_speed.map(|speed| draws.entry(speed)),
        top_speed: sheet.top_speed.map(|speed| draws.entry(speed)),
        climb: sheet.climb.map(|rate| draws.entry(rate)),
        wing_area: sheet.wing_area.map(|entry| draws.entry(entry)),
        span: sheet.span.map(|entry| draws.entry(entry)),
        lift_max: sheet.lift_max.map(|entry| draws.plain(entry)),
        drag_zero_lift: sheet.drag_zero_lift.map(|entry| draws.plain(entry)),
        drag_fan_stopped: draws.plain(sheet.drag_fan_stopped),
        span_efficiency: draws.plain(sheet.span_efficiency),
        nozzle_area: sheet.nozzle_area.map(|entry| draws.entry(entry)),
        full_power: sheet.full_power.map(|entry| draws.entry(entry)),
        fan_efficiency: sheet.fan_efficiency.map(|entry| draws.entry(entry)),
        part_throttle_loss: draws.plain(sheet.part_throttle_loss),
        // A time flown is a power, of the pack as entered.
        return_power: sheet.measured_power().map(|power| draws.entry(power)),
        flight_time: None,
        fan_lag: draws.entry(sheet.fan_lag),
        avionics_power: draws.entry(sheet.avionics_power),
        cells: sheet.cells,
        capacity: draws.entry(sheet.capacity),
        cold: sheet.cold,
        maximum_bank: draws.entry(sheet.maximum_bank),
        // Nothing is known of it but a range (judgement).
        roll_lag: Entry {
            value: Time::new(draws.even(sheet.roll_lag.value.s(), sheet.roll_lag.spread.s()).max(0.0)),
            ..sheet.roll_lag
        },
        roll_rate: draws.entry(sheet.roll_rate),
        climb_limit: draws.entry(sheet.climb_limit),
        return_speed: draws.entry(sheet.return_speed),
    }
}
