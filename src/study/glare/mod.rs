//! How much of the lap lies in the glare of the sun, seen from the pilot position, at what time of the day, and from
//! when is it clear?

mod sights;

use time::Date;

use crate::run::{Hours, Run, Scenario, day};
use crate::sun::{Place, Sun, sun_at};

pub use sights::{InGlare, LapPart, Sights};

/// Minutes of a day.
const DAY_MIN: i32 = 1440;
/// Minutes from one moment told to the next.
const EVERY_MIN: i32 = 5;
/// Most that the sun seems to move from one moment to the next, degrees: 1.25 as the earth turns, and what the air's lift
/// begins with below the horizon.
const MOVES_DEG: f64 = 2.0;

/// What is asked of the glare.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GlareAsk {
    /// How near to the middle of the sun the jet counts as in its glare, degrees: more than 0, and 90 at most.
    pub within_deg: f64,
}

impl Default for GlareAsk {
    fn default() -> Self {
        Self { within_deg: 15.0 }
    }
}

/// One moment of the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Minute of the day by the clock on the field.
    pub clock_min: i32,
    /// Where the sun stands.
    pub sun: Sun,
    /// Share of the lap's time in the glare.
    pub share: f64,
    /// Least angle from the jet to the middle of the sun on the lap, degrees.
    pub nearest_deg: f64,
}

/// Where the sun wanders while it is up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sector {
    /// From one azimuth clockwise to the other, degrees from 0 to 360; from 0 to 360 where it goes all the way round.
    pub azimuth_deg: [f64; 2],
    /// Lowest and highest elevation, degrees.
    pub elevation_deg: [f64; 2],
}

/// The glare of one day on the last whole lap of a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Glare {
    /// Whether there is anything to tell: a whole lap was flown, and where the sun stands that day is known. Where not,
    /// every list is empty and nothing is said.
    pub known: bool,
    /// How near to the sun counts as glare, degrees.
    pub within_deg: f64,
    /// Every five minutes of the day while the sun is up.
    pub moments: Vec<Moment>,
    /// First and last minute of every spell of the day with some glare.
    pub spells: Vec<[i32; 2]>,
    /// First and last minute of the flight's hours; none where none are said.
    pub hours: Option<[i32; 2]>,
    /// The moment with most glare within the hours, or of the whole day where none are said, and where there is no glare
    /// the one with the sun nearest to the lap; none while the sun is down all the time.
    pub worst: Option<Moment>,
    /// The parts of the lap in the glare at the worst moment, in the order flown.
    pub parts: Vec<LapPart>,
    /// Where the sun wanders within the hours; none where no hours are said, or the sun is down.
    pub sector: Option<Sector>,
}

impl Glare {
    /// Whether any glare falls within the hours; none where no hours are said.
    pub fn in_hours(&self) -> Option<bool> {
        let [first, last] = self.hours?;
        self.known.then(|| self.spells.iter().any(|[from, to]| *from <= last && first <= *to))
    }

    /// The first minute without glare, at or after one; none where there is some to the end of the day, or nothing is known.
    pub fn clears(&self, clock_min: i32) -> Option<i32> {
        let spell = self.spells.iter().find(|[from, to]| (*from..=*to).contains(&clock_min));
        let over = spell.map_or(clock_min, |[_, to]| to + 1);
        (self.known && over < DAY_MIN).then_some(over)
    }
}

