//! The wind limit from every direction as a rose: how far a slice reaches is how much wind the circle holds. Paper and
//! window show the same one.

use glam::DVec2;

use super::unit::PictureUnit;
use crate::draw::{Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Polar, Scale, Sheet, wind};
use crate::run::Scenario;
use crate::study::wind_limit::{Direction, WindLimitStudy};
use crate::words::limit;

/// Room about the rose for its numbers, mm.
pub(in crate::report) const NUMBERS: f64 = 19.0;
/// Room about a rose too small for them: for the points of the compass, mm.
const POINTS: f64 = 6.0;
/// The least side of a rose that has its numbers about it, mm.
const NUMBERED: f64 = 100.0;
/// The share of its direction that a slice takes.
const SLICE: f64 = 0.86;

/// Draws the rose in the middle of a frame, as large as that lets it, and returns its axes. Numbers stand about it where
/// there is room for them.
pub fn wind_rose(
    sheet: &mut Sheet,
    frame: Frame,
    scenario: &Scenario,
    study: &WindLimitStudy,
    unit: PictureUnit<'_>,
) -> Polar {
    let side = frame.size().min_element();
    let numbered = side >= NUMBERED;
    let radius = (side / 2.0 - if numbered { NUMBERS } else { POINTS }).max(1.0);
    let today = unit.of(scenario.wind_at_circle()[0]);
    // A direction that was not flown to its end would make all others small: its slice reaches the rim.
    let reached = study.directions.iter().filter(|found| found.fails_mps.is_some());
    let reached = reached
        .flat_map(|found| [found.wind_limit_mps, found.plan_mps, found.undecided_mps.map(|ends| ends[1])])
        .flatten()
        .map(|mps| unit.of(mps));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 2 and 6")]
    let rings = (radius / 6.0).clamp(2.0, 6.0) as u32;
    let polar =
        Polar { middle: frame.middle(), radius_mm: radius, scale: Scale::over(reached.chain([0.0, today]), rings) };
    polar.draw(sheet);
    slices(sheet, &polar, study, unit);
    if study.ask.trials > 0 {
        without_errors(sheet, &polar, study, unit);
    }
    let from = scenario.file.wind.from;
    let strength = radius * polar.scale.share(today);
    sheet.circle(polar.middle, strength, Some(NOW), Fill::None);
    polar.letter(sheet, 15.0, &format!(" {}", unit.name));
    if numbered {
        numbers(sheet, &polar, study, unit);
    }
    worst(sheet, &polar, study, numbered);
    compass(sheet, &polar, numbered);
    // The arrow begins at the strength the wind has and is short, so that the slice under it is seen.
    let long = strength.min((radius / 4.0).max(6.5));
    wind(sheet, polar.along(from.deg(), strength - long / 2.0), from, long);
    polar
}

/// The slice of a direction, out to what holds.
pub fn wind_slice(polar: &Polar, study: &WindLimitStudy, direction: &Direction, unit: PictureUnit<'_>) -> Vec<DVec2> {
    slice(polar, study, direction.from_deg, unit.of(direction.wind_limit_mps.unwrap_or(0.0)))
}

fn slice(polar: &Polar, study: &WindLimitStudy, deg: f64, reach: f64) -> Vec<DVec2> {
    let wide = 360.0 / f64::from(study.ask.directions.max(1)) * SLICE;
    polar.slice(deg, wide, reach.min(polar.scale.to))
}

fn slices(sheet: &mut Sheet, polar: &Polar, study: &WindLimitStudy, unit: PictureUnit<'_>) {
    for (index, direction) in study.directions.iter().enumerate() {
        let (fill, edge) =
            if study.worst == Some(index) { (WORST, Ink::VERMILION) } else { (held(study), edge(study)) };
        // What is undecided is drawn first, hollow, so that what holds lies over it.
        if let Some([_, high]) = direction.undecided_mps {
            let pen = Some(Pen::plain(Ink::SOFT, 0.25).dashed(&[0.8, 0.8]));
            sheet.ring(slice(polar, study, direction.from_deg, unit.of(high)), pen, Fill::None);
        }
        sheet.ring(wind_slice(polar, study, direction, unit), Some(Pen::plain(edge, 0.25)), fill);
    }
}

/// How a slice is filled: grey where no trial has said anything yet.
pub(super) fn held(study: &WindLimitStudy) -> Fill {
    Fill::Plain(if study.ask.trials > 0 { Ink(0x00BF_E0F5) } else { Ink(0x00D8_D8D8) })
}

fn edge(study: &WindLimitStudy) -> Ink {
    if study.ask.trials > 0 { Ink::BLUE } else { Ink::SOFT }
}

pub(super) const WORST: Fill =
    Fill::Hatch(Hatch { pattern: Pattern::Crossed, ink: Ink::VERMILION, ground: Some(Ink(0x00F6_D9C4)), step: 160 });

/// The wind as it is now.
pub(super) const NOW: Pen = Pen::plain(Ink::BLACK, 0.6).dashed(&[2.0, 1.4]);

