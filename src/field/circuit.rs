//! Where the jet is flown: places, courses and curvatures of a closed line, places of an area.

use std::f64::consts::PI;

use glam::DVec2;

use super::corners::{point, region};
use super::file::{charge_high, charge_low, circuit_width};
use super::{CircuitFile, Metres, Way};
use crate::geometry::Region;
use crate::units::{Length, Speed};

/// Most places tried for one in an area: ground that is a hundredth of its bounds is missed once in 10^43.
const MOST_TRIES: usize = 10_000;

/// A closed line, measured along it from its first corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Loop {
    /// Corners in order, without those that repeat the one before.
    pub corners: Vec<DVec2>,
    /// Distance along the line of the end of each edge, metres; the last is the whole length.
    ends_m: Vec<f64>,
}

impl Loop {
    /// The line through corners of which the last joins the first.
    pub fn new(corners: &[DVec2]) -> Self {
        let mut corners = corners.to_vec();
        corners.dedup();
        while corners.len() > 1 && corners.first() == corners.last() {
            corners.pop();
        }
        let next = corners.iter().cycle().skip(1);
        let ends_m = corners.iter().zip(next).scan(0.0, |so_far, (a, b)| {
            *so_far += a.distance(*b);
            Some(*so_far)
        });
        Self { ends_m: ends_m.collect(), corners }
    }

    /// Its whole length, metres.
    pub fn length_m(&self) -> f64 {
        self.ends_m.last().copied().unwrap_or_default()
    }

    /// The place a distance along, metres; every whole length comes back to the same.
    pub fn place(&self, along_m: f64) -> DVec2 {
        let length = self.length_m();
        let along = if length > 0.0 { along_m.rem_euclid(length) } else { 0.0 };
        let edge = self.ends_m.partition_point(|&end| end <= along).min(self.corners.len().saturating_sub(1));
        let Some(&from) = self.corners.get(edge) else { return DVec2::ZERO };
        let to = self.corners[(edge + 1) % self.corners.len()];
        let start = if edge > 0 { self.ends_m[edge - 1] } else { 0.0 };
        let edge_m = self.ends_m[edge] - start;
        if edge_m > 0.0 { from.lerp(to, (along - start) / edge_m) } else { from }
    }

    /// Course at a distance along, a unit vector: the chord over a window about it, because a jet rounds a corner.
    pub fn course(&self, along_m: f64, window_m: f64) -> DVec2 {
        let half = window_m / 2.0;
        (self.place(along_m + half) - self.place(along_m - half)).normalize_or(DVec2::Y)
    }

    /// Curvature at a distance along, 1/m, positive to the right: the change of course over the window.
    ///
    /// Where a straight turns by an angle, the most is that angle over the window: a quarter turn of radius `r` is
    /// flown as one of that radius over a window of `r pi / 2`.
    pub fn curvature(&self, along_m: f64, window_m: f64) -> f64 {
        let half = window_m / 2.0;
        let (before, after) = (self.course(along_m - half, window_m), self.course(along_m + half, window_m));
        after.angle_to(before) / window_m
    }
}

/// Lowest and highest height of a circuit until somebody has said otherwise, m: judgement, low enough to see by the
/// picture and high enough to lose it in.
const HEIGHTS: [Length; 2] = [Length::new(40.0), Length::new(80.0)];
/// Judgement: radius of the ends of a circuit nobody has drawn, m. 22 m/s in 40 deg of bank.
const END_RADIUS: f64 = 60.0;
/// Judgement: half the straight of such a circuit, m.
const HALF_STRAIGHT: f64 = 80.0;
/// Judgement: its near straight in front of the runway, m. Half a turn at 22 m/s in 35 deg of bank, 2 x 70.5 m, ends before
/// a flight line 12 m behind the runway; a faster jet needs more, and trials say whether it has it.
const IN_FRONT: f64 = 135.0;
/// Corners of each of its ends.
const END_CORNERS: u32 = 7;

impl CircuitFile {
    /// A closed line flown both ways at airspeeds from slowest to fastest, everything else as it is left out.
    pub fn of_line(line_m: Vec<Metres>, [slowest, fastest]: [Speed; 2]) -> Self {
        let ([lowest, highest], area_m, way) = (HEIGHTS, vec![], Way::default());
        let (width, charge_low, charge_high) = (circuit_width(), charge_low(), charge_high());
        Self { line_m, area_m, way, width, lowest, highest, slowest, fastest, charge_low, charge_high }
    }

    /// A circuit along a runway, between its ends, on the side of it away from the people.
    pub fn along(runway: [Metres; 2], people: Metres, speeds: [Speed; 2]) -> Self {
        let [from, to, people] = [runway[0], runway[1], people].map(point);
        let along = (to - from).normalize_or(DVec2::X);
        let middle = from.midpoint(to);
        let front = along.perp() * if along.perp_dot(people - middle) > 0.0 { -1.0 } else { 1.0 };
        let centre = middle + front * (IN_FRONT + END_RADIUS);
        let end = |way: f64| {
            (0..END_CORNERS).map(move |corner| {
                let angle = PI * f64::from(corner) / f64::from(END_CORNERS - 1);
                let round = (along * angle.sin() - front * angle.cos()) * END_RADIUS;
                let at = centre + (along * HALF_STRAIGHT + round) * way;
                // To a decimetre, as people write.
                at.to_array().map(|metres| (metres * 10.0).round() / 10.0 + 0.0)
            })
        };
        Self::of_line(end(1.0).chain(end(-1.0)).collect(), speeds)
    }
}