/// The glare on the last whole lap of a run of a scenario, over the whole day by the clock of the hours of its brief, or
/// by UTC where it has none.
pub fn glare(scenario: &Scenario, run: &Run, ask: &GlareAsk) -> Glare {
    let hours = scenario.file.brief.hours.as_ref().and_then(Hours::minutes);
    let mut glare = Glare {
        known: false,
        within_deg: ask.within_deg,
        moments: Vec::new(),
        spells: Vec::new(),
        hours: hours.map(|[from, to, _]| [from, to]),
        worst: None,
        parts: Vec::new(),
        sector: None,
    };
    let Some(sky) = Sky::over(scenario, hours.map_or(0, |[_, _, ahead]| ahead)) else { return glare };
    let Some(lap) = Sights::of(scenario, run) else { return glare };
    let at = |clock_min: i32| {
        let sun = sky.sun(clock_min)?;
        let InGlare { share, nearest_deg } = lap.look(sun, ask.within_deg);
        Some(Moment { clock_min, sun, share, nearest_deg })
    };
    // To the end of the day, so that each has one after it.
    let marks: Vec<Moment> = (0..=DAY_MIN / EVERY_MIN).filter_map(|index| at(index * EVERY_MIN)).collect();
    glare.known = true;
    glare.spells = spells(&marks, ask.within_deg, |minute| at(minute).is_some_and(|moment| moment.share > 0.0));
    let up = |moment: &Moment| moment.sun.is_up() && moment.clock_min < DAY_MIN;
    glare.moments = marks.into_iter().filter(up).collect();

    let [first, last] = glare.hours.unwrap_or([0, DAY_MIN - 1]);
    let within = |minute: &i32| (first..=last).contains(minute);
    // Hours and spells may begin and end between the moments, or lie between two of them.
    let common = glare.spells.iter().map(|&[from, to]| [from.max(first), to.min(last)]);
    let ends = common.flat_map(|[from, to]| [from, i32::midpoint(from, to), to]).chain([first, last]);
    let between: Vec<Moment> = ends.filter(within).filter_map(at).filter(up).collect();
    let mut told: Vec<Moment> = glare.moments.iter().filter(|moment| within(&moment.clock_min)).copied().collect();
    told.extend(between);
    told.sort_by_key(|moment| moment.clock_min);
    let order = |one: &&Moment, other: &&Moment| {
        one.share.total_cmp(&other.share).then(other.nearest_deg.total_cmp(&one.nearest_deg))
    };
    glare.worst = told.iter().max_by(order).copied();
    glare.parts = glare.worst.map_or_else(Vec::new, |moment| lap.parts(moment.sun, ask.within_deg));
    glare.sector = glare.hours.and_then(|_| sector(&told));
    glare
}

/// The sky over the pilot position on the day of the scenario.
struct Sky {
    place: Place,
    day: Date,
    /// What the clock on the field shows ahead of UTC, minutes.
    ahead_min: i32,
}

impl Sky {
    /// None where the day's sun is not known.
    fn over(scenario: &Scenario, ahead_min: i32) -> Option<Self> {
        let (latitude_deg, longitude_deg) = scenario.field.plane.to_degrees(scenario.field.pilot);
        let sky = Self { place: Place { latitude_deg, longitude_deg }, day: day(&scenario.file.date)?, ahead_min };
        sky.sun(0).map(|_| sky)
    }

    /// Where the sun stands at a minute by the clock on the field.
    fn sun(&self, clock_min: i32) -> Option<Sun> {
        sun_at(self.place, self.day, f64::from(clock_min - self.ahead_min))
    }
}

/// First and last minute of every spell with glare. Minutes between two marks are looked at one by one only where the sun
/// might come within the angle, or leave it, or rise or set, between them.
fn spells(marks: &[Moment], within_deg: f64, glares: impl Fn(i32) -> bool) -> Vec<[i32; 2]> {
    let mut spells: Vec<[i32; 2]> = Vec::new();
    for pair in marks.windows(2) {
        let every = |holds: fn(&Moment, f64) -> bool| pair.iter().all(|moment| holds(moment, within_deg));
        let never = every(|moment, within| moment.nearest_deg > within + MOVES_DEG);
        let always =
            every(|moment, within| moment.nearest_deg < within - MOVES_DEG && moment.sun.elevation_deg > MOVES_DEG);
        let minutes = pair[0].clock_min..pair[1].clock_min;
        for minute in minutes.filter(|&minute| !never && (always || glares(minute))) {
            match spells.last_mut() {
                Some(last) if last[1] == minute - 1 => last[1] = minute,
                _ => spells.push([minute, minute]),
            }
        }
    }
    spells
}

/// Where the sun wanders, by moments in the order of time; none where there are none.
fn sector(moments: &[Moment]) -> Option<Sector> {
    let start = moments.first()?.sun.azimuth_deg;
    // Azimuths go on counting past north, either way round.
    let (mut azimuth, mut azimuths, mut elevations) = (start, [start; 2], [f64::INFINITY, f64::NEG_INFINITY]);
    for moment in moments {
        azimuth += (moment.sun.azimuth_deg - azimuth + 180.0).rem_euclid(360.0) - 180.0;
        azimuths = [azimuths[0].min(azimuth), azimuths[1].max(azimuth)];
        elevations = [elevations[0].min(moment.sun.elevation_deg), elevations[1].max(moment.sun.elevation_deg)];
    }
    let all_round = azimuths[1] - azimuths[0] >= 360.0 - 360.0 * f64::from(EVERY_MIN) / f64::from(DAY_MIN);
    let azimuth_deg = if all_round { [0.0, 360.0] } else { azimuths.map(|azimuth| azimuth.rem_euclid(360.0)) };
    Some(Sector { azimuth_deg, elevation_deg: elevations })
}
