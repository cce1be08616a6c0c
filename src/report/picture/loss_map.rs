//! The map of losses on a page of its own, with what its signs mean beside it.

use glam::DVec2;

use super::page::page;
use super::{legend, losses};
use crate::brief::StudyReport;
use crate::draw::{Frame, Sheet};
use crate::study::losses::LossStudy;

pub(super) fn draw(report: &StudyReport, study: &LossStudy) -> Sheet {
    let (mut sheet, room) = page(report, "from where a loss is recovered");
    let map_room = Frame { low: room.low, high: room.high - DVec2::new(92.0, 0.0) };
    let map = losses::ground(&mut sheet, map_room, report.scenario, study);
    let beside = Frame { low: DVec2::new(map_room.high.x + 5.0, room.low.y + 3.0), high: room.high };
    legend::draw(&mut sheet, &map, beside, report, study);
    sheet
}
