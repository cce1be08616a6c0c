//! The map of losses: every cell of the field with what comes of a loss there, by colour and by pattern.

use glam::DVec2;

use super::field;
use super::page::page;
use crate::field::Rule;
use crate::ledger::Outcome;
use crate::report::draw::{Fill, Frame, Hatch, Ink, Lettering, MapFrame, Path, Pattern, Pen, Sheet, north, wind};
use crate::report::study::{StudyReport, counted, direction};
use crate::study::losses::{Cell, LossStudy};

/// How a cell of an outcome is filled. Each has a pattern of its own, so that the map reads in grey.
pub(super) const fn look(outcome: Outcome) -> Fill {
    let (pattern, ink, ground, step) = match outcome {
        Outcome::Recovered => return Fill::Plain(Ink(0x00D4_EFE6)),
        Outcome::EnteredPatch => (Pattern::Squared, Ink::BLACK, Ink::VERMILION, 170),
        Outcome::LeftOutline => (Pattern::Rising, Ink::BLACK, Ink::ORANGE, 140),
        Outcome::CeilingOrGround => (Pattern::Level, Ink::PAPER, Ink::BLUE, 150),
        Outcome::Stalled => (Pattern::Upright, Ink::BLACK, Ink::PURPLE, 150),
        Outcome::NeverSettled => (Pattern::Spotted, Ink::PAPER, Ink::SOFT, 170),
        Outcome::EnergyOut => (Pattern::Falling, Ink::BLACK, Ink::YELLOW, 200),
        Outcome::LateOrUnseen => (Pattern::Dotted, Ink::BLACK, Ink::SKY, 130),
    };
    Fill::Hatch(Hatch { pattern, ink, ground: Some(ground), step })
}

/// Height of the strip under the map, mm.
const STRIP: f64 = 16.0;

pub(super) fn draw(report: &StudyReport, study: &LossStudy) -> Sheet {
    let (mut sheet, room) = page(report, "from where a loss is recovered");
    let field = &report.scenario.field;
    let beside = 92.0;
    let frame = Frame { low: room.low, high: room.high - DVec2::new(beside, STRIP) };
    let (low, high) = extent(report, study);
    let map = MapFrame::fit(frame, low, high);
    sheet.rectangle(frame.low, frame.high, None, Fill::Plain(Ink(0x00EE_EFF0)));
    sheet.clipped(frame.low, frame.high, |sheet| {
        field::ground(sheet, &map, field);
        cells(sheet, &map, study);
        lines(sheet, &map, study);
        field::limits(sheet, &map, field);
    });
    sheet.rectangle(frame.low, frame.high, Some(Pen::plain(Ink::BLACK, 0.3)), Fill::None);
    furniture(&mut sheet, &map, report, room.high.y);
    legend(&mut sheet, Frame { low: DVec2::new(frame.high.x + 5.0, room.low.y + 3.0), high: room.high }, report, study);
    sheet
}

/// North, scale and wind, on a strip of their own under the map.
fn furniture(sheet: &mut Sheet, map: &MapFrame, report: &StudyReport, foot: f64) {
    let frame = map.frame;
    let middle = foot - STRIP / 2.0 + 1.0;
    map.scale_bar(sheet, DVec2::new(frame.low.x + 3.0, middle + 0.8), 50.0);
    north(sheet, DVec2::new(frame.middle().x, middle + 2.0));
    let from = report.scenario.file.wind.from;
    wind(sheet, DVec2::new(frame.high.x - 10.0, middle - 0.6), from, STRIP - 5.0);
    let words = Lettering::new(3.6).bold().end();
    sheet.words(DVec2::new(frame.high.x - 20.0, middle + 1.2), format!("wind from {}", direction(from.deg())), words);
}

/// Ground to be shown: the outline and the cells with a little around them.
fn extent(report: &StudyReport, study: &LossStudy) -> (DVec2, DVec2) {
    let (low, high) = report.scenario.field.outline.bounds();
    let grid = study.corner + DVec2::new(f64::from(study.size[0]), f64::from(study.size[1])) * study.cell_m;
    let (low, high) = (low.min(study.corner), high.max(grid));
    let rim = DVec2::splat((high - low).max_element() * 0.03);
    (low - rim, high + rim)
}

fn cells(sheet: &mut Sheet, map: &MapFrame, study: &LossStudy) {
    for cell in &study.cells {
        let low = study.corner + DVec2::new(f64::from(cell.at[0]), f64::from(cell.at[1])) * study.cell_m;
        let high = low + DVec2::splat(study.cell_m);
        let corners = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
        let path = Path::Rings(vec![map.all(&corners).collect()]);
        sheet.shape(path, None, look(cell.plan_worst), told(cell, study));
    }
    for cell in study.cells.iter().filter(|cell| cell.worst < cell.plan_worst) {
        let half = (study.cell_m * map.mm_a_metre * 0.28).clamp(0.3, 1.1);
        let at = map.at(cell.middle);
        let [right, up] = [DVec2::new(half, 0.0), DVec2::new(0.0, -half)];
        sheet.ring(
            [at + up, at + right, at - up, at - right],
            Some(Pen::plain(Ink::BLACK, 0.25)),
            Fill::Plain(Ink::PAPER),
        );
    }
}

