//! Intervals of a share, what clean runs support, and how many it takes.

use peewit::study::stats::{Interval, Share, claim, percent_interval, trials_needed};

use crate::support::near;

fn share(count: u64, of: u64) -> Share {
    Share { count, of }
}

#[track_caller]
fn check(found: Interval, low: f64, high: f64, within: f64) {
    near(found.low, low, within);
    near(found.high, high, within);
}

#[test]
fn two_sided_intervals() {
    // SciPy's documentation of BinomTestResult.proportion_ci, read there: exact, 95 %.
    check(share(7, 50).clopper_pearson(0.95), 0.058_191_700_339_97, 0.267_396_002_497_01, 1e-9);
    // Closed form of the same by Wilson's formula.
    check(share(7, 50).wilson(0.95), 0.069_508_3, 0.261_861_9, 5.1e-8);
    // R. G. Newcombe, Stat. Med. 17 (1998) 857-872, table I. Values from memory.
    check(share(81, 263).wilson(0.95), 0.2553, 0.3662, 5.1e-5);
    check(share(81, 263).clopper_pearson(0.95), 0.2527, 0.3676, 5.1e-5);
    check(share(0, 20).wilson(0.95), 0.0, 0.1611, 5.1e-5);
    check(share(0, 20).clopper_pearson(0.95), 0.0, 0.1684, 5.1e-5);
    // Closed form: 1 - 0.025^(1/n). The two-sided bound falls as 3.69 / n, the one-sided as 3 / n.
    for (n, high) in [(30, 0.115_703), (100, 0.036_216_7), (300, 0.012_221_0), (1000, 0.003_682_08)] {
        check(share(0, n).clopper_pearson(0.95), 0.0, high, 5.1e-7);
    }
    // None in 400. Closed form of Wilson's: z^2 / (n + z^2).
    check(share(0, 400).wilson(0.95), 0.0, 0.0095, 5.1e-5);
    assert_eq!(percent_interval(share(400, 400).wilson(0.95)), "over 99.0 %");
}

#[test]
fn clean_runs() {
    // The rule of three: J. A. Hanley and A. Lippman-Hand, JAMA 249 (1983) 1743-1745, and E. Eypasch et al., BMJ 311
    // (1995) 619, as quoted: none in 300 and in 1500 bounds the share by 1 in 100 and 1 in 500.
    assert!(claim(300, 0.95) > 0.99 && claim(1500, 0.95) > 0.998);
    // Closed form: 1 - 0.05^(1/n).
    let exact = [
        (10, 0.258_866),
        (30, 0.095_033_9),
        (100, 0.029_513_0),
        (300, 0.009_936_1),
        (1000, 0.002_991_25),
        (1500, 0.001_995_2),
    ];
    for (n, failing) in exact {
        near(1.0 - claim(n, 0.95), failing, 5.1e-7);
        near(share(n, n).exact_lower(0.95), claim(n, 0.95), 1e-15);
    }
    // Closed form: 0.99^299 < 0.05 < 0.99^298.
    assert_eq!(trials_needed(0.99, 0.95), 299);
    near(1.0 - claim(299, 0.95), 0.009_969_1, 5.1e-8);
}
