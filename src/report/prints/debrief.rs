//! A debrief on one page: the flown path over the predicted one, the velocities over the ground with the wind they tell, what
//! was predicted beside what was flown, and what it corrects.

use glam::DVec2;

use super::paper::{EDGE, GAP, PAD, boxed, foot, list, size, strip};
use crate::debrief::{Debriefed, velocity};
use crate::draw::{
    Axes, Document, Fill, Frame, Ink, Lettering, MapFrame, Pen, Room, Scale, Section, Sheet, north, wind,
};
use crate::report::debrief::{DebriefReport, LogDebrief};
use crate::report::picture::field::{ground, shapes};
use crate::units::Bearing;
use crate::words::{Units, cautions, debrief as words};

/// Smallest letters, mm.
const LEAST: f64 = 2.6;
/// How the paths are drawn.
const FLOWN: Pen = Pen::plain(Ink::BLACK, 0.8);
const PREDICTED: Pen = Pen::plain(Ink::VERMILION, 0.5).dashed(&[2.4, 1.4]);

impl DebriefReport<'_> {
    /// The page.
    pub fn sheet(&self) -> Sheet {
        let paper = size::A4_LYING;
        let file = &self.scenario.file;
        let mut sheet =
            Sheet::new(paper.x, paper.y, format!("{}: debrief", file.name), "What was flown against what was said");
        let right = paper.x - EDGE;
        let (low, high) = (DVec2::splat(EDGE), DVec2::new(right, EDGE + 12.0));
        let white = strip(&mut sheet, low, high);
        let frame = Frame { low: low + DVec2::new(PAD, 2.0), high: high - DVec2::new(PAD, 0.0) };
        let name = Frame { high: DVec2::new(right * 0.6, frame.high.y), ..frame };
        sheet.fitted(Room::new(name, 6.4, 3.0), &[format!("Debrief: {}", file.name)], white);
        let beside = Frame { low: DVec2::new(right * 0.6 + 2.0, frame.low.y + 1.4), ..frame };
        sheet.fitted(Room::new(beside, 4.0, LEAST), &[self.shown()], white.end());
        let bottom = foot(&mut sheet, EDGE, 2.6, &self.stamp()) - GAP;
        let top = high.y + GAP;
        let split = EDGE + (right - EDGE) * 0.5;
        let first = self.logs.iter().find_map(|log| Some((log, log.recoveries.first()?)));
        let Some((log, one)) = first else {
            let all = Frame { low: DVec2::new(EDGE, top), high: DVec2::new(right, bottom) };
            sheet.fitted(
                Room::new(all, 5.0, LEAST),
                &["No recovery was found in what was logged.".into()],
                Lettering::new(0.0),
            );
            return sheet;
        };
        let middle = top + (bottom - top) * 0.56;
        let map = Frame { low: DVec2::new(EDGE, top), high: DVec2::new(split - GAP, middle) };
        if self.places {
            self.map(&mut sheet, map, log, one);
        } else {
            let inside = boxed(&mut sheet, map, "Where it was flown");
            sheet.fitted(
                Room::new(inside, 4.0, LEAST),
                &["Places are left out of this print.".into()],
                Lettering::new(0.0),
            );
        }
        let beside = Frame { low: DVec2::new(split, top), high: DVec2::new(right, middle) };
        hodograph(&mut sheet, beside, log, one);
        let table = Frame { low: DVec2::new(EDGE, middle + GAP), high: DVec2::new(split - GAP, bottom) };
        compared(&mut sheet, table, one);
        let told = Frame { low: DVec2::new(split, middle + GAP), high: DVec2::new(right, bottom) };
        self.told(&mut sheet, told, log, one);
        sheet
    }

    /// Which of all recoveries the page is about.
    fn shown(&self) -> String {
        let all: usize = self.logs.iter().map(|log| log.recoveries.len()).sum();
        let first = self.logs.iter().find(|log| !log.recoveries.is_empty());
        first.map_or_else(String::new, |log| {
            let day = log.log.day.as_deref().map_or_else(String::new, |day| format!(", {day}"));
            let of =
                if all > 1 { format!(", the first of {all}: the others are in the report") } else { String::new() };
            format!("{}{day}{of}", log.log.name)
        })
    }

    /// The page as a document.
    pub fn document(&self) -> Document {
        let file = &self.scenario.file;
        let logs = self.logs.iter().map(|log| Section {
            heading: format!("Log {}", log.log.name),
            paragraphs: log
                .recoveries
                .iter()
                .map(|one| match &one.wind {
                    Ok(fit) => {
                        format!("From the ground track: {}. {}", words::wind(fit, &Units::default()), words::held(one))
                    }
                    Err(why) => format!("The wind can't be told: {why}."),
                })
                .collect(),
        });
        let standing = Section { heading: "What may be said".into(), paragraphs: vec![words::standing(&self.tally())] };
        let before =
            Section { heading: "Before you rely on this".into(), paragraphs: cautions::ALL.map(String::from).into() };
        Document {
            title: format!("{}: debrief", file.name),
            subject: self.stamp(),
            pages: vec![self.sheet()],
            words: logs.chain([standing, before]).collect(),
            ..Document::default()
        }
    }

    fn map(&self, sheet: &mut Sheet, frame: Frame, log: &LogDebrief, one: &Debriefed) {
        let inside = boxed(sheet, frame, "Flown (full line) over predicted (broken line)");
        let field = &self.scenario.field;
        let (low, high) = field.boundary.bounds();
        let map = MapFrame::fit(inside, low, high);
        let flown: Vec<DVec2> = log.log.track.place()[one.marks.lost..=one.marks.taken_over].to_vec();
        sheet.clipped(inside.low, inside.high, |sheet| {
            ground(sheet, &map, field);
            shapes(sheet, &map, field);
            sheet.line(map.all(&flown), FLOWN);
            if let Some(predicted) = &one.predicted {
                let trace = &predicted.run.trace;
                let path: Vec<DVec2> = (0..trace.len()).map(|index| trace.point(index)).collect();
                sheet.line(map.all(&path), PREDICTED);
            }
        });
        let corner = DVec2::new(inside.high.x - 8.0, inside.low.y + 10.0);
        north(sheet, corner);
        if let Ok(fit) = &one.wind {
            wind(sheet, corner - DVec2::new(14.0, 0.0), Bearing::of(-fit.wind), 10.0);
        }
        map.scale_bar(sheet, DVec2::new(inside.low.x + 3.0, inside.high.y - 3.0), 40.0);
    }

    fn told(&self, sheet: &mut Sheet, frame: Frame, log: &LogDebrief, one: &Debriefed) {
        let inside = boxed(sheet, frame, "What that says");
        let units = Units::default();
        let mut lines = vec![match &one.wind {
            Ok(fit) => format!("From the ground track: {}.", words::wind(fit, &units)),
            Err(why) => format!("The wind can't be told: {why}."),
        }];
        lines.extend(
            one.steering.as_ref().map(|steering| format!("By the join and the laps {}.", words::steers(steering))),
        );
        lines.push(words::held(one).into());
        lines.push(words::standing(&self.tally()));
        lines.extend(words::by_height(&log.heights, &units).first().map(|growth| format!("With height: {growth}.")));
        lines.extend(
            self.corrections().iter().map(|one| format!("To correct in the sheet: {}.", words::correction(one))),
        );
        list(sheet, Room::new(inside, 3.8, LEAST), &lines);
    }
}

