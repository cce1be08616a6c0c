//! The rose of wind limits on a page, with what its signs mean in words beside it.

use glam::DVec2;

use super::page::page;
use super::rose::{NOW, NUMBERS, PLAN, WORST, held, letters, plan_mark, wind_rose};
use super::unit::PictureUnit;
use crate::brief::StudyReport;
use crate::draw::{Frame, Ink, Lettering, Pen, Sheet};
use crate::run::Scenario;
use crate::study::stats::percent;
use crate::study::wind_limit::{Direction, WindLimitStudy, here};
use crate::units::Bearing;
use crate::words::{asks, hand_held, limit, up_to};

pub(super) fn draw(report: &StudyReport, study: &WindLimitStudy) -> Sheet {
    let (mut sheet, room) = page(report, "up to what wind the circle holds");
    let side = room.size().y.min(room.size().x * 0.58 + 2.0 * NUMBERS);
    let frame = Frame::new(room.low.x + 4.0, room.middle().y - side / 2.0, side, side);
    wind_rose(&mut sheet, frame, report.scenario, study, PictureUnit::MPS);
    let beside = Frame { low: DVec2::new(frame.high.x + 12.0, room.low.y + 5.0), high: room.high };
    told(&mut sheet, beside, report.scenario, study);
    sheet
}

/// Tells down a room what its signs mean; returns the lower edge.
pub(in crate::report) fn told(sheet: &mut Sheet, room: Frame, scenario: &Scenario, study: &WindLimitStudy) -> f64 {
    let (words, width) = (Lettering::new(3.7), room.size().x);
    let mut at = room.low;
    let swatch = |sheet: &mut Sheet, at: DVec2, fill| {
        let low = at - DVec2::new(0.0, 3.2);
        sheet.rectangle(low, low + DVec2::new(8.0, 4.2), Some(Pen::plain(Ink::BLACK, 0.25)), fill);
    };
    swatch(sheet, at, held(study));
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
        plan_mark(sheet, low + DVec2::new(4.0, 0.0), 1.1);
        let line = "the plan as entered, without errors, holds up to here, nothing drawn";
        at = sheet.paragraph(at + DVec2::new(11.0, 0.0), width - 11.0, line, words);
        at = DVec2::new(room.low.x, at.y + 1.6);
    }
    let low = at - DVec2::new(0.0, 1.2);
    sheet.line([low, low + DVec2::new(8.0, 0.0)], NOW);
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
    let read = |direction: &Direction| direction.at_2m_mps.map(hand_held);
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
