//! What is worked out beside the window, so that the window never waits.
//!
//! One thread does the questions of the newest plan, coarsely first, all of them; once nobody has touched the plan for a
//! moment it does them again with everything asked for. A newer plan stops whatever is going on. The program's own checks have
//! a thread of their own, since they are about no plan.

mod checks;
pub mod pages;
mod question;

use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use rayon::{ThreadPool, ThreadPoolBuilder};

pub use checks::Checker;

use super::session::Question;
use crate::app::session::{Board, Doing, Grade, News, Session};
use crate::run::Scenario;
use crate::study::work::Work;

/// How long nobody must have touched the plan before answers are refined.
const QUIET: Duration = Duration::from_millis(350);

/// A plan whose questions are to be answered.
#[derive(Debug, Clone)]
pub struct Job {
    /// Its edition.
    pub edition: u64,
    /// The plan.
    pub scenario: Arc<Scenario>,
    /// The board on the screen, whose question comes first.
    pub board: Board,
    /// Whether answers are to be refined.
    pub refine: bool,
}

#[derive(Debug, Default)]
struct Desk {
    wanted: Option<Job>,
    /// What is being done, and the words for it.
    doing: Option<(&'static str, Work)>,
    closed: bool,
}

#[derive(Debug, Default)]
struct Shared {
    desk: Mutex<Desk>,
    bell: Condvar,
}

impl Shared {
    fn desk(&self) -> MutexGuard<'_, Desk> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The thread beside the window. It ends when this is dropped.
#[derive(Debug)]
pub struct Beside {
    shared: Arc<Shared>,
    news: Mutex<Receiver<News>>,
}

impl Beside {
    /// Starts the thread; `heard` is called whenever there is news.
    ///
    /// # Errors
    /// The system gives no thread.
    pub fn start(heard: impl Fn() + Send + Sync + 'static) -> std::io::Result<Self> {
        let shared = Arc::new(Shared::default());
        let (sender, receiver) = channel();
        let all = pool(0)?;
        // While a person looks at the window, one core is left to it.
        let spare = pool(all.current_num_threads().saturating_sub(1).max(1))?;
        let worker = Worker { shared: Arc::clone(&shared), sender, all, spare, heard: Box::new(heard) };
        std::thread::Builder::new().name("beside".into()).spawn(move || worker.work())?;
        Ok(Self { shared, news: Mutex::new(receiver) })
    }

    /// Asks about a plan; whatever was going on about an older one is stopped.
    pub fn ask(&self, job: Job) {
        let mut desk = self.shared.desk();
        desk.wanted = Some(job);
        if let Some((_, work)) = &desk.doing {
            work.stop();
        }
        drop(desk);
        self.shared.bell.notify_all();
    }

    /// Stops what is going on; what was found by then still comes.
    pub fn stop(&self) {
        let mut desk = self.shared.desk();
        desk.wanted = None;
        if let Some((_, work)) = &desk.doing {
            work.stop();
        }
    }

    /// What has come since the last time.
    pub fn news(&self) -> Vec<News> {
        self.news.lock().unwrap_or_else(PoisonError::into_inner).try_iter().collect()
    }

    /// What is going on.
    pub fn doing(&self) -> Doing {
        let desk = self.shared.desk();
        match &desk.doing {
            Some((what, work)) => {
                let (done, of) = work.progress();
                Doing::Working { what, done, of }
            }
            None if desk.wanted.is_some() => Doing::Working { what: "", done: 0, of: 0 },
            None => Doing::Resting,
        }
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        self.stop();
        self.shared.desk().closed = true;
        self.shared.bell.notify_all();
    }
}

fn pool(threads: usize) -> std::io::Result<ThreadPool> {
    ThreadPoolBuilder::new().num_threads(threads).build().map_err(std::io::Error::other)
}

struct Worker {
    shared: Arc<Shared>,
    sender: Sender<News>,
    all: ThreadPool,
    spare: ThreadPool,
    heard: Box<dyn Fn() + Send + Sync>,
}

impl Worker {
    fn work(self) {
        while let Some(job) = self.next() {
            if !self.all_questions(&job, Grade::Coarse, &self.all) || !job.refine || !self.quiet() {
                continue;
            }
            self.all_questions(&job, Grade::Refined, &self.spare);
        }
    }

    /// Waits for a plan; none once the window is closed.
    fn next(&self) -> Option<Job> {
        let mut desk = self.shared.desk();
        desk.doing = None;
        loop {
            if desk.closed {
                return None;
            }
            if let Some(job) = desk.wanted.take() {
                return Some(job);
            }
            desk = self.shared.bell.wait(desk).unwrap_or_else(PoisonError::into_inner);
        }
    }

