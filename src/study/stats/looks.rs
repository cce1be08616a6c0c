//! When has enough been flown: at which numbers of trials may a study be looked at, and what may it say then?

use super::{Interval, Share, percent, percent_interval};

/// Trials before the first look.
const FIRST: u64 = 32;
/// Trials before anything is thought hopeless: fewer tell a share of 1 % from none by luck (judgement).
pub const HOPES_FOR: u64 = 256;

/// The looks planned beforehand, at 32, 64, 128 ... trials and at the most.
///
/// Who stops as soon as it looks well deceives himself, unless each look pays for the others: of what the confidence
/// leaves out, each of the planned looks gets an equal part. Then all intervals hold together with at least that
/// confidence, whichever look was the last (Bonferroni's inequality). The intervals are those of Clopper and Pearson,
/// since the inequality asks for ones that are never short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Looks {
    most: u64,
    confidence: f64,
}

/// What a look says about the share that was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decision {
    /// Not yet known; after the last look: not known.
    GoesOn,
    /// The share is larger.
    Meets,
    /// The share is smaller.
    Fails,
}

impl Looks {
    /// Looks at no more than `most` trials whose intervals hold together with a confidence, such as 0.95.
    pub fn new(most: u64, confidence: f64) -> Self {
        Self { most, confidence }
    }

    /// The numbers of trials at which to look, rising.
    pub fn at(self) -> impl Iterator<Item = u64> {
        let doubled = std::iter::successors(Some(FIRST), |trials| trials.checked_mul(2));
        doubled.take_while(move |trials| *trials < self.most).chain([self.most])
    }

    /// The interval of a share at one of the looks. It is meant for those; for another number of trials it is only
    /// wide.
    pub fn interval(self, share: Share) -> Interval {
        let left_out = (1.0 - self.confidence) / self.at().count() as f64;
        share.clopper_pearson(1.0 - left_out)
    }

    /// The bounds at one of the looks, each with all that the confidence leaves out, divided by the looks and by `below`
    /// or `above`, on its own side: for a question that only one of the two can answer wrongly, whatever the truth.
    fn bounds(self, share: Share, [below, above]: [f64; 2]) -> Interval {
        let looks = self.at().count() as f64;
        let kept = |parts: f64| 1.0 - (1.0 - self.confidence) / (looks * parts);
        Interval { low: share.exact_lower(kept(below)), high: 1.0 - share.others().exact_lower(kept(above)) }
    }

    /// What the look after `share.of` trials says of a share that is asked to be no less than `asked`, one of `parts`
    /// such questions of which every one has to be met.
    ///
    /// A yes to all of them is wrong only where at least one is not met, and then only as often as that one is taken for
    /// met: each may spend all that the confidence leaves out (R. L. Berger, Technometrics 24, 1982, 295-300). A no
    /// where all are met may come from any of them: they share it. So either is wrong in no more than that.
    pub fn at_least(self, share: Share, asked: f64, parts: u32) -> Decision {
        let bounds = self.bounds(share, [1.0, f64::from(parts)]);
        match self.at().any(|trials| trials == share.of) {
            true if bounds.low >= asked => Decision::Meets,
            true if bounds.high < asked => Decision::Fails,
            _ => Decision::GoesOn,
        }
    }

    /// What the look after `share.of` trials says. A number of trials that is not a planned look decides nothing.
    pub fn decide(self, share: Share, asked: f64) -> Decision {
        let interval = self.interval(share);
        match self.at().any(|trials| trials == share.of) {
            true if interval.low > asked => Decision::Meets,
            true if interval.high < asked => Decision::Fails,
            _ => Decision::GoesOn,
        }
    }

    /// Whether more trials will hardly decide it: not twice the most if the share stays as it is. To stop then is never
    /// wrong: nothing is said.
    pub fn is_hopeless(self, share: Share, asked: f64) -> bool {
        let most = self.most.saturating_mul(2);
        share.of >= HOPES_FOR && Self { most, ..self }.decide(share.scaled(most), asked) == Decision::GoesOn
    }

    /// What was done and what came of it, in one sentence without its full stop.
    pub fn in_words(self, share: Share, asked: f64) -> String {
        let found = match self.decide(share, asked) {
            Decision::Meets => "more than",
            Decision::Fails => "less than",
            Decision::GoesOn => "not known to be more or less than",
        };
        let looks = match self.at().count() {
            1 => String::new(),
            looks => format!(", interval widened for {looks} looks"),
        };
        let end = match share.of < self.most {
            true => format!("stopped after {} of {} trials", grouped(share.of), grouped(self.most)),
            false => format!("flown all {} trials", grouped(self.most)),
        };
        let (interval, asked) = (percent_interval(self.interval(share)), percent(asked));
        format!("{end}: {interval}, {found} the {asked} asked for ({} confidence{looks})", percent(self.confidence))
    }
}

