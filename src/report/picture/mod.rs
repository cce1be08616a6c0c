//! The studies drawn for paper: the curve of the radius, the rose of wind limits, the map of losses.

pub(super) mod circuit;
pub(super) mod curve;
pub(super) mod field;
mod key;
mod kind;
mod legend;
mod level;
mod loss_map;
pub(super) mod losses;
mod page;
mod radius_chart;
mod reasons;
pub(super) mod rose;
mod ruler;
mod u_curve;
mod unit;
mod whisker;
pub(super) mod wind_limit;

pub use losses::look;
pub(super) use losses::{STRIP, furniture};
pub use radius_chart::RadiusChart;
pub use rose::{wind_rose, wind_slice};
pub use unit::PictureUnit;

use crate::brief::{Answer, StudyReport};
use crate::draw::Sheet;

/// The picture of a study.
pub(super) fn study(report: &StudyReport) -> Sheet {
    match report.answer {
        Answer::Radius(study) => curve::draw(report, study),
        Answer::WindLimit(study) => wind_limit::draw(report, study),
        Answer::Losses(study) => loss_map::draw(report, study),
    }
}

#[cfg(test)]
mod tests;
