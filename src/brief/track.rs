//! The path of a flight as other programs want it: one sample a row, in degrees as well as metres, and what is told beside
//! it.

use glam::DVec2;

use super::Recovery;
use crate::margins::MarginRow;
use crate::run::{Scenario, Stretch, Trace};
use crate::units::Bearing;

/// A path with what is told of it: of a recovery, or of a whole flight.
#[derive(Debug, Clone)]
pub struct FlownPath<'a> {
    /// Over which field.
    pub scenario: &'a Scenario,
    /// The path.
    pub trace: &'a Trace,
    /// Its margins.
    pub rows: &'a [MarginRow],
    /// Number of the trial.
    pub trial: u64,
    /// Since when its times count: "loss", or "beginning".
    pub since: &'static str,
    /// Samples that have a name, in order.
    pub marks: Vec<(&'static str, usize)>,
    /// What came of it.
    pub headline: String,
    /// What it can be repeated from.
    pub stamp: String,
}

impl<'a> From<&Recovery<'a>> for FlownPath<'a> {
    fn from(recovery: &Recovery<'a>) -> Self {
        let trace = &recovery.run.trace;
        Self {
            scenario: recovery.scenario,
            trace,
            rows: &recovery.margins.rows,
            trial: recovery.run.trial,
            since: "loss",
            marks: vec![("loss", 0), ("end", trace.len().saturating_sub(1))],
            headline: recovery.headline(),
            stamp: recovery.stamp(),
        }
    }
}

/// One sample of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Seconds since its beginning: of a recovery, the loss.
    pub time_s: f64,
    /// East and north of the datum, metres.
    pub at: DVec2,
    /// Degrees north, WGS84.
    pub latitude_deg: f64,
    /// Degrees east, WGS84.
    pub longitude_deg: f64,
    /// Height above home, metres.
    pub height_m: f64,
    /// Airspeed, m/s.
    pub airspeed_mps: f64,
    /// Speed over the ground, m/s.
    pub ground_speed_mps: f64,
    /// Direction of the path over the ground.
    pub course: Bearing,
    /// Bank, degrees, positive to the right.
    pub bank_deg: f64,
    /// Load factor.
    pub load: f64,
    /// Energy drawn from the pack since then, watt-hours.
    pub energy_wh: f64,
    /// Stretch of the recovery.
    pub stretch: Stretch,
}

/// Samples `from..=to` of one stretch. A stretch lasts until the next begins, so `to` is the next one's first sample.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// Which stretch.
    pub stretch: Stretch,
    /// First sample.
    pub from: usize,
    /// Last sample.
    pub to: usize,
}

impl Span {
    /// Length of the path over the ground, metres.
    pub fn along_m(self, trace: &Trace) -> f64 {
        (self.from..self.to).map(|i| trace.point(i).distance(trace.point(i + 1))).sum()
    }
}

/// Every sample of a recovery.
pub fn samples<'a>(recovery: &Recovery<'a>) -> impl Iterator<Item = Sample> + use<'a> {
    samples_of(recovery.scenario, &recovery.run.trace)
}

/// Every sample of a path over the field of a scenario.
pub fn samples_of<'a>(scenario: &'a Scenario, trace: &'a Trace) -> impl Iterator<Item = Sample> + use<'a> {
    let plane = scenario.field.plane;
    (0..trace.len()).map(move |index| {
        let at = trace.point(index);
        let (latitude_deg, longitude_deg) = plane.to_degrees(at);
        let over_ground = ground_velocity(trace, index);
        Sample {
            time_s: trace.time_s(index),
            at,
            latitude_deg,
            longitude_deg,
            height_m: trace.height_m[index],
            airspeed_mps: trace.airspeed_mps[index],
            ground_speed_mps: over_ground.length(),
            course: Bearing::of(over_ground),
            bank_deg: trace.bank_rad[index].to_degrees(),
            load: trace.load[index],
            energy_wh: trace.energy_j[index] / 3600.0,
            stretch: trace.stretch[index],
        }
    })
}

/// Metres a second over the ground: across the two neighbours, or the one there is at either end.
fn ground_velocity(trace: &Trace, index: usize) -> DVec2 {
    let (from, to) = (index.saturating_sub(1), (index + 1).min(trace.len() - 1));
    let seconds = trace.time_s(to) - trace.time_s(from);
    if seconds > 0.0 { (trace.point(to) - trace.point(from)) / seconds } else { DVec2::ZERO }
}

/// The stretches of a path, in the order flown.
pub fn spans(trace: &Trace) -> Vec<Span> {
    let mut from = 0;
    let last = trace.len().saturating_sub(1);
    let runs = trace.stretch.chunk_by(PartialEq::eq).map(|run| {
        let span = Span { stretch: run[0], from, to: (from + run.len()).min(last) };
        from += run.len();
        span
    });
    runs.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// East at 10 m/s, a sample a second, in the stretches given.
    fn eastward(stretch: &[Stretch]) -> Trace {
        let x_m = (0..stretch.len()).map(|i| 10.0 * i as f64).collect();
        Trace { step_s: 1.0, x_m, y_m: vec![0.0; stretch.len()], stretch: stretch.to_vec(), ..Trace::default() }
    }

    #[test]
    fn stretches_join_end_to_end_and_cover_the_whole_path() {
        use Stretch::{BeforeFailsafe, Circling, TakenOver};
        let trace = eastward(&[BeforeFailsafe, BeforeFailsafe, Circling, Circling, Circling, TakenOver]);
        let spans = spans(&trace);
        let ends: Vec<_> = spans.iter().map(|s| (s.stretch, s.from, s.to)).collect();
        assert_eq!(ends, [(BeforeFailsafe, 0, 2), (Circling, 2, 5), (TakenOver, 5, 5)]);
        assert_eq!(spans.iter().map(|s| s.along_m(&trace)).sum::<f64>(), 50.0);
    }

    #[test]
    fn an_empty_path_has_no_stretch() {
        assert!(spans(&Trace::default()).is_empty());
    }

    #[test]
    fn ground_speed_is_the_same_inside_and_at_the_ends_of_a_steady_path() {
        let trace = eastward(&[Stretch::HeadingHome; 4]);
        for index in 0..4 {
            assert_eq!(ground_velocity(&trace, index), DVec2::new(10.0, 0.0), "sample {index}");
        }
    }

    #[test]
    fn a_single_sample_stands_still() {
        assert_eq!(ground_velocity(&eastward(&[Stretch::BeforeFailsafe]), 0), DVec2::ZERO);
    }
}
