//! How far do runs reach of which some never got anywhere?

use super::Spread;

/// The ends and the middle, as shares of the trials.
const SHARES: [f64; 3] = [0.05, 0.5, 0.95];

/// Furthest distances from the centre that 5 %, half and 95 % of the trials don't exceed, metres; none where so many
/// never flew a whole lap. A trial that flew none counts as further out than any that did.
pub fn reach(furthest_m: &Spread) -> [Option<f64>; 3] {
    let (settled, missing) = (furthest_m.count() as f64, furthest_m.missing() as f64);
    SHARES.map(|share| {
        let among_settled = share * (settled + missing) / settled;
        (among_settled <= 1.0).then(|| furthest_m.quantile(among_settled))?
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_trial_without_a_lap_is_further_out_than_any_with_one() {
        let spread = |settled: u32, missing: u32| {
            let mut spread = Spread::new(0.5);
            (0..settled).for_each(|trial| spread.add(u64::from(trial), Some(f64::from(trial) + 100.25)));
            (0..missing).for_each(|trial| spread.add(u64::from(settled + trial), None));
            spread
        };
        assert_eq!(reach(&spread(0, 0)), [None; 3]);
        assert_eq!(reach(&spread(0, 7)), [None; 3]);
        // Of 100 in order the 5th, the 50th and the 95th.
        assert_eq!(reach(&spread(100, 0)), [Some(104.25), Some(149.25), Some(194.25)]);
        assert_eq!(reach(&spread(96, 4)), [Some(104.25), Some(149.25), Some(194.25)]);
        assert_eq!(reach(&spread(90, 10)), [Some(104.25), Some(149.25), None]);
        assert_eq!(reach(&spread(40, 60)), [Some(104.25), None, None]);
    }
}
