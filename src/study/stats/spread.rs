//! How does a quantity lie over many runs: its extremes, its quantiles and how sure those are, in memory that doesn't
//! grow with the runs?

use std::collections::BTreeMap;

use super::Interval;
use super::binomial::{at_least, left_out};

/// Bins to either side of zero. What lies further out counts in the last one.
const BINS: i64 = 50_000;

/// An extreme value and the trial that had it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme {
    /// The value itself, not its bin.
    pub value: f64,
    /// The lowest trial with that value.
    pub trial: u64,
}

/// Counts of a quantity in bins of one width, with the exact extremes.
///
/// Everything in it is a whole number or an extreme, so that any order of adding and merging gives the same bits.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    width: f64,
    bins: BTreeMap<i64, u64>,
    count: u64,
    missing: u64,
    least: Option<Extreme>,
    most: Option<Extreme>,
}

impl Spread {
    /// Of nothing yet, in bins of a width in the quantity's unit, which says how fine the quantiles are.
    pub fn new(width: f64) -> Self {
        Self { width, bins: BTreeMap::new(), count: 0, missing: 0, least: None, most: None }
    }

    /// Counts the value of a trial. One that is none or no number is counted as missing.
    pub fn add(&mut self, trial: u64, value: Option<f64>) {
        let Some(value) = value.filter(|value| !value.is_nan()) else {
            self.missing += 1;
            return;
        };
        // The conversion keeps what is out of range at the end of the range.
        let bin = ((value / self.width).floor() as i64).clamp(-BINS, BINS - 1);
        *self.bins.entry(bin).or_default() += 1;
        self.count += 1;
        // Without this a zero would have two signs, and which is kept would depend on the order.
        let extreme = Some(Extreme { value: value + 0.0, trial });
        self.least = lower(self.least, extreme);
        self.most = higher(self.most, extreme);
    }

    /// Takes in another one, whose bins have the same width. The values of one with other bins are counted as missing.
    pub fn merge(&mut self, other: &Self) {
        if self.width.total_cmp(&other.width).is_ne() {
            self.missing += other.count + other.missing;
            return;
        }
        for (bin, count) in &other.bins {
            *self.bins.entry(*bin).or_default() += count;
        }
        self.count += other.count;
        self.missing += other.missing;
        self.least = lower(self.least, other.least);
        self.most = higher(self.most, other.most);
    }

    /// Values counted, without the missing ones.
    pub fn count(&self) -> u64 {
        self.count
    }

    /// Trials that had no value.
    pub fn missing(&self) -> u64 {
        self.missing
    }

    /// The least value, exactly.
    pub fn least(&self) -> Option<Extreme> {
        self.least
    }

    /// The greatest value, exactly.
    pub fn most(&self) -> Option<Extreme> {
        self.most
    }

    /// The least value that a share `p` of the values doesn't exceed, to within half a bin; the extremes exactly. None
    /// without a value.
    pub fn quantile(&self, p: f64) -> Option<f64> {
        let (least, most) = (self.least?, self.most?);
        // A product that only rounding lifts over a whole number must not count as the next.
        let rank = ((p * self.count as f64 - 1e-9).ceil() as u64).clamp(1, self.count);
        if rank == 1 {
            return Some(least.value);
        }
        if rank == self.count {
            return Some(most.value);
        }
        self.bin_of(rank).map(|Interval { low, high }| 0.5 * low + 0.5 * high)
    }

    /// Where the quantile of all possible trials lies, with at least a confidence and whatever the distribution,
    /// between two of the values in order (H. A. David and H. N. Nagaraja, Order Statistics, 3rd ed., section 7.1),
    /// each moved outward to the edge of its bin. None where there are too few values for that quantile.
    pub fn quantile_interval(&self, p: f64, confidence: f64) -> Option<Interval> {
        let tail = 0.5 * left_out(confidence);
        let high = rank_beyond(self.count, p, tail)?;
        let low = self.count + 1 - rank_beyond(self.count, 1.0 - p, tail)?;
        Some(Interval { low: self.bin_of(low)?.low, high: self.bin_of(high)?.high })
    }

