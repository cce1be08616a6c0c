//! The last whole lap as seen from the pilot position: which part of it lies how near to the sun?

use glam::{DVec2, DVec3};

use crate::margins::{eyes, lap_began};
use crate::run::{Run, Scenario, Trace};
use crate::sun::Sun;
use crate::units::Bearing;

/// Lines of sight from the eyes at the pilot position to the jet, once round.
#[derive(Debug, Clone, PartialEq)]
pub struct Sights {
    /// From the eyes to the jet, metres: x east, y north, z up; straight ways between them.
    rays: Vec<DVec3>,
    /// When the jet is there, as a share of the lap's time: from 0 to 1, ascending.
    passed: Vec<f64>,
    /// From the centre to the pilot position, metres.
    pilot: DVec2,
}

/// How the lap lies to the sun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InGlare {
    /// Share of the lap's time in which the jet is within the angle asked for; none of it while the sun is down.
    pub share: f64,
    /// Least angle from the jet to the middle of the sun, degrees; while the sun is down too.
    pub nearest_deg: f64,
}

/// A part of the lap, from where the jet enters it to where it leaves it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LapPart {
    /// Share of the lap's time.
    pub share: f64,
    /// Bearings from the centre, degrees, in the order flown.
    pub from_centre_deg: [f64; 2],
    /// Bearings from the pilot position, degrees, in the order flown: which way to look.
    pub from_pilot_deg: [f64; 2],
}

impl Sights {
    /// The last whole lap of a run of a scenario; none where no whole lap of the circle was flown.
    pub fn of(scenario: &Scenario, run: &Run) -> Option<Self> {
        let (trace, field, plan) = (&run.trace, &scenario.field, &run.drawn.plan);
        let began = lap_began(scenario, run)?;
        let eyes = eyes(scenario);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
        let next = began as usize + 1;
        #[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
        let at: Vec<f64> = std::iter::once(began).chain((next..trace.len()).map(|index| index as f64)).collect();
        let jet = |&at: &f64| trace.point_between(at).extend(Trace::between(&trace.height_m, at));
        let rays = at.iter().map(|at| jet(at) - eyes).collect();
        Some(Self::through(rays, &at, field.pilot - DVec2::new(plan.centre_x, plan.centre_y)))
    }

    /// Through places seen from the eyes, each with its time from whenever.
    fn through(rays: Vec<DVec3>, at: &[f64], pilot: DVec2) -> Self {
        let (began, ended) = (at.first().copied().unwrap_or(0.0), at.last().copied().unwrap_or(0.0));
        let passed = at.iter().map(|at| (at - began) / (ended - began)).collect();
        Self { rays, passed, pilot }
    }

    /// How the lap lies to the sun, within an angle of no more than 90 degrees.
    pub fn look(&self, sun: Sun, within_deg: f64) -> InGlare {
        let share = self.stays(sun, within_deg).fold(0.0, |sum, [from, to]| sum + (to - from));
        InGlare { share, nearest_deg: self.nearest_deg(sun.direction()) }
    }

    /// The parts of the lap within an angle of the sun, in the order flown.
    pub fn parts(&self, sun: Sun, within_deg: f64) -> Vec<LapPart> {
        let mut stays: Vec<[f64; 2]> = Vec::new();
        for [from, to] in self.stays(sun, within_deg) {
            match stays.last_mut() {
                Some(last) if last[1] >= from => last[1] = to,
                _ => stays.push([from, to]),
            }
        }
        // What is cut in two by the end of the lap is one part.
        let cut = stays.len() > 1 && stays[0][0] <= 0.0 && stays[stays.len() - 1][1] >= 1.0;
        if let Some([began, _]) = stays.pop_if(|_| cut) {
            stays[0][0] = began - 1.0;
        }
        let part = |[from, to]: [f64; 2]| {
            let ends = [from.rem_euclid(1.0), to].map(|passed| self.ray(passed).truncate());
            LapPart {
                share: to - from,
                from_centre_deg: ends.map(|ray| Bearing::of(ray + self.pilot).deg()),
                from_pilot_deg: ends.map(|ray| Bearing::of(ray).deg()),
            }
        };
        stays.into_iter().map(part).collect()
    }

    /// When the jet is within an angle of the sun: from which to which share of the lap, one a straight way at most.
    fn stays(&self, sun: Sun, within_deg: f64) -> impl Iterator<Item = [f64; 2]> {
        let (axis, cos) = (sun.direction(), within_deg.to_radians().cos().max(0.0));
        let ways = self.rays.windows(2).zip(self.passed.windows(2)).filter(move |_| sun.is_up());
        ways.filter_map(move |(rays, passed)| {
            let stay = inside([rays[0], rays[1]], axis, cos)?;
            // Written so that whole ways meet at the same number.
            Some(stay.map(|share| passed[0] * (1.0 - share) + passed[1] * share))
        })
    }

