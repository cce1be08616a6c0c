//! Verdicts against closed forms and against sequences whose share is known.

use rand::{RngExt as _, SeedableRng as _};

use super::*;

const DEMAND: Demand = Demand { crossed_at_most: 0.01, kept_at_least: 0.9, confidence: 0.95, most: 8192 };

fn tally(trials: u64, crossed: u64, kept: u64) -> Tally {
    Tally { trials, crossed, kept, held: kept, ..Tally::new(0) }
}

#[track_caller]
fn check(counts: [u64; 3], not_crossing: Answer, keeping: Answer, answer: Answer) {
    let [trials, crossed, kept] = counts;
    let found = DEMAND.judge(&tally(trials, crossed, kept));
    assert_eq!((found.not_crossing, found.keeping, found.answer), (not_crossing, keeping, answer), "{found:?}");
}

/// Nine looks at 8,192 at most, five of which can say that no more than 1 % cross. Closed form: 1,024 clean runs are less
/// likely than 0.05 / 5 where more than 1 - (0.05 / 5)^(1 / 1024) = 0.45 % cross; 32 of which none kept are less likely than
/// 0.05 / 18 where 16.8 % or more do.
#[test]
fn two_parts_make_one_answer() {
    use Answer::{No, Undecided, Yes};
    check([1024, 0, 1024], Yes, Yes, Yes);
    check([1024, 0, 0], Yes, No, No);
    check([32, 32, 0], No, No, No);
    check([32, 0, 0], Undecided, No, No);
    check([32, 0, 32], Undecided, Undecided, Undecided);
    check([1000, 0, 1000], Undecided, Undecided, Undecided);
    check([0, 0, 0], Undecided, Undecided, Undecided);
    for (a, b, both) in [(Yes, Yes, Yes), (Yes, No, No), (No, Undecided, No), (Yes, Undecided, Undecided)] {
        assert_eq!((a.and(b), b.and(a)), (both, both));
    }
}

/// Whatever the others do: none of them can make good what is known. One of 512 may cross (0.0360, see `Looks`), and two
/// may not; three may use a buffer, and 52, more than a tenth, may not.
#[test]
fn what_is_known_of_some_trials_may_rule_a_yes_out() {
    let scenario = Scenario::tight_strip();
    let met = Scorer::new(&scenario).score(&[draw(&scenario, 0, WindChoice::Mean)]).remove(0);
    let demand = Demand { most: 512, ..DEMAND };
    let known = |crossed: u64, short: u64| -> Vec<(u64, Score)> {
        let score = |trial| Score { crossed: trial <= crossed, kept: false, ..met.clone() };
        (1..=crossed + short).map(|trial| (trial, score(trial))).collect()
    };
    for (crossed, short, may) in [(0, 0, true), (1, 0, true), (2, 0, false), (0, 3, true), (0, 52, false)] {
        assert_eq!(demand.may_hold(&known(crossed, short)), may, "{crossed} {short}");
    }
    // 13 of 512 that cross are a no (binomial, 0.0023 where 1 % do, and 0.05 / 2 / 5 is left for it) and 12 are not (0.0062);
    // of those after the last look nothing is asked.
    for (crossed, must) in [(13, true), (12, false), (2, false), (0, false)] {
        let late: Vec<_> = known(crossed, 0).into_iter().map(|(trial, score)| (trial + 300, score)).collect();
        assert_eq!(demand.must_fail(&late), must, "{crossed}");
    }
    // What is known of trials after the last look that could say yes rules nothing out there.
    let late: Vec<_> = known(2, 0).into_iter().map(|(trial, score)| (trial + 1000, score)).collect();
    assert!(demand.may_hold(&late));
    assert!(!Demand { most: 200, ..DEMAND }.may_hold(&[]), "too few for any yes");
}

/// The verdict of trials of which each crosses and keeps with known chances.
fn drawn(demand: &Demand, crosses: f64, keeps: f64, seed: u64) -> Verdict {
    let mut random = rand_xoshiro::Xoshiro256PlusPlus::seed_from_u64(seed);
    let mut counted = tally(0, 0, 0);
    for until in demand.looks().at() {
        while counted.trials < until {
            let (over, inside): (f64, f64) = (random.random(), random.random());
            counted.trials += 1;
            counted.crossed += u64::from(over < crosses);
            counted.kept += u64::from(over >= crosses && inside < keeps / (1.0 - crosses));
        }
        let verdict = demand.judge(&counted);
        if verdict.answer != Answer::Undecided {
            return verdict;
        }
    }
    demand.judge(&counted)
}

/// How often known chances give an answer, of 1,000 sequences.
fn answered(demand: &Demand, crosses: f64, keeps: f64, answer: Answer) -> usize {
    (0..1000).filter(|&seed| drawn(demand, crosses, keeps, seed).answer == answer).count()
}

/// A wrong answer comes in at most 5 % of sequences: 1,000 of them give more than 71 with a chance under 1 in 500 (a
/// normal of mean 50 and spread 6.9), so that this fails where the looks don't pay for each other.
#[test]
fn wrong_answers_are_as_rare_as_the_confidence_says() {
    let demand = Demand { most: 2048, ..DEMAND };
    // Just not met in one part, then in the other: a yes is wrong.
    assert!(answered(&demand, 0.0101, 0.95, Answer::Yes) <= 71);
    assert!(answered(&demand, 0.0, 0.899, Answer::Yes) <= 71);
    // Just met in both: a no is wrong, from whichever part.
    assert!(answered(&demand, 0.01, 0.9, Answer::No) <= 71);
}