    /// The bin of the value with that rank, 1 for the least, as far as there are values in it.
    fn bin_of(&self, rank: u64) -> Option<Interval> {
        let (least, most) = (self.least?.value, self.most?.value);
        let mut below = 0;
        let (bin, _) = self.bins.iter().find(|(_, count)| {
            below += *count;
            below >= rank
        })?;
        let edge = |bin: i64| bin as f64 * self.width;
        let low = if *bin == -BINS { least } else { edge(*bin).max(least) };
        let high = if *bin == BINS - 1 { most } else { edge(*bin + 1).min(most) };
        Some(Interval { low, high })
    }
}

/// The lowest rank among `count` values whose value is below the quantile `p` with no more than a probability.
fn rank_beyond(count: u64, p: f64, tail: f64) -> Option<u64> {
    // Such a value is below the quantile when that many values are.
    let rare = |rank| at_least(rank, count, p) <= tail;
    if count == 0 || !rare(count) {
        return None;
    }
    let (mut common, mut rank) = (0, count);
    while rank - common > 1 {
        let middle = common + (rank - common) / 2;
        if rare(middle) {
            rank = middle;
        } else {
            common = middle;
        }
    }
    Some(rank)
}

/// The lower of two; of equal ones that of the lower trial.
fn lower(one: Option<Extreme>, other: Option<Extreme>) -> Option<Extreme> {
    let found = one.into_iter().chain(other);
    found.min_by(|a, b| a.value.total_cmp(&b.value).then(a.trial.cmp(&b.trial)))
}

