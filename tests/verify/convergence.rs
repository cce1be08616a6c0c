//! Does the shipped step move any margin by more than a decimetre against one a tenth its size?

use peewit::ledger::judge;
use peewit::run::{Floor, Run, Scenario, WindChoice, draw, fly_case, setting};
use peewit::units::Length;

use crate::support::shipped;

/// The largest change of a margin in metres when every step is cut into ten, and the margin's name.
fn change(scenario: &Scenario, case: u64, wind: WindChoice) -> (f64, String) {
    let drawn = draw(scenario, case, wind);
    let rows = |substeps: u32| {
        let setting = peewit::run::Setting { substeps, ..setting(scenario) };
        let (trace, ending) = fly_case(&setting, scenario.file.wind.turbulence, &drawn, &Floor::of(scenario));
        judge(scenario, &Run { case, drawn, trace, ending }).rows
    };
    let (shipped, fine) = (rows(1), rows(10));
    assert_eq!(shipped.len(), fine.len());
    let metres = shipped.iter().zip(&fine).filter(|(row, _)| row.unit == "m");
    let changes = metres.map(|(one, other)| ((one.margin - other.margin).abs(), one.name.clone()));
    changes.max_by(|a, b| a.0.total_cmp(&b.0)).expect("a margin in metres")
}

#[test]
fn a_tenth_of_the_step_moves_no_margin_by_a_decimetre() {
    let mut scenarios = shipped();
    for radius in [60.0, 115.0] {
        let mut file = Scenario::demo().file;
        file.recovery.radius = Length::new(radius);
        file.name = format!("{} at {radius} m", file.name);
        scenarios.push(Scenario::from_file(file).unwrap());
    }
    for scenario in &scenarios {
        // Without draws in either wind, and two cases with turbulence and noise.
        for (case, wind) in [(0, WindChoice::Mean), (0, WindChoice::Gust), (1, WindChoice::Mean), (2, WindChoice::Mean)]
        {
            let (change, name) = change(scenario, case, wind);
            let step = setting(scenario).step_s;
            println!("{}: case {case}, {wind:?} wind, step {step} s: {change:.5} m at {name}", scenario.file.name);
            assert!(change <= 0.1, "{}: case {case}, {wind:?}: {change} m at {name}", scenario.file.name);
        }
    }
}
