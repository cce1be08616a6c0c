//! The program's own checks, made on a thread beside the window: begun and ended as a person asks, with what came of them
//! handed back, also where the thread broke off.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::{Builder, available_parallelism};

use super::pool;
use crate::app::session::Checks;
use crate::study::work::Work;
use crate::verify::{Checked, Depth, fresh_seed, verify};
use crate::words::BROKE_OFF;

/// The way in which they are made: it ends once the work is stopped, and tells the work how far it is.
type Make = dyn Fn(&Work) -> Checked + Send + Sync;

/// All of them, or why there are none.
type Came = Result<Checked, String>;

/// Whoever makes the checks. A run that goes on is stopped when this is dropped.
pub struct Checker {
    make: Arc<Make>,
    wake: Arc<dyn Fn() + Send + Sync>,
    busy: Option<Busy>,
}

/// A run that goes on. It is stopped when this is dropped, and reaches nobody.
struct Busy {
    work: Work,
    came: Mutex<Receiver<Came>>,
}

impl Drop for Busy {
    fn drop(&mut self) {
        self.work.stop();
    }
}

impl Checker {
    /// Makes the checks of `peewit verify`, each time with fresh cases; `wake` is called when they are made.
    pub fn new(wake: impl Fn() + Send + Sync + 'static) -> Self {
        Self::making(|work| verify(fresh_seed(), &Depth::usual(), work), wake)
    }

    /// Makes them in another way: for tests, which have no seconds to wait.
    pub fn making(
        make: impl Fn(&Work) -> Checked + Send + Sync + 'static,
        wake: impl Fn() + Send + Sync + 'static,
    ) -> Self {
        Self { make: Arc::new(make), wake: Arc::new(wake), busy: None }
    }

    /// Begins the run that is asked for, ends one that no longer is, and hands over what has come; whether anything has.
    pub fn step(&mut self, checks: &mut Checks) -> bool {
        let Some(work) = &checks.going else {
            self.busy = None;
            return false;
        };
        // One that was stopped is an earlier one, and another is asked for since.
        let busy = self.busy.take().filter(|busy| busy.work.go_on());
        let mut busy = busy.unwrap_or_else(|| self.begin(work.clone()));
        match busy.came.get_mut().unwrap_or_else(PoisonError::into_inner).try_recv() {
            Err(TryRecvError::Empty) => {
                self.busy = Some(busy);
                false
            }
            came => {
                checks.hear(came.unwrap_or_else(|_| Err(BROKE_OFF.into())));
                true
            }
        }
    }

    fn begin(&self, work: Work) -> Busy {
        let (sender, came) = channel();
        let (make, wake) = (Arc::clone(&self.make), Arc::clone(&self.wake));
        let (watched, failed) = (work.clone(), sender.clone());
        let thread = move || {
            // Where it is not wanted any more nobody listens.
            let _ = sender.send(made(&*make, &watched));
            wake();
        };
        if let Err(why) = Builder::new().name("checks".into()).spawn(thread) {
            let _ = failed.send(Err(why.to_string()));
        }
        Busy { work, came: Mutex::new(came) }
    }
}

/// Makes them on all cores but one, which is left to the window. A panic on any of the threads comes out here: without a word
/// from here the window would wait for ever.
fn made(make: &Make, work: &Work) -> Came {
    let cores = available_parallelism().map_or(1, usize::from);
    let pool = pool(cores.saturating_sub(1).max(1)).map_err(|why| why.to_string())?;
    catch_unwind(AssertUnwindSafe(|| pool.install(|| make(work)))).map_err(|_| BROKE_OFF.into())
}

#[cfg(test)]
mod tests {
    use std::sync::mpsc::Sender;
    use std::thread::sleep;
    use std::time::Duration;

    use super::*;

    /// After so long nothing comes any more.
    const PATIENCE: Duration = Duration::from_secs(60);

    /// A whole run of no line.
    fn run(seed: u64) -> Checked {
        let work = Work::default();
        work.stop();
        Checked { partial: false, ..verify(seed, &Depth::brief(), &work) }
    }

    /// A checker, and the bell it rings.
    fn checker(make: impl Fn(&Work) -> Checked + Send + Sync + 'static) -> (Checker, Receiver<()>) {
        let (rung, bell): (Sender<()>, _) = channel();
        let ring = move || {
            // Once the test is over nobody listens.
            let _ = rung.send(());
        };
        (Checker::making(make, ring), bell)
    }

    /// Begins a run and waits for the bell, by which there has to be an answer.
    #[track_caller]
    fn wait_for(checker: &mut Checker, checks: &mut Checks, bell: &Receiver<()>) {
        let at_once = checker.step(checks);
        bell.recv_timeout(PATIENCE).expect("nobody rang");
        assert!(at_once != checker.step(checks) && checks.going.is_none());
    }

    #[test]
    fn nothing_is_made_until_it_is_asked_for() {
        let (mut checker, bell) = checker(|_| run(7));
        let mut checks = Checks::default();
        assert!(!checker.step(&mut checks) && checks.made.is_none());
        checks.ask();
        wait_for(&mut checker, &mut checks, &bell);
        assert_eq!(checks.made.as_ref().map(|made| made.seed), Some(7));
        assert!(!checker.step(&mut checks) && checks.going.is_none());
    }

    #[test]
    fn a_stop_ends_the_run_and_leaves_the_earlier_and_the_next_is_another() {
        let (begun, begins) = channel();
        let (mut checker, bell) = checker(move |work| {
            begun.send(()).unwrap();
            while work.go_on() {
                sleep(Duration::from_millis(1));
            }
            Checked { partial: true, ..run(1) }
        });
        let mut checks = Checks { made: Some(Arc::new(run(9))), ..Checks::default() };
        checks.ask();
        assert!(!checker.step(&mut checks));
        begins.recv_timeout(PATIENCE).expect("it never began");
        checks.stop();
        bell.recv_timeout(PATIENCE).expect("it never ended");
        // Asked for again before anybody looked: what comes of the first is nobody's.
        checks.ask();
        assert!(!checker.step(&mut checks));
        let again = checks.going.clone().unwrap();
        assert!(again.go_on() && checks.made.as_ref().is_some_and(|made| made.seed == 9));
        drop(checker);
        assert!(!again.go_on() && bell.recv_timeout(PATIENCE).is_ok());
    }

    #[test]
    fn a_panic_is_told_and_leaves_the_earlier() {
        let (mut checker, bell) = checker(|_| panic!("a planted fault"));
        let mut checks = Checks { made: Some(Arc::new(run(9))), ..Checks::default() };
        checks.ask();
        wait_for(&mut checker, &mut checks, &bell);
        assert!(checks.trouble == BROKE_OFF && checks.made.is_some());
    }
}