/// A count with a comma before each three digits.
fn grouped(count: u64) -> String {
    match count {
        0..1000 => count.to_string(),
        _ => format!("{},{:03}", grouped(count / 1000), count % 1000),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_that_is_far_from_what_is_asked_is_not_hopeless_and_one_beside_it_is() {
        let looks = Looks::new(1000, 0.95);
        for (count, of, hopeless) in [
            (256, 256, false),
            (255, 256, false),
            (254, 256, true),
            (252, 256, true),
            (240, 256, false),
            (126, 128, false),
        ] {
            assert_eq!(looks.is_hopeless(Share { count, of }, 0.99), hopeless, "{count} of {of}");
        }
    }

    fn all(count: u64) -> Share {
        Share { count, of: count }
    }

    #[test]
    fn looks_double_and_end_at_the_most() {
        for (most, expected) in [
            (1000, &[32, 64, 128, 256, 512, 1000][..]),
            (128, &[32, 64, 128]),
            (33, &[32, 33]),
            (32, &[32]),
            (10, &[10]),
        ] {
            assert_eq!(Looks::new(most, 0.95).at().collect::<Vec<_>>(), expected);
        }
        assert_eq!(Looks::new(u64::MAX, 0.95).at().count(), 60);
    }

    /// Closed form: of n runs that all met it the lower end is (alpha / 2 / looks)^(1 / n), here (0.05 / 12)^(1 / n).
    #[test]
    fn each_look_pays_for_the_others() {
        let looks = Looks::new(1000, 0.95);
        for trials in looks.at() {
            let expected = (0.05_f64 / 12.0).powf(1.0 / trials as f64);
            assert!((looks.interval(all(trials)).low - expected).abs() < 1e-12, "{trials}");
        }
        // 0.9 needs ln(240) / -ln(0.9) = 52.02 such runs, so it is met at the look after 64, not at that after 32.
        assert_eq!(looks.decide(all(32), 0.9), Decision::GoesOn);
        assert_eq!(looks.decide(all(64), 0.9), Decision::Meets);
        assert_eq!(looks.decide(Share { count: 0, of: 32 }, 0.9), Decision::Fails);
    }

    #[test]
    fn a_look_that_was_not_planned_decides_nothing() {
        let looks = Looks::new(1000, 0.95);
        for trials in [0, 1, 63, 65, 999, 2000] {
            assert_eq!(looks.decide(all(trials), 0.5), Decision::GoesOn);
        }
        assert_eq!(Looks::new(0, 0.95).decide(all(0), 0.5), Decision::GoesOn);
    }

    /// Closed form: n runs that all met it bound the share below by (alpha / looks)^(1 / n), and n runs of which none did
    /// bound it above by 1 - (alpha / looks / parts)^(1 / n).
    #[test]
    fn each_question_spends_its_part_on_its_own_side() {
        // 8,192 at most are nine looks. 99 % takes ln(0.05 / 9) / ln(0.99) = 516.7 clean runs: not 512.
        for (most, clean, expected) in [
            (8192, 512, Decision::GoesOn),
            (8192, 1024, Decision::Meets),
            // Seven looks: 491.7.
            (2048, 256, Decision::GoesOn),
            (2048, 512, Decision::Meets),
            // Four looks at 32, 64, 128 and 200 can't say it, whatever is seen.
            (200, 200, Decision::GoesOn),
        ] {
            assert_eq!(Looks::new(most, 0.95).at_least(all(clean), 0.99, 2), expected, "{clean} of {most}");
        }
        // One look after 3 runs, none of which met it: the upper bound is 1 - 0.05^(1/3) = 0.6316 for one question, and
        // 1 - 0.025^(1/3) = 0.7076 for one of two.
        for (asked, parts, expected) in [
            (0.64, 1, Decision::Fails),
            (0.63, 1, Decision::GoesOn),
            (0.71, 2, Decision::Fails),
            (0.70, 2, Decision::GoesOn),
        ] {
            assert_eq!(Looks::new(3, 0.95).at_least(Share { count: 0, of: 3 }, asked, parts), expected, "{asked}");
        }
        assert_eq!(Looks::new(1000, 0.95).at_least(all(999), 0.5, 1), Decision::GoesOn, "no planned look");
    }

    #[test]
    fn what_was_done_is_told() {
        let told = |share, most| Looks::new(most, 0.95).in_words(share, 0.9);
        assert_eq!(
            told(all(64), 1000),
            "stopped after 64 of 1,000 trials: over 91.7 %, more than the 90 % asked for (95 % confidence, interval \
             widened for 6 looks)"
        );
        assert!(told(Share { count: 900, of: 1000 }, 1000).contains("flown all 1,000 trials: 87"));
        assert!(told(Share { count: 900, of: 1000 }, 1000).contains("not known to be more or less than the 90 %"));
        assert!(told(Share { count: 1, of: 32 }, 32).contains("less than the 90 % asked for (95 % confidence)"));
    }

    #[test]
    fn counts_are_grouped_by_three() {
        for (count, expected) in [(0, "0"), (999, "999"), (1000, "1,000"), (1_020_003, "1,020,003")] {
            assert_eq!(grouped(count), expected);
        }
    }
}