/// The wind limit of the plan without errors: strokes of its own, with a gap where there is none.
pub(super) const PLAN: Pen = Pen::plain(Ink::BLUE, 0.7).dashed(&[3.4, 1.1, 0.8, 1.1]);

/// The plan's own wind limits as a ring from direction to direction, marked in each.
fn without_errors(sheet: &mut Sheet, polar: &Polar, study: &WindLimitStudy, unit: PictureUnit<'_>) {
    let place = |found: &Direction| Some(polar.at(found.from_deg, unit.of(found.plan_mps?).min(polar.scale.to)));
    let round: Vec<Option<DVec2>> = study.directions.iter().chain(study.directions.first()).map(place).collect();
    for piece in round.split(Option::is_none).filter(|piece| piece.len() > 1) {
        sheet.line(piece.iter().flatten().copied(), PLAN);
    }
    // In a small rose they are smaller, so that each is seen.
    let apart = std::f64::consts::TAU * polar.radius_mm / f64::from(study.ask.directions.max(1));
    study.directions.iter().filter_map(place).for_each(|at| plan_mark(sheet, at, (0.2 * apart).min(1.1)));
}

pub(super) fn plan_mark(sheet: &mut Sheet, at: DVec2, half: f64) {
    let corners = [(0.0, -half), (half, 0.0), (0.0, half), (-half, 0.0)].map(|(x, y)| at + DVec2::new(x, y));
    sheet.ring(corners, Some(Pen::plain(Ink::BLUE, 0.35)), Fill::Plain(Ink::PAPER));
}

/// Letters for the limits that fail, in the order in which they first occur.
pub(super) fn letters(study: &WindLimitStudy) -> Vec<(char, &str)> {
    let mut names: Vec<&str> = Vec::new();
    for direction in study.directions.iter().filter(|direction| direction.fails_mps.is_some()) {
        let name = limit(study, direction);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    ('A'..='Z').zip(names).collect()
}

/// The wind limit in digits about the rim, with the letter of what fails beyond it.
fn numbers(sheet: &mut Sheet, polar: &Polar, study: &WindLimitStudy, unit: PictureUnit<'_>) {
    let letters = letters(study);
    // More than 48 numbers don't fit about the rim.
    let every = study.directions.len().div_ceil(48).max(1);
    for (index, direction) in study.directions.iter().enumerate() {
        let worst = study.worst == Some(index) && direction.wind_limit_mps.is_some();
        if index % every != 0 && !worst {
            continue;
        }
        let held = direction.wind_limit_mps.map(|mps| format!("{:.1}", unit.of(mps)));
        let words = match (held, direction.undecided_mps, direction.fails_mps) {
            (None, Some(_), _) => "?".into(),
            (None, ..) => "none".into(),
            (Some(held), Some(_), _) => held + "?",
            (Some(held), None, None) => held + "+",
            (Some(held), ..) => held,
        };
        let name = limit(study, direction);
        let letter = letters.iter().find(|(_, known)| direction.fails_mps.is_some() && *known == name);
        let letter = letter.map(|(letter, _)| format!(" {letter}")).unwrap_or_default();
        let at = polar.along(direction.from_deg, polar.radius_mm + 7.0) + DVec2::new(0.0, 1.2);
        let lettering = Lettering::new(3.4).middle();
        sheet.words(at, words + &letter, if worst { lettering.bold() } else { lettering });
    }
}

/// A pointer at the rim, so that the worst is found without its colour: from outside where there is room for one.
fn worst(sheet: &mut Sheet, polar: &Polar, study: &WindLimitStudy, outside: bool) {
    let worst = study.worst.and_then(|index| study.directions.get(index));
    let Some(deg) = worst.filter(|worst| worst.wind_limit_mps.is_some()).map(|worst| worst.from_deg) else { return };
    let (tip, foot) = if outside { (0.5, 3.4) } else { (-3.0, -0.1) };
    let aside = (polar.along(deg + 90.0, 1.0) - polar.middle) * if outside { 2.2 } else { 1.4 };
    let foot = polar.along(deg, polar.radius_mm + foot);
    let corners = [polar.along(deg, polar.radius_mm + tip), foot + aside, foot - aside];
    sheet.ring(corners, Some(Pen::plain(Ink::PAPER, 0.3)), Fill::Plain(Ink::BLACK));
}

fn compass(sheet: &mut Sheet, polar: &Polar, numbered: bool) {
    for (deg, point) in [(0.0, "N"), (90.0, "E"), (180.0, "S"), (270.0, "W")] {
        let away = match point {
            _ if !numbered => 3.2,
            "E" | "W" => 17.0,
            _ => 14.0,
        };
        let lettering = Lettering::new(if numbered { 4.6 } else { 3.8 }).bold().middle();
        let at = polar.along(deg, polar.radius_mm + away) + DVec2::new(0.0, 0.35 * lettering.size_mm);
        sheet.words(at, point, lettering);
    }
}
