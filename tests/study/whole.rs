//! The same bits on any number of threads (V15), and a study that is stopped is a smaller study, not a broken one.

use peewit::study::losses::LossAsk;
use peewit::study::radius::{RadiusAsk, RadiusStudy, study, study_briefly};
use peewit::study::work::Work;

use super::{ask, goatwillow};
use crate::support::shipped;

pub(super) fn on_threads<T: Send>(threads: usize, job: impl FnOnce() -> T + Send) -> T {
    rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap().install(job)
}

#[test]
fn threads_change_nothing() {
    let (scenario, ask) = (goatwillow([0.0, -80.0], |_| {}), ask(&[110.0, 130.0], 150));
    let [one, two, four] =
        [1, 2, 4].map(|threads| on_threads(threads, || study_briefly(&scenario, &ask, &Work::default())));
    assert!(one == two && one == four);
    // A circle that is decided is flown no further.
    assert!(one.points.iter().all(|point| (32..=150).contains(&point.trials.trials)));
    assert!(one.points.iter().all(|point| point.trials.outcomes.iter().sum::<u64>() == point.trials.trials));
    // Trials differ, and so do circles: there is something that could have been mixed up.
    assert!(one.points.iter().any(|point| point.trials.kept > 0 && point.trials.kept < point.trials.trials));
    assert!(one.points[0].trials != one.points[1].trials && one.points[0].trials != one.points[2].trials);
}

#[test]
fn threads_change_nothing_beyond_the_radii_asked_for() {
    let (scenario, ask) = (goatwillow([0.0, 0.0], |_| {}), ask(&[115.0], 3));
    let [one, three] = [1, 3].map(|threads| on_threads(threads, || study(&scenario, &ask, &Work::default())));
    assert!(one == three);
    assert!(!one.remedies.is_empty() && one.best_centre.is_some() && !one.sensitivity.is_empty());
}

fn counted(study: &RadiusStudy) -> u64 {
    study.points[0].trials.trials
}

#[test]
fn a_study_that_is_stopped_has_fewer_trials_of_every_radius() {
    let scenario = goatwillow([0.0, -80.0], |_| {});
    let radii = [110.0, 130.0];
    let work = Work::default();
    let stopped = std::thread::scope(|scope| {
        let running = scope.spawn(|| study(&scenario, &ask(&radii, 1_000_000), &work));
        while work.progress().0 < 800 {
            std::thread::yield_now();
        }
        work.stop();
        running.join().unwrap()
    });
    assert!(stopped.partial && stopped.remedies.is_empty() && stopped.best_centre.is_none());
    let trials = counted(&stopped);
    assert!(trials > 0 && trials < 1_000_000, "{trials}");
    assert!(stopped.points.iter().all(|point| point.trials.outcomes.iter().sum::<u64>() == point.trials.trials));
    // What is flown as entered is what any study of those radii says.
    let smaller = study_briefly(&scenario, &ask(&radii, 32), &Work::default());
    assert_eq!(stopped.usable.mean, smaller.usable.mean);

    let work = Work::default();
    work.stop();
    let none = study(&scenario, &ask(&radii, 100), &work);
    assert!(none.partial && none.usable.trials.is_empty() && none.points.len() == 4);
    assert_eq!((counted(&none), none.usable.mean), (0, smaller.usable.mean));
}

#[test]
fn a_coarse_answer_says_of_the_plan_what_the_usual_one_says() {
    let scenario = goatwillow([0.0, -80.0], |_| {});
    let asked = RadiusAsk::coarse(&scenario);
    assert_eq!(asked, RadiusAsk::coarse(&scenario));
    let coarse = study_briefly(&scenario, &asked, &Work::default());
    let usual = study_briefly(&scenario, &RadiusAsk { trials: 0, ..RadiusAsk::usual() }, &Work::default());
    assert!(asked.trials > 0 && asked.trials < 20 && coarse.points.len() == usual.points.len());
    for (coarse, usual) in coarse.points.iter().zip(&usual.points) {
        assert_eq!((coarse.radius_m, &coarse.mean, &coarse.gust), (usual.radius_m, &usual.mean, &usual.gust));
    }
    // The usable radii are wider than the spacing, so that both find them, and their ends to within the metre of the
    // halving.
    assert_eq!(coarse.usable.mean.len(), usual.usable.mean.len());
    for (coarse, usual) in coarse.usable.mean.iter().zip(&usual.usable.mean) {
        assert!((coarse.low.radius_m - usual.low.radius_m).abs() <= 1.0, "{coarse:?} {usual:?}");
        assert!((coarse.high.radius_m - usual.high.radius_m).abs() <= 1.0, "{coarse:?} {usual:?}");
    }
    for scenario in shipped() {
        let map = LossAsk::coarse(&scenario);
        let usual = LossAsk::usual(&scenario);
        assert!(map.cells >= 6 && map.cells < usual.cells && map.headings == usual.headings, "{map:?}");
    }
}

#[test]
fn wherever_it_is_stopped_it_ends_soon_and_leaves_nothing_half_done() {
    // Nothing fits about the datum, so that everything is looked at: sensitivity, laws, best centre, remedies.
    let (scenario, ask) = (goatwillow([0.0, 0.0], |_| {}), ask(&[115.0], 3));
    let work = Work::default();
    let whole = study(&scenario, &ask, &work);
    let (all, _) = work.progress();
    for part in 1..8 {
        let work = Work::default();
        let (stopped, at) = std::thread::scope(|scope| {
            let running = scope.spawn(|| on_threads(2, || study(&scenario, &ask, &work)));
            while work.progress().0 < part * all / 8 {
                std::thread::yield_now();
            }
            work.stop();
            let at = work.progress().0;
            (running.join().unwrap(), at)
        });
        let after = work.progress().0 - at;
        assert!(after <= 2 * 32, "{after} recoveries after the stop at {at}");
        assert!(stopped.partial && stopped.points == whole.points && stopped.usable == whole.usable);
        assert!(stopped.sensitivity.is_empty() || stopped.sensitivity == whole.sensitivity);
        assert!(stopped.family.is_empty() || stopped.family == whole.family);
        assert!(stopped.budget.is_empty() || stopped.budget == whole.budget);
        assert!(stopped.best_centre.is_none() || stopped.best_centre == whole.best_centre);
        assert!(whole.remedies.starts_with(&stopped.remedies));
    }
}
