//! The wind limit from every direction as a rose: how far a slice reaches is how much wind the circle holds.

use glam::DVec2;

use super::page::page;
use crate::brief::StudyReport;
use crate::draw::{Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Polar, Scale, Sheet, wind};
use crate::run::Scenario;
use crate::study::stats::percent;
use crate::study::wind_limit::{Direction, WindLimitStudy, here};
use crate::units::Bearing;
use crate::words::{asks, limit, up_to};

/// Room about the rose for its numbers.
const NUMBERS: f64 = 19.0;

pub(super) fn draw(report: &StudyReport, study: &WindLimitStudy) -> Sheet {
    let (mut sheet, room) = page(report, "up to what wind the circle holds");
    let radius = (room.size().y / 2.0 - NUMBERS).min(room.size().x * 0.29);
    let middle = DVec2::new(room.low.x + radius + NUMBERS + 4.0, room.middle().y);
    wind_limits(&mut sheet, middle, radius, report.scenario, study);
    let left = middle.x + radius + NUMBERS + 12.0;
    let beside = Frame { low: DVec2::new(left, room.low.y + 5.0), high: room.high };
    told(&mut sheet, beside, report.scenario, study);
    sheet
}

/// Draws the rose about a place; its numbers stand outside the radius, some 19 mm to every side.
pub(in crate::report) fn wind_limits(
    sheet: &mut Sheet,
    middle: DVec2,
    radius: f64,
    scenario: &Scenario,
    study: &WindLimitStudy,
) {
    let today = scenario.wind_at_circle()[0];
    // A direction that was not flown to its end would make all others small: its slice reaches the rim.
    let reached = study.directions.iter().filter(|found| found.fails_mps.is_some());
    let reached = reached
        .flat_map(|found| [found.wind_limit_mps, found.plan_mps, found.undecided_mps.map(|ends| ends[1])])
        .flatten();
    let scale = Scale::over(reached.chain([0.0, today]), 6);
    let polar = Polar { middle, radius_mm: radius, scale };
    polar.draw(sheet);
    let wide = 360.0 / f64::from(study.ask.directions.max(1));
    for (index, direction) in study.directions.iter().enumerate() {
        let fill = if study.worst == Some(index) { WORST } else { HELD };
        let reach = direction.wind_limit_mps.unwrap_or(0.0).min(scale.to);
        // What is undecided is drawn first, hollow, so that what holds lies over it.
        if let Some([_, high]) = direction.undecided_mps {
            let pen = Some(Pen::plain(Ink::BLACK, 0.25).dashed(&[0.8, 0.8]));
            sheet.ring(polar.slice(direction.from_deg, wide * 0.86, high.min(scale.to)), pen, Fill::None);
        }
        sheet.ring(polar.slice(direction.from_deg, wide * 0.86, reach), Some(Pen::plain(Ink::BLACK, 0.25)), fill);
    }
    if study.ask.trials > 0 {
        without_errors(sheet, &polar, study);
    }
    let from = scenario.file.wind.from;
    sheet.circle(
        middle,
        radius * scale.share(today),
        Some(Pen::plain(Ink::BLACK, 0.6).dashed(&[2.0, 1.4])),
        Fill::None,
    );
    polar.letter(sheet, 15.0, " m/s");
    numbers(sheet, &polar, study);
    // The arrow begins at the strength the wind has and is short, so that the slice under it is seen.
    let strength = radius * scale.share(today);
    let long = strength.min(15.0);
    wind(sheet, polar.along(from.deg(), strength - long / 2.0), from, long);
}

const HELD: Fill = Fill::Plain(Ink(0x00BF_E0F5));
const WORST: Fill =
    Fill::Hatch(Hatch { pattern: Pattern::Crossed, ink: Ink::VERMILION, ground: Some(Ink(0x00F6_D9C4)), step: 160 });

/// The wind limit of the plan without errors: strokes of its own, with a gap where there is none.
const PLAN: Pen = Pen::plain(Ink::BLUE, 0.7).dashed(&[3.4, 1.1, 0.8, 1.1]);

