//! The map of losses: every cell of the field with what comes of a loss there, by colour and by pattern.

use glam::DVec2;

use super::field;
use crate::draw::{Fill, Frame, Hatch, Ink, Lettering, MapFrame, Path, Pattern, Pen, Sheet, north, wind};
use crate::margins::Outcome;
use crate::run::Scenario;
use crate::study::keep_inside::KeepInside;
use crate::study::losses::{Cell, LossStudy};
use crate::words::{direction, looked_at};

/// How a cell of an outcome is filled. Each has a pattern of its own, so that the map reads in grey.
pub const fn look(outcome: Outcome) -> Fill {
    let (pattern, ink, ground, step) = match outcome {
        Outcome::Recovered => return Fill::Plain(Ink(0x00D4_EFE6)),
        Outcome::EnteredArea => (Pattern::Squared, Ink::BLACK, Ink::VERMILION, 170),
        Outcome::LeftBoundary => (Pattern::Rising, Ink::BLACK, Ink::ORANGE, 140),
        Outcome::HeightLimitOrGround => (Pattern::Level, Ink::PAPER, Ink::BLUE, 150),
        Outcome::Stalled => (Pattern::Upright, Ink::BLACK, Ink::PURPLE, 150),
        Outcome::NeverSettled => (Pattern::Spotted, Ink::PAPER, Ink::SOFT, 170),
        Outcome::EnergyOut => (Pattern::Falling, Ink::BLACK, Ink::YELLOW, 200),
        Outcome::LateOrUnseen => (Pattern::Dotted, Ink::BLACK, Ink::SKY, 130),
    };
    Fill::Hatch(Hatch { pattern, ink, ground: Some(ground), step })
}

/// Height of the strip under the map, mm.
pub(in crate::report) const STRIP: f64 = 15.0;

/// Draws the map in a room, its strip below it.
pub(in crate::report) fn ground(sheet: &mut Sheet, room: Frame, scenario: &Scenario, study: &LossStudy) -> MapFrame {
    let field = &scenario.field;
    let frame = Frame { low: room.low, high: room.high - DVec2::new(0.0, STRIP) };
    let (low, high) = extent(scenario, study);
    let map = MapFrame::fit(frame, low, high);
    sheet.rectangle(frame.low, frame.high, None, Fill::Plain(Ink(0x00EE_EFF0)));
    sheet.clipped(frame.low, frame.high, |sheet| {
        field::ground(sheet, &map, field);
        cells(sheet, &map, study);
        lines(sheet, &map, study);
        field::limits(sheet, &map, field);
    });
    sheet.rectangle(frame.low, frame.high, Some(Pen::plain(Ink::BLACK, 0.3)), Fill::None);
    furniture(sheet, &map, scenario, room.high.y);
    map
}

/// North, scale and wind, on a strip of their own under the map.
pub(in crate::report) fn furniture(sheet: &mut Sheet, map: &MapFrame, scenario: &Scenario, foot: f64) {
    let frame = map.frame;
    let middle = foot - STRIP / 2.0 + 1.0;
    let longest = (0.27 * frame.size().x).min(50.0);
    map.scale_bar(sheet, DVec2::new(frame.low.x + 3.0, middle + 0.8), longest);
    north(sheet, DVec2::new(frame.low.x + 0.41 * frame.size().x, middle + 1.2));
    let from = scenario.file.wind.from;
    wind(sheet, DVec2::new(frame.high.x - 10.0, middle - 0.6), from, STRIP - 5.0);
    let words = Lettering::new(3.6).bold().end();
    let narrow = frame.size().x < 115.0;
    let told =
        if narrow { format!("from {:.0} deg", from.deg()) } else { format!("wind from {}", direction(from.deg())) };
    sheet.words(DVec2::new(frame.high.x - 20.0, middle + 1.2), told, words);
}

/// Ground to be shown: the boundary and the cells with a little around them.
fn extent(scenario: &Scenario, study: &LossStudy) -> (DVec2, DVec2) {
    let (low, high) = scenario.field.boundary.bounds();
    let grid = study.corner + DVec2::new(f64::from(study.size[0]), f64::from(study.size[1])) * study.cell_m;
    let (low, high) = (low.min(study.corner), high.max(grid));
    let rim = DVec2::splat((high - low).max_element() * 0.03);
    (low - rim, high + rim)
}

