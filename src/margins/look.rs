//! Where to look for the jet: seen from the pilot position, which way, how high, beside what, and on which side it
//! lingers.

use glam::{DVec2, DVec3};

use super::{Lap, TakeOver};
use crate::run::{Floor, Scenario};
use crate::units::Bearing;

/// Height of the eyes over the ground at the pilot position, metres (common practice, no source).
pub const EYES_M: f64 = 1.7;
/// A fist at arm's length, degrees (common practice, no source).
const FIST_DEG: f64 = 10.0;
/// A landmark further aside than this is none, degrees.
const ASIDE_DEG: f64 = 20.0;
/// A lap with less than this more of its time on one side has no slow side.
const LINGERS: f64 = 0.51;

/// On which side of the circle, as the pilot sees it, something is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// Behind the middle.
    Far,
    /// Before the middle.
    Near,
}

impl Side {
    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Far => "far",
            Self::Near => "near",
        }
    }
}

/// Where to look.
#[derive(Debug, Clone, PartialEq)]
pub struct LookCue {
    /// The way to the middle of the take-over arc, or of the circle where there is no such arc.
    pub bearing: Bearing,
    /// Hour of a clock whose twelve is where one faces from the pilot position.
    pub clock: u32,
    /// Over the horizon there, degrees.
    pub elevation_deg: f64,
    /// The same in fists at arm's length, to the half.
    pub fists: f64,
    /// Distance along the line of sight there, metres.
    pub slant_m: f64,
    /// Lowest and highest elevation round the lap, degrees.
    pub elevations_deg: [f64; 2],
    /// Nearest and furthest distance along the line of sight round the lap, metres.
    pub slants_m: [f64; 2],
    /// Whether it moves to the right there; none where it comes or goes straight.
    pub to_right: Option<bool>,
    /// The nearest landmark or tall thing in that direction, and how far to the right of it the jet is, degrees.
    pub landmark: Option<(String, f64)>,
    /// The side of the circle on which it stays for longer, with the share of the lap: the half against the wind.
    pub slow: Option<(Side, f64)>,
}

/// Where the pilot's eyes are: metres east, north and above home.
pub fn eyes(scenario: &Scenario) -> DVec3 {
    let pilot = scenario.field.pilot;
    pilot.extend(Floor::of(scenario).height_m(pilot) + EYES_M)
}

/// Where to look for a jet on a lap.
pub fn look(scenario: &Scenario, lap: &Lap, take_over: Option<&TakeOver>) -> LookCue {
    let eyes = eyes(scenario);
    let sights: Vec<DVec3> =
        lap.place.iter().zip(&lap.height_m).map(|(place, height)| place.extend(*height) - eyes).collect();
    let at = take_over.and_then(|part| part.middle(lap));
    let height = scenario.file.recovery.height.m();
    let sight = at.map_or(scenario.field.centre.extend(height) - eyes, |index| sights[index]);
    let bearing = Bearing::of(sight.truncate());
    let ends = |values: &mut dyn Iterator<Item = f64>| {
        values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| [low.min(value), high.max(value)])
    };
    LookCue {
        bearing,
        clock: hour(bearing, scenario.field.facing),
        elevation_deg: elevation(sight),
        fists: in_fists(elevation(sight)),
        slant_m: sight.length(),
        elevations_deg: ends(&mut sights.iter().map(|sight| elevation(*sight))),
        slants_m: ends(&mut sights.iter().map(|sight| sight.length())),
        to_right: at.and_then(|index| {
            let across = -sight.truncate().normalize_or_zero().perp_dot(lap.course(index));
            (across.abs() > 0.2).then_some(across > 0.0)
        }),
        landmark: landmark(scenario, bearing),
        slow: slow(lap, scenario.field.centre - scenario.field.pilot),
    }
}

fn elevation(sight: DVec3) -> f64 {
    sight.z.atan2(sight.truncate().length()).to_degrees()
}

/// From -180 to 180 degrees, positive to the right.
fn aside(bearing: Bearing, of: Bearing) -> f64 {
    (bearing.deg() - of.deg() + 180.0).rem_euclid(360.0) - 180.0
}

/// The hour of a clock whose twelve is where one faces.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 12")]
pub fn hour(bearing: Bearing, facing: Bearing) -> u32 {
    match (aside(bearing, facing).rem_euclid(360.0) / 30.0).round() as u32 % 12 {
        0 => 12,
        hour => hour,
    }
}

/// A height over the horizon, degrees, in fists at arm's length, to the half.
pub fn in_fists(elevation_deg: f64) -> f64 {
    (elevation_deg / FIST_DEG * 2.0).round() / 2.0 + 0.0
}

/// The nearest landmark or tall thing in a direction from the pilot position, and how far to the right of it that is,
/// degrees.
pub fn landmark(scenario: &Scenario, bearing: Bearing) -> Option<(String, f64)> {
    let pilot = scenario.field.pilot;
    let tall = scenario.field.obstacles.iter().map(|obstacle| {
        let (low, high) = obstacle.region.bounds();
        (obstacle.name.as_str(), (low + high) / 2.0)
    });
    let named = scenario.file.brief.landmarks.iter().map(|landmark| (landmark.name.as_str(), landmark.at_m.into()));
    let seen = named.chain(tall).filter(|(_, at): &(&str, DVec2)| *at != pilot);
    let beside = seen.map(|(name, at)| (name.to_owned(), aside(bearing, Bearing::of(at - pilot))));
    beside.filter(|(_, aside)| aside.abs() <= ASIDE_DEG).min_by(|(_, a), (_, b)| a.abs().total_cmp(&b.abs()))
}

