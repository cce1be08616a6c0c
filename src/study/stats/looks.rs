//! When has enough been flown: at which numbers of trials may a study be looked at, and what may it say then?

use super::{Interval, Share};

/// Trials before the first look.
const FIRST: u64 = 32;
/// Trials before anything is thought hopeless: fewer tell a share of 1 % from none by luck (judgement).
pub const HOPES_FOR: u64 = 256;

/// The looks planned beforehand, at 32, 64, 128 ... trials and at the most.
///
/// Who stops as soon as it looks well deceives himself, unless each look pays for the others: of what the confidence
/// leaves out, each of the planned looks gets an equal part. Then all intervals hold together with at least that
/// confidence, whichever look was the last (Bonferroni's inequality). The intervals are those of Clopper and Pearson,
/// since the inequality asks for ones that are never short. A question that is asked of a share beforehand costs less:
/// [`Looks::at_least`].
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

    /// The lower bound of a share at one of the looks, for a question that only a yes to `asked` can answer wrongly, one
    /// of `parts` that share what the confidence leaves out; none at a number of trials at which no yes is said.
    ///
    /// A look at which even trials that all met it could not say so has nothing to pay for. What is left out is shared
    /// by the looks after that, whatever is seen.
    fn lower(self, share: Share, asked: f64, parts: u32) -> Option<f64> {
        let left_out = (1.0 - self.confidence) / f64::from(parts);
        let looks = self.at().count();
        let each = |before: usize| left_out / (looks - before) as f64;
        let could = |&(before, trials): &(usize, u64)| each(before).powf(1.0 / trials as f64) >= asked;
        let (before, first) = self.at().enumerate().find(could)?;
        let planned = share.of >= first && self.at().any(|trials| trials == share.of);
        planned.then(|| share.exact_lower(1.0 - each(before)))
    }

    /// What the look after `share.of` trials says of a share that is asked to be no less than `asked`, one of `parts`
    /// such questions of which every one has to be met. A number of trials that is no planned look decides nothing.
    ///
    /// A yes to all of them is wrong only where at least one is not met, and then only as often as that one is taken for
    /// met: each may spend all that the confidence leaves out (R. L. Berger, Technometrics 24, 1982, 295-300). A no
    /// where all are met may come from any of them: they share it. So either is wrong in no more than that.
    pub fn at_least(self, share: Share, asked: f64, parts: u32) -> Decision {
        let missed = 1.0 - asked;
        if self.lower(share, asked, 1).is_some_and(|low| low >= asked) {
            Decision::Meets
        } else if self.lower(share.others(), missed, parts).is_some_and(|low| low > missed) {
            Decision::Fails
        } else {
            Decision::GoesOn
        }
    }

    /// Whether more trials will hardly decide it, where nothing else is asked: not twice the most if the share stays as
    /// it is. To stop then is never wrong: nothing is said.
    pub fn is_hopeless(self, share: Share, asked: f64) -> bool {
        let most = self.most.saturating_mul(2);
        share.of >= HOPES_FOR && Self { most, ..self }.at_least(share.scaled(most), asked, 1) == Decision::GoesOn
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
        // 0.9 needs ln(5 / 0.05) / -ln(0.9) = 43.7 such runs, so it is met at the look after 64, not at that after 32.
        assert_eq!(looks.at_least(all(32), 0.9, 1), Decision::GoesOn);
        assert_eq!(looks.at_least(all(64), 0.9, 1), Decision::Meets);
        assert_eq!(looks.at_least(Share { count: 0, of: 32 }, 0.9, 1), Decision::Fails);
    }

    #[test]
    fn a_look_that_was_not_planned_decides_nothing() {
        let looks = Looks::new(1000, 0.95);
        for trials in [0, 1, 63, 65, 999, 2000] {
            assert_eq!(looks.at_least(all(trials), 0.5, 1), Decision::GoesOn);
        }
        assert_eq!(Looks::new(0, 0.95).at_least(all(0), 0.5, 1), Decision::GoesOn);
    }

    /// Closed form: n runs that all met it bound the share below by (alpha / looks)^(1 / n), where looks at which that is too
    /// little don't count; and n runs of which none did bound it above by 1 - (alpha / looks / parts)^(1 / n).
    #[test]
    fn each_question_spends_its_part_on_its_own_side_where_it_can_be_answered() {
        for (most, clean, expected) in [
            // Of nine looks those from 512 on are five. 99 % takes ln(0.05 / 5) / ln(0.99) = 458.2 clean runs.
            (8192, 256, Decision::GoesOn),
            (8192, 512, Decision::Meets),
            // The last of six alone: 298.1.
            (299, 256, Decision::GoesOn),
            (299, 299, Decision::Meets),
            (298, 298, Decision::GoesOn),
            // Of looks at 450 and before, the last: what was asked earlier is not asked again for its sake.
            (450, 256, Decision::GoesOn),
            (450, 450, Decision::Meets),
        ] {
            assert_eq!(Looks::new(most, 0.95).at_least(all(clean), 0.99, 2), expected, "{clean} of {most}");
        }
        // With the look after 512 alone to say yes, one of them may miss it: 0.99^512 + 512 * 0.01 * 0.99^511 = 0.0360 is less
        // than 0.05, and with two it is 0.1131.
        for (missed, expected) in [(1, Decision::Meets), (2, Decision::GoesOn)] {
            let share = Share { count: 512 - missed, of: 512 };
            assert_eq!(Looks::new(512, 0.95).at_least(share, 0.99, 2), expected, "{missed}");
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
}