    /// Least angle to a direction, degrees: that at the nearest sample, or on the ways that lead there and on.
    fn nearest_deg(&self, axis: DVec3) -> f64 {
        let cosine = |ray: &DVec3| axis.dot(*ray) / ray.length();
        let samples = self.rays.iter().map(cosine).enumerate();
        let best = samples.max_by(|one, other| one.1.total_cmp(&other.1)).map_or(0, |(index, _)| index);
        let near = &self.rays[best.saturating_sub(1)..(best + 2).min(self.rays.len())];
        // The lap ends where it began: the nearest sample may be both its first and its last.
        let ends = [&self.rays[..self.rays.len().min(2)], &self.rays[self.rays.len().saturating_sub(2)..]];
        let ways = near.windows(2).chain(ends.into_iter().flat_map(|end| end.windows(2)));
        ways.map(|way| least_angle([way[0], way[1]], axis)).fold(f64::INFINITY, f64::min).to_degrees()
    }

    /// The line of sight once a share of the lap's time has passed.
    fn ray(&self, passed: f64) -> DVec3 {
        let next = self.passed.partition_point(|&before| before <= passed).clamp(1, self.rays.len() - 1);
        let (before, after) = (self.passed[next - 1], self.passed[next]);
        self.rays[next - 1].lerp(self.rays[next], (passed - before) / (after - before))
    }
}

/// From which to which share of a straight way it is inside a cone about a direction, of no more than a quarter turn,
/// given by its cosine. Such a cone is convex, so that a straight way is inside it once at most.
fn inside([from, to]: [DVec3; 2], axis: DVec3, cos: f64) -> Option<[f64; 2]> {
    let step = to - from;
    let (along, gain) = (axis.dot(from), axis.dot(step));
    if along <= 0.0 && along + gain <= 0.0 {
        return None;
    }
    let within = |ray: DVec3| axis.dot(ray) >= cos * ray.length();
    // On the cone where (along + t gain)^2 = cos^2 |from + t step|^2, a t^2 + 2 b t + c = 0.
    let cos2 = cos * cos;
    let a = gain * gain - cos2 * step.length_squared();
    let b = along * gain - cos2 * from.dot(step);
    let c = along * along - cos2 * from.length_squared();
    let root = -(b + (b.powi(2) - a * c).sqrt().copysign(b));
    // The other half of the cone is behind the eyes.
    let crossed = |&t: &f64| t > 0.0 && t < 1.0 && along + t * gain > 0.0;
    let mut crossings = [root / a, c / root].into_iter().filter(crossed);
    match (within(from), within(to)) {
        (true, true) => Some([0.0, 1.0]),
        (true, false) => crossings.next().map(|exit| [0.0, exit]),
        (false, true) => crossings.next().map(|entry| [entry, 1.0]),
        (false, false) => crossings.next().zip(crossings.next()).map(|(one, other)| [one.min(other), one.max(other)]),
    }
}