fn cells(sheet: &mut Sheet, map: &MapFrame, study: &LossStudy) {
    // One outcome after the other: what lies side by side and is filled alike can be drawn as one surface.
    let by_outcome =
        Outcome::ALL.into_iter().flat_map(|end| study.cells.iter().filter(move |cell| cell.plan_worst == end));
    for cell in by_outcome {
        // Neighbours have the same corner to the last bit, so that no gap is left between them by rounding.
        let corner = |more| study.corner + (DVec2::from(cell.at.map(f64::from)) + more) * study.cell_m;
        let (low, high) = (corner(0.0), corner(1.0));
        let corners = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
        let path = Path::Rings(vec![map.all(&corners).collect()]);
        sheet.shape(path, None, look(cell.plan_worst), cell_text(cell, study));
    }
    for cell in study.worse() {
        let half = (study.cell_m * map.mm_a_metre * 0.28).clamp(0.3, 1.1);
        diamond(sheet, map.at(cell.middle), half);
    }
}

/// The mark of a cell where a trial came to something worse.
pub(in crate::report) fn diamond(sheet: &mut Sheet, at: DVec2, half: f64) {
    let corners = [(0.0, -half), (half, 0.0), (0.0, half), (-half, 0.0)].map(|(x, y)| at + DVec2::new(x, y));
    sheet.ring(corners, Some(Pen::plain(Ink::BLACK, 0.25)), Fill::Plain(Ink::PAPER));
}

/// What a viewer tells about a cell under the pointer.
fn cell_text(cell: &Cell, study: &LossStudy) -> String {
    let looked = looked_at(cell, study.ask.confidence);
    let (x, y) = (cell.middle.x, cell.middle.y);
    format!("({x:.0}, {y:.0}) m: {} as entered, worst {}; {looked}", cell.plan_worst.name(), cell.worst.name())
}

fn lines(sheet: &mut Sheet, map: &MapFrame, study: &LossStudy) {
    if let Some(keep) = &study.keep_inside {
        keep_inside(sheet, map, keep);
    }
    let rings: Vec<Vec<DVec2>> = study.turn_back.iter().map(|ring| map.all(ring).collect()).collect();
    for (ink, width) in [(Ink::PAPER, 1.7), (Ink::BLACK, 0.8)] {
        let pen = Pen::plain(ink, width);
        let pen = if ink == Ink::BLACK { pen.dashed(TURN_BACK) } else { pen };
        if !rings.is_empty() {
            sheet.shape(Path::Rings(rings.clone()), Some(pen), Fill::None, "turn-back line");
        }
        let pen = Pen::plain(ink, width);
        let pen = if ink == Ink::BLACK { pen.dashed(NO_RETURN) } else { pen };
        if !study.no_return.is_empty() {
            let ring = map.all(&study.no_return).collect();
            sheet.shape(Path::Rings(vec![ring]), Some(pen), Fill::None, "no-return line");
        }
    }
}

/// Draws the keep-inside line that there is room for, as far as it is known to be inside.
pub(in crate::report) fn keep_inside(sheet: &mut Sheet, map: &MapFrame, keep: &KeepInside) {
    let ring = keep.drawn().map(|line| line.ring(keep.centre)).unwrap_or_default();
    if ring.is_empty() {
        return;
    }
    let ring: Vec<DVec2> = map.all(&ring).collect();
    sheet.shape(Path::Rings(vec![ring.clone()]), Some(Pen::plain(Ink::PAPER, 2.2)), Fill::None, "");
    sheet.shape(Path::Rings(vec![ring]), Some(KEEP_INSIDE), Fill::None, "keep-inside line");
}

/// Pen of the keep-inside line.
pub(in crate::report) const KEEP_INSIDE: Pen = Pen::plain(Ink::BLACK, 1.2).dashed(&[6.0, 1.2, 1.2, 1.2]);
/// Dashes of the turn-back line.
pub(in crate::report) const TURN_BACK: &[f64] = &[4.0, 1.6];
/// Dashes of the no-return line.
pub(in crate::report) const NO_RETURN: &[f64] = &[0.9, 1.3];