/// What a viewer tells about a cell under the pointer.
fn told(cell: &Cell, study: &LossStudy) -> String {
    let met = counted(cell.met, cell.flown, study.ask.confidence);
    let (x, y) = (cell.middle.x, cell.middle.y);
    format!(
        "({x:.0}, {y:.0}) m: {} as written, worst {}; every margin met in {met} flights",
        cell.plan_worst.name(),
        cell.worst.name()
    )
}

fn lines(sheet: &mut Sheet, map: &MapFrame, study: &LossStudy) {
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

const TURN_BACK: &[f64] = &[4.0, 1.6];
const NO_RETURN: &[f64] = &[0.9, 1.3];

fn legend(sheet: &mut Sheet, room: Frame, report: &StudyReport, study: &LossStudy) {
    let words = Lettering::new(3.5);
    let width = room.size().x;
    let swatch = |sheet: &mut Sheet, at: DVec2, fill| {
        let low = at - DVec2::new(0.0, 3.4);
        sheet.rectangle(low, low + DVec2::new(9.0, 4.6), Some(Pen::plain(Ink::BLACK, 0.25)), fill);
    };
    let mut at = room.low;
    at = sheet.paragraph(
        at,
        width,
        "The plan as written, worst of all headings: cells; and all flights: counts with interval",
        words.bold(),
    );
    at.y += 1.0;
    let flown: u64 = study.cells.iter().map(|cell| cell.flown).sum();
    for (index, outcome) in Outcome::ALL.into_iter().enumerate() {
        let cells = study.cells.iter().filter(|cell| cell.plan_worst == outcome).count();
        let hits: u64 = study.cells.iter().map(|cell| cell.outcomes[index]).sum();
        swatch(sheet, at, look(outcome));
        let beside = DVec2::new(11.5, 0.0);
        sheet.words(at + beside, format!("{}: {cells} of {} cells", outcome.name(), study.cells.len()), words.bold());
        let counts = format!("{} flights", counted(hits, flown, study.ask.confidence));
        sheet.words(at + beside + DVec2::new(0.0, 4.0), counts, Lettering::new(3.1));
        at.y += 9.2;
    }
    let middle = at + DVec2::new(4.5, -1.2);
    let half = 1.1;
    let [right, up] = [DVec2::new(half, 0.0), DVec2::new(0.0, -half)];
    sheet.ring(
        [middle + up, middle + right, middle - up, middle - right],
        Some(Pen::plain(Ink::BLACK, 0.25)),
        Fill::Plain(Ink::PAPER),
    );
    at = sheet.paragraph(at + DVec2::new(11.5, 0.0), width - 11.5, "a drawn case came to something worse there", words);
    at = DVec2::new(room.low.x, at.y + 0.8);
    for (dash, shown, name) in [
        (
            TURN_BACK,
            !study.turn_back.is_empty(),
            "turn-back line: inside it a loss on any heading turns back within the outline, in closed form",
        ),
        (
            NO_RETURN,
            !study.no_return.is_empty(),
            "no-return line: from beyond it the energy does not reach home over the reserve",
        ),
    ] {
        if !shown {
            continue;
        }
        let y = DVec2::new(0.0, -1.2);
        sheet.line([at + y, at + y + DVec2::new(9.0, 0.0)], Pen::plain(Ink::BLACK, 0.8).dashed(dash));
        at = sheet.paragraph(at + DVec2::new(11.5, 0.0), width - 11.5, name, words);
        at = DVec2::new(room.low.x, at.y + 0.8);
    }
    let rules = report.scenario.field.patches.iter().map(|patch| match patch.rule {
        Rule::Never => (0, Rule::Never, "never"),
        Rule::Above(height) => (1, Rule::Above(height), "above a height"),
        Rule::Avoid => (2, Rule::Avoid, "better avoided"),
        Rule::Idle => (3, Rule::Idle, "no rule today"),
    });
    let mut rules: Vec<_> = rules.collect();
    rules.sort_by_key(|(order, ..)| *order);
    rules.dedup_by_key(|(order, ..)| *order);
    for (_, rule, name) in rules {
        swatch(sheet, at, Fill::Hatch(field::ruled(rule)));
        sheet.words(at + DVec2::new(11.5, 0.0), format!("patch: {name}"), words);
        at.y += 5.8;
    }
    at.y += 0.5;
    let heights = list(&study.ask.heights_m, "m");
    let speeds = list(&study.ask.speeds_mps, "m/s");
    let told = format!(
        "Lost {heights} above home at {speeds}, on {} headings. Drawn cases are flown where the answer is uncertain, \
         so the flights are no even sample of the field.",
        study.ask.headings
    );
    sheet.paragraph(at, width, &told, Lettering::new(3.1).ink(Ink::SOFT));
}

fn list(values: &[f64], unit: &str) -> String {
    let words: Vec<String> = values.iter().map(|value| crate::report::text::number(*value)).collect();
    format!("{} {unit}", words.join(", "))
}