/// Least angle between the lines of sight to a straight way and a direction, rad.
fn least_angle([from, to]: [DVec3; 2], axis: DVec3) -> f64 {
    let step = to - from;
    let (along, gain, turn) = (axis.dot(from), axis.dot(step), from.dot(step));
    // Where the angle neither grows nor shrinks, which is once on a straight line.
    let still = (along * turn - gain * from.length_squared()) / (gain * turn - along * step.length_squared());
    let ray = |share: f64| from + step * if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
    [0.0, 1.0, still].map(|share| ray(share).angle_between(axis)).into_iter().fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::TAU;

    use proptest::prelude::*;

    use super::*;

    /// Once round a level circle of a radius about a place seen from the eyes, at an even pace, from the east.
    fn round(centre: DVec3, radius: f64, ways: u32) -> Sights {
        let at: Vec<f64> = (0..=ways).map(f64::from).collect();
        let out = |at: &f64| DVec2::from_angle(at / f64::from(ways) * TAU).extend(0.0) * radius;
        Sights::through(at.iter().map(|at| centre + out(at)).collect(), &at, -centre.truncate())
    }

    fn sun(azimuth_deg: f64, elevation_deg: f64) -> Sun {
        Sun { azimuth_deg, elevation_deg }
    }

    #[track_caller]
    fn near(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "found {found}, expected {expected}");
    }

    #[test]
    fn round_the_eyes_the_share_is_an_arc() {
        for (radius, height, elevation_deg, within_deg) in
            [(100.0, 60.0, 20.0, 15.0), (160.0, 60.0, 33.0, 15.0), (70.0, 58.3, 39.8, 2.0), (50.0, 80.0, 70.0, 40.0)]
        {
            let lap = round(DVec3::Z * height, radius, 900);
            // Spherical law of cosines: so far apart in azimuth, places at both elevations are the angle apart.
            let (jet, sky) = (f64::atan2(height, radius), f64::to_radians(elevation_deg));
            let cos = (f64::to_radians(within_deg).cos() - jet.sin() * sky.sin()) / (jet.cos() * sky.cos());
            for azimuth_deg in [0.0, 77.0, 290.0] {
                let found = lap.look(sun(azimuth_deg, elevation_deg), within_deg);
                let share = cos.acos() / (TAU / 2.0);
                near(found.share, share, 0.001 * share);
                near(found.nearest_deg, (jet - sky).abs().to_degrees(), 0.001);
                let parts = lap.parts(sun(azimuth_deg, elevation_deg), within_deg);
                assert_eq!(parts.len(), 1, "{parts:?}");
                near(parts[0].share, share, 0.001 * share);
                // Anticlockwise it is entered at the higher azimuth; seen from the centre as from the pilot position
                // below it.
                let [enters, leaves] = [1.0, -1.0].map(|way| azimuth_deg + way * share * 180.0);
                for (found, expected) in parts[0].from_centre_deg.into_iter().zip([enters, leaves]) {
                    near((found - expected + 180.0).rem_euclid(360.0) - 180.0, 0.0, 0.2);
                }
                near(parts[0].from_centre_deg[0], parts[0].from_pilot_deg[0], 1e-6);
            }
        }
    }

    #[test]
    fn a_circle_far_off_is_halved_by_the_edge_of_the_glare() {
        // Level with the eyes and with the sun, glare ends at a line straight away from the eyes: through the centre it
        // leaves one half of the circle on each side.
        let lap = round(DVec3::new(300.0, 400.0, 0.0), 60.0, 900);
        let centre_deg = Bearing::of(DVec2::new(300.0, 400.0)).deg();
        for side in [-15.0, 15.0] {
            near(lap.look(sun(centre_deg + side, 1e-9), 15.0).share, 0.5, 1e-4);
        }
        near(lap.look(sun(centre_deg, 1e-9), 15.0).share, 1.0, 1e-12);
        near(lap.look(sun(centre_deg + 30.0, 1e-9), 15.0).share, 0.0, 0.0);
        // The tangent from the eyes to the circle.
        near(lap.look(sun(centre_deg + 30.0, 1e-9), 15.0).nearest_deg, 30.0 - f64::asin(0.12).to_degrees(), 0.001);
    }

    #[test]
    fn what_lies_between_two_samples_is_seen() {
        // From 30 degrees to the left of the sun to 30 to the right in one straight way, 10 m off at the nearest.
        let side = 10.0 * f64::to_radians(30.0).tan();
        let rays = vec![DVec3::new(-side, 10.0, 0.0), DVec3::new(side, 10.0, 0.0)];
        let lap = Sights::through(rays, &[0.0, 1.0], DVec2::ZERO);
        let found = lap.look(sun(0.0, 1e-9), 15.0);
        near(found.share, f64::to_radians(15.0).tan() / f64::to_radians(30.0).tan(), 1e-9);
        near(found.nearest_deg, 0.0, 1e-6);
        // Behind the eyes there is no glare.
        near(lap.look(sun(180.0, 1e-9), 15.0).share, 0.0, 0.0);
    }

    #[test]
    fn a_sun_that_is_down_blinds_nobody() {
        let lap = round(DVec3::new(0.0, 200.0, 1.0), 100.0, 200);
        for elevation_deg in [0.0, -0.5, -40.0] {
            let found = lap.look(sun(0.0, elevation_deg), 15.0);
            near(found.share, 0.0, 0.0);
            assert!(found.nearest_deg <= 1.0 - elevation_deg && lap.parts(sun(0.0, elevation_deg), 15.0).is_empty());
        }
    }

    proptest! {
        #[test]
        fn shares_are_shares_and_turning_everything_changes_nothing(
            (x, y, height) in (-400.0..400.0, -400.0..400.0, 5.0..120.0), radius in 20.0..300.0,
            (azimuth, elevation) in (0.0..360.0, -10.0..90.0), within in 1.0..60.0, turned in 0.0..360.0_f64,
        ) {
            let lap = round(DVec3::new(x, y, height), radius, 180);
            let found = lap.look(sun(azimuth, elevation), within);
            prop_assert!((0.0..=1.0 + 1e-12).contains(&found.share));
            prop_assert!((0.0..=180.0).contains(&found.nearest_deg));
            let beyond = found.nearest_deg > within + 1e-6 || elevation <= 0.0;
            // On the very edge rounding may say the one or the other.
            let some = found.share > 0.0 || (found.nearest_deg - within).abs() <= 1e-6 && !beyond;
            prop_assert!(some != beyond, "{found:?}");
            let parts: f64 = lap.parts(sun(azimuth, elevation), within).iter().map(|part| part.share).sum();
            prop_assert!((parts - found.share).abs() < 1e-9);
            // A wider angle takes in no less.
            prop_assert!(lap.look(sun(azimuth, elevation), within + 5.0).share >= found.share - 1e-12);
            let by = DVec2::from_angle(f64::to_radians(-turned));
            let turn = |ray: &DVec3| by.rotate(ray.truncate()).extend(ray.z);
            let other = Sights { rays: lap.rays.iter().map(turn).collect(), pilot: by.rotate(lap.pilot), ..lap };
            let other = other.look(sun(azimuth + turned, elevation), within);
            prop_assert!((other.share - found.share).abs() < 1e-6);
            // The cosine of hardly any angle tells it to no more digits than that.
            prop_assert!((other.nearest_deg - found.nearest_deg).abs() < 1e-5);
        }
    }
}
