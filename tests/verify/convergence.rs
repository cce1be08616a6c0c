//! Does the shipped step move margins by more than a decimetre against one a tenth its size?

use peewit::margins::{MarginRow, MarginUnit, Margins, judge};
use peewit::run::{Floor, Run, Scenario, Trial, WindChoice, draw, fly_trial, setting};
use peewit::units::Length;

use crate::support::shipped;

/// Drawn winds up to this share of the drawn return speed are looked at. Nearer to it the jet all but hangs on the side
/// of the circle against the wind, the direction of its way over the ground turns by `V / (V - W)` of what the nose does,
/// and every lap there multiplies whatever two paths differ by, be it a last bit. Judgement.
const WINDY: f64 = 0.6;

/// A trial judged with every step cut into so many.
fn margins(scenario: &Scenario, trial: u64, drawn: Trial, substeps: u32) -> Margins {
    let setting = peewit::run::Setting { substeps, ..setting(scenario) };
    let (trace, ending) = fly_trial(&setting, scenario.file.wind.turbulence, &drawn, &Floor::of(scenario));
    judge(scenario, &Run { trial, drawn, trace, ending })
}

/// The largest change of what a limit in metres leaves over what is asked, when every step is cut into ten, and its name.
/// A mast is passed by the better of two ways, beside or over, each with its own buffer: where both leave as much over,
/// a millimetre of path swaps one for the other, and the margin, told from the way taken, jumps by what the buffers
/// differ by (10 m of 20 m and 10 m) while what is left over does not.
fn change(scenario: &Scenario, trial: u64, drawn: Trial) -> (f64, String) {
    let [shipped, fine] = [1, 10].map(|substeps| margins(scenario, trial, drawn, substeps).rows);
    assert_eq!(shipped.len(), fine.len());
    let metres = shipped.iter().zip(&fine).filter(|(row, _)| row.unit == MarginUnit::Metres);
    let changes = metres.map(|(one, other)| ((spare(one) - spare(other)).abs(), one.name.clone()));
    changes.max_by(|a, b| a.0.total_cmp(&b.0)).expect("a margin in metres")
}

fn spare(row: &MarginRow) -> f64 {
    row.margin - row.buffer
}

/// The shipped scenarios, and the demo with a small and a large circle.
fn scenarios() -> Vec<Scenario> {
    let mut scenarios = shipped();
    for radius in [60.0, 115.0] {
        let mut file = crate::support::tight_strip().file;
        file.recovery.radius = Length::new(radius);
        file.name = format!("{} at {radius} m", file.name);
        scenarios.push(Scenario::from_file(file).unwrap());
    }
    scenarios
}

#[test]
fn a_tenth_of_the_step_moves_no_margin_of_the_plan_by_a_decimetre() {
    for scenario in &scenarios() {
        for wind in [WindChoice::Mean, WindChoice::Gust] {
            let (change, name) = change(scenario, 0, draw(scenario, 0, wind));
            println!("{}: {wind:?} wind: {change:.5} m at {name}", scenario.file.name);
            assert!(change <= 0.1, "{}: {wind:?}: {change} m at {name}", scenario.file.name);
        }
    }
}

#[test]
#[allow(clippy::cast_precision_loss, reason = "some hundred trials")]
fn a_tenth_of_the_step_moves_few_drawn_margins_by_a_decimetre() {
    // Every law, in turbulence and noise: a step decides on which sample a stretch ends, and a few trials differ by
    // more.
    let mut changes = Vec::new();
    for scenario in &scenarios() {
        for trial in 1..=30 {
            let drawn = draw(scenario, trial, WindChoice::Mean);
            if drawn.wind.x.hypot(drawn.wind.y) <= WINDY * drawn.jet.return_speed {
                changes.push(change(scenario, trial, drawn).0);
            }
        }
    }
    changes.sort_by(f64::total_cmp);
    let within = changes.iter().filter(|&&change| change <= 0.1).count() as f64 / changes.len() as f64;
    let (half, most) = (changes[changes.len() / 2], changes[changes.len() - 1]);
    println!("{} trials: half within {half:.4} m, {within:.3} within 0.1 m, all within {most:.3} m", changes.len());
    assert!(changes.len() > 200 && half < 0.02 && within >= 0.95, "{half} {within} {most}");
}