/// Velocities over the ground on the circle, with the circle that fits them: its middle is the wind, its radius the airspeed.
fn hodograph(sheet: &mut Sheet, frame: Frame, log: &LogDebrief, one: &Debriefed) {
    let inside = boxed(sheet, frame, "Velocities over the ground: middle is the wind, radius the airspeed, m/s");
    let track = &log.log.track;
    let points: Vec<DVec2> =
        one.marks.circling.clone().unwrap_or_default().filter_map(|index| velocity(track, index)).collect();
    let reach = points.iter().map(|point| point.abs().max_element()).fold(10.0, f64::max) * 1.1;
    let room = inside.size() - DVec2::new(18.0, 14.0);
    let side = room.min_element();
    let low = inside.low + DVec2::new(14.0 + (room.x - side) / 2.0, 2.0);
    let scale = Scale::over([-reach, reach], 4);
    let axes = Axes { frame: Frame { low, high: low + DVec2::splat(side) }, x: scale, y: scale };
    axes.draw(sheet);
    axes.name(sheet, "to the east", "to the north");
    for point in points {
        sheet.circle(axes.at(point.x, point.y), 0.45, None, Fill::Plain(Ink::SOFT));
    }
    if let Ok(fit) = &one.wind {
        let around = (0..=90).map(|step| {
            let out = DVec2::from_angle(f64::from(step * 4).to_radians()) * fit.airspeed_mps + fit.wind;
            axes.at(out.x, out.y)
        });
        sheet.line(around.collect::<Vec<_>>(), Pen::plain(Ink::VERMILION, 0.6));
        sheet.line([axes.at(0.0, 0.0), axes.at(fit.wind.x, fit.wind.y)], Pen::plain(Ink::BLACK, 0.9));
        sheet.circle(axes.at(fit.wind.x, fit.wind.y), 1.1, None, Fill::Plain(Ink::BLACK));
    }
}