/// The half of the circle on which the jet spends most of its time, as seen along a line of sight.
fn slow(lap: &Lap, sight: DVec2) -> Option<(Side, f64)> {
    let out = |index: usize| Bearing::from_deg(lap.at_deg[index]).unit();
    let all = 0..lap.at_deg.len();
    let weight: DVec2 = all.clone().map(|index| out(index) * lap.lasts_s(index)).sum();
    let whole: f64 = all.clone().map(|index| lap.lasts_s(index)).sum();
    let there: f64 = all.filter(|&index| out(index).dot(weight) >= 0.0).map(|index| lap.lasts_s(index)).sum();
    let share = there / whole;
    let (along, across) = (weight.dot(sight), sight.perp_dot(weight));
    let side = match () {
        () if across.abs() > along.abs() => {
            if across > 0.0 {
                Side::Left
            } else {
                Side::Right
            }
        }
        () if along >= 0.0 => Side::Far,
        () => Side::Near,
    };
    (share >= LINGERS).then_some((side, share))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::margins::{lap, take_over};
    use crate::recovery::Turn;
    use crate::run::{Landmark, WindChoice, fly};
    use crate::units::{Length, Speed};

    /// A circle of 100 m, 70 m up, 200 m north of the pilot position, in a wind from a bearing.
    fn seen(wind: f64, from: f64, turn: Turn) -> (Scenario, LookCue) {
        let mut file = Scenario::tight_strip().file;
        file.wind.mean = Speed::new(wind);
        file.wind.gust = Some(Speed::new(wind));
        file.wind.from = Bearing::from_deg(from);
        file.recovery.turn = turn;
        file.recovery.radius = Length::new(115.0);
        file.brief.landmarks = vec![Landmark { name: "spire".into(), at_m: [0.0, 2000.0] }];
        let field = file.field.as_mut().unwrap();
        (field.pilot_m, field.home_m, field.centre_m) = ([0.0, 0.0], [0.0, 10.0], Some([0.0, 200.0]));
        field.obstacles.clear();
        field.ground.clear();
        let scenario = Scenario::from_file(file).unwrap();
        let run = fly(&scenario, 0, WindChoice::Mean);
        let lap = lap(&scenario, &run).unwrap();
        let part = take_over(&scenario, &lap);
        let look = look(&scenario, &lap, part.as_ref());
        (scenario, look)
    }

    #[test]
    fn the_slow_side_is_where_it_flies_against_the_wind() {
        // Wind from the west: clockwise it flies westward on the south side, which is the near one from the south.
        for (from, turn, side) in [
            (270.0, Turn::Clockwise, Side::Near),
            (270.0, Turn::Anticlockwise, Side::Far),
            (0.0, Turn::Clockwise, Side::Left),
            (0.0, Turn::Anticlockwise, Side::Right),
        ] {
            let (_, look) = seen(22.0 / 3.0, from, turn);
            let (found, share) = look.slow.unwrap();
            assert_eq!(found, side, "{from} {turn:?}");
            // A third of the airspeed: 61 % of the lap (closed form, dwell on the half against the wind).
            assert!((share - 0.61).abs() < 0.02, "{share}");
        }
        assert_eq!(seen(0.0, 0.0, Turn::Clockwise).1.slow, None);
    }

    #[test]
    fn heights_of_gaze_and_distances_are_those_of_the_triangle() {
        let (scenario, look) = seen(0.0, 0.0, Turn::Clockwise);
        // By hand: 70 m less the eyes over 115 m about a centre 200 m off.
        let up = 70.0 - EYES_M;
        let [low, high] = [315.0_f64, 85.0].map(|away| up.atan2(away).to_degrees());
        assert!((look.elevations_deg[0] - low).abs() < 0.5 && (look.elevations_deg[1] - high).abs() < 1.0, "{look:?}");
        assert!((look.slants_m[1] - 315.0_f64.hypot(up)).abs() < 3.0, "{look:?}");
        assert_eq!(scenario.field.facing.deg(), 0.0);
        assert!(look.fists > 1.0 && look.fists < 4.5 && look.fists * 2.0 % 1.0 == 0.0);
    }

    #[test]
    fn a_clock_has_twelve_hours_and_a_landmark_is_near_the_line_of_sight() {
        let north = Bearing::from_deg(0.0);
        for (deg, expected) in
            [(0.0, 12), (14.0, 12), (16.0, 1), (90.0, 3), (180.0, 6), (270.0, 9), (344.0, 11), (346.0, 12)]
        {
            assert_eq!(hour(Bearing::from_deg(deg), north), expected, "{deg}");
        }
        let (scenario, _) = seen(0.0, 0.0, Turn::Clockwise);
        let beside = |deg: f64| landmark(&scenario, Bearing::from_deg(deg));
        assert_eq!(beside(5.0).map(|(name, aside)| (name, aside.round())), Some(("spire".into(), 5.0)));
        assert_eq!(beside(350.0).map(|(_, aside)| aside.round()), Some(-10.0));
        assert_eq!(beside(90.0), None);
    }
}
