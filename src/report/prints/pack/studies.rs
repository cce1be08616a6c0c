//! The studies in the pack: the usable radii with their curve, the wind limits from every direction, the map of losses.

use glam::DVec2;

use super::Flow;
use super::inputs::explained;
use super::table::{Cell, Sign, digits, text};
use crate::brief::Plan;
use crate::draw::{Frame, Ink, Pen, Sheet};
use crate::margins::Outcome;
use crate::recovery::RecoveryPlan;
use crate::report::picture::losses::{NO_RETURN, TURN_BACK, look};
use crate::report::picture::{PictureUnit, curve, losses, rose, wind_limit, wind_rose};
use crate::study::losses::LossStudy;
use crate::study::radius::{RadiusStudy, Remedy};
use crate::study::wind_limit::{Direction, WindLimitStudy};
use crate::words::{self, counted, direction, end, kept_inside, limit, looked, lost, number, usable, way};

/// Least and greatest height of the curve, mm.
const CURVE: [f64; 2] = [172.0, 192.0];
/// Height of the map of losses, mm.
const MAP: f64 = 122.0;

impl Plan<'_> {
    pub(super) fn wind_tables(&self, flow: &mut Flow<'_>, study: &WindLimitStudy) {
        let tall = 2.0 * (60.0 + rose::NUMBERS);
        // Tried on a sheet of its own first, to learn how tall the words are.
        let width = flow.room.size().x;
        let beside = |y: f64| Frame { low: DVec2::new(0.0, y), high: DVec2::new(width, y + 100.0) };
        let told = wind_limit::told(&mut Sheet::new(1.0, 1.0, "", ""), beside(0.0), self.scenario, study);
        flow.part_before("Up to what wind", tall + told + 5.0);
        flow.picture(tall + told + 5.0, |sheet, frame| {
            let room = Frame { low: frame.low, high: DVec2::new(frame.high.x, frame.low.y + tall) };
            wind_rose(sheet, room, self.scenario, study, PictureUnit::MPS);
            let low = DVec2::new(frame.low.x, frame.low.y + tall + 4.0);
            wind_limit::told(sheet, Frame { low, high: frame.high }, self.scenario, study);
        });
        let held =
            |found: &Direction| found.wind_limit_mps.or(found.plan_mps).is_some() || found.undecided_mps.is_some();
        if !study.directions.iter().any(held) {
            flow.paragraph("From no direction is there a wind in which it holds, not even a calm.");
            return;
        }
        let columns = [
            text("wind from", 30.0),
            digits("most at the circle", 30.0),
            digits("plan as entered, without errors", 32.0),
            digits("hand-held meter, 2 m", 36.0),
            text("fails first beyond it", 54.0),
        ];
        let most = |mps: Option<f64>| mps.map_or_else(|| "none".into(), |mps| format!("{mps:.1} m/s"));
        let known = |found: &Direction| match (found.wind_limit_mps, found.undecided_mps) {
            (None, Some(_)) => "undecided".into(),
            (mps, None) => most(mps),
            (mps, Some([_, high])) => format!("{}, undecided to {high:.1}", most(mps)),
        };
        let rows: Vec<Vec<Cell>> = study
            .directions
            .iter()
            .enumerate()
            .map(|(index, found)| {
                let worst = study.worst == Some(index) && found.wind_limit_mps.is_some();
                let name = direction(found.from_deg);
                let hand = found.at_2m_mps.map_or_else(|| "-".into(), words::hand_held);
                let beyond = if found.fails_mps.is_some() { limit(study, found) } else { "no more wind was flown" };
                vec![
                    Cell::loud(if worst { format!("{name}, worst") } else { name }, worst),
                    Cell::loud(known(found), worst),
                    most(found.plan_mps).into(),
                    hand.into(),
                    beyond.into(),
                ]
            })
            .collect();
        flow.table(&columns, &rows);
    }

    pub(super) fn loss_tables(&self, flow: &mut Flow<'_>, study: &LossStudy) {
        let mut no_return_seen = true;
        flow.part_before("From where a loss is recovered", MAP + 20.0);
        flow.picture(MAP, |sheet, frame| {
            let map = losses::ground(sheet, frame, self.scenario, study);
            let shown = |at: DVec2| at.cmpge(map.frame.low).all() && at.cmple(map.frame.high).all();
            no_return_seen = map.all(&study.no_return).any(shown);
        });
        let (all, flown) = (study.cells.len(), study.count().flown);
        let columns = [
            text("what came of it", 56.0),
            digits("cells: plan as entered, worst of all headings", 60.0),
            digits("flights, with interval", 66.0),
        ];
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        for outcome in Outcome::ALL {
            rows.push(vec![
                Cell::signed(Sign::Swatch(look(outcome)), outcome.name()),
                format!("{} of {all}", study.cells_as_entered(outcome)).into(),
                counted(study.flights(outcome), flown, study.ask.confidence).into(),
            ]);
        }
        rows.push(vec![
            Cell::signed(Sign::Diamond, "a trial came to something worse"),
            format!("{} of {all}", study.worse().count()).into(),
            "".into(),
        ]);
        flow.table(&columns, &rows);
        if let Some(keep) = self.studies.line() {
            for one in &keep.lines {
                explained(flow, &format!("Keep-inside line, {}: {}.", lost(one), kept_inside(keep, one)));
            }
        }
        if !study.turn_back.is_empty() {
            line(
                flow,
                TURN_BACK,
                "turn-back line, a check in closed form: inside it a loss on any heading turns back within the boundary",
            );
        }
        if !study.no_return.is_empty() {
            let beyond = if no_return_seen { "" } else { " (it lies beyond this map)" };
            line(
                flow,
                NO_RETURN,
                &format!("no-return line: from beyond it the energy does not reach home over the reserve{beyond}"),
            );
        }
        flow.paragraph(&format!(
            "Cells of {} m, {} headings, lost as the plan has it. {}",
            number(study.cell_m),
            study.ask.headings,
            looked(study)
        ));
    }
}

