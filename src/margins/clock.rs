//! When was a sample, and which sample is at a time?

/// The times of samples.
#[derive(Debug, Clone, Copy)]
pub(super) enum Clock<'a> {
    /// So many seconds from one sample to the next, from 0 on.
    Steps(f64),
    /// Each at its own time, seconds, later ones later.
    Times(&'a [f64]),
}

impl Clock<'_> {
    /// The time of a sample number with a fraction, seconds.
    pub(super) fn at_s(self, at: f64) -> f64 {
        match self {
            Self::Steps(step_s) => at * step_s,
            Self::Times(times) => {
                let (index, share) = whole(at, times.len());
                let next = (index + 1).min(times.len() - 1);
                times[index] + (times[next] - times[index]) * share
            }
        }
    }

    /// The sample number with a fraction at a time in seconds.
    pub(super) fn sample(self, at_s: f64) -> f64 {
        match self {
            Self::Steps(step_s) => at_s / step_s,
            Self::Times(times) => match times.partition_point(|&time_s| time_s <= at_s) {
                0 => 0.0,
                after if after == times.len() => position(after - 1),
                after => {
                    let [from, to] = [times[after - 1], times[after]];
                    position(after - 1) + (at_s - from) / (to - from)
                }
            },
        }
    }

    /// Seconds from one sample number with a fraction to another.
    pub(super) fn lasts_s(self, from: f64, to: f64) -> f64 {
        match self {
            Self::Steps(step_s) => (to - from) * step_s,
            Self::Times(_) => self.at_s(to) - self.at_s(from),
        }
    }
}

/// A sample's number as a position along the path.
#[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
pub(super) fn position(index: usize) -> f64 {
    index as f64
}

/// A sample number of so many, and what is left over of it.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the number of samples")]
fn whole(at: f64, samples: usize) -> (usize, f64) {
    ((at.max(0.0) as usize).min(samples - 1), at - at.floor())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_that_of_its_sample_there_and_back() {
        let uneven = Clock::Times(&[0.0, 1.0, 5.0, 5.5]);
        for (clock, at, at_s) in [
            (Clock::Steps(0.5), 3.5, 1.75),
            (uneven, 0.0, 0.0),
            (uneven, 0.5, 0.5),
            (uneven, 1.0, 1.0),
            (uneven, 1.25, 2.0),
            (uneven, 2.5, 5.25),
            (uneven, 3.0, 5.5),
        ] {
            assert_eq!((clock.at_s(at), clock.sample(at_s)), (at_s, at), "{clock:?}");
        }
        assert_eq!((uneven.sample(-1.0), uneven.sample(9.0)), (0.0, 3.0));
        assert_eq!((uneven.lasts_s(0.5, 2.0), Clock::Steps(0.5).lasts_s(0.5, 2.0)), (4.5, 0.75));
    }
}
