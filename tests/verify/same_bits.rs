//! The same trial gives the same bits, alone or in company, on any number of threads (V15).

use peewit::lane::Wide;
use peewit::margins::{Scorer, judge};
use peewit::run::{Ending, Loss, Run, Scenario, Trial, WindChoice, draw, fly, fly_wide, setting};
use peewit::units::Bearing;
use peewit::verify::same_bits::bits;

fn flown_alone(scenario: &Scenario) -> Vec<(Vec<u64>, Ending)> {
    let runs = (0..11).map(|trial| fly(scenario, trial, WindChoice::Mean));
    runs.map(|Run { trace, ending, .. }| bits(&(trace, ending))).collect()
}

#[test]
fn company_changes_nothing() {
    for scenario in crate::support::shipped() {
        let trials: Vec<Trial> = (0..11).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect();
        let alone = flown_alone(&scenario);
        let setting = setting(&scenario);
        let ways = [
            fly_wide::<Wide<8>>(&scenario, &setting, &trials[1..]),
            fly_wide::<Wide<2>>(&scenario, &setting, &trials[1..]),
            fly_wide::<Wide<4>>(&scenario, &setting, &trials[1..]),
            fly_wide::<f64>(&scenario, &setting, &trials[1..]),
        ];
        for flights in ways {
            assert_eq!(flights.len(), 10);
            for (flight, alone) in flights.iter().zip(&alone[1..]) {
                assert!(bits(flight) == *alone, "{}", scenario.file.name);
            }
        }
        // The trial without draws, among its own kind.
        let plain = fly_wide::<Wide<4>>(&scenario, &setting, &[trials[0]; 3]);
        assert!(plain.iter().all(|flight| bits(flight) == alone[0]), "{}", scenario.file.name);
    }
}

#[test]
fn headings_that_no_width_divides_change_no_loss_map() {
    // A cell of a loss map: seven headings as entered, then as many of trials, on the widest instructions at once.
    for scenario in crate::support::shipped() {
        let scorer = Scorer::new(&scenario);
        // The plan as entered stands among them at places that no width divides evenly.
        let drawn = [3, 0, 1, 2, 0, 0, 4, 5, 6, 0, 7].map(|trial| draw(&scenario, trial, WindChoice::Mean));
        let headings = (0..7).map(|i| f64::from(i) * 360.0 / 7.0);
        let trials: Vec<Trial> = headings
            .flat_map(|deg| {
                let loss = Loss { heading: Bearing::from_deg(deg), ..scenario.file.loss };
                [drawn[1].lost(&loss), drawn[0].lost(&loss)]
            })
            .collect();
        assert!(scorer.score(&trials) == scorer.score_wide::<f64>(&trials), "{}", scenario.file.name);
        assert!(scorer.score(&drawn) == scorer.score_wide::<f64>(&drawn), "{}", scenario.file.name);
    }
}

#[test]
fn the_widest_instructions_change_no_score() {
    for scenario in crate::support::shipped() {
        let scorer = Scorer::new(&scenario);
        let trials: Vec<Trial> = (0..19).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect();
        let alone = scorer.score_wide::<f64>(&trials[1..]);
        assert!(scorer.score(&trials[1..]) == alone, "{}", scenario.file.name);
        assert!(scorer.score_wide::<Wide<4>>(&trials[1..]) == alone, "{}", scenario.file.name);
        // What a study counts is what the margins of the run say.
        for (score, trial) in alone.iter().zip(1..) {
            let run = fly(&scenario, trial, WindChoice::Mean);
            let margins = judge(&scenario, &run);
            let rows = scorer.limits().iter().zip(&score.gaps);
            for (info, gap) in rows.filter(|(_, gap)| gap.margin.is_finite()) {
                let row = margins.rows.iter().find(|row| row.limit == info.limit).expect("a row a limit");
                assert_eq!((row.margin.to_bits(), row.verdict), (gap.margin.to_bits(), gap.verdict), "{}", row.name);
            }
            assert_eq!(margins.figures.furthest_m, score.furthest_m);
        }
    }
}

#[test]
fn threads_change_nothing() {
    let scenario = crate::support::tight_strip();
    let expected = flown_alone(&scenario);
    for threads in [1, 2, 5] {
        std::thread::scope(|scope| {
            let started: Vec<_> = (0..threads).map(|_| scope.spawn(|| flown_alone(&scenario))).collect();
            for thread in started {
                assert!(thread.join().expect("a thread that ends") == expected);
            }
        });
    }
}

#[test]
fn trials_and_seeds_change_something() {
    let scenario = crate::support::tight_strip();
    let all = flown_alone(&scenario);
    for (index, one) in all.iter().enumerate() {
        assert!(all[..index].iter().all(|other| other != one));
    }
    let mut file = scenario.file;
    file.seed += 1;
    let reseeded = flown_alone(&Scenario::from_file(file).unwrap());
    assert!(reseeded[0] == all[0], "the trial without draws has no use for a seed");
    assert!(reseeded[1..].iter().zip(&all[1..]).all(|(one, other)| one != other));
}
