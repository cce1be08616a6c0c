//! The chart of the radius on a page: beside it what lines and marks mean, below it the reasons at the ends of the usable
//! radii.

use glam::DVec2;

use super::page::page;
use super::radius_chart::RadiusChart;
use super::reasons;
use super::unit::PictureUnit;
use crate::brief::StudyReport;
use crate::draw::{Frame, Lettering, Sheet};
use crate::study::radius::RadiusStudy;

/// Room to the right of the chart, for what lines and marks mean.
const KEY: f64 = 60.0;

pub(super) fn draw(report: &StudyReport, study: &RadiusStudy) -> Sheet {
    let (mut sheet, room) = page(report, "which circle holds here");
    curves(&mut sheet, room, study, true);
    sheet
}

/// Draws chart and key in a room, with the reasons at the ends of the usable radii in words below or without them.
pub(in crate::report) fn curves(sheet: &mut Sheet, room: Frame, study: &RadiusStudy, told: bool) {
    let turns = &study.ask.turns;
    let chart = RadiusChart { study: Some(study), turns, ruled: turns, unit: PictureUnit::METRES, shown_m: None };
    let below = if told { reasons::height(study, room.size().x) } else { 0.0 };
    let high = DVec2::new(room.high.x - KEY, room.high.y - below);
    chart.draw(sheet, Frame { low: room.low + DVec2::new(0.0, 1.0), high });
    let beside = Frame { low: DVec2::new(high.x + 2.0, room.low.y + 3.0), high: room.high };
    let foot = chart.key_below(sheet, beside, false);
    if told {
        reasons::tell(sheet, study, Frame { low: DVec2::new(room.low.x, high.y + 4.5), high: room.high });
    } else {
        let at = DVec2::new(beside.low.x, foot + 2.0);
        let words = reasons::closed_form(study);
        let mut tell = |at, told: &String| sheet.paragraph(at, beside.size().x, told, Lettering::new(3.5));
        words.iter().fold(at, |at, told| tell(at, told) + DVec2::new(0.0, 2.0));
    }
}
