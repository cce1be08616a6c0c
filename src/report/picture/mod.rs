//! The studies drawn for paper: the curve of the radius, the rose of wind limits, the map of losses.

pub(super) mod circuit;
pub(super) mod curve;
pub(super) mod field;
mod legend;
mod loss_map;
pub(super) mod losses;
mod page;
pub(super) mod rose;
mod ruler;
mod unit;
mod whisker;

pub use losses::look;
pub(super) use losses::{STRIP, furniture};
pub use rose::{wind_rose, wind_slice};
pub use unit::Unit;

use crate::brief::{Answer, StudyReport};
use crate::draw::Sheet;

/// The picture of a study.
pub(super) fn study(report: &StudyReport) -> Sheet {
    match report.answer {
        Answer::Radius(study) => curve::draw(report, study),
        Answer::WindLimit(study) => rose::draw(report, study),
        Answer::Losses(study) => loss_map::draw(report, study),
    }
}

#[cfg(test)]
mod tests;
