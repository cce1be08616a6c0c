//! A number that a flight tells, with how far off it may be.

/// Standard deviations to either end of an interval: 95 % of a normal (closed form).
pub(super) const ENDS: f64 = 1.96;

/// A number with the ends of the interval that holds it in about 19 of 20 flights, all SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The best guess.
    pub value: f64,
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

/// A number, or why a track does not tell it.
pub type Told = Result<Estimate, &'static str>;

impl Estimate {
    /// A value within a standard deviation.
    pub(super) fn within(value: f64, deviation: f64) -> Self {
        Self { value, low: value - ENDS * deviation, high: value + ENDS * deviation }
    }

    /// One standard deviation, as wide as the interval says.
    pub fn spread(&self) -> f64 {
        (self.high - self.low) / (2.0 * ENDS)
    }
}

/// Mean of some numbers; none of none.
#[allow(clippy::cast_precision_loss, reason = "a flight has few samples")]
pub(super) fn mean(list: &[f64]) -> Option<f64> {
    (!list.is_empty()).then(|| list.iter().sum::<f64>() / list.len() as f64)
}

/// Standard deviation about the mean.
pub(super) fn deviation(list: &[f64]) -> Option<f64> {
    let middle = mean(list)?;
    Some(mean(&list.iter().map(|value| (value - middle).powi(2)).collect::<Vec<_>>())?.sqrt())
}

/// Mean and its standard deviation of numbers that change over `over_s`, noted down during `lasting_s` seconds: numbers
/// nearer in time than twice that are no news.
pub(super) fn lasting(list: &[f64], lasting_s: f64, over_s: f64) -> Option<(f64, f64)> {
    let news = (lasting_s / (2.0 * over_s)).max(1.0);
    Some((mean(list)?, deviation(list)? / news.sqrt()))
}