/// Well away from what is asked for the answer comes, and is the right one.
#[test]
fn what_is_clear_is_decided() {
    assert!(answered(&DEMAND, 0.001, 0.97, Answer::Yes) >= 950);
    assert!(answered(&DEMAND, 0.03, 0.97, Answer::No) >= 950);
    assert!(answered(&DEMAND, 0.0, 0.6, Answer::No) >= 950);
    // 200 trials can't say that 99 % stay inside: that takes ln(0.05) / ln(0.99) = 299 clean ones at the least.
    assert_eq!(answered(&Demand { most: 200, ..DEMAND }, 0.0, 1.0, Answer::Undecided), 1000);
}

#[test]
fn one_function_has_the_words() {
    let told = |trials, crossed, kept| DEMAND.judge(&tally(trials, crossed, kept)).in_words();
    assert_eq!(
        told(1024, 2, 1003),
        "Yes: stays inside in 1022 of 1024, keeps the buffers in 1003, holds the circle in 1003"
    );
    let no = told(1024, 2, 278);
    assert!(no.starts_with("No: stays inside in 1022 of 1024, keeps the buffers in 278, "), "{no}");
    assert!(no.ends_with("; asked for is that at least 90 % keep the buffers"), "{no}");
    let both = told(1024, 500, 278);
    assert!(both.ends_with("asked for is that at least 99 % stay inside and at least 90 % keep the buffers"), "{both}");
    // 8 of 1,024 crossed: 0.78 % as seen, and nobody knows.
    let unknown = told(1024, 8, 1000);
    assert!(unknown.starts_with("Undecided: stays inside in 1016 of 1024"), "{unknown}");
    assert!(unknown.contains("not known is whether at least 99 % stay inside (9"), "{unknown}");
    assert!(unknown.ends_with("trials would tell if it goes on like this"), "{unknown}");
    assert_eq!(told(0, 0, 0), "Undecided: no trial flown");
}

/// Closed form by the normal approximation: telling 0.75 % from 1 % at a deviate of 2.5 to 2.6 takes about
/// 2.55^2 x 0.0075 x 0.9925 / 0.0025^2 = 7,700 trials, so 8,192 or the next look.
#[test]
fn what_it_would_take_is_said() {
    let near = DEMAND.judge(&tally(2000, 15, 2000));
    assert!([8192, 16_384].contains(&near.trials_needed().unwrap()), "{near:?}");
    assert_eq!(DEMAND.judge(&tally(1000, 10, 1000)).trials_needed(), None, "exactly what is asked for");
}

#[test]
fn trials_end_where_they_decide() {
    let mut asked = Vec::new();
    let (tally, complete) = DEMAND.until_decided(0, |numbers| {
        asked.push(numbers.clone());
        None
    });
    assert!(!complete && tally.trials == 0 && asked.len() == 1 && asked[0] == (1..33));
}

/// What is told of 1,024 trials, by limit those that cross it and those inside its buffer, and of all of them those that
/// cross something, keep the buffers and have the pack empty in the air.
fn reason(crossed: [u64; 3], inside: [u64; 3], [crossing, kept, empty]: [u64; 3]) -> String {
    use crate::margins::{Limit, MarginUnit::Metres};
    let limit = |limit, name: &str| LimitInfo { limit, name: name.into(), unit: Metres, crosses: true };
    let limits =
        [(Limit::Boundary, "boundary"), (Limit::FlightLine, "flight line"), (Limit::HeightLimit, "height limit")];
    let mut tally = Tally { limits: Tally::new(3).limits, ..tally(1024, crossing, kept) };
    for (counted, (crossed, inside)) in tally.limits.iter_mut().zip(crossed.into_iter().zip(inside)) {
        (counted.crossed, counted.inside_buffer) = (crossed, inside);
    }
    tally.outcomes[Outcome::EnergyOut as usize] = empty;
    let limits = limits.map(|(kind, name)| limit(kind, name)).into();
    PlanVerdict { verdict: DEMAND.judge(&tally), tally, limits, partial: false }.in_words()
}

#[test]
fn what_most_trials_fail_by_is_said() {
    assert!(reason([11, 19, 0], [400, 0, 0], [30, 900, 0]).ends_with("; crossed most: flight line, in 19"));
    assert!(reason([7, 7, 7], [0; 3], [21, 900, 0]).ends_with("; crossed most: boundary, in 7"), "of equals the first");
    // Two crossings are few enough; the buffers are what is missing.
    assert!(reason([2, 0, 0], [0, 3, 300], [2, 700, 0]).ends_with("; inside the buffer most: height limit, in 300"));
    // An empty pack in the air crosses no limit of the list.
    assert!(reason([0; 3], [0, 3, 0], [400, 600, 400]).ends_with("; failed most by: energy out, in 400"));
    assert!(reason([3, 0, 0], [0; 3], [403, 600, 400]).ends_with("; failed most by: energy out, in 400"));
    assert!(!reason([0; 3], [0; 3], [0, 1024, 0]).contains("most"));
}
