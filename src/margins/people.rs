//! How far off people does a recovery pass, and from where would what falls or glides come down on them?

use glam::DVec2;

use super::{Limit, Margins, PILOT_SPOT_M, lap_began, reach};
use crate::field::{Field, Rule};
use crate::geometry::Region;
use crate::run::{Floor, Run, Scenario, Trace};

/// How near one recovery comes to people, and what of it could.
#[derive(Debug, Clone, PartialEq)]
pub struct People {
    /// Least distance over the ground, metres, at any height: that of the margins. Less than nothing is over them.
    pub nearest_m: f64,
    /// To whom: what people call their ground, or "pilot position".
    pub to: String,
    /// Least distance from people to where a fall from anywhere on the way may end, metres; 0 where that is on them.
    pub fall_nearest_m: f64,
    /// To whom.
    pub fall_to: String,
    /// Share of the last whole lap, by time, from which a fall may end on people; none where no whole lap is flown.
    pub fall_share: Option<f64>,
    /// The same of a glide.
    pub glide_share: Option<f64>,
    /// How many areas of people there are that day, beside the pilot position.
    pub areas: usize,
}

/// Ground with people on it.
struct Ground<'a> {
    limit: Limit,
    name: &'a str,
    region: Region,
    /// How far beyond the region it goes, m.
    around_m: f64,
}

impl Ground<'_> {
    /// Height over the people, m, of something at a height above home's ground.
    fn below(&self, floor: &Floor<'_>, at: DVec2, height_m: f64) -> f64 {
        height_m - floor.height_m(self.region.nearest(at).at)
    }

    /// From these people to where something may end that is thrown with a velocity over the ground, m: with more or less
    /// drag that is anywhere from right below to where it goes without.
    fn off_fall(&self, at: DVec2, velocity: DVec2, height_m: f64) -> f64 {
        (self.region.off_piece(at, reach::fall_to(at, velocity, height_m)) - self.around_m).max(0.0)
    }

    /// Whether a glide of a ratio and an airspeed may end on them.
    fn in_glide(&self, at: DVec2, wind: DVec2, glide: [f64; 2], height_m: f64) -> bool {
        let (middle, radius) = reach::glide_over(at, wind, glide, height_m);
        height_m > 0.0 && self.region.off_piece(middle, middle) - self.around_m <= radius
    }
}

/// The areas of people and the pilot position.
fn grounds(field: &Field) -> Vec<Ground<'_>> {
    let areas = field.areas.iter().enumerate().filter(|(_, area)| area.rule == Rule::People);
    let areas = areas.map(|(index, area)| Ground {
        limit: Limit::Area(index),
        name: &area.name,
        region: area.region.clone(),
        around_m: 0.0,
    });
    let pilot = Ground {
        limit: Limit::PilotPosition,
        name: "pilot position",
        region: Region::point(field.pilot),
        around_m: PILOT_SPOT_M,
    };
    areas.chain([pilot]).collect()
}

/// Velocity over the ground at a sample, m/s: to the next one, of the last one from the one before.
fn velocity(trace: &Trace, index: usize) -> DVec2 {
    let from = index.min(trace.len().saturating_sub(2));
    let to = (from + 1).min(trace.len() - 1);
    (trace.point(to) - trace.point(from)) / trace.step_s
}

