//! What was flown against every limit of its scenario: the figures, and a gap a limit.

use glam::DVec3;

use super::Verdict;
use super::clock::Clock;
use super::figures::{Standard, figures};
use super::flown::Flown;
use super::gauge::Gauge;
use super::seen::Seen;
use super::{Figures, Gap, Limit, MarginUnit};
use crate::field::Rule;
use crate::geometry::Region;
use crate::lane::Lane;
use crate::run::{Floor, HeightAbove, Scenario, Setting, Trial, setting};

/// A limit that every recovery of a scenario is measured against.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitInfo {
    /// Which.
    pub limit: Limit,
    /// Its name in print, such as "boundary" or "goat paddock, no-fly".
    pub name: String,
    /// Unit of its margins.
    pub unit: MarginUnit,
    /// Whether it can be crossed: see [`Limit::crosses`].
    pub crosses: bool,
}

/// What judging needs of a scenario, worked out once.
#[derive(Debug, Clone)]
pub(super) struct Judge<'a> {
    scenario: &'a Scenario,
    floor: Floor<'a>,
    standard: Standard,
    /// The pilot position, as ground to keep off.
    pilot: Region,
    pub(super) limits: Vec<LimitInfo>,
}

impl<'a> Judge<'a> {
    pub(super) fn new(scenario: &'a Scenario) -> Self {
        let (pilot, limits) = (Region::point(scenario.field.pilot), limits(scenario));
        Self { scenario, floor: Floor::of(scenario), standard: Standard::of(scenario), pilot, limits }
    }

    /// What notes the recoveries down.
    pub(super) fn gauge<L: Lane>(&self, step_s: f64) -> Gauge<'_, L> {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked to be a few seconds")]
        let window = (self.scenario.file.limits.stall_over.s() / step_s).round().max(1.0) as usize;
        self.gauge_over(window)
    }

    /// The same with a number of samples that a speed has to last.
    pub(super) fn gauge_over<L: Lane>(&self, window: usize) -> Gauge<'_, L> {
        let regions = self.limits.iter().map(|info| self.region(info.limit).filter(|region| region.is_plain()));
        Gauge::new(self.eye(), window, regions.collect(), self.scenario.field.flight_line)
    }

    /// The region that a limit keeps the jet in or off.
    fn region(&self, limit: Limit) -> Option<&Region> {
        let field = &self.scenario.field;
        match limit {
            Limit::Boundary => Some(&field.boundary),
            Limit::Area(index) => {
                Some(&field.areas[index]).filter(|area| area.rule != Rule::Caution).map(|area| &area.region)
            }
            Limit::PilotPosition => Some(&self.pilot),
            Limit::Obstacle(index) => Some(&field.obstacles[index].region),
            _ => None,
        }
    }

    /// Where the jet is seen from: the pilot position, east, north and above home's ground.
    fn eye(&self) -> DVec3 {
        let pilot = self.scenario.field.pilot;
        pilot.extend(self.floor.height_m(pilot))
    }

    /// What has been flown.
    pub(super) fn flown<'b, L>(
        &'b self,
        setting: &'b Setting,
        drawn: &'b Trial,
        seen: Seen<'b, L>,
        clock: Clock<'b>,
    ) -> Flown<'b, L> {
        Flown { scenario: self.scenario, setting, floor: self.floor, drawn, seen, clock }
    }

    /// Its figures, and what is left to every limit; none where a limit did not apply.
    pub(super) fn measure<L: Lane>(&self, flown: &Flown<'_, L>) -> (Figures, Vec<Option<Gap>>) {
        let figures = figures(flown, &self.standard);
        let field = &self.scenario.field;
        let [mut distance, mut angle] = flown.sight().map(Some);
        let gaps = self.limits.iter().enumerate().map(|(place, info)| match info.limit {
            Limit::Boundary => flown.boundary(place),
            Limit::Area(index) => flown.area(place, &field.areas[index]),
            Limit::PilotPosition => flown.pilot_position(place, &self.pilot),
            Limit::FlightLine => flown.flight_line(),
            Limit::HeightLimit => {
                self.scenario.file.limits.height_limit.and_then(|height_limit| flown.height_limit(height_limit))
            }
            Limit::Ground => flown.over_ground(),
            Limit::Obstacle(index) => flown.obstacle(place, &field.obstacles[index]),
            Limit::Stall => Some(flown.stall()),
            Limit::SpeedHeld => Some(flown.speed_held()),
            Limit::Bank => flown.bank(),
            Limit::TimeHome => flown.time_home(&figures),
            Limit::Energy => Some(flown.energy(&figures)),
            Limit::SightDistance => distance.take(),
            Limit::SightAngle => angle.take(),
        });
        let softened = self.limits.iter().zip(gaps).map(|(info, gap)| {
            gap.map(
                |gap| if info.crosses { gap } else { Gap { verdict: gap.verdict.min(Verdict::InsideBuffer), ..gap } },
            )
        });
        let gaps = softened.collect();
        (figures, gaps)
    }
}

/// The limits of a scenario, in the order of [`Limit`].
fn limits(scenario: &Scenario) -> Vec<LimitInfo> {
    use MarginUnit::{Degrees, Metres, MetresASecond, Seconds, WattHours};
    let field = &scenario.field;
    let info =
        |limit: Limit, name: &str, unit| LimitInfo { limit, name: name.into(), unit, crosses: limit.crosses(field) };
    let mut limits = vec![info(Limit::Boundary, "boundary", Metres)];
    limits.extend(field.areas.iter().enumerate().filter_map(|(index, area)| {
        let (name, unit) = match area.rule {
            Rule::Idle => return None,
            Rule::NoFly => (format!("{}, no-fly", area.name), Metres),
            Rule::Above(height_m) => (format!("{}, above {height_m:.0} m", area.name), Metres),
            Rule::People => (format!("{}, people", area.name), Metres),
            Rule::Caution => (format!("{}, caution", area.name), Seconds),
        };
        Some(info(Limit::Area(index), &name, unit))
    }));
    limits.push(info(Limit::PilotPosition, "pilot position", Metres));
    limits.extend(field.flight_line.map(|_| info(Limit::FlightLine, "flight line", Metres)));
    limits.extend(
        scenario
            .file
            .limits
            .height_limit
            .map(|height_limit| info(Limit::HeightLimit, height_limit_name(height_limit.above), Metres)),
    );
    let cuts = setting(scenario).cuts();
    limits.extend((!cuts).then(|| info(Limit::Ground, "height over the ground", Metres)));
    limits.extend(
        field
            .obstacles
            .iter()
            .enumerate()
            .map(|(index, obstacle)| info(Limit::Obstacle(index), &format!("obstacle: {}", obstacle.name), Metres)),
    );
    limits.extend([
        info(Limit::Stall, "stall speed", MetresASecond),
        info(Limit::SpeedHeld, "speed held", MetresASecond),
        info(Limit::Bank, "maximum bank", Degrees),
    ]);
    limits.extend((!cuts).then(|| info(Limit::TimeHome, "time home", Seconds)));
    limits.extend([
        info(Limit::Energy, "energy over reserve", WattHours),
        info(Limit::SightDistance, "attitude seen from the pilot position", Metres),
        info(Limit::SightAngle, "size seen from the pilot position", Degrees),
    ]);
    limits
}

fn height_limit_name(above: HeightAbove) -> &'static str {
    match above {
        HeightAbove::Ground => "height limit over the ground",
        HeightAbove::Home => "height limit over home",
    }
}
