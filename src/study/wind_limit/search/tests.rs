//! Whether the ends that are found are those that all trials say.

use super::*;

/// What few trials say, and where the search began, changes nothing of what all of them say beside the ends.
#[test]
fn the_ends_are_where_all_trials_say_so() {
    let scenario = Scenario::demo();
    let (scorer, ask, work) = (Scorer::new(&scenario), WindLimitAsk::usual(&scenario), Work::default());
    let search = |from_deg: f64| Search::new(&scenario, &ask, &scorer, &work, from_deg);
    for from_deg in [0.0, 130.0] {
        let found = search(from_deg).run(None, None).unwrap();
        let near = Nearby::of(&found);
        for nearby in [Nearby { held: 0, fails: 0 }, near, Nearby { held: near.held + 5, fails: near.fails + 5 }] {
            assert_eq!(search(from_deg).run(None, Some(nearby)).unwrap(), found, "{nearby:?}");
        }
        let mut all = search(from_deg);
        let mut says = |step: u32| all.answer(step, ask.trials).unwrap();
        assert_eq!([near.held - 1, near.held].map(|step| says(step) == Answer::Yes), [true, false], "{found:?}");
        assert_eq!([near.fails - 1, near.fails].map(|step| says(step) == Answer::No), [false, true], "{found:?}");
        let between = (near.held < near.fails).then(|| [near.held, near.fails - 1].map(wind_mps));
        assert_eq!(found.undecided_mps, between);
    }
}
