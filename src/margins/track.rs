//! How near did a logged flight come, to what, where and when, as far as its log can tell?
//!
//! The same distances along the same swept path as for a run. A limit that asks for something which was not logged is
//! named beside the margins, never left out in silence.

use super::clock::Clock;
use super::held::held;
use super::judge::Judge;
use super::rows::rows;
use super::seen::Seen;
use super::{Limit, LimitInfo, MarginRow};
use crate::run::{Scenario, Track, Trial, WindChoice, draw, setting};

/// Something that a log may tell or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Channel {
    /// Airspeed.
    Airspeed,
    /// Load factor.
    Load,
    /// Bank.
    Bank,
    /// Energy left in the pack.
    Energy,
    /// Stretches of the recovery, and with them the moment of the loss.
    Stretches,
}

impl Channel {
    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Airspeed => "airspeed",
            Self::Load => "load factor",
            Self::Bank => "bank",
            Self::Energy => "energy",
            Self::Stretches => "stretches",
        }
    }

    fn is_in(self, track: &Track) -> bool {
        let channels = track.channels();
        match self {
            Self::Airspeed => channels.airspeed_mps.is_some(),
            Self::Load => channels.load.is_some(),
            Self::Bank => channels.bank_rad.is_some(),
            Self::Energy => channels.energy_left_j.is_some(),
            Self::Stretches => channels.stretch.is_some(),
        }
    }
}

impl Limit {
    /// What its margin asks for beside time, place and height. A bank counts once the autopilot commands it, and what the
    /// pack has to give is counted in laps of the circle: both ask for the stretches.
    pub const fn channels(self) -> &'static [Channel] {
        match self {
            Self::Boundary | Self::Area(_) | Self::FlightLine | Self::HeightLimit | Self::Ground => &[],
            Self::Obstacle(_) | Self::PilotPosition | Self::SightDistance | Self::SightAngle => &[],
            Self::Stall | Self::SpeedHeld => &[Channel::Airspeed, Channel::Load],
            Self::Bank => &[Channel::Bank, Channel::Stretches],
            Self::TimeHome => &[Channel::Stretches],
            Self::Energy => &[Channel::Energy, Channel::Stretches],
        }
    }
}

/// A limit that a track can't be judged by.
#[derive(Debug, Clone, PartialEq)]
pub struct Lacked {
    /// Which, with its name in print.
    pub limit: LimitInfo,
    /// What its margin asks for and the track does not tell.
    pub channels: Vec<Channel>,
}

/// The margins of a track.
#[derive(Debug, Clone, PartialEq)]
pub struct TrackMargins {
    /// The margins that the track tells, in the order of [`Limit`].
    pub rows: Vec<MarginRow>,
    /// The limits whose margins it does not tell, in the same order.
    pub lacked: Vec<Lacked>,
}

/// The margins of a track along the swept path, by the plan as entered: its jet, its circle, its buffers.
pub fn judge_track(scenario: &Scenario, track: &Track) -> TrackMargins {
    let (mut judge, mut lacked) = (Judge::new(scenario), Vec::new());
    judge.limits.retain(|info| {
        let channels: Vec<_> = info.limit.channels().iter().copied().filter(|channel| !channel.is_in(track)).collect();
        let tells = channels.is_empty();
        if !tells {
            lacked.push(Lacked { limit: info.clone(), channels });
        }
        tells
    });
    let mut gauge = judge.gauge_over::<f64>(track.time_s().len());
    track.show(&mut gauge);
    let seen = gauge.lane(0);
    // The gauge counts samples, which here may be any time apart.
    let seen = Seen { held: held(track, scenario.file.limits.stall_over.s()).unwrap_or(seen.held), ..seen };
    let (setting, drawn) = (setting(scenario), plan_with_its_pack(scenario, track));
    let flown = judge.flown(&setting, &drawn, seen, Clock::Times(track.time_s()));
    let (figures, gaps) = judge.measure(&flown);
    let stretch = track.channels().stretch.as_deref();
    TrackMargins { rows: rows(&flown, &judge.limits, (&figures, gaps), stretch), lacked }
}

/// The plan as entered, but with what the pack held when the track began, where that was logged.
fn plan_with_its_pack(scenario: &Scenario, track: &Track) -> Trial {
    let plan = draw(scenario, 0, WindChoice::Mean);
    let held = track.channels().energy_left_j.as_ref().and_then(|left_j| left_j.first());
    Trial { energy_j: held.copied().unwrap_or(plan.energy_j), ..plan }
}
