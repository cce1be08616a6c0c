//! The chart of the radius on a page: beside it what lines and marks mean, below it the reasons at the ends of the usable
//! radii.

use glam::DVec2;

use super::page::page;
use super::radius_chart::RadiusChart;
use super::reasons;
use super::unit::PictureUnit;
use crate::brief::StudyReport;
use crate::draw::{Axes, Fill, Frame, Ink, Lettering, Pen, Sheet, width_mm};
use crate::recovery::RecoveryPlan;
use crate::study::radius::RadiusStudy;
use crate::words::way;

/// Room to the right of the chart, for what lines and marks mean.
const KEY: f64 = 60.0;
/// Room above it for the plan's own radius, mm.
const OWN: f64 = 6.0;
const LETTERS: f64 = 3.6;

pub(super) fn draw(report: &StudyReport, study: &RadiusStudy) -> Sheet {
    let (mut sheet, room) = page(report, "which circle holds here");
    curves(&mut sheet, room, study, &report.scenario.file.recovery, true);
    sheet
}

/// Draws chart and key in a room, with the reasons at the ends of the usable radii in words below or without them.
pub(in crate::report) fn curves(sheet: &mut Sheet, room: Frame, study: &RadiusStudy, plan: &RecoveryPlan, told: bool) {
    let turns = &study.ask.turns;
    let shown_m = Some(plan.radius.m());
    let chart = RadiusChart { study: Some(study), turns, ruled: turns, unit: PictureUnit::METRES, shown_m };
    let below = if told { reasons::height(study, room.size().x) } else { 0.0 };
    let high = DVec2::new(room.high.x - KEY, room.high.y - below);
    let axes = chart.draw(sheet, Frame { low: room.low + DVec2::new(0.0, 1.0 + OWN), high });
    own(sheet, &axes, plan, room.low.y + 1.0);
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

/// The plan's own radius: named above everything, with a line down through ruler and curves. It is solid and thin, so that
/// it is told apart from the pointer of a recommended radius that is the same.
fn own(sheet: &mut Sheet, axes: &Axes, plan: &RecoveryPlan, top: f64) {
    let x = axes.at(plan.radius.m(), axes.y.from).x;
    let foot = top + OWN - 1.6;
    sheet.line([DVec2::new(x, foot), DVec2::new(x, axes.frame.high.y)], Pen::plain(Ink::BLACK, 0.35));
    let corners = [(0.0, 0.0), (1.6, -2.6), (-1.6, -2.6)].map(|(right, down)| DVec2::new(x + right, foot + down));
    sheet.ring(corners, None, Fill::Plain(Ink::BLACK));
    let told = format!("this plan: {}", way(plan.radius.m(), plan.turn));
    let words = Lettering::new(LETTERS).bold();
    let fits = x + 3.0 + width_mm(&told, LETTERS, true) < axes.frame.high.x + 4.0;
    let (away, words) = if fits { (3.0, words) } else { (-3.0, words.end()) };
    sheet.words(DVec2::new(x + away, foot), told, words);
}
