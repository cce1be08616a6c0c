//! How near a recovery came, to what, where and when.

mod clock;
mod figures;
mod flown;
mod gap;
mod gauge;
mod held;
mod judge;
mod lap;
mod look;
mod outcome;
mod people;
pub mod reach;
mod rows;
mod score;
mod seen;
mod space;
mod spot;
mod take_over;
mod track;
mod unit;

use glam::DVec2;

use crate::field::{Field, Rule};
use crate::recovery::{ON_RING, ON_RING_M};
use crate::run::{Ending, Run, Scenario, Stretch, setting};
use clock::Clock;
use judge::Judge;
use rows::rows;

pub use gap::Gap;
pub use judge::LimitInfo;
pub use lap::{Lap, lap, lap_began};
pub use look::{EYES_M, LookCue, Side, eyes, hour, in_fists, landmark, look};
pub use outcome::Outcome;
pub use people::{People, people};
pub use score::{Score, Scorer};
pub use take_over::{TakeOver, take_over};
pub use track::{Channel, Lacked, TrackMargins, judge_track};
pub use unit::MarginUnit;

/// What a margin is measured to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Limit {
    /// The edge of the boundary.
    Boundary,
    /// An area, by its number in the field.
    Area(usize),
    /// The people at the pilot position, drawn or not.
    PilotPosition,
    /// The flight line.
    FlightLine,
    /// The height limit.
    HeightLimit,
    /// The ground.
    Ground,
    /// An obstacle, by its number in the field.
    Obstacle(usize),
    /// The stall speed at the load wanted at that moment.
    Stall,
    /// The stall speed at the mean load over seconds, against the mean speed over them.
    SpeedHeld,
    /// The maximum bank.
    Bank,
    /// The longest time home.
    TimeHome,
    /// The battery's reserve.
    Energy,
    /// The distance at which the jet's attitude can be seen.
    SightDistance,
    /// The smallest angle at which it can be found again.
    SightAngle,
}

impl Limit {
    /// Whether less than nothing left of it is a crossing. Of the others, only the buffer can be used.
    pub fn crosses(self, field: &Field) -> bool {
        match self {
            Self::Boundary | Self::FlightLine | Self::HeightLimit | Self::Ground | Self::Obstacle(_) => true,
            Self::PilotPosition | Self::Stall | Self::Energy => true,
            Self::Area(index) => field.areas.get(index).is_some_and(|area| area.rule != Rule::Caution),
            Self::SpeedHeld | Self::Bank | Self::TimeHome | Self::SightDistance | Self::SightAngle => false,
        }
    }
}

/// Room about the pilot position that pilot and spotter take, metres: side by side with a step to spare (judgement).
pub const PILOT_SPOT_M: f64 = 3.0;

/// How far from the ring the jet may be and still hold it, metres: where the autopilot too takes itself to be on it.
pub fn held_within_m(radius_m: f64) -> f64 {
    (ON_RING * radius_m).max(ON_RING_M)
}

/// What a margin amounts to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// At least the buffer.
    Clear,
    /// Not crossed; seconds were counted.
    Counted,
    /// Between nothing and the buffer.
    InsideBuffer,
    /// Below nothing, of a limit that can be crossed.
    Crossed,
}

impl Verdict {
    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::Counted => "counted",
            Self::InsideBuffer => "inside the buffer",
            Self::Crossed => "crossed",
        }
    }
}

/// One line of the margins.
#[derive(Debug, Clone, PartialEq)]
pub struct MarginRow {
    /// What it is measured to.
    pub limit: Limit,
    /// The limit's name in print, such as "boundary" or "goat paddock, no-fly".
    pub name: String,
    /// Unit of margin and buffer.
    pub unit: MarginUnit,
    /// What is left; negative is crossed. For `Counted`, the seconds spent over the area.
    pub margin: f64,
    /// What was asked for.
    pub buffer: f64,
    /// What that amounts to.
    pub verdict: Verdict,
    /// When, seconds since the loss.
    pub at_s: f64,
    /// Where, metres.
    pub at: DVec2,
    /// Height above home there, metres.
    pub height_m: f64,
    /// The stretch it falls in, where stretches are known: those of a run are.
    pub stretch: Option<Stretch>,
}

/// Numbers of a recovery that are not margins.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Figures {
    /// Furthest distance from the centre once settled, metres.
    pub furthest_m: Option<f64>,
    /// How far outside the commanded ring joining carried it, metres.
    pub joining_overshoot_m: Option<f64>,
    /// How much further from the centre it still went than it was at the loss, before it turned home, metres.
    pub turn_back_m: f64,
    /// Time of the last settled lap, seconds.
    pub lap_s: Option<f64>,
    /// Share of that lap at the maximum bank.
    pub saturated_share: Option<f64>,
    /// Time from the loss to the circle, truly on it, seconds.
    pub home_s: Option<f64>,
    /// Energy left in the pack when the circle is reached (or at the end), joules.
    pub energy_left_j: f64,
    /// Energy of the last settled lap, joules.
    pub lap_energy_j: Option<f64>,
    /// Laps from reaching the circle to the reserve.
    pub laps_to_reserve: Option<f64>,
    /// Smallest radius the maximum bank holds in still air, in the mean wind and in the gusts, closed form, metres.
    pub smallest_radius_m: [f64; 3],
    /// Wind at circle height, mean and gust, m/s.
    pub wind_at_circle_mps: [f64; 2],
    /// Distance from the loss to the end of the run, for a lost position or a glide, metres.
    pub drift_m: f64,
    /// How far a glide from circle height carries in still air, metres.
    pub glide_footprint_m: f64,
    /// How far on it would fall from circle height, metres.
    pub fall_footprint_m: f64,
}

/// Every margin of a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Margins {
    /// The margins, in the order of [`Limit`].
    pub rows: Vec<MarginRow>,
    /// The other numbers.
    pub figures: Figures,
    /// How it ended.
    pub ending: Ending,
    /// When it ended, seconds since the loss.
    pub end_s: f64,
    /// What the margins do not say, in words.
    pub remarks: Vec<String>,
}

impl Margins {
    /// The worst verdict of all. Neither home nor down, or down because the battery was empty, is crossed as well.
    pub fn verdict(&self) -> Verdict {
        match self.ending {
            Ending::Empty | Ending::OutOfTime => Verdict::Crossed,
            Ending::TakenOver | Ending::Landed => self.worst_margin(),
        }
    }

    /// The worst verdict of the margins alone.
    pub fn worst_margin(&self) -> Verdict {
        self.rows.iter().map(|row| row.verdict).max().unwrap_or(Verdict::Clear)
    }
}

/// Every margin of a run, along the swept path.
pub fn judge(scenario: &Scenario, run: &Run) -> Margins {
    let (judge, trace, setting) = (Judge::new(scenario), &run.trace, setting(scenario));
    let clock = Clock::Steps(trace.step_s);
    let mut gauge = judge.gauge::<f64>(trace.step_s);
    trace.show(&mut gauge);
    let flown = judge.flown(&setting, &run.drawn, gauge.lane(0), clock);
    let (figures, gaps) = judge.measure(&flown);
    Margins {
        rows: rows(&flown, &judge.limits, (&figures, gaps), Some(&trace.stretch)),
        remarks: figures::remarks(&flown, &figures, run.ending),
        figures,
        ending: run.ending,
        end_s: trace.time_s(trace.len() - 1),
    }
}