fn compared(sheet: &mut Sheet, frame: Frame, one: &Debriefed) {
    let inside = boxed(sheet, frame, "Predicted in the wind as flown, and flown");
    let lines = words::compared(one, &Units::default());
    let wide = inside.size().x;
    let columns = [0.0, 0.46, 0.64, 0.82, 1.0].map(|share| inside.low.x + share * wide);
    #[allow(clippy::cast_precision_loss, reason = "a dozen lines")]
    let tall = (inside.size().y / (lines.len() + 1) as f64).min(6.0);
    let head = ["", "predicted", "flown", "off"].map(String::from);
    let rows = std::iter::once(head)
        .chain(lines.into_iter().map(|line| [line.name.to_owned(), line.predicted, line.flown, line.off]));
    let mut y = inside.low.y;
    for (number, row) in rows.enumerate() {
        for (column, cell) in row.into_iter().enumerate() {
            let room =
                Frame { low: DVec2::new(columns[column], y), high: DVec2::new(columns[column + 1] - 1.0, y + tall) };
            let lettering = if number == 0 { Lettering::new(0.0).bold() } else { Lettering::new(0.0) };
            sheet.fitted(Room::new(room, 3.6, 2.2), &[cell], lettering);
        }
        y += tall;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::VERSION;
    use crate::log::FlightLog;
    use crate::run::{Scenario, WindChoice, fly};
    use crate::study::work::Work;
    use crate::words::cautions::FOOT;

    /// Logs of a jet that returns faster than the sheet says, so that there is something to correct.
    fn logs(scenario: &Scenario) -> Vec<LogDebrief> {
        let mut file = scenario.file.clone();
        file.jet.return_speed.value = crate::units::Speed::new(27.0);
        let truth = Scenario::from_file(file).unwrap();
        let log = |trial: u64| {
            let (name, track) = (
                format!("flight of trial {trial} with a name that goes on and on.csv"),
                fly(&truth, trial, WindChoice::Mean).track(),
            );
            LogDebrief::of(
                scenario,
                FlightLog { name, day: Some("2026-05-24".into()), track, repairs: Vec::new() },
                &Work::default(),
            )
        };
        vec![log(1), log(2)]
    }

    #[test]
    fn nothing_runs_off_the_page_or_lies_on_another_and_every_letter_can_be_set() {
        let scenario = Scenario::demo();
        let logs = logs(&scenario);
        assert!(!crate::report::debrief::together(&scenario.file, &logs).is_empty());
        for (logs, places) in [(&logs[..], true), (&logs[..], false), (&[], true)] {
            let report = DebriefReport { scenario: &scenario, logs, places };
            let page = report.sheet();
            let all = page.lettered();
            let said: String = all.iter().map(|(words, ..)| words.clone() + " ").collect();
            for origin in [&scenario.hash(), VERSION, FOOT] {
                assert!(said.contains(origin), "{said} does not say {origin}");
            }
            // What the lettering has beside ASCII.
            let odd = said.chars().find(|letter| {
                !letter.is_ascii() && !"\u{b0}\u{2212}\u{2013}\u{201c}\u{201d}\u{2026}".contains(*letter)
            });
            assert_eq!(odd, None, "{said}");
            for (index, (words, low, high)) in all.iter().enumerate() {
                let inside = low.min_element() >= 5.0 && (page.size_mm - *high).min_element() >= 5.0;
                assert!(inside, "\"{words}\" from {low} to {high}");
                for (other, other_low, other_high) in &all[index + 1..] {
                    let across = high.min(*other_high) - low.max(*other_low);
                    assert!(across.x < 0.3 || across.y < 0.6, "\"{words}\" lies on \"{other}\" by {across}");
                }
            }
        }
    }

    #[test]
    fn without_places_no_line_of_a_path_is_drawn() {
        let scenario = Scenario::demo();
        let logs = logs(&scenario);
        let page = |places| DebriefReport { scenario: &scenario, logs: &logs, places }.sheet().marks.len();
        assert!(page(false) < page(true));
    }
}