    /// Whether nobody asks for anything else for a moment.
    fn quiet(&self) -> bool {
        let mut desk = self.shared.desk();
        desk.doing = None;
        let (desk, _) = self
            .shared
            .bell
            .wait_timeout_while(desk, QUIET, |desk| desk.wanted.is_none() && !desk.closed)
            .unwrap_or_else(PoisonError::into_inner);
        desk.wanted.is_none() && !desk.closed
    }

    /// Answers every question; false where it was stopped.
    fn all_questions(&self, job: &Job, grade: Grade, pool: &ThreadPool) -> bool {
        for question in Question::order(job.board).into_iter().filter(|question| question.asked(grade)) {
            let Some(work) = self.begin(question) else { return false };
            let tell = |news| {
                let _ = self.sender.send(news);
                (self.heard)();
            };
            let news = pool.install(|| question.answer(&job.scenario, job.edition, grade, &work, &tell));
            // A coarse answer that was stopped says less than the one before.
            if work.go_on() || grade == Grade::Refined {
                tell(news);
            }
            if !work.go_on() {
                return false;
            }
        }
        true
    }

    fn begin(&self, question: Question) -> Option<Work> {
        let mut desk = self.shared.desk();
        if desk.closed || desk.wanted.is_some() {
            return None;
        }
        let work = Work::default();
        desk.doing = Some((question.words(), work.clone()));
        Some(work)
    }
}

/// Answers every question about a session's plan here and now, but for what would make it hold, which takes seconds: for
/// pictures and tests.
pub fn answer_now(session: &mut Session, grade: Grade) {
    let Some(flown) = &session.flown else { return };
    let (scenario, edition) = (flown.scenario.clone(), session.edition);
    for question in Question::order(session.board).into_iter().filter(|question| *question != Question::Remedy) {
        let news = question.answer(&scenario, edition, grade, &Work::default(), &|_| ());
        session.hear(news);
    }
}

/// Looks for what would make a session's plan hold, here and now.
pub fn remedy_now(session: &mut Session) {
    let Some(flown) = &session.flown else { return };
    let (scenario, edition) = (flown.scenario.clone(), session.edition);
    session.hear(Question::Remedy.answer(&scenario, edition, Grade::Refined, &Work::default(), &|_| ()));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::session::Answers;

    /// Looks, two milliseconds apart, after which nothing comes any more.
    const PATIENCE: u32 = 30_000;

    fn job(edition: u64, refine: bool) -> Job {
        let mut file = Scenario::tight_strip().file;
        // Small enough to be refined in a moment.
        file.recovery.radius = crate::units::Length::new(60.0 + edition as f64);
        let scenario = Scenario::from_file(file).unwrap();
        Job { edition, scenario: Arc::new(scenario), board: Board::Circle, refine }
    }

    fn wait_for(beside: &Beside, answers: &mut Answers, until: impl Fn(&Answers) -> bool) {
        for _ in 0..PATIENCE {
            if until(answers) {
                return;
            }
            std::thread::sleep(Duration::from_millis(2));
            beside.news().into_iter().for_each(|news| answers.take(news));
        }
        panic!("it never came");
    }

    #[test]
    fn the_newest_plan_is_answered_and_older_ones_are_dropped() {
        let beside = Beside::start(|| ()).unwrap();
        for edition in 1..=5 {
            beside.ask(job(edition, false));
        }
        let mut answers = Answers::default();
        wait_for(&beside, &mut answers, |answers| {
            answers.radius.as_ref().is_some_and(|answer| answer.edition == 5)
                && answers.wind_limit.as_ref().is_some_and(|answer| answer.edition == 5)
                && answers.losses.as_ref().is_some_and(|answer| answer.edition == 5)
        });
        assert_eq!(answers.radius.unwrap().grade, Grade::Coarse);
    }

    #[test]
    fn the_whole_field_as_entered_is_told_before_trials_are_flown() {
        let (job, work, told) = (job(1, true), Work::default(), Mutex::new(Vec::new()));
        let tell = |news| {
            work.stop();
            told.lock().unwrap().push(news);
        };
        let last = Question::Losses.answer(&job.scenario, 1, Grade::Refined, &work, &tell);
        let (told, News::Losses(last)) = (told.into_inner().unwrap(), last) else { panic!("other news") };
        let [News::Losses(first)] = told.as_slice() else { panic!("{} news", told.len()) };
        assert!(!first.found.partial && first.found.cells.iter().all(|cell| !cell.checked_closely()));
        assert_eq!(first.found.size, last.found.size);
        assert!(last.found.partial && (first.grade, last.grade) == (Grade::Coarse, Grade::Refined));
    }

    #[test]
    fn a_stop_keeps_what_was_found() {
        let beside = Beside::start(|| ()).unwrap();
        beside.ask(job(1, true));
        let mut answers = Answers::default();
        wait_for(&beside, &mut answers, |answers| answers.losses.is_some());
        beside.stop();
        wait_for(&beside, &mut answers, |_| beside.doing() == Doing::Resting);
        assert!(answers.radius.is_some() && answers.wind_limit.is_some());
    }
}
