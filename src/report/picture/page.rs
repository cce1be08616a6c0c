//! What every picture has around it: title, answer, origin, caution.

use glam::DVec2;

use crate::brief::StudyReport;
use crate::draw::{Frame, Ink, Lettering, Pen, Sheet};
use crate::words::cautions::FOOT;

/// A4, lying.
const SIZE: DVec2 = DVec2::new(297.0, 210.0);
/// Paper left free on every side: printers don't reach the edge.
const EDGE: f64 = 11.0;

/// A page with its head and foot, and the room between them.
pub(super) fn page(report: &StudyReport, title: &str) -> (Sheet, Frame) {
    let answer = report.headline();
    let name = &report.scenario.file.name;
    let mut sheet = Sheet::new(SIZE.x, SIZE.y, format!("{name}: {title}"), format!("{answer} {FOOT}"));
    let width = SIZE.x - 2.0 * EDGE;
    let at = DVec2::new(EDGE, EDGE + 6.0);
    sheet.words(at, format!("{name}: {title}"), Lettering::new(7.0).bold());
    // A long answer is set smaller, so that the picture keeps its room.
    let long = crate::draw::lines(&answer, 4.2, false, width).len() > 3;
    let body = sheet.paragraph(at + DVec2::new(0.0, 7.0), width, &answer, Lettering::new(if long { 3.5 } else { 4.2 }));

    let stamp = Lettering::new(3.0).ink(Ink::SOFT);
    let lines = crate::draw::lines(&report.stamp(), 3.0, false, width).len();
    let foot = SIZE.y - EDGE;
    #[allow(clippy::cast_precision_loss, reason = "a handful of lines")]
    let rule = foot - 4.6 - 3.9 * lines as f64;
    sheet.line([DVec2::new(EDGE, rule), DVec2::new(SIZE.x - EDGE, rule)], Pen::plain(Ink::RULE, 0.3));
    let next = sheet.paragraph(DVec2::new(EDGE, rule + 4.0), width, &report.stamp(), stamp);
    sheet.words(DVec2::new(EDGE, next.y + 0.4), FOOT, Lettering::new(3.2).bold());
    let top = body.y - 1.5;
    (sheet, Frame::new(EDGE, top, width, rule - 2.0 - top))
}