/// The plan's own wind limits as a ring from direction to direction, marked in each.
fn without_errors(sheet: &mut Sheet, polar: &Polar, study: &WindLimitStudy) {
    let place = |found: &Direction| Some(polar.at(found.from_deg, found.plan_mps?.min(polar.scale.to)));
    let ring = study.directions.iter().zip(study.directions.iter().cycle().skip(1));
    for (one, next) in ring {
        if let (Some(from), Some(to)) = (place(one), place(next)) {
            sheet.line([from, to], PLAN);
        }
    }
    study.directions.iter().filter_map(place).for_each(|at| plan_mark(sheet, at));
}

fn plan_mark(sheet: &mut Sheet, at: DVec2) {
    let corners = [(0.0, -1.1), (1.1, 0.0), (0.0, 1.1), (-1.1, 0.0)].map(|(x, y)| at + DVec2::new(x, y));
    sheet.ring(corners, Some(Pen::plain(Ink::BLUE, 0.35)), Fill::Plain(Ink::PAPER));
}

/// Letters for the limits that fail, in the order in which they first occur.
fn letters(study: &WindLimitStudy) -> Vec<(char, &str)> {
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
fn numbers(sheet: &mut Sheet, polar: &Polar, study: &WindLimitStudy) {
    let letters = letters(study);
    // More than 48 numbers don't fit about the rim.
    let every = study.directions.len().div_ceil(48).max(1);
    for (index, direction) in study.directions.iter().enumerate() {
        let worst = study.worst == Some(index) && direction.wind_limit_mps.is_some();
        if index % every != 0 && !worst {
            continue;
        }
        let words = match direction {
            Direction { wind_limit_mps: None, undecided_mps: Some(_), .. } => "?".into(),
            Direction { wind_limit_mps: None, .. } => "none".into(),
            Direction { wind_limit_mps: Some(mps), undecided_mps: Some(_), .. } => format!("{mps:.1}?"),
            Direction { wind_limit_mps: Some(mps), fails_mps: None, .. } => format!("{mps:.1}+"),
            Direction { wind_limit_mps: Some(mps), .. } => format!("{mps:.1}"),
        };
        let name = limit(study, direction);
        let letter = letters.iter().find(|(_, known)| direction.fails_mps.is_some() && *known == name);
        let letter = letter.map(|(letter, _)| format!(" {letter}")).unwrap_or_default();
        let at = polar.along(direction.from_deg, polar.radius_mm + 7.0) + DVec2::new(0.0, 1.2);
        let lettering = Lettering::new(3.4).middle();
        sheet.words(at, words + &letter, if worst { lettering.bold() } else { lettering });
        if worst {
            let [tip, left, right] = [(0.0, 0.5), (-2.2, 3.4), (2.2, 3.4)]
                .map(|(turn, out)| polar.along(direction.from_deg + turn, polar.radius_mm + out));
            sheet.ring([tip, left, right], None, Fill::Plain(Ink::BLACK));
        }
    }
    for (deg, point) in [(0.0, "N"), (90.0, "E"), (180.0, "S"), (270.0, "W")] {
        let away = if point == "E" || point == "W" { 17.0 } else { 14.0 };
        let at = polar.along(deg, polar.radius_mm + away) + DVec2::new(0.0, 1.6);
        sheet.words(at, point, Lettering::new(4.6).bold().middle());
    }
}

/// Tells down a room what its signs mean; returns the lower edge.
pub(in crate::report) fn told(sheet: &mut Sheet, room: Frame, scenario: &Scenario, study: &WindLimitStudy) -> f64 {
    let (words, width) = (Lettering::new(3.7), room.size().x);
    let mut at = room.low;
    let swatch = |sheet: &mut Sheet, at: DVec2, fill| {
        let low = at - DVec2::new(0.0, 3.2);
        sheet.rectangle(low, low + DVec2::new(8.0, 4.2), Some(Pen::plain(Ink::BLACK, 0.25)), fill);
    };
    swatch(sheet, at, HELD);
    at = sheet.paragraph(
        at + DVec2::new(11.0, 0.0),
        width - 11.0,
        if study.ask.trials > 0 {
            "holds by its trials in this much mean wind at circle height, m/s"
        } else {
            "the plan as entered, without errors, holds in this much mean wind at circle height, m/s"
        },
        words,
    );
    at = DVec2::new(room.low.x, at.y + 1.6);
    let worst = study.worst.and_then(|index| study.directions.get(index));
    if let Some(worst) = worst.filter(|worst| worst.wind_limit_mps.is_some()) {
        swatch(sheet, at, WORST);
        let name = crate::words::direction(worst.from_deg);
        let line = format!("worst: from {name}; beyond it {}", limit(study, worst));
        at = sheet.paragraph(at + DVec2::new(11.0, 0.0), width - 11.0, &line, words.bold());
        at = DVec2::new(room.low.x, at.y + 1.6);
    }
    if study.ask.trials > 0 {
        let low = at - DVec2::new(0.0, 1.2);
        sheet.line([low, low + DVec2::new(8.0, 0.0)], PLAN);
        plan_mark(sheet, low + DVec2::new(4.0, 0.0));
        let line = "the plan as entered, without errors, holds up to here, nothing drawn";
        at = sheet.paragraph(at + DVec2::new(11.0, 0.0), width - 11.0, line, words);
        at = DVec2::new(room.low.x, at.y + 1.6);
    }
    let low = at - DVec2::new(0.0, 1.2);
    sheet.line([low, low + DVec2::new(8.0, 0.0)], Pen::plain(Ink::BLACK, 0.6).dashed(&[2.0, 1.4]));
    let from = crate::words::direction(scenario.file.wind.from.deg());
    let line = format!(
        "the file's wind: {:.1} m/s at circle height, from {from} (the arrow flies with it)",
        scenario.wind_at_circle()[0]
    );
    at = sheet.paragraph(at + DVec2::new(11.0, 0.0), width - 11.0, &line, words);
    at = DVec2::new(room.low.x, at.y + 3.0);

    at = sheet.paragraph(at, width, "What fails first beyond the wind limit", words.bold());
    for (letter, name) in letters(study) {
        sheet.words(at, letter.to_string(), words.bold());
        at = DVec2::new(room.low.x, sheet.paragraph(at + DVec2::new(6.0, 0.0), width - 6.0, name, words).y);
    }
    if study.directions.iter().any(|found| found.undecided_mps.is_some()) {
        sheet.words(at, "?", words.bold());
        let open = "undecided from there on: what is hollow";
        at = DVec2::new(room.low.x, sheet.paragraph(at + DVec2::new(6.0, 0.0), width - 6.0, open, words).y);
    }
    if study.directions.iter().any(|found| found.wind_limit_mps.is_some() && found.fails_mps.is_none()) {
        sheet.words(at, "+", words.bold());
        let ends = "holds up to there; no more wind was flown";
        at = DVec2::new(room.low.x, sheet.paragraph(at + DVec2::new(6.0, 0.0), width - 6.0, ends, words).y);
    }
    at.y += 2.5;
    at = sheet.paragraph(at, width, &hand(study, scenario.file.wind.from), words);
    at.y += 2.5;
    let bank = format!("Closed form: the maximum bank holds this radius {}.", up_to(study.bank_mps));
    at = sheet.paragraph(at, width, &bank, words);
    at.y += 2.5;
    let (asked, confidence) = (asks(&study.demand), percent(study.ask.confidence));
    let how = match study.ask.trials {
        0 => "A wind counts as held where the plan as entered meets every margin asked for, in it and in every wind \
              below it. No trial was flown: nothing is known of what may be otherwise than written."
            .into(),
        most => format!(
            "A wind counts as held where up to {most} trials say yes: {asked}, at {confidence} confidence. A hollow slice is \
             undecided: the trials flown don't tell."
        ),
    };
    sheet.paragraph(at, width, &how, words.ink(Ink::SOFT)).y
}

/// What a hand-held meter reads at the wind limit.
fn hand(study: &WindLimitStudy, from: Bearing) -> String {
    let read = |direction: &Direction| direction.at_2m_mps.map(|[low, high]| format!("{low:.1} to {high:.1} m/s"));
    let worst = study.worst.and_then(|index| study.directions.get(index)).and_then(read);
    let today = here(study, from).and_then(read);
    match (worst, today) {
        (Some(worst), Some(today)) if worst != today => format!(
            "A hand-held meter at 2 m reads {worst} at the wind limit from the worst direction, {today} at the one from today's."
        ),
        (_, Some(today)) => format!("A hand-held meter at 2 m reads {today} at the wind limit from today's direction."),
        _ => "None: it does not hold from there even in a calm.".into(),
    }
}