/// A line or an area.
#[derive(Debug, Clone)]
pub enum Where {
    /// Along a closed line.
    Line(Loop),
    /// Anywhere over an area, at any heading.
    Area(Region),
}

/// Where the jet is flown, and how.
#[derive(Debug, Clone)]
pub struct Circuit {
    /// The ground flown over.
    pub place: Where,
    /// Which way round.
    pub way: Way,
    /// How far to the side of the line: one standard deviation, metres.
    pub width_m: f64,
    /// Lowest and highest height above home, metres.
    pub heights_m: [f64; 2],
    /// Slowest and fastest airspeed, m/s.
    pub speeds_mps: [f64; 2],
    /// Least and most of the rated energy left.
    pub charges: [f64; 2],
}

impl Circuit {
    /// A circuit that has passed its check.
    pub(super) fn new(file: &CircuitFile) -> Self {
        let place = if file.area_m.is_empty() {
            Where::Line(Loop::new(&file.line_m.iter().copied().map(point).collect::<Vec<_>>()))
        } else {
            Where::Area(region(&file.area_m, &[]))
        };
        Self {
            place,
            way: file.way,
            width_m: file.width.m(),
            heights_m: [file.lowest.m(), file.highest.m()],
            speeds_mps: [file.slowest.mps(), file.fastest.mps()],
            charges: [file.charge_low.share(), file.charge_high.share()],
        }
    }

    /// A place in an area, every one as likely, from numbers uniform between 0 and 1.
    pub fn place_in(area: &Region, mut share: impl FnMut() -> f64) -> DVec2 {
        let (low, high) = area.bounds();
        let mut anywhere = || low + (high - low) * DVec2::new(share(), share());
        let inside = (0..MOST_TRIES).map(|_| anywhere()).find(|&at| area.contains(at));
        // Only ground that is next to nothing of its bounds is missed so often; its edge is as good as its inside.
        inside.unwrap_or_else(|| area.nearest(low.midpoint(high)).at)
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use approx::assert_abs_diff_eq;

    use super::*;

    /// Anticlockwise from its south-western corner, 100 m a side.
    fn square() -> Loop {
        Loop::new(&[DVec2::ZERO, DVec2::new(100.0, 0.0), DVec2::splat(100.0), DVec2::new(0.0, 100.0), DVec2::ZERO])
    }

    #[track_caller]
    fn near(found: DVec2, x: f64, y: f64) {
        assert_abs_diff_eq!(found.distance(DVec2::new(x, y)), 0.0, epsilon = 1e-9);
    }

    #[test]
    fn a_square_by_hand() {
        let line = square();
        assert_eq!(line.length_m(), 400.0);
        near(line.place(30.0), 30.0, 0.0);
        near(line.place(130.0), 100.0, 30.0);
        near(line.place(-30.0), 0.0, 30.0);
        near(line.place(830.0), 30.0, 0.0);
        near(line.course(50.0, 40.0), 1.0, 0.0);
        near(line.course(150.0, 40.0), 0.0, 1.0);
        // At a corner the chord cuts it evenly.
        near(line.course(100.0, 40.0), 0.5_f64.sqrt(), 0.5_f64.sqrt());
        assert_abs_diff_eq!(line.curvature(50.0, 40.0), 0.0, epsilon = 1e-12);
        // A quarter turn to the left over 40 m.
        assert_abs_diff_eq!(line.curvature(100.0, 40.0), -FRAC_PI_2 / 40.0, epsilon = 1e-12);
    }

    #[test]
    fn a_circle_turns_by_one_over_its_radius() {
        // Clockwise, from north to east: positive, to the right. Closed form; 720 corners are a circle to 1e-5.
        let corners: Vec<_> = (0..720).map(|i| DVec2::from_angle(-f64::from(i) * PI / 360.0) * 80.0).collect();
        let line = Loop::new(&corners);
        for along in [0.0, 77.0, 300.0] {
            assert_abs_diff_eq!(line.curvature(along, 60.0), 1.0 / 80.0, epsilon = 1e-4);
        }
    }

    #[test]
    fn a_circuit_along_a_runway_lies_wholly_in_front_of_the_people() {
        let speeds = [Speed::new(20.0), Speed::new(30.0)];
        for people in [[0.0, -15.0], [0.0, 15.0]] {
            let flown = CircuitFile::along([[-60.0, 0.0], [60.0, 0.0]], people, speeds);
            let near = flown.line_m.iter().map(|at| -at[1] * people[1].signum()).fold(f64::INFINITY, f64::min);
            // Three standard deviations sideways are still beyond the runway's centre line.
            assert!(near > 3.0 * flown.width.m(), "{near}");
            let line = Loop::new(&flown.line_m.iter().copied().map(point).collect::<Vec<_>>());
            // Two straights of 160 m and two half circles of 60 m, less what chords of 30 degrees cut off.
            let chords = 12.0 * 2.0 * 60.0 * 15.0_f64.to_radians().sin();
            assert_abs_diff_eq!(line.length_m(), 320.0 + chords, epsilon = 0.5);
        }
    }
}
