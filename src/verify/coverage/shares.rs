//! Intervals of shares and of quantiles on draws whose truth is known.

use rand::RngExt as _;

use super::{Depth, chance, dice, share};
use crate::study::stats::{Interval, Share, Spread};
use crate::verify::line::{Expected, Lines};

const CONFIDENCE: f64 = 0.95;

pub(super) fn lines(lines: &mut Lines, depth: &Depth, seed: u64) {
    binomial(lines, depth, seed);
    quantiles(lines, depth, seed);
}

/// Brown, Cai and DasGupta 2001: Wilson's interval covers the nominal share on average, the exact one never less.
fn binomial(lines: &mut Lines, depth: &Depth, seed: u64) {
    let (mut dice, repeats) = (dice(seed, 1, 0), f64::from(depth.draws));
    let source = "L. D. Brown, T. T. Cai, A. DasGupta, Statistical Science 16 (2001) 101-133, statement from memory";
    for trials in [50, 400] {
        let mut held = [0.0; 2];
        for _ in 0..depth.draws {
            let truth = dice.random_range(0.02..0.98);
            let seen = Share { count: (0..trials).filter(|_| dice.random_bool(truth)).count() as u64, of: trials };
            let intervals = [seen.wilson(CONFIDENCE), seen.clopper_pearson(CONFIDENCE)];
            held.iter_mut()
                .zip(intervals)
                .for_each(|(held, found): (_, Interval)| *held += f64::from(u8::from(found.holds(truth))));
        }
        let [wilson, exact] = held;
        let name = format!("how often Wilson's 95 % interval of {trials} trials holds a share drawn at random");
        // On average, to what the unevenness of counts leaves.
        share(lines, &name, (wilson, repeats), (CONFIDENCE, 0.005), source);
        let name = format!("how often the exact 95 % interval of {trials} trials holds it");
        let least = CONFIDENCE - chance(CONFIDENCE, repeats);
        lines.add(&name, exact / repeats, Expected::Between(least, 1.0), "", source);
    }
}

/// Of an exponential distribution, whose quantile p is -ln(1 - p).
fn quantiles(lines: &mut Lines, depth: &Depth, seed: u64) {
    let (mut dice, repeats) = (dice(seed, 2, 0), depth.draws / 4);
    let source = "closed form: the quantile of an exponential distribution; ranks by H. A. David and H. N. Nagaraja, Order \
                  Statistics, section 7.1, from memory: at least as often as said";
    for (values, p) in [(100, 0.9), (400, 0.05)] {
        let truth = -f64::ln(1.0 - p);
        let mut held = 0.0;
        for _ in 0..repeats {
            let mut spread = Spread::new(1e-4);
            (0..values).for_each(|value| spread.add(value, Some(-f64::ln(1.0 - dice.random::<f64>()))));
            let holds = spread.quantile_interval(p, 0.9).is_some_and(|found| found.holds(truth));
            held += f64::from(u8::from(holds));
        }
        let name = format!("how often the 90 % interval of the quantile {p} of {values} values holds it");
        let least = 0.9 - chance(0.9, f64::from(repeats));
        lines.add(&name, held / f64::from(repeats), Expected::Between(least, 1.0), "", source);
    }
}
