//! Paths drawn by hand, to be judged.

use peewit::run::{Ending, Run, Scenario, Stretch, Trace, WindChoice, draw};

/// A run along corners (east, north, height), `step_s` from one to the next, heading home all the way at 22 m/s, wings
/// level.
pub(crate) fn drawn_path(scenario: &Scenario, corners: &[[f64; 3]], step_s: f64) -> Run {
    let count = corners.len();
    let list = |part: usize| corners.iter().map(|corner| corner[part]).collect::<Vec<f64>>();
    let trace = Trace {
        step_s,
        x_m: list(0),
        y_m: list(1),
        height_m: list(2),
        airspeed_mps: vec![22.0; count],
        nose_x: vec![1.0; count],
        nose_y: vec![0.0; count],
        bank_rad: vec![0.0; count],
        load: vec![1.0; count],
        wanted_load: vec![1.0; count],
        energy_j: vec![0.0; count],
        stretch: vec![Stretch::HeadingHome; count],
    };
    Run { trial: 0, drawn: draw(scenario, 0, WindChoice::Mean), trace, ending: Ending::OutOfTime }
}
