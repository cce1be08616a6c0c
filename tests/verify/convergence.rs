//! Does the shipped step move any margin by more than a decimetre against one a tenth its size?

use peewit::ledger::{Ledger, judge};
use peewit::run::{Case, Floor, Run, Scenario, WindChoice, draw, fly_case, setting};
use peewit::units::Length;

use crate::support::shipped;

/// A drawn wind of this share of the drawn return speed is one that the jet hangs in.
const HANGING: f64 = 0.95;

/// A case judged with every step cut into so many.
fn ledger(scenario: &Scenario, case: u64, drawn: Case, substeps: u32) -> Ledger {
    let setting = peewit::run::Setting { substeps, ..setting(scenario) };
    let (trace, ending) = fly_case(&setting, scenario.file.wind.turbulence, &drawn, &Floor::of(scenario));
    judge(scenario, &Run { case, drawn, trace, ending })
}

/// The largest change of a margin in metres when every step is cut into ten, and the margin's name.
fn change(scenario: &Scenario, case: u64, drawn: Case) -> (f64, String) {
    let [shipped, fine] = [1, 10].map(|substeps| ledger(scenario, case, drawn, substeps).rows);
    assert_eq!(shipped.len(), fine.len());
    let metres = shipped.iter().zip(&fine).filter(|(row, _)| row.unit == "m");
    let changes = metres.map(|(one, other)| ((one.margin - other.margin).abs(), one.name.clone()));
    changes.max_by(|a, b| a.0.total_cmp(&b.0)).expect("a margin in metres")
}

#[test]
fn a_tenth_of_the_step_moves_no_margin_by_a_decimetre() {
    let mut scenarios = shipped();
    for radius in [60.0, 115.0] {
        let mut file = crate::support::tight_strip().file;
        file.recovery.radius = Length::new(radius);
        file.name = format!("{} at {radius} m", file.name);
        scenarios.push(Scenario::from_file(file).unwrap());
    }
    for scenario in &scenarios {
        // Without draws in either wind, and two cases with turbulence and noise.
        for (case, wind) in [(0, WindChoice::Mean), (0, WindChoice::Gust), (1, WindChoice::Mean), (2, WindChoice::Mean)]
        {
            let drawn = draw(scenario, case, wind);
            // Over one place the direction of the way over the ground means nothing, and the law that follows it makes
            // metres of millimetres in the ten minutes until the battery is empty. What comes of it is the same.
            let hangs = drawn.wind.x.hypot(drawn.wind.y) > HANGING * drawn.jet.return_speed && drawn.noise.is_some();
            if hangs {
                let [shipped, fine] = [1, 10].map(|substeps| ledger(scenario, case, drawn, substeps));
                assert_eq!(
                    (shipped.ending, shipped.verdict()),
                    (fine.ending, fine.verdict()),
                    "{}",
                    scenario.file.name
                );
                continue;
            }
            let (change, name) = change(scenario, case, drawn);
            let step = setting(scenario).step_s;
            println!("{}: case {case}, {wind:?} wind, step {step} s: {change:.5} m at {name}", scenario.file.name);
            assert!(change <= 0.1, "{}: case {case}, {wind:?}: {change} m at {name}", scenario.file.name);
        }
    }
}
