//! Whether intervals hold the truth as often as they say (verification V16): shares, quantiles, shares that are looked
//! at again and again, and rings that whole recoveries stay inside.

use peewit::study::envelope::{EnvelopeAsk, envelope, reaches};
use peewit::study::stats::{Decision, Interval, Looks, Share, Spread};
use peewit::study::work::Work;
use rand::{RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;

use crate::support::shipped;

type Kind = fn(Share, f64) -> Interval;

const SIZES: [u64; 4] = [32, 100, 400, 1000];

/// Probability of each count among `n` runs of chance `p`, worked out from one to the next.
fn binomial(n: u64, p: f64) -> Vec<f64> {
    let mut chances = vec![1.0];
    for _ in 0..n {
        let mut next = vec![0.0; chances.len() + 1];
        for (count, chance) in chances.iter().enumerate() {
            next[count] += chance * (1.0 - p);
            next[count + 1] += chance * p;
        }
        chances = next;
    }
    chances
}

/// Probability that the interval holds `p`, for each of a row of shares spaced evenly.
fn coverage(kind: Kind, n: u64, confidence: f64) -> Vec<f64> {
    let intervals: Vec<_> = (0..=n).map(|count| kind(Share { count, of: n }, confidence)).collect();
    let shares = (1..200).map(|step| f64::from(step) / 200.0);
    shares
        .map(|p| intervals.iter().zip(binomial(n, p)).filter(|(interval, _)| interval.holds(p)).map(|(_, c)| c).sum())
        .collect()
}

/// L. D. Brown, T. T. Cai and A. DasGupta, Interval estimation for a binomial proportion, Statistical Science 16 (2001)
/// 101-133: Wilson's interval covers the nominal share on average, the exact one never less. Statement from memory.
#[test]
fn shares_are_held_as_often_as_said() {
    for confidence in [0.9, 0.95, 0.99] {
        for n in SIZES {
            let wilson = coverage(Share::wilson, n, confidence);
            let mean = wilson.iter().sum::<f64>() / wilson.len() as f64;
            assert!((mean - confidence).abs() < 0.01, "{n} {confidence}: {mean}");
            let exact = coverage(Share::clopper_pearson, n, confidence);
            let least = exact.iter().copied().fold(1.0, f64::min);
            assert!(least >= confidence - 1e-9, "{n} {confidence}: {least}");
        }
    }
}

/// Draws of one seed.
fn dice(seed: u64) -> Xoshiro256PlusPlus {
    Xoshiro256PlusPlus::seed_from_u64(seed)
}

/// Five standard errors of a share seen in so many repeats.
fn chance(share: f64, repeats: u32) -> f64 {
    5.0 * (share * (1.0 - share) / f64::from(repeats)).sqrt()
}

#[test]
fn shares_are_held_as_often_in_draws_as_in_sums() {
    let repeats = 4000;
    let mut dice = dice(16);
    for (n, p) in [(32, 0.5), (100, 0.9), (400, 0.98)] {
        for kind in [Share::wilson as Kind, Share::clopper_pearson] {
            let drawn = |dice: &mut Xoshiro256PlusPlus| (0..n).filter(|_| dice.random_bool(p)).count() as u64;
            let held = (0..repeats).filter(|_| kind(Share { count: drawn(&mut dice), of: n }, 0.95).holds(p)).count();
            let sum: f64 = (0_u64..)
                .zip(binomial(n, p))
                .filter(|(count, _)| kind(Share { count: *count, of: n }, 0.95).holds(p))
                .map(|(_, chance)| chance)
                .sum();
            let held = held as f64 / f64::from(repeats);
            assert!((held - sum).abs() < chance(sum, repeats), "{n} {p}: {held} for {sum}");
        }
    }
}

/// Probability that the quantile lies between the values whose ranks leave out no more than a tail each, which is that of
/// as many values below it as these ranks say.
fn between_ranks(n: u64, p: f64, tail: f64) -> f64 {
    let chances = binomial(n, p);
    let rare = |from_end: &mut dyn Iterator<Item = &f64>| {
        from_end
            .scan(0.0, |sum, chance| {
                *sum += chance;
                Some(*sum)
            })
            .take_while(|sum| *sum <= tail)
            .last()
            .unwrap()
    };
    1.0 - rare(&mut chances.iter()) - rare(&mut chances.iter().rev())
}

/// Exponentially distributed, so that the truth is known: the quantile p is -ln(1 - p).
#[test]
fn quantiles_are_held_at_least_as_often_as_said() {
    let repeats = 2000;
    let mut dice = dice(17);
    for (n, p) in [(20_u64, 0.5), (100, 0.9), (400, 0.95), (400, 0.05)] {
        let truth = -f64::ln(1.0 - p);
        let mut held = [0; 2];
        for _ in 0..repeats {
            let (mut fine, mut coarse) = (Spread::new(1e-4), Spread::new(0.5));
            for trial in 0..n {
                let value = Some(-f64::ln(1.0 - dice.random::<f64>()));
                fine.add(trial, value);
                coarse.add(trial, value);
            }
            for (held, spread) in held.iter_mut().zip([fine, coarse]) {
                *held += u32::from(spread.quantile_interval(p, 0.9).unwrap().holds(truth));
            }
        }
        let [fine, coarse] = held.map(|held| f64::from(held) / f64::from(repeats));
        let sum = between_ranks(n, p, 0.05);
        assert!(sum >= 0.9 && (fine - sum).abs() < chance(sum, repeats), "{n} {p}: {fine} for {sum}");
        assert!(coarse >= fine, "{n} {p}: {coarse}");
    }
}

/// Probability that the looks end with the wrong word, from the binomial distribution between one look and the next.
fn misled(looks: Looks, p: f64, asked: f64) -> f64 {
    let wrong = if p < asked { Decision::Meets } else { Decision::Fails };
    let (mut open, mut flown, mut misled) = (vec![1.0], 0, 0.0);
    for of in looks.at() {
        let more = binomial(of - flown, p);
        let mut next = vec![0.0; of as usize + 1];
        for (count, chance) in open.iter().enumerate().filter(|(_, chance)| **chance > 0.0) {
            for (added, further) in more.iter().enumerate() {
                next[count + added] += chance * further;
            }
        }
        // What is rarer than that can't be seen in the sum, and most counts are.
        for (count, chance) in (0..).zip(next.iter_mut()).filter(|(_, chance)| **chance > 1e-15) {
            let decision = looks.at_least(Share { count, of }, asked, 1);
            if decision == wrong {
                misled += *chance;
            }
            if decision != Decision::GoesOn {
                *chance = 0.0;
            }
        }
        (open, flown) = (next, of);
    }
    misled
}

#[test]
fn looking_again_and_again_misleads_no_more_often_than_said() {
    for (most, confidence) in [(1000, 0.95), (500, 0.8)] {
        let looks = Looks::new(most, confidence);
        for asked in [0.5, 0.9, 0.95, 0.99] {
            for p in [asked - 1e-6, asked + 1e-6] {
                let found = misled(looks, p, asked);
                assert!(found <= 1.0 - confidence, "{most} {asked}: {found}");
            }
        }
        // Not for nothing: without paying for the other looks it would be more than said.
        let careless = Looks::new(most, 1.0 - (1.0 - confidence) * looks.at().count() as f64);
        assert!(misled(careless, 0.9 - 1e-6, 0.9) > 1.0 - confidence);
    }
}

#[test]
fn looking_again_and_again_misleads_as_often_in_draws_as_in_sums() {
    let (repeats, asked, p) = (3000, 0.9, 0.899);
    let looks = Looks::new(500, 0.5);
    let mut dice = dice(18);
    let mut wrong = 0;
    for _ in 0..repeats {
        let mut share = Share::default();
        for of in looks.at() {
            while share.of < of {
                share = share.and(Share { count: u64::from(dice.random_bool(p)), of: 1 });
            }
            let decision = looks.at_least(share, asked, 1);
            wrong += u32::from(decision == Decision::Meets);
            if decision != Decision::GoesOn {
                break;
            }
        }
    }
    let (seen, sum) = (f64::from(wrong) / f64::from(repeats), misled(looks, p, asked));
    assert!(sum > 0.02 && (seen - sum).abs() < chance(sum, repeats), "{seen} for {sum}");
    assert!(seen < 0.5);
}

/// Probability of `inside` or fewer and of `inside` or more of `fresh` trials within a ring at rank `rank` of `scores`.
///
/// The chance of a fresh trial is that of a rank among uniform draws, Beta(rank, scores + 1 - rank) (H. A. David and H. N.
/// Nagaraja, Order Statistics, 3rd ed., section 2.3), and given it the count is binomial. Together any place of the ring
/// among all of them in order is as likely as any other: the chance of each count is worked out from one to the next.
fn tails(inside: u64, fresh: u64, rank: u64, scores: u64) -> [f64; 2] {
    // P(x) ~ C(rank - 1 + x, x) C(scores - rank + fresh - x, fresh - x), in logarithms against overflow.
    let mut chances = vec![0.0];
    for x in 0..fresh {
        let [x, fresh, rank, scores] = [x, fresh, rank, scores].map(|count| count as f64);
        let up = ((rank + x) / (x + 1.0)).ln() + ((fresh - x) / (scores - rank + fresh - x)).ln();
        chances.push(chances[chances.len() - 1] + up);
    }
    let most = chances.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let chances: Vec<f64> = chances.iter().map(|chance| (chance - most).exp()).collect();
    let all: f64 = chances.iter().sum();
    let [few, many] = [&chances[..=inside as usize], &chances[inside as usize..]];
    [few, many].map(|part| part.iter().sum::<f64>() / all)
}

#[test]
fn places_of_a_ring_are_alike() {
    // One score, the ring at it: among it and the fresh ones in order it is anywhere alike. Closed form.
    for inside in 0..=4 {
        let [few, many] = tails(inside, 4, 1, 1);
        assert!((few - (inside + 1) as f64 / 5.0).abs() < 1e-12 && (many - (5 - inside) as f64 / 5.0).abs() < 1e-12);
    }
    // The larger of two, one fresh: inside two times of three.
    assert!((tails(1, 1, 2, 2)[1] - 2.0 / 3.0).abs() < 1e-12);
}

#[test]
fn rings_hold_whole_recoveries_of_fresh_trials_as_often_as_said() {
    let (trials, fresh) = (800, 1000);
    let mut other_seed = 0;
    for scenario in shipped().into_iter().take(4).chain([crate::support::tight_strip()]) {
        let envelope = envelope(&scenario, &EnvelopeAsk { trials, ..EnvelopeAsk::usual() }, &Work::default());
        let mut others = scenario.clone();
        other_seed += 1000;
        others.file.seed += other_seed;
        let flown = reaches(&others, 1..fresh + 1, envelope.bearings, &Work::default()).results;
        assert_eq!(flown.len() as u64, fresh);
        for ring in &envelope.rings {
            let inside = flown.iter().filter(|trial| ring.holds(trial)).count() as u64;
            let rank = (ring.share * (trials as f64 / 2.0 + 1.0) - 1e-9).ceil() as u64;
            let [few, many] = tails(inside, fresh, rank, trials / 2);
            // Fifteen rings, both sides: a right one is refused once in three hundred times.
            let told = format!("{}: {inside} of {fresh} within {}", scenario.file.name, ring.share);
            assert!(few > 1e-4 && many > 1e-4 && !ring.short, "{told}: {few} {many}");
        }
        // The band about any one bearing holds fewer all the way round: that is what it doesn't say.
        if let Some(band) = envelope.bands.iter().find(|band| band.share == 0.9) {
            let whole = |trial: &peewit::study::envelope::Reach| {
                trial.whole_m.iter().zip(&band.outer_m).all(|(reach, outer)| reach <= outer)
            };
            let inside = flown.iter().filter(|trial| whole(trial)).count();
            assert!((inside as f64) < 0.8 * fresh as f64, "{}: {inside}", scenario.file.name);
        }
    }
}