/// What a run with its margins has to say about people.
///
/// A fall is thrown as fast as the jet moves over the ground, level, without drag; a glide is the flattest one, any way
/// round, in the run's mean wind at the height where it begins.
pub fn people(scenario: &Scenario, run: &Run, margins: &Margins) -> People {
    let (grounds, floor, trace) = (grounds(&scenario.field), Floor::of(scenario), &run.trace);
    let glide = [run.drawn.jet.glide_ratio(), run.drawn.jet.glide_speed()];
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
    let lap = lap_began(scenario, run).map(|from| from.ceil() as usize);
    let [mut falls, mut glides, mut samples] = [0.0; 3];
    let mut fall = (f64::INFINITY, "");
    for index in 0..trace.len() {
        let (at, height, velocity) = (trace.point(index), trace.height_m[index], velocity(trace, index));
        let off =
            grounds.iter().map(|ground| (ground.off_fall(at, velocity, ground.below(&floor, at, height)), ground.name));
        let nearest = off.min_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or(fall);
        if nearest.0 < fall.0 {
            fall = nearest;
        }
        if lap.is_some_and(|from| index >= from) {
            let wind = run.drawn.wind.at(scenario.file.wind.profile, height);
            let wind = DVec2::new(wind.x, wind.y);
            let reached = |ground: &Ground<'_>| ground.in_glide(at, wind, glide, ground.below(&floor, at, height));
            samples += 1.0;
            falls += f64::from(u8::from(nearest.0 <= 0.0));
            glides += f64::from(u8::from(grounds.iter().any(reached)));
        }
    }
    let passed = margins.rows.iter().filter_map(|row| {
        let ground = grounds.iter().find(|ground| ground.limit == row.limit)?;
        Some((row.margin, ground.name))
    });
    let (nearest_m, to) = passed.min_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or((f64::INFINITY, ""));
    let share = |count: f64| (samples > 0.0).then(|| count / samples);
    People {
        nearest_m,
        to: to.into(),
        fall_nearest_m: fall.0,
        fall_to: fall.1.into(),
        fall_share: share(falls),
        glide_share: share(glides),
        areas: grounds.len() - 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::margins::judge;
    use crate::run::{ScenarioFile, WindChoice, fly};
    use crate::units::{Bearing, Speed};

    fn ground(corners: &[[f64; 2]], around_m: f64) -> Ground<'static> {
        let region = match corners {
            [at] => Region::point(DVec2::from(*at)),
            ring => Region::new(&ring.iter().map(|&at| at.into()).collect::<Vec<_>>(), &[]),
        };
        Ground { limit: Limit::Boundary, name: "pits", region, around_m }
    }

    const BOX: [[f64; 2]; 4] = [[100.0, -20.0], [140.0, -20.0], [140.0, 20.0], [100.0, 20.0]];

    #[test]
    fn a_fall_ends_between_right_below_and_where_it_goes_without_drag() {
        // From 78.453 m it takes 4 s (g t^2 / 2, g = 9.80665 m/s^2): at 20 m/s it goes 80 m.
        let (pits, height) = (ground(&BOX, 0.0), 0.5 * 9.806_65 * 16.0);
        let off = |at: [f64; 2], velocity: [f64; 2]| pits.off_fall(at.into(), velocity.into(), height);
        for (at, velocity, wanted) in [
            ([0.0, 0.0], [20.0, 0.0], 20.0),
            // Thrown the other way it is nearest right below the jet.
            ([0.0, 0.0], [-20.0, 0.0], 100.0),
            // Past a corner: 3 and 4 m off it.
            ([60.0, 24.0], [-20.0, 0.0], 40.0_f64.hypot(4.0)),
            // Over it on the way, though it goes on beyond.
            ([90.0, 0.0], [20.0, 0.0], 0.0),
            ([120.0, 0.0], [20.0, 0.0], 0.0),
        ] {
            approx::assert_abs_diff_eq!(off(at, velocity), wanted, epsilon = 1e-9);
        }
        approx::assert_abs_diff_eq!(
            ground(&[[100.0, 0.0]], 3.0).off_fall(DVec2::ZERO, DVec2::new(20.0, 0.0), height),
            17.0,
            epsilon = 1e-9
        );
    }

    #[test]
    fn a_glide_goes_as_far_downwind_as_its_ratio_and_the_wind_say() {
        // 8 to 1 from 50 m at 16 m/s: 400 m in 25 s, and 6 m/s of wind take it 150 m on: 550 m with it, 250 m against it.
        let (wind, glide) = (DVec2::new(6.0, 0.0), [8.0, 16.0]);
        let reached = |at: [f64; 2]| ground(&[at], 3.0).in_glide(DVec2::ZERO, wind, glide, 50.0);
        assert!(reached([552.9, 0.0]) && !reached([553.1, 0.0]));
        assert!(reached([-252.9, 0.0]) && !reached([-253.1, 0.0]));
        assert!(reached([150.0, 402.9]) && !reached([150.0, 403.1]));
        assert!(ground(&BOX, 0.0).in_glide(DVec2::new(120.0, 0.0), DVec2::ZERO, glide, 1.0), "right over them");
        // In a wind faster than the glide what lies below is never reached.
        assert!(!ground(&[[0.0, 0.0]], 3.0).in_glide(DVec2::ZERO, DVec2::new(20.0, 0.0), glide, 50.0));
    }

    fn flown(edit: impl FnOnce(&mut ScenarioFile)) -> People {
        let mut file = Scenario::demo().file;
        edit(&mut file);
        let scenario = Scenario::from_file(file).unwrap();
        let run = fly(&scenario, 0, WindChoice::Mean);
        people(&scenario, &run, &judge(&scenario, &run))
    }

    /// A circle of 140 m about (10, 200) in a calm, the pilot position at (0, -22) the nearest people.
    #[test]
    fn shares_are_of_the_lap_and_follow_the_height() {
        let calm = |file: &mut ScenarioFile| {
            (file.wind.mean, file.wind.gust) = (Speed::new(0.0), Some(Speed::new(0.0)));
            file.wind.from = Bearing::from_deg(0.0);
        };
        let high = flown(calm);
        assert_eq!((high.fall_share, high.glide_share), (Some(0.0), Some(1.0)), "{high:?}");
        assert!(high.nearest_m > high.fall_nearest_m && high.fall_nearest_m > 0.0, "{high:?}");
        // By the law of cosines: the part of the circle that is no further from the spot than a glide from 30 m carries.
        let file = Scenario::demo().file;
        let reach = 30.0 * crate::jet::JetNumbers::new(&file.jet, file.air.density()).glide_ratio() + PILOT_SPOT_M;
        let away = 10.0_f64.hypot(222.0);
        let cosine = (140.0 * 140.0 + away * away - reach * reach) / (2.0 * 140.0 * away);
        let low = flown(|file| {
            calm(file);
            file.recovery.height = crate::units::Length::new(30.0);
            file.loss.height = crate::units::Length::new(30.0);
        });
        let share = low.glide_share.unwrap();
        approx::assert_abs_diff_eq!(share, cosine.acos() / std::f64::consts::PI, epsilon = 0.02);
    }

    #[test]
    fn without_a_lap_there_are_no_shares() {
        let found = flown(|file| file.recovery.failsafe_action = crate::recovery::FailsafeAction::Cut);
        assert_eq!((found.fall_share, found.glide_share), (None, None));
    }
}