/// The usable radii, the curve, and what would help.
pub(super) fn circles(flow: &mut Flow<'_>, study: &RadiusStudy, plan: &RecoveryPlan) {
    let kinds = [
        ("trials", &study.usable.trials),
        ("trials: undecided", &study.usable.undecided),
        ("no errors, mean wind", &study.usable.mean),
        ("no errors, gust wind", &study.usable.gust),
    ];
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for (wind, usable) in &kinds {
        if usable.is_empty() {
            rows.push(vec![(*wind).into(), Cell::bold("none"), "".into(), "".into(), "".into()]);
        }
        for range in *usable {
            rows.push(vec![
                (*wind).into(),
                words::turn(range.turn).into(),
                format!("{} to {} m", number(range.low.radius_m), number(range.high.radius_m)).into(),
                end(&range.low).into(),
                end(&range.high).into(),
            ]);
        }
    }
    let columns = [
        text("holds by", 34.0),
        text("way round", 26.0),
        digits("radius", 28.0),
        text("why none below", 47.0),
        text("why none above", 47.0),
    ];
    flow.table(&columns, &rows);
    flow.paragraph("By trials a radius holds where they say yes; without errors, where every margin is met.");
    study
        .already
        .iter()
        .map(words::shortfall)
        .for_each(|missed| flow.item("-", &format!("Not met before the jet even acts on the loss: {missed}.")));
    remedies(flow, study);
    // As tall as the page leaves it, but no less than its key.
    let tall = if flow.left() < CURVE[0] { CURVE[1] } else { flow.left().min(CURVE[1]) };
    flow.picture(tall, |sheet, frame| curve::curves(sheet, frame, study, plan, false));
}

/// Every change that was tried where no radius is usable.
fn remedies(flow: &mut Flow<'_>, study: &RadiusStudy) {
    if let Some(best) = &study.best_centre {
        flow.paragraph(&format!(
            "Best centre found inside the boundary: ({:.0}, {:.0}) m, {}; usable radii there in the mean wind: {}.",
            best.centre.x,
            best.centre.y,
            way(best.radius_m, best.turn),
            usable(&best.usable, None)
        ));
    }
    if study.remedies.is_empty() {
        return;
    }
    flow.part("What would help, one change at a time, each flown");
    let (opens, shut): (Vec<_>, Vec<_>) = study.remedies.iter().partition(|remedy| !remedy.usable.is_empty());
    if !opens.is_empty() {
        let columns = [
            text("change", 82.0),
            text("usable radii in the mean wind", 50.0),
            text("usable radii in the gust wind", 50.0),
        ];
        let row = |remedy: &&Remedy| -> Vec<Cell> {
            vec![remedy.change.as_str().into(), usable(&remedy.usable, None).into(), usable(&remedy.gust, None).into()]
        };
        flow.table(&columns, &opens.iter().map(row).collect::<Vec<_>>());
    }
    if !shut.is_empty() {
        let changes: Vec<&str> = shut.iter().map(|remedy| remedy.change.as_str()).collect();
        flow.paragraph(&format!("These do not help: {}.", changes.join("; ")));
    }
}

/// A line of the map with what it means.
fn line(flow: &mut Flow<'_>, dash: &'static [f64], words: &str) {
    flow.need(9.0);
    let from = DVec2::new(flow.room.low.x, flow.y + 1.6);
    flow.sheet.line([from, from + DVec2::new(9.0, 0.0)], Pen::plain(Ink::BLACK, 0.8).dashed(dash));
    flow.after(11.5, words);
}
