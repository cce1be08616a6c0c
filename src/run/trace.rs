//! The path of one recovery, sample by sample.

use glam::DVec2;

use crate::jet::State;
use crate::lane::{Lane, Words as _};
use crate::run::{Sample, Trial, Watch};

/// The stretches of a recovery, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stretch {
    /// Nothing has noticed the loss; the jet does what it did.
    BeforeFailsafe,
    /// Rolling wings level.
    Levelling,
    /// Climbing straight ahead before it turns.
    Climb,
    /// On the way to the centre.
    HeadingHome,
    /// Getting onto the circle.
    Joining,
    /// On the circle.
    Circling,
    /// Waiting wings level before the fan is cut.
    Waiting,
    /// Fan stopped, gliding.
    Gliding,
    /// Position lost: holding a bank and drifting.
    Drifting,
    /// The pilot has it; the run ends here.
    TakenOver,
    /// Hands fly it: before a loss, and after a take-over that does not end the flight.
    ByHand,
}

impl Stretch {
    /// Every stretch, in order.
    pub const ALL: [Self; 11] = [
        Self::BeforeFailsafe,
        Self::Levelling,
        Self::Climb,
        Self::HeadingHome,
        Self::Joining,
        Self::Circling,
        Self::Waiting,
        Self::Gliding,
        Self::Drifting,
        Self::TakenOver,
        Self::ByHand,
    ];

    /// By its number in [`Stretch::ALL`].
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a whole number from 0 to 10")]
    pub(crate) fn numbered(number: f64) -> Self {
        Self::ALL[number as usize]
    }

    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::BeforeFailsafe => "until the failsafe acts",
            Self::Levelling => "levelling",
            Self::Climb => "climb",
            Self::HeadingHome => "heading home",
            Self::Joining => "joining",
            Self::Circling => "circling",
            Self::Waiting => "waiting",
            Self::Gliding => "gliding",
            Self::Drifting => "drifting",
            Self::TakenOver => "taken over",
            Self::ByHand => "by hand",
        }
    }
}

/// How a recovery ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ending {
    /// Settled on the circle and taken over.
    TakenOver,
    /// On the ground after the fan was cut, or before anyone wanted it there.
    Landed,
    /// The battery was empty in the air.
    Empty,
    /// Neither home nor down when the longest run was over.
    OutOfTime,
}

/// The path of one recovery: one entry a sample in every list, all the same length.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Trace {
    /// Time between samples, seconds.
    pub step_s: f64,
    /// East of the datum, metres.
    pub x_m: Vec<f64>,
    /// North of the datum, metres.
    pub y_m: Vec<f64>,
    /// Height above home's ground, metres.
    pub height_m: Vec<f64>,
    /// Airspeed, m/s.
    pub airspeed_mps: Vec<f64>,
    /// Nose direction, unit vector, east part.
    pub nose_x: Vec<f64>,
    /// Nose direction, unit vector, north part.
    pub nose_y: Vec<f64>,
    /// Bank, radians, positive to the right.
    pub bank_rad: Vec<f64>,
    /// Load factor flown.
    pub load: Vec<f64>,
    /// Load factor that turn, climb and vertical gust asked of the wing; more than was flown where it stalled.
    pub wanted_load: Vec<f64>,
    /// Energy drawn from the pack since the loss, joules.
    pub energy_j: Vec<f64>,
    /// Stretch of the recovery.
    pub stretch: Vec<Stretch>,
}

/// One trial of a scenario, flown.
#[derive(Debug, Clone)]
pub struct Run {
    /// Number of the trial; 0 is the plan as entered, without draws.
    pub trial: u64,
    /// The numbers it was flown with.
    pub drawn: Trial,
    /// The path.
    pub trace: Trace,
    /// How it ended.
    pub ending: Ending,
}

/// Writes down the paths of trials that are flown side by side.
#[derive(Debug, Clone)]
pub struct Recorder {
    /// One a trial.
    pub traces: Vec<Trace>,
}

