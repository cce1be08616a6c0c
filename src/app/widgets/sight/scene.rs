//! What is there to be seen: the field, the jet, the sun, and how one looks at them?

use crate::app::look::theme::Palette;
use crate::jet::State;
use crate::rehearsal::Rehearsal;
use crate::run::{Hours, Scenario, day};
use crate::sun::{Place, Sun, sun_at};
use crate::words::Units;

/// Length of a jet of which only the span is told, in spans (judgement).
const LENGTH_IN_SPANS: f64 = 1.2;

/// What there is to be seen.
#[derive(Debug, Clone, Copy)]
pub struct Scene<'a> {
    /// The field, its landmarks and its hours.
    pub scenario: &'a Scenario,
    /// The jet.
    pub state: &'a State<f64>,
    /// From wing tip to wing tip, metres.
    pub span_m: f64,
    /// From nose to tail, metres.
    pub length_m: f64,
    /// Energy that could be drawn at the beginning, J.
    pub energy_j: f64,
    /// Energy of the full pack, J.
    pub pack_j: f64,
    /// Where the sun stands; none where nobody knows, or before anybody says at what hour.
    pub sun: Option<Sun>,
    /// Seconds since the beginning.
    pub time_s: f64,
    /// Colours.
    pub palette: &'static Palette,
    /// Units of what is written.
    pub units: &'a Units,
}

impl<'a> Scene<'a> {
    /// A rehearsal, with the jet where it is drawn; the sun as it stands in the middle of the plan's hours.
    pub fn of(flown: &'a Rehearsal, state: &'a State<f64>, palette: &'static Palette, units: &'a Units) -> Self {
        let (scenario, trial) = (flown.scenario(), flown.trial());
        let span_m = scenario.file.jet.span_m();
        let hours = scenario.file.brief.hours.as_ref().and_then(Hours::minutes);
        let middle = hours.map(|[from, to, _]| f64::from(from + to) / 2.0);
        Self {
            scenario,
            state,
            span_m,
            length_m: LENGTH_IN_SPANS * span_m,
            energy_j: trial.energy_j,
            pack_j: trial.jet.pack,
            sun: middle.and_then(|clock_min| sun_over(scenario, clock_min)),
            time_s: flown.time_s(),
            palette,
            units,
        }
    }

    /// Share of the full pack that is left.
    pub(super) fn left_share(&self) -> f64 {
        ((self.energy_j - self.state.energy) / self.pack_j).max(0.0)
    }
}

/// Where the sun stands over the pilot position on the day of a scenario, at a minute of that day by the clock on the field.
/// None where the plan says no hours, and so nothing of that clock.
pub fn sun_over(scenario: &Scenario, clock_min: f64) -> Option<Sun> {
    let [_, _, ahead_min] = scenario.file.brief.hours.as_ref()?.minutes()?;
    let (latitude_deg, longitude_deg) = scenario.field.plane.to_degrees(scenario.field.pilot);
    sun_at(Place { latitude_deg, longitude_deg }, day(&scenario.file.date)?, clock_min - f64::from(ahead_min))
}

/// Where somebody looks, and how wide the picture is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Looking {
    /// Where the middle of the picture is, degrees clockwise from north.
    pub bearing_deg: f64,
    /// Over the horizon, degrees.
    pub elevation_deg: f64,
    /// From the left edge to the right one, degrees: 110 at most.
    pub width_deg: f64,
}

/// What is in the way of the picture from the nose.
#[derive(Debug, Clone, Copy)]
pub enum Dark<'a> {
    /// Nothing.
    None,
    /// Nothing but noise comes in.
    Snow {
        /// Which noise.
        seed: u64,
        /// Whether it stands still, for whoever wants less motion.
        still: bool,
    },
    /// The last picture stays.
    Frozen {
        /// The jet at that moment.
        state: &'a State<f64>,
        /// That moment, seconds since the beginning.
        at_s: f64,
    },
    /// Nothing at all, and some words about that.
    Black(&'a str),
}
