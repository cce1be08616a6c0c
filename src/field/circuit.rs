//! Where the jet is flown: places, courses and curvatures of a closed line, places of an area.

use glam::DVec2;

use super::build::{point, region};
use super::{CircuitFile, Way};
use crate::geometry::Region;

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
}