impl Recorder {
    /// For a number of trials, with a time in seconds between samples.
    pub fn new(step_s: f64, trials: usize) -> Self {
        Self { traces: (0..trials).map(|_| Trace::with_room(step_s)).collect() }
    }
}

impl<L: Lane> Watch<L> for Recorder {
    #[inline(always)]
    fn see(&mut self, sample: &Sample<'_, L>, flying: L::Words) {
        let state = sample.state;
        for (lane, trace) in self.traces.iter_mut().enumerate().filter(|(lane, _)| flying.lane(*lane) != 0) {
            trace.x_m.push(state.x.lane(lane));
            trace.y_m.push(state.y.lane(lane));
            trace.height_m.push(state.height.lane(lane));
            trace.airspeed_mps.push(state.airspeed.lane(lane));
            trace.nose_x.push(state.nose_x.lane(lane));
            trace.nose_y.push(state.nose_y.lane(lane));
            trace.bank_rad.push(state.bank.lane(lane));
            trace.load.push(sample.load.lane(lane));
            trace.wanted_load.push(sample.wanted_load.lane(lane));
            trace.energy_j.push(state.energy.lane(lane));
            trace.stretch.push(Stretch::numbered(sample.stretch.lane(lane)));
        }
    }
}

impl Trace {
    /// An empty trace with room for an ordinary recovery of a minute or two.
    pub(super) fn with_room(step_s: f64) -> Self {
        const SAMPLES: usize = 1200;
        let room = || Vec::with_capacity(SAMPLES);
        Self {
            step_s,
            x_m: room(),
            y_m: room(),
            height_m: room(),
            airspeed_mps: room(),
            nose_x: room(),
            nose_y: room(),
            bank_rad: room(),
            load: room(),
            wanted_load: room(),
            energy_j: room(),
            stretch: Vec::with_capacity(SAMPLES),
        }
    }

    /// Shows it, sample by sample, to somebody who would have looked on.
    pub(crate) fn show(&self, watch: &mut impl Watch<f64>) {
        for index in 0..self.len() {
            let state = State {
                x: self.x_m[index],
                y: self.y_m[index],
                height: self.height_m[index],
                airspeed: self.airspeed_mps[index],
                nose_x: self.nose_x[index],
                nose_y: self.nose_y[index],
                bank: self.bank_rad[index],
                energy: self.energy_j[index],
                // Not written down, and nobody's concern afterwards.
                climb: 0.0,
                thrust: 0.0,
                heave: 0.0,
            };
            let stretch = f64::from(self.stretch[index] as u8);
            let (load, wanted_load) = (self.load[index], self.wanted_load[index]);
            watch.see(&Sample { index, state: &state, load, wanted_load, stretch }, u64::MAX);
        }
    }

    /// Number of samples.
    pub fn len(&self) -> usize {
        self.x_m.len()
    }

    /// Whether there is no sample.
    pub fn is_empty(&self) -> bool {
        self.x_m.is_empty()
    }

    /// Where sample `index` is, metres.
    pub fn point(&self, index: usize) -> DVec2 {
        DVec2::new(self.x_m[index], self.y_m[index])
    }

    /// Seconds since the loss at sample `index`.
    #[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
    pub fn time_s(&self, index: usize) -> f64 {
        index as f64 * self.step_s
    }

    /// A list's value at a sample number with a fraction, linear between samples.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the list's length")]
    pub fn between(list: &[f64], at: f64) -> f64 {
        let index = (at.max(0.0) as usize).min(list.len() - 1);
        let next = (index + 1).min(list.len() - 1);
        let share = at - at.floor();
        list[index] + (list[next] - list[index]) * share
    }

    /// Where the jet is at a sample number with a fraction.
    pub fn point_between(&self, at: f64) -> DVec2 {
        DVec2::new(Self::between(&self.x_m, at), Self::between(&self.y_m, at))
    }
}