/// The higher of two; of equal ones that of the lower trial.
fn higher(one: Option<Extreme>, other: Option<Extreme>) -> Option<Extreme> {
    let found = one.into_iter().chain(other);
    found.min_by(|a, b| b.value.total_cmp(&a.value).then(a.trial.cmp(&b.trial)))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const WIDTH: f64 = 0.5;

    fn spread(values: &[(u64, Option<f64>)]) -> Spread {
        let mut spread = Spread::new(WIDTH);
        for (trial, value) in values {
            spread.add(*trial, *value);
        }
        spread
    }

    fn numbered(values: &[f64]) -> Spread {
        spread(&(0..).zip(values.iter().copied().map(Some)).collect::<Vec<_>>())
    }

    /// Values on a grid coarse enough for ties and zeros of both signs, and some beyond all bins.
    fn values() -> impl Strategy<Value = Vec<(u64, Option<f64>)>> {
        let value = prop_oneof![
            10 => (-40..40).prop_map(|n| Some(f64::from(n) * 0.25)),
            1 => Just(Some(-0.0)),
            1 => Just(Some(1e9)),
            1 => Just(Some(f64::NEG_INFINITY)),
            1 => Just(Some(f64::NAN)),
            1 => Just(None),
        ];
        proptest::collection::vec((0_u64..50, value), 0..60)
    }

    proptest! {
        #[test]
        fn neither_the_order_nor_the_parts_matter(
            values in values(), cuts in (0.0..=1.0, 0.0..=1.0), turn in 0_usize..60,
        ) {
            let whole = spread(&values);
            let mut turned = values.clone();
            turned.rotate_left(turn.min(values.len()));
            turned.reverse();
            let at = |cut: f64| (cut * turned.len() as f64) as usize;
            let (a, b) = (at(cuts.0).min(at(cuts.1)), at(cuts.0).max(at(cuts.1)));
            let [mut last, middle, first] = [&turned[b..], &turned[a..b], &turned[..a]].map(spread);
            let mut start = first.clone();
            start.merge(&middle);
            last.merge(&start);
            // The words tell even the two zeros apart.
            prop_assert_eq!(format!("{whole:?}"), format!("{last:?}"));
        }

        #[test]
        fn quantiles_are_those_of_the_sorted_list(
            mut values in proptest::collection::vec(-100.0..100.0_f64, 1..80), p in 0.0..=1.0,
        ) {
            let spread = numbered(&values);
            values.sort_by(f64::total_cmp);
            let rank = values.iter().zip(1..).find(|(_, rank)| f64::from(*rank) >= p * values.len() as f64 - 1e-9);
            let expected = *rank.unwrap().0;
            prop_assert!((spread.quantile(p).unwrap() - expected).abs() <= 0.5 * WIDTH + 1e-9);
            if let Some(interval) = spread.quantile_interval(p, 0.8) {
                prop_assert!(interval.holds(expected), "{interval:?} {expected}");
                prop_assert!(interval.low >= values[0] && interval.high <= values[values.len() - 1]);
            }
        }
    }

    #[test]
    fn extremes_are_exact_and_name_the_lowest_trial() {
        let found = spread(&[(7, Some(1.23)), (3, None), (9, Some(-4.56)), (2, Some(1.23)), (4, Some(f64::NAN))]);
        assert_eq!((found.count(), found.missing()), (3, 2));
        assert_eq!(found.least(), Some(Extreme { value: -4.56, trial: 9 }));
        assert_eq!(found.most(), Some(Extreme { value: 1.23, trial: 2 }));
        assert_eq!((found.quantile(0.0), found.quantile(1.0)), (Some(-4.56), Some(1.23)));
    }

    #[test]
    fn nothing_has_no_quantile() {
        let none = Spread::new(WIDTH);
        assert_eq!((none.quantile(0.5), none.quantile_interval(0.5, 0.95)), (None, None));
        assert_eq!((none.least(), none.most()), (None, None));
    }

    #[test]
    fn what_is_out_of_range_counts_at_the_ends() {
        let found = numbered(&[-1e300, f64::NEG_INFINITY, 0.0, 1e6, 2e6, 1e300, f64::INFINITY]);
        assert_eq!(found.bins.keys().copied().collect::<Vec<_>>(), [-BINS, 0, BINS - 1]);
        assert_eq!(found.quantile(0.5), Some(f64::INFINITY));
        let interval = found.quantile_interval(0.5, 0.5).unwrap();
        assert!(interval.holds(0.0) && interval.high == f64::INFINITY);
    }

    #[test]
    fn memory_is_bounded_by_the_bins() {
        let mut found = Spread::new(1.0);
        for trial in 0..300_000 {
            found.add(trial, Some(trial as f64 * 0.01 - 1000.0));
        }
        assert_eq!((found.bins.len(), found.count()), (3000, 300_000));
    }

    #[test]
    fn values_in_other_bins_are_missing() {
        let mut found = numbered(&[1.0, 2.0]);
        let mut other = Spread::new(0.1);
        other.add(5, Some(-7.0));
        found.merge(&other);
        assert_eq!((found.count(), found.missing(), found.least().map(|least| least.trial)), (2, 1, Some(0)));
    }

    /// Closed form: the interval of a median may end at the extremes from 6 values at 95 %, since 2 / 2^6 < 0.05 < 2 / 2^5;
    /// that of the 95 % quantile from 72 values, since 0.95^72 < 0.025 < 0.95^71.
    #[test]
    fn too_few_values_give_no_interval() {
        for (p, enough) in [(0.5, 6), (0.95, 72), (0.05, 72)] {
            let values: Vec<_> = (0..enough).map(f64::from).collect();
            assert_eq!(numbered(&values[1..]).quantile_interval(p, 0.95), None);
            assert!(numbered(&values).quantile_interval(p, 0.95).is_some());
            assert_eq!(numbered(&values).quantile_interval(p, 1.0), None);
        }
        assert_eq!(numbered(&[1.0; 99]).quantile_interval(f64::NAN, 0.95), None);
    }

    /// Value from memory: ranks 40 and 61 of 100 bound the median at 95 %, as tables of order statistics have it.
    #[test]
    fn ranks_for_the_median_of_a_hundred_are_those_of_the_table() {
        let high = rank_beyond(100, 0.5, 0.025).unwrap();
        assert_eq!((101 - high, high), (40, 61));
    }
}
