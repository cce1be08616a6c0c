//! How far is a long piece of work, should it go on, and how is it shared out among the processor's threads?

use std::ops::Range;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

use rayon::prelude::*;

/// A long piece of work as seen by those who do it and those who watch it. A clone is the same work.
#[derive(Debug, Clone, Default)]
pub struct Work(Arc<State>);

#[derive(Debug, Default)]
struct State {
    done: AtomicU64,
    total: AtomicU64,
    stopped: AtomicBool,
}

// Nothing but these three numbers passes between the threads through them, so their order is of no concern.
impl Work {
    /// Work of so many parts, as far as known.
    pub fn new(total: u64) -> Self {
        let work = Self::default();
        work.expect(total);
        work
    }

    /// More parts have turned up.
    pub fn expect(&self, more: u64) {
        self.0.total.fetch_add(more, Ordering::Relaxed);
    }

    /// So many parts have been done.
    pub fn add(&self, parts: u64) {
        self.0.done.fetch_add(parts, Ordering::Relaxed);
    }

    /// Parts done, and parts altogether as far as known.
    pub fn progress(&self) -> (u64, u64) {
        (self.0.done.load(Ordering::Relaxed), self.0.total.load(Ordering::Relaxed))
    }

    /// Asks for an end; what is done is kept.
    pub fn stop(&self) {
        self.0.stopped.store(true, Ordering::Relaxed);
    }

    /// Whether nobody has asked for an end.
    pub fn go_on(&self) -> bool {
        !self.0.stopped.load(Ordering::Relaxed)
    }
}

/// What was done of a row of jobs: the first of them, and none left out between.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row<T> {
    /// The results, in the order of the jobs.
    pub results: Vec<T>,
    /// Jobs there were.
    pub of: u64,
}

impl<T> Row<T> {
    /// Whether the work was stopped before the last job.
    pub fn is_partial(&self) -> bool {
        (self.results.len() as u64) < self.of
    }
}

/// Does jobs on all threads of the rayon pool, in order, until the work is stopped.
///
/// A job that was begun is finished, so what a stop leaves are the first jobs: the same as if no more had been asked for.
/// A job tells `work` itself what it got done, since only it knows in how many parts.
pub fn in_order<T: Send>(work: &Work, jobs: Range<u64>, job: impl Fn(u64) -> T + Sync) -> Row<T> {
    let next = AtomicU64::new(jobs.start);
    let take = || next.fetch_add(1, Ordering::Relaxed);
    // Each thread takes the lowest job left. Were the range cut up beforehand, a stop would leave several pieces.
    let one_thread = || {
        std::iter::from_fn(|| work.go_on().then(take).filter(|index| *index < jobs.end))
            .map(|index| (index, job(index)))
            .collect::<Vec<_>>()
    };
    let threads = (0..rayon::current_num_threads()).into_par_iter().with_max_len(1);
    let mut results: Vec<_> = threads.flat_map_iter(|_| one_thread()).collect();
    results.sort_unstable_by_key(|(index, _)| *index);
    Row { results: results.into_iter().map(|(_, result)| result).collect(), of: jobs.end.saturating_sub(jobs.start) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn on<T: Send>(threads: usize, run: impl FnOnce() -> T + Send) -> T {
        rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap().install(run)
    }

    /// Takes longer for some jobs than for others, so that they end out of order.
    fn uneven(job: u64) -> u64 {
        (0..(job * 7919) % 5000).fold(job, |sum, n| std::hint::black_box(sum.rotate_left(5) ^ n))
    }

    #[test]
    fn any_number_of_threads_gives_the_same_results_in_order() {
        let expected: Vec<_> = (3..500).map(uneven).collect();
        for threads in [1, 2, 4] {
            let work = Work::new(497);
            let row = on(threads, || {
                in_order(&work, 3..500, |job| {
                    work.add(1);
                    uneven(job)
                })
            });
            assert_eq!(row.results, expected);
            assert!(!row.is_partial() && work.progress() == (497, 497) && work.go_on());
        }
    }

    #[test]
    fn a_stop_keeps_the_first_jobs_whole() {
        for threads in [1, 2, 4] {
            let work = Work::new(100_000);
            let row = on(threads, || {
                in_order(&work, 0..100_000, |job| {
                    if job == 50 {
                        work.stop();
                    }
                    work.add(1);
                    (job, uneven(job))
                })
            });
            assert!(row.is_partial() && row.of == 100_000);
            assert!(row.results.len() >= 51);
            assert_eq!(row.results, (0..row.results.len() as u64).map(|job| (job, uneven(job))).collect::<Vec<_>>());
            assert_eq!(work.progress().0, row.results.len() as u64);
        }
    }

    #[test]
    fn stopped_work_does_nothing_and_no_jobs_are_no_fault() {
        let work = Work::default();
        assert!(!in_order(&work, 5..5, |job| job).is_partial());
        work.clone().stop();
        let row = in_order(&work, 0..9, |_| unreachable!());
        assert!(row.is_partial() && row == Row::<()> { results: vec![], of: 9 });
    }

    #[test]
    fn rows_inside_rows_come_to_an_end() {
        for threads in [1, 2, 4] {
            let work = Work::default();
            let inner = |row: u64| in_order(&work, 0..20, move |job| row * 100 + job).results.iter().sum::<u64>();
            let sums = on(threads, || in_order(&work, 0..20, inner).results);
            assert_eq!(sums, (0..20).map(|row| row * 2000 + 190).collect::<Vec<_>>());
        }
    }

    #[test]
    fn a_total_may_grow() {
        let work = Work::new(10);
        work.expect(5);
        work.clone().add(3);
        assert_eq!(work.progress(), (3, 15));
    }
}
