//! Do the studies of wind and place hold what they say: the same bits on any number of threads, cells that can be flown
//! again, plain cells left alone, wind limits that fall as more is asked, and a stop that says so?

use peewit::margins::{Outcome, Scorer};
use peewit::run::{Scenario, WindChoice, draw};
use peewit::study::Tally;
use peewit::study::losses::{Cell, LossAsk, LossStudy, first, refine};
use peewit::study::verdict::Answer;
use peewit::study::wind_limit::{Direction, STEP_MPS, WindLimitAsk, WindLimitStudy, wind_limit};
use peewit::study::work::Work;
use peewit::units::{Bearing, Length, Ratio, Speed};

fn on_threads<T: Send>(threads: usize, job: impl FnOnce() -> T + Send) -> T {
    rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap().install(job)
}

/// The demo on wider ground: from its middle every loss is recovered, from its corners none is seen.
fn wide() -> Scenario {
    let mut file = crate::support::tight_strip().file;
    let half = 700.0;
    file.field.as_mut().unwrap().boundary.ring_m = vec![[-half, -half], [half, -half], [half, half], [-half, half]];
    file.limits.home_within = None;
    Scenario::from_file(file).unwrap()
}

fn small_map(scenario: &Scenario) -> LossAsk {
    LossAsk { cells: 8, headings: 4, trials: 16, ..LossAsk::usual(scenario) }
}

fn map(scenario: &Scenario) -> LossStudy {
    let ask = small_map(scenario);
    refine(scenario, first(scenario, &ask, &Work::default()), &Work::default())
}

/// The demo with a demand that few trials decide: half may be inside a buffer, a fifth may cross.
fn easy(seed: u64) -> Scenario {
    let mut scenario = crate::support::tight_strip();
    let limits = &mut scenario.file.limits;
    (limits.kept_at_least, limits.crossed_at_most) = (Ratio::new(0.5), Ratio::new(0.2));
    scenario.file.seed = seed;
    scenario
}

/// What holds and what fails are the same for every seed, and for every number of trials, but for the step between them
/// and what is left undecided; few trials leave more undecided and claim nothing else.
#[test]
fn limits_agree_for_any_seed_and_any_number_of_trials() {
    let found: Vec<Direction> = [(1, 200), (1, 2048), (2, 2048), (3, 4096)]
        .into_iter()
        .map(|(seed, trials)| {
            let scenario = easy(seed);
            let ask = WindLimitAsk { directions: 1, trials, ..WindLimitAsk::usual(&scenario) };
            wind_limit(&scenario, &ask, &Work::default()).directions.remove(0)
        })
        .collect();
    let held = |one: &Direction| one.wind_limit_mps.unwrap_or(-0.25);
    for one in &found {
        for other in &found {
            assert!(held(one) < other.fails_mps.unwrap() + 0.25 + 1e-9, "{found:#?}");
        }
    }
    // Those of 2,000 and more decide to within a step or two.
    for pair in found[1..].windows(2) {
        assert!((held(&pair[0]) - held(&pair[1])).abs() <= 0.5 + 1e-9, "{found:#?}");
    }
}

/// 200 trials can't say that 99 % stay inside, so that no wind holds and none near the limit fails: undecided, not 0.5
/// m/s.
#[test]
fn too_few_trials_leave_it_undecided() {
    let scenario = crate::support::tight_strip();
    let ask = WindLimitAsk { directions: 1, trials: 200, ..WindLimitAsk::usual(&scenario) };
    let found = wind_limit(&scenario, &ask, &Work::default()).directions.remove(0);
    assert_eq!(found.wind_limit_mps, None);
    // Unless the calm itself is shown to fail.
    assert!(found.undecided_mps.is_some() != (found.fails_mps == Some(0.0)), "{found:?}");
}

fn few_winds(scenario: &Scenario) -> WindLimitAsk {
    WindLimitAsk { directions: 4, trials: 512, ..WindLimitAsk::usual(scenario) }
}

fn wind_limits(scenario: &Scenario, ask: &WindLimitAsk) -> Vec<f64> {
    let study = wind_limit(scenario, ask, &Work::default());
    assert!(!study.partial);
    study.directions.iter().map(|direction| direction.wind_limit_mps.unwrap_or(-1.0)).collect()
}

#[test]
fn maps_and_wind_limits_have_the_same_bits_on_any_number_of_threads() {
    let scenario = crate::support::tight_strip();
    let ask = few_winds(&scenario);
    let both = |threads| on_threads(threads, || (map(&scenario), wind_limit(&scenario, &ask, &Work::default())));
    let alone: (LossStudy, WindLimitStudy) = both(1);
    assert!(!alone.0.partial && !alone.1.partial);
    for threads in [2, 4] {
        assert_eq!(both(threads), alone, "{threads} threads");
    }
}

