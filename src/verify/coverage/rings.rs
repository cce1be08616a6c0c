//! The ring that should hold 90 of 100 recoveries, against fresh recoveries.

use super::{Depth, dice};
use crate::run::{Scenario, samples};
use crate::study::envelope::{EnvelopeAsk, envelope, reaches};
use crate::study::work::Work;
use crate::verify::line::{Expected, Lines};
use rand::Rng as _;

const SHARE: f64 = 0.9;
/// Chance left outside at either end of what is expected.
const TAIL: f64 = 1e-4;

pub(super) fn lines(lines: &mut Lines, depth: &Depth, seed: u64, work: &Work) {
    let source = "closed form: among the trials that size the ring and the fresh ones in order, any place of the ring is as \
                  likely (David and Nagaraja, Order Statistics, section 2.5, from memory); one in ten thousand at either end";
    for (index, sample) in (0..).zip(samples().iter().take(depth.fields)) {
        let mut file = sample.scenario().file;
        let mut dice = dice(seed, 3, index);
        let mut of_seed = |seed: u64| {
            file.seed = seed;
            Scenario::from_file(file.clone()).ok()
        };
        // Seeds in files are read by people.
        let seeds = [(); 2].map(|()| dice.next_u64() >> 32);
        let inside = || {
            let [Some(laid), Some(fresh)] = seeds.map(&mut of_seed) else { return None };
            let ask = EnvelopeAsk { trials: depth.trials, shares: vec![SHARE], ..EnvelopeAsk::usual() };
            let found = envelope(&laid, &ask, work);
            let flown = reaches(&fresh, 1..depth.fresh + 1, found.bearings, work).results;
            let ring = found.rings.first()?;
            Some(flown.iter().filter(|trial| ring.holds(trial)).count() as f64)
        };
        let inside = { inside }().unwrap_or(f64::NAN);
        let [low, high] = ends(depth.fresh, depth.trials / 2);
        let name = format!("{}: fresh recoveries of {} inside the ring of 90 %", sample.name, depth.fresh);
        lines.add(&name, inside, Expected::Between(low, high), "", source);
        if !work.go_on() {
            return;
        }
    }
}

/// Fewest and most of `fresh` trials within the ring, but for the tails, where `sized` trials say how large it is.
///
/// The ring lies at the trial of rank r. The chance of x fresh ones within is C(r - 1 + x, x) C(sized - r + fresh - x,
/// fresh - x) over C(sized + fresh, fresh), worked out from one x to the next in logarithms.
fn ends(fresh: u64, sized: u64) -> [f64; 2] {
    let [fresh, sized] = [fresh as f64, sized as f64];
    let rank = (SHARE * (sized + 1.0) - 1e-9).ceil();
    let mut chances = vec![0.0];
    let mut x = 0.0;
    while x < fresh {
        let up = ((rank + x) / (x + 1.0)).ln() + ((fresh - x) / (sized - rank + fresh - x)).ln();
        chances.push(chances[chances.len() - 1] + up);
        x += 1.0;
    }
    let most = chances.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let chances: Vec<f64> = chances.iter().map(|chance| (chance - most).exp()).collect();
    let tail = TAIL * chances.iter().sum::<f64>();
    let rare = |chances: &mut dyn Iterator<Item = &f64>| {
        let sums = chances.scan(0.0, |sum, chance| {
            *sum += chance;
            Some(*sum)
        });
        sums.take_while(|sum| *sum < tail).count() as f64
    };
    [rare(&mut chances.iter()), fresh - rare(&mut chances.iter().rev())]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_leave_out_what_is_rarer_than_the_tail() {
        // Sized by 9, the ring lies at the ninth: all of 4 fresh ones outside is C(8, 0) C(4, 4) / C(13, 4), 1 in 715, which
        // is no rarer than one in ten thousand; all of 20 outside, 1 in C(29, 9), is.
        assert_eq!(ends(4, 9), [0.0, 4.0]);
        let [low, high] = ends(20, 9);
        assert!((1.0..6.0).contains(&low) && high == 20.0, "{low} {high}");
        // Of very many, sized by very many, 90 of 100, four deviations of sqrt(0.09 (1/n + 1/m)) at most.
        let [low, high] = ends(4000, 4000);
        let deviation = 4000.0 * (0.09 * 2.0 / 4000.0_f64).sqrt();
        assert!(low > 3600.0 - 4.0 * deviation && low < 3600.0 - 3.3 * deviation, "{low}");
        assert!(high < 3600.0 + 4.0 * deviation && high > 3600.0 + 3.3 * deviation, "{high}");
    }
}
