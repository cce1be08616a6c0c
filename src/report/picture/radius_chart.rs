//! What is drawn of a study of radii, on paper and in the window, and where on its axes.

use glam::DVec2;

use super::unit::PictureUnit;
use crate::draw::Axes;
use crate::recovery::Turn;
use crate::study::radius::{RadiusPoint, RadiusStudy};

/// What is drawn of a study of radii.
#[derive(Debug, Clone, Copy)]
pub struct RadiusChart<'a> {
    /// The study; without one the axes are those of the usual question.
    pub study: Option<&'a RadiusStudy>,
    /// Ways round with a curve.
    pub turns: &'a [Turn],
    /// Ways round with their usable radii on the ruler.
    pub ruled: &'a [Turn],
    /// PictureUnit of all distances.
    pub unit: PictureUnit<'a>,
    /// A radius that has to be on the axis, metres.
    pub shown_m: Option<f64>,
}

impl RadiusChart<'_> {
    /// The points of the ways round that have a curve.
    pub(super) fn points(&self) -> impl Iterator<Item = &RadiusPoint> + Clone {
        let points = self.study.into_iter().flat_map(|study| &study.points);
        points.filter(|point| self.turns.contains(&point.turn))
    }
}

/// A chart with its study and axes.
pub(super) struct Plot<'a> {
    pub(super) chart: RadiusChart<'a>,
    pub(super) study: &'a RadiusStudy,
    pub(super) axes: Axes,
}

impl Plot<'_> {
    /// The place of a radius and a distance, metres.
    pub(super) fn at(&self, radius_m: f64, distance_m: f64) -> DVec2 {
        self.axes.at(self.chart.unit.of(radius_m), self.chart.unit.of(distance_m))
    }
}