#[test]
fn refining_checks_closely_every_cell_and_only_adds() {
    let scenario = wide();
    let coarse = first(&scenario, &LossAsk { cells: 12, ..small_map(&scenario) }, &Work::default());
    let work = Work::default();
    let fine = refine(&scenario, coarse.clone(), &work);
    assert_eq!(work.progress(), (fine.count().flown, fine.count().flown));
    assert!(coarse.cells.iter().all(|cell| !cell.checked_closely() && cell.count.flown == 4));
    assert_eq!((coarse.not_checked_closely(), fine.not_checked_closely()), (coarse.cells.len(), 0));
    assert_eq!(coarse.cells.len(), fine.cells.len());
    for (before, after) in coarse.cells.iter().zip(&fine.cells) {
        assert_eq!(after.plan_worst, before.plan_worst);
        assert!(after.worst <= before.worst && after.count.flown > before.count.flown, "{before:?} {after:?}");
        assert!(after.outcomes.iter().zip(&before.outcomes).all(|(after, before)| after >= before));
    }
    let fewest = fine.cells.iter().map(|cell| cell.trials.flown).min();
    let most = fine.cells.iter().map(|cell| cell.trials.flown).max();
    assert!(fewest == Some(8) && most > fewest, "more where it is uncertain: {fewest:?} {most:?}");
    // Refined again from the same start it comes to the same.
    assert_eq!(refine(&scenario, fine.clone(), &Work::default()), fine);
}

#[track_caller]
fn replays(scenario: &Scenario, study: &LossStudy) {
    let scorer = Scorer::new(scenario);
    for cell in &study.cells {
        let replay = cell.replay;
        assert_eq!(replay.at, cell.middle);
        let trial = draw(scenario, replay.trial, WindChoice::Mean).lost(&replay.loss(scenario));
        assert_eq!(scorer.score(&[trial])[0].outcome, cell.worst, "{cell:?}");
        let worst = cell.outcomes.iter().position(|&count| count > 0).unwrap();
        assert_eq!(Outcome::ALL[worst], cell.worst);
    }
}

#[test]
fn the_worst_of_every_cell_can_be_flown_again() {
    let scenario = crate::support::tight_strip();
    replays(&scenario, &map(&scenario));
    // Over several heights and speeds too, and the worst of all of them is no better than of one alone.
    let ask = LossAsk { heights_m: vec![40.0, 70.0], speeds_mps: vec![22.0, 35.0], ..small_map(&scenario) };
    let many = first(&scenario, &ask, &Work::default());
    replays(&scenario, &many);
    let one = first(&scenario, &small_map(&scenario), &Work::default());
    let worse = |(many, one): (&Cell, &Cell)| {
        assert_eq!(many.count.flown, 4 * one.count.flown);
        assert!(many.worst <= one.worst);
        many.worst < one.worst
    };
    assert!(many.cells.iter().zip(&one.cells).filter(|pair| worse(*pair)).count() > 0);
    assert!(many.cells.iter().any(|cell| cell.replay.speed_mps > 30.0));
}

#[test]
fn what_is_stopped_is_partial() {
    let scenario = crate::support::tight_strip();
    let stopped = Work::default();
    stopped.stop();
    let ask = small_map(&scenario);
    let nothing = first(&scenario, &ask, &stopped);
    assert!(nothing.partial && nothing.cells.is_empty());
    let whole = first(&scenario, &ask, &Work::default());
    let same = refine(&scenario, whole.clone(), &stopped);
    assert!(same.partial && same.cells == whole.cells);
    let none = wind_limit(&scenario, &few_winds(&scenario), &stopped);
    assert!(none.partial && none.directions.is_empty() && none.worst.is_none());
}

#[test]
fn asking_for_more_never_raises_a_wind_limit() {
    let scenario = easy(1);
    let ask = few_winds(&scenario);
    let lower = |asked: &[f64], more: &[f64]| asked.iter().zip(more).all(|(asked, more)| more <= asked);
    let usual = wind_limits(&scenario, &ask);
    let mut strict = scenario.clone();
    strict.file.limits.kept_at_least = Ratio::new(0.9);
    let stricter = wind_limits(&strict, &ask);
    assert!(lower(&usual, &stricter), "{usual:?} {stricter:?}");
    let mut wider = scenario.clone();
    wider.file.limits.buffer = Length::new(40.0);
    let wider = wind_limits(&wider, &ask);
    assert!(lower(&usual, &wider), "{usual:?} {wider:?}");
    assert_ne!((&stricter, &usual), (&usual, &wider), "what was asked made a difference");
}

