//! Shares of trials by published tables and by the libraries of statisticians.

use crate::study::stats::{Interval, Share, claim, trials_needed};
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines) {
    let mut interval = |name: &str, found: Interval, [low, high]: [f64; 2], within: f64, source: &str| {
        lines.near(&format!("{name}, lower end"), found.low, (low, within), "", source);
        lines.near(&format!("{name}, upper end"), found.high, (high, within), "", source);
    };
    let share = |count, of| Share { count, of };
    let source = "documentation of SciPy, BinomTestResult.proportion_ci, read there";
    let exact = [0.058_191_700_339_97, 0.267_396_002_497_01];
    interval("exact interval of 7 in 50", share(7, 50).clopper_pearson(0.95), exact, 1e-9, source);
    let source = "closed form of E. B. Wilson 1927";
    interval("Wilson's interval of 7 in 50", share(7, 50).wilson(0.95), [0.069_508_3, 0.261_861_9], 5.1e-8, source);
    let source = "R. G. Newcombe, Stat. Med. 17 (1998) 857-872, table I, from memory";
    interval("Wilson's interval of 81 in 263", share(81, 263).wilson(0.95), [0.2553, 0.3662], 5.1e-5, source);
    interval("exact interval of 81 in 263", share(81, 263).clopper_pearson(0.95), [0.2527, 0.3676], 5.1e-5, source);
    interval("Wilson's interval of 0 in 20", share(0, 20).wilson(0.95), [0.0, 0.1611], 5.1e-5, source);

    let source = "closed form, 1 - 0.05^(1/n); the rule of three of Hanley and Lippman-Hand 1983, as quoted, says 0.01";
    let failing = 1.0 - claim(300, 0.95);
    lines.near("share that may fail after none in 300", failing, (0.009_936_1, 5.1e-8), "", source);
    #[allow(clippy::cast_precision_loss, reason = "some hundred")]
    let needed = trials_needed(0.99, 0.95) as f64;
    let source = "closed form: 0.99^299 < 0.05 < 0.99^298";
    lines.near("trials without a failure that 99 % at 95 % take", needed, (299.0, 0.0), "", source);
}
