//! A number that a flight tells, with how far off it may be.

/// Standard deviations to either end of an interval that holds 95 of 100 of a normal distribution (closed form).
pub(super) const ENDS: f64 = 1.959_964;

/// Least spread that an estimate is given beside others, as a share of the largest of them (judgement: no log is as good).
const FINEST: f64 = 1e-4;

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

/// What several estimates of one number say together: their mean by what each is worth, with an interval that is believed as
/// it is, or wider where they lie further apart than theirs say (Particle Data Group, Review of Particle Physics,
/// Introduction, "Unconstrained averaging": S = sqrt(chi^2 / (n - 1)) where that is above one). None of none.
#[allow(clippy::cast_precision_loss, reason = "a handful of flights")]
pub(super) fn pooled(all: &[Estimate]) -> Option<Estimate> {
    // What claims to be exact would leave all others without a say.
    let finest = all.iter().map(|one| one.value.abs()).fold(1.0, f64::max) * FINEST;
    let weight = |one: &Estimate| one.spread().max(finest).powi(-2);
    let total: f64 = all.iter().map(weight).sum();
    let value = all.iter().map(|one| weight(one) * one.value).sum::<f64>() / total;
    let chi = all.iter().map(|one| weight(one) * (one.value - value).powi(2)).sum::<f64>();
    let apart = (chi / (all.len() as f64 - 1.0).max(1.0)).max(1.0);
    match all {
        [] => None,
        [one] => Some(*one),
        _ => Some(Estimate::within(value, (apart / total).sqrt())),
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn several_estimates_are_worth_more_than_one_unless_they_lie_apart() {
        #[track_caller]
        fn check(all: &[(f64, f64)], value: f64, spread: f64) {
            let all: Vec<_> = all.iter().map(|&(value, spread)| Estimate::within(value, spread)).collect();
            let found = pooled(&all).unwrap();
            approx::assert_relative_eq!(found.value, value, max_relative = 1e-9);
            approx::assert_relative_eq!(found.spread(), spread, max_relative = 1e-9);
        }
        // Closed form.
        check(&[(5.0, 0.3)], 5.0, 0.3);
        check(&[(5.0, 0.3), (5.0, 0.3), (5.0, 0.3)], 5.0, 0.3 / 3.0_f64.sqrt());
        // Weights 1 and 1/4; they lie 0.5 of their spreads apart.
        check(&[(10.0, 1.0), (11.0, 2.0)], 10.2, 0.8_f64.sqrt());
        // Chi-squared 18 of one degree of freedom: the spread of the mean is that of two numbers six apart, six by two.
        check(&[(4.0, 1.0), (10.0, 1.0)], 7.0, 3.0);
        assert_eq!(pooled(&[]), None);
    }
}