#[test]
fn a_wind_limit_lies_just_below_the_first_wind_that_fails() {
    let mut scenario = easy(1);
    let ask = few_winds(&scenario);
    let work = Work::default();
    let study = wind_limit(&scenario, &ask, &work);
    let (done, all) = work.progress();
    assert_eq!(done, all);
    for direction in &study.directions {
        let (held, fails) = (direction.wind_limit_mps.unwrap(), direction.fails_mps.unwrap());
        // A step lies between, or what is undecided does, a step from either.
        let [low, high] = direction.undecided_mps.unwrap_or([fails, held]);
        assert!((low - held - STEP_MPS).abs() < 1e-12 && (fails - high - STEP_MPS).abs() < 1e-12, "{direction:?}");
        assert!(held < 22.0 && direction.limit.is_some(), "{direction:?}");
        let answer = |tally: &Option<Tally>| study.demand.judge(tally.as_ref().unwrap()).answer;
        assert_eq!((answer(&direction.held), answer(&direction.failed)), (Answer::Yes, Answer::No));
        assert_eq!([held, fails].map(|wind| direction.answer(wind)), [Answer::Yes, Answer::No]);
        // A power law with exponents 0.14 to 0.20 from 2 m to 70 m: closed form.
        let [low, high] = direction.at_2m_mps.unwrap();
        assert!((low - held / 35.0_f64.powf(0.20)).abs() < 1e-4, "{direction:?}");
        assert!((high - held / 35.0_f64.powf(0.14)).abs() < 1e-4, "{direction:?}");
    }
    let worst = &study.directions[study.worst.unwrap()];
    assert!(study.directions.iter().all(|direction| direction.wind_limit_mps >= worst.wind_limit_mps));
    // sqrt(g R tan 35 deg) - V for 115 m and 22 m/s: closed form.
    assert!((study.bank_mps - 6.10).abs() < 0.01, "{}", study.bank_mps);
    // The wind of the day's sheet is not in it, but for the proportion of its gusts.
    scenario.file.wind.mean = Speed::new(9.0);
    scenario.file.wind.gust = Some(Speed::new(13.5));
    assert_eq!(wind_limit(&scenario, &ask, &Work::default()), study);
}

#[test]
fn without_trials_the_plan_is_all_that_is_asked() {
    let scenario = easy(1);
    let ask = few_winds(&scenario);
    let drawn = wind_limit(&scenario, &ask, &Work::default());
    let work = Work::default();
    let plan = wind_limit(&scenario, &WindLimitAsk { trials: 0, ..ask }, &work);
    assert!(!plan.partial && plan.directions.len() == 4);
    assert_eq!(work.progress().0, work.progress().1);
    for (alone, drawn) in plan.directions.iter().zip(&drawn.directions) {
        assert_eq!((alone.from_deg, alone.plan_mps), (drawn.from_deg, drawn.plan_mps));
        assert_eq!(alone.wind_limit_mps, alone.plan_mps);
        assert!(alone.held.is_none() && alone.failed.is_none());
        // It meets every margin at its wind limit and not at the wind beyond, flown alone.
        let score = |wind: f64| {
            let mut there = scenario.clone();
            there.file.wind.from = Bearing::from_deg(alone.from_deg);
            there.file.wind.mean = Speed::new(wind);
            there.file.wind.measured_at = there.file.recovery.height;
            Scorer::new(&there).score(&[draw(&there, 0, WindChoice::Mean)]).remove(0)
        };
        let (held, fails) = (alone.wind_limit_mps.unwrap(), alone.fails_mps.unwrap());
        assert!(score(held).kept && !score(fails).kept, "{alone:?}");
        assert!((fails - held - STEP_MPS).abs() < 1e-12 && alone.limit.is_some());
    }
}

#[test]
fn a_loss_nearer_to_an_edge_than_asked_for_holds_in_no_wind() {
    let mut scenario = crate::support::tight_strip();
    scenario.file.loss.at_m = [250.0, 30.0];
    let study = wind_limit(&scenario, &few_winds(&scenario), &Work::default());
    let limit = study.loss_too_near.unwrap();
    assert_eq!(study.limits[limit].name, "boundary");
    assert_eq!(study.directions.len(), 4);
    assert!(study.directions.iter().all(|one| one.wind_limit_mps.is_none() && one.limit == Some(limit)));
    // Beside the paddock it is the paddock that is named.
    scenario.file.loss.at_m = [80.0 - 5.0, 150.0];
    let study = wind_limit(&scenario, &few_winds(&scenario), &Work::default());
    assert_eq!(study.limits[study.loss_too_near.unwrap()].name, "goat paddock, no-fly");
}
