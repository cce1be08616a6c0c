//! A run with what the judging needs worked out once, and the margins that do not lie on the ground plan.

use glam::DVec2;

use super::{Figures, Limit, Row, Verdict, reach};
use crate::run::{LONGEST_S, Run, Scenario, Setting, Stretch, Trace, setting};

/// A run beside the scenario it was flown in.
pub(super) struct Flown<'a> {
    pub(super) scenario: &'a Scenario,
    pub(super) run: &'a Run,
    pub(super) setting: Setting,
    /// Way over the ground up to each sample, m.
    pub(super) way: Vec<f64>,
    /// Bound of the change of a height over the ground up to each sample, m.
    pub(super) way_up: Vec<f64>,
    /// Bound of the change of the larger of a distance and a height up to each sample, m.
    pub(super) way_high: Vec<f64>,
    /// Height of home's ground above the datum's, m.
    pub(super) home_ground: f64,
}

impl<'a> Flown<'a> {
    pub(super) fn new(scenario: &'a Scenario, run: &'a Run) -> Self {
        let trace = &run.trace;
        let ground = &scenario.field.ground;
        let [mut way, mut way_up, mut way_high] = [(); 3].map(|()| Vec::with_capacity(trace.len()));
        let (mut flown, mut risen, mut either) = (0.0, 0.0, 0.0);
        for index in 0..trace.len() {
            let before = index.saturating_sub(1);
            let along = trace.point(index).distance(trace.point(before));
            let up = (trace.height_m[index] - trace.height_m[before]).abs() + ground.slope() * along;
            flown += along;
            risen += up;
            either += along.max(up);
            way.push(flown);
            way_up.push(risen);
            way_high.push(either);
        }
        let home_ground = ground.height_m(scenario.field.home);
        Self { scenario, run, setting: setting(scenario), way, way_up, way_high, home_ground }
    }

    /// Centre of the circle as planned.
    pub(super) fn hub(&self) -> DVec2 {
        DVec2::new(self.run.drawn.plan.hub_x, self.run.drawn.plan.hub_y)
    }

    pub(super) fn trace(&self) -> &Trace {
        &self.run.trace
    }

    /// Height of the ground above home's.
    pub(super) fn ground(&self, at: DVec2) -> f64 {
        self.scenario.field.ground.height_m(at) - self.home_ground
    }

    /// The first sample on the circle.
    pub(super) fn circle(&self) -> Option<usize> {
        self.trace().stretch.iter().position(|&stretch| stretch == Stretch::Circling)
    }

    /// A row for a sample number with a fraction.
    pub(super) fn row(
        &self,
        limit: Limit,
        name: impl Into<String>,
        unit: &'static str,
        least: (f64, f64),
        standoff: f64,
    ) -> Row {
        let (margin, at) = least;
        let trace = self.trace();
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
        let stretch = trace.stretch[(at as usize).min(trace.len() - 1)];
        Row {
            limit,
            name: name.into(),
            unit,
            margin,
            standoff,
            verdict: verdict(margin, standoff),
            at_s: at * trace.step_s,
            at: trace.point_between(at),
            height_m: Trace::between(&trace.height_m, at),
            stretch,
        }
    }

    /// The sample with the least of a value.
    fn least_sample(&self, from: usize, value: impl Fn(usize) -> f64) -> Option<(usize, f64)> {
        (from..self.trace().len()).map(|index| (index, value(index))).min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Margins of speed, bank, time, energy and sight.
    pub(super) fn rows(&self, figures: &Figures) -> Vec<Row> {
        let rows = [self.stall(), self.bank(), self.time_home(figures), Some(self.energy(figures))];
        rows.into_iter().flatten().chain(self.sight()).collect()
    }

    fn stall(&self) -> Option<Row> {
        let (trace, jet) = (self.trace(), &self.run.drawn.jet);
        let stall = |index: usize| jet.stall_speed(trace.load[index].max(0.05));
        let (index, _) = self.least_sample(0, |index| trace.airspeed_mps[index] / stall(index))?;
        let standoff = (self.scenario.file.limits.stall_factor - 1.0) * stall(index);
        let margin = trace.airspeed_mps[index] - stall(index);
        Some(self.row(Limit::Stall, "stall speed", "m/s", (margin, position(index)), standoff))
    }

    fn bank(&self) -> Option<Row> {
        let (trace, limit) = (self.trace(), self.run.drawn.jet.bank_limit);
        let commanded = trace.stretch.iter().position(|&stretch| stretch > Stretch::Levelling)?;
        let (index, margin) = self.least_sample(commanded, |index| limit - trace.bank_rad[index].abs())?;
        Some(self.row(Limit::Bank, "bank limit", "deg", (margin.to_degrees(), position(index)), 0.0))
    }

    fn time_home(&self, figures: &Figures) -> Option<Row> {
        if self.setting.cuts() || !self.setting.standing.has_fix {
            return None;
        }
        let limit = self.scenario.file.limits.home_within.map_or(LONGEST_S, |time| time.s());
        let last = position(self.trace().len() - 1);
        Some(match (figures.home_s, self.circle()) {
            (Some(home), Some(at)) => self.row(Limit::TimeHome, "time home", "s", (limit - home, position(at)), 0.0),
            _ => self.row(Limit::TimeHome, "time home: never on the circle", "s", (-limit, last), 0.0),
        })
    }

    fn energy(&self, figures: &Figures) -> Row {
        let limits = &self.scenario.file.limits;
        let reserve = limits.reserve.share() * self.run.drawn.jet.pack;
        let at = self.circle().unwrap_or(self.trace().len() - 1);
        let standoff = figures.lap_energy_j.unwrap_or(0.0) * limits.laps_in_hand;
        let margin = figures.energy_left_j - reserve;
        self.row(Limit::Energy, "energy over reserve", "Wh", (margin / 3600.0, position(at)), standoff / 3600.0)
    }

    fn sight(&self) -> Vec<Row> {
        let (file, trace) = (&self.scenario.file, self.trace());
        let stand = self.scenario.field.stand;
        let eye = self.ground(stand);
        let slant = |index: usize| trace.point(index).distance(stand).hypot(trace.height_m[index] - eye);
        let span = file.jet.span.value.m();
        let limit = reach::attitude_seen_m(span).min(reach::detection_m(file.limits.visibility.m()));
        let Some((index, margin)) = self.least_sample(0, |index| limit - slant(index)) else { return Vec::new() };
        let angle = reach::angle_rad(span, slant(index)) - file.limits.smallest_angle.rad();
        let at = position(index);
        vec![
            self.row(Limit::SightDistance, "attitude seen from the stand", "m", (margin, at), file.limits.standoff.m()),
            self.row(Limit::SightAngle, "size seen from the stand", "deg", (angle.to_degrees(), at), 0.0),
        ]
    }
}

/// A sample's number as a position along the path.
#[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
pub(super) fn position(index: usize) -> f64 {
    index as f64
}

/// What a margin amounts to against what was asked for.
pub(super) fn verdict(margin: f64, standoff: f64) -> Verdict {
    if margin < 0.0 {
        Verdict::Breached
    } else if margin < standoff {
        Verdict::Thin
    } else {
        Verdict::Clear
    }
}
