//! A flown flight as its log tells it: time, place and height, and whatever else was logged.

use glam::DVec2;

use crate::field::import::Log;
use crate::jet::State;
use crate::run::{Run, Sample, Stretch, Watch};

/// What a track may know beside time, place and height: one entry a sample in every list.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Channels {
    /// Airspeed, m/s.
    pub airspeed_mps: Option<Vec<f64>>,
    /// Load factor wanted; of a log that has not got it, the one flown, which no wing lets pass what it carries.
    pub load: Option<Vec<f64>>,
    /// Bank, radians, positive to the right.
    pub bank_rad: Option<Vec<f64>>,
    /// Energy that can still be drawn from the pack, joules.
    pub energy_left_j: Option<Vec<f64>>,
    /// Stretch of the recovery. A track that has it begins at the loss.
    pub stretch: Option<Vec<Stretch>>,
}

/// A flown flight, with samples at any times.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    time_s: Vec<f64>,
    place: Vec<DVec2>,
    height_m: Vec<f64>,
    channels: Channels,
}

impl Track {
    /// From times in seconds (since the loss, where stretches are known), places in metres about the datum, heights in
    /// metres above home's ground, and what else is known.
    ///
    /// None where there is no sample, a list has not one number a sample, or times don't go forward.
    pub fn new(time_s: Vec<f64>, place: Vec<DVec2>, height_m: Vec<f64>, channels: Channels) -> Option<Self> {
        let track = Self { time_s, place, height_m, channels };
        track.is_whole().then_some(track)
    }

    /// A flight that was logged, its heights taken from that of home's ground above mean sea level, metres.
    pub fn logged(log: Log, home_above_sea_m: f64) -> Option<Self> {
        let height_m = log.above_sea_m.iter().map(|above_sea_m| above_sea_m - home_above_sea_m).collect();
        Self::new(log.time_s, log.place, height_m, Channels::default())
    }

    fn is_whole(&self) -> bool {
        let Channels { airspeed_mps, load, bank_rad, energy_left_j, stretch } = &self.channels;
        let samples = self.time_s.len();
        let fits = |list: &[f64]| list.len() == samples && list.iter().all(|value| value.is_finite());
        let channels = [airspeed_mps, load, bank_rad, energy_left_j];
        samples > 0
            && fits(&self.time_s)
            && fits(&self.height_m)
            && self.place.len() == samples
            && self.place.iter().all(|place| place.is_finite())
            && channels.into_iter().flatten().all(|list| fits(list))
            && stretch.as_ref().is_none_or(|list| list.len() == samples)
            && self.time_s.is_sorted_by(|before, after| before < after)
    }

    /// Times of the samples, seconds.
    pub fn time_s(&self) -> &[f64] {
        &self.time_s
    }

    /// Places of the samples, metres about the datum.
    pub fn place(&self) -> &[DVec2] {
        &self.place
    }

    /// Heights of the samples above home's ground, metres.
    pub fn height_m(&self) -> &[f64] {
        &self.height_m
    }

    /// The same, not knowing what the jet was at.
    #[must_use]
    pub fn without_stretches(self) -> Self {
        Self { channels: Channels { stretch: None, ..self.channels }, ..self }
    }

    /// What else is known.
    pub fn channels(&self) -> &Channels {
        &self.channels
    }

    /// Shows it, sample by sample, to somebody who would have looked on. What is not known is not a number.
    pub(crate) fn show(&self, watch: &mut impl Watch<f64>) {
        let Channels { airspeed_mps, load, bank_rad, energy_left_j, stretch } = &self.channels;
        for (index, place) in self.place.iter().enumerate() {
            let value = |list: &Option<Vec<f64>>| list.as_ref().map_or(f64::NAN, |list| list[index]);
            let state = State {
                x: place.x,
                y: place.y,
                height: self.height_m[index],
                airspeed: value(airspeed_mps),
                bank: value(bank_rad),
                energy: energy_left_j.as_ref().map_or(f64::NAN, |left| left[0] - left[index]),
                // Nobody's concern afterwards.
                nose_x: f64::NAN,
                nose_y: f64::NAN,
                climb: f64::NAN,
                thrust: f64::NAN,
                heave: f64::NAN,
            };
            let load = value(load);
            let stretch = stretch.as_ref().map_or(f64::NAN, |list| f64::from(list[index] as u8));
            watch.see(&Sample { index, state: &state, load, wanted_load: load, stretch }, u64::MAX);
        }
    }
}

impl Run {
    /// The run as a log would tell it that misses nothing.
    pub fn track(&self) -> Track {
        let trace = &self.trace;
        Track {
            time_s: (0..trace.len()).map(|index| trace.time_s(index)).collect(),
            place: (0..trace.len()).map(|index| trace.point(index)).collect(),
            height_m: trace.height_m.clone(),
            channels: Channels {
                airspeed_mps: Some(trace.airspeed_mps.clone()),
                load: Some(trace.wanted_load.clone()),
                bank_rad: Some(trace.bank_rad.clone()),
                energy_left_j: Some(trace.energy_j.iter().map(|drawn_j| self.drawn.energy_j - drawn_j).collect()),
                stretch: Some(trace.stretch.clone()),
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_that_dont_belong_together_are_no_track() {
        let track = |time_s: Vec<f64>, channels| {
            let count = time_s.len();
            Track::new(time_s, vec![DVec2::ZERO; count], vec![50.0; count], channels)
        };
        let airspeed = |list: &[f64]| Channels { airspeed_mps: Some(list.to_vec()), ..Channels::default() };
        assert!(track(vec![0.0], Channels::default()).is_some());
        assert!(track(vec![0.0, 1.0, 7.5], airspeed(&[20.0, 21.0, 22.0])).is_some());
        let stretch = Channels { stretch: Some(vec![Stretch::Climb]), ..Channels::default() };
        for (time_s, channels) in [
            (vec![], Channels::default()),
            (vec![0.0, 1.0, 1.0], Channels::default()),
            (vec![0.0, 2.0, 1.0], Channels::default()),
            (vec![0.0, f64::NAN], Channels::default()),
            (vec![0.0, 1.0], airspeed(&[20.0])),
            (vec![0.0, 1.0], airspeed(&[20.0, f64::INFINITY])),
            (vec![0.0, 1.0], stretch),
        ] {
            assert_eq!(track(time_s, channels), None);
        }
        let short = Track::new(vec![0.0, 1.0], vec![DVec2::ZERO; 1], vec![50.0; 2], Channels::default());
        assert_eq!(short, None);
    }
}
