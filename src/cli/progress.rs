//! What does somebody see of long work, and how do they end it? A bar with the time left where stderr is a terminal, else
//! a line now and then; Ctrl-C asks the work to stop and keeps what is done, and a second one ends the program at once.

use std::process;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError};
use std::sync::{Mutex, MutexGuard, Once, PoisonError};
use std::thread;
use std::time::Duration;

use indicatif::{HumanCount, HumanDuration, ProgressBar, ProgressStyle};

use super::say;
use crate::study::work::Work;

/// Time between two looks at the work. Work that is over before the first shows nothing.
const LOOK: Duration = Duration::from_millis(100);
/// Looks between two lines where there is no terminal: five seconds.
const LOOKS_PER_LINE: u32 = 50;
/// Exit code of a program that was interrupted: 128 and the number of the signal, as shells count.
const INTERRUPTED: i32 = 130;

/// The work that Ctrl-C stops.
static WATCHED: Mutex<Option<Work>> = Mutex::new(None);

/// Runs long work while showing how far it is; `what` names it. Ctrl-C stops `work` for as long as it runs.
pub(super) fn watched<T>(work: &Work, what: &str, run: impl FnOnce() -> T) -> T {
    let _listening = Listening::to(work);
    thread::scope(|scope| {
        let (running, over) = mpsc::channel::<()>();
        scope.spawn(move || watch(work, what, &over));
        let answer = run();
        drop(running);
        answer
    })
}

/// As long as it lives, Ctrl-C stops the work.
struct Listening;

impl Listening {
    fn to(work: &Work) -> Self {
        static HANDLER: Once = Once::new();
        // Where no handler can be set Ctrl-C ends the program, as it would without one.
        HANDLER.call_once(|| drop(ctrlc::set_handler(interrupted)));
        *slot() = Some(work.clone());
        Self
    }
}

impl Drop for Listening {
    fn drop(&mut self) {
        *slot() = None;
    }
}

fn slot() -> MutexGuard<'static, Option<Work>> {
    WATCHED.lock().unwrap_or_else(PoisonError::into_inner)
}

fn interrupted() {
    match slot().as_ref() {
        Some(work) if work.go_on() => work.stop(),
        _ => process::exit(INTERRUPTED),
    }
}

/// Shows the work until the other end of `over` is gone.
fn watch(work: &Work, what: &str, over: &Receiver<()>) {
    let bar = ProgressBar::new(0).with_message(what.to_owned());
    if let Ok(style) = ProgressStyle::with_template("{msg} {bar:30} {human_pos} of {human_len}, {eta} left") {
        bar.set_style(style);
    }
    let mut stopping = false;
    for look in 1_u32.. {
        if over.recv_timeout(LOOK) != Err(RecvTimeoutError::Timeout) {
            break;
        }
        let (done, total) = work.progress();
        bar.set_length(total);
        bar.set_position(done);
        if !stopping && !work.go_on() {
            stopping = true;
            bar.suspend(|| say("stopping; what is done is kept (Ctrl-C again ends at once)"));
        } else if bar.is_hidden() && look % LOOKS_PER_LINE == 0 {
            say(&line(what, done, total, bar.eta()));
        }
    }
    bar.finish_and_clear();
}

fn line(what: &str, done: u64, total: u64, left: Duration) -> String {
    let left = if left.is_zero() { String::new() } else { format!(", {} left", HumanDuration(left)) };
    format!("{what}: {} of {}{left}", HumanCount(done), HumanCount(total))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_answer_comes_through() {
        let work = Work::new(3);
        let answer = watched(&work, "a short sum", || {
            work.add(3);
            42
        });
        assert_eq!((answer, work.progress(), work.go_on()), (42, (3, 3), true));
    }

    #[test]
    fn a_line_says_how_far_and_how_long() {
        let seconds = Duration::from_secs;
        assert_eq!(line("radius study", 128, 1000, seconds(12)), "radius study: 128 of 1,000, 12 seconds left");
        assert_eq!(line("radius study", 0, 1000, seconds(0)), "radius study: 0 of 1,000");
    }

    /// Interrupts another copy of this test: first while it does work that stops when asked, then twice while it doesn't.
    #[cfg(unix)]
    #[test]
    fn the_first_interrupt_asks_and_the_second_ends() {
        use std::io::{BufRead as _, BufReader};
        use std::process::{Command, Stdio};

        const COPY: &str = "PEEWIT_TEST_INTERRUPTED";
        if std::env::var_os(COPY).is_some() {
            let work = Work::new(1);
            watched(&work, "polite work", || {
                say("polite");
                while work.go_on() {
                    thread::sleep(Duration::from_millis(5));
                }
            });
            watched(&Work::new(1), "stubborn work", || {
                say("stubborn");
                thread::sleep(Duration::from_secs(30));
            });
            return;
        }
        let name = "cli::progress::tests::the_first_interrupt_asks_and_the_second_ends";
        let mut copy = Command::new(std::env::current_exe().unwrap())
            .args([name, "--exact", "--nocapture"])
            .env(COPY, "yes")
            .stdout(Stdio::null())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = BufReader::new(copy.stderr.take().unwrap()).lines().map(Result::unwrap);
        for awaited in ["polite", "stubborn", "stopping"] {
            assert!(said.any(|line| line.starts_with(awaited)), "never said {awaited}");
            let kill = format!("kill -INT {}", copy.id());
            assert!(Command::new("sh").args(["-c", &kill]).status().unwrap().success());
        }
        assert_eq!(copy.wait().unwrap().code(), Some(INTERRUPTED));
    }
}
