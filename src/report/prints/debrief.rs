//! A debrief on one page: the flown path over the predicted one, the velocities over the ground with the wind they tell, what
//! was predicted beside what was flown, and what it corrects.

use glam::DVec2;

use super::paper::{EDGE, GAP, PAD, boxed, foot, list, size, strip};
use crate::debrief::{Debriefed, velocity};
use crate::draw::{Axes, Document, Fill, Frame, Ink, Lettering, MapFrame, Pen, Room, Scale, Section, Sheet};
use crate::report::debrief::{DebriefReport, LogDebrief};
use crate::report::picture::field::{ground, shapes};
use crate::words::{Units, cautions, debrief as words};

/// Smallest letters, mm.
const LEAST: f64 = 2.6;
/// How the paths are drawn.
const FLOWN: Pen = Pen::plain(Ink::BLACK, 0.8);
const PREDICTED: Pen = Pen::plain(Ink::VERMILION, 0.7).dashed(&[2.4, 1.4]);

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
        sheet.fitted(Room::new(frame, 6.4, 3.0), &[format!("Debrief: {}", file.name)], white);
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
            if let Some(predicted) = &one.predicted {
                let trace = &predicted.run.trace;
                let path: Vec<DVec2> = (0..trace.len()).map(|index| trace.point(index)).collect();
                sheet.line(map.all(&path), PREDICTED);
            }
            sheet.line(map.all(&flown), FLOWN);
        });
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
        lines.extend(log.corrections.iter().map(|one| format!("{}: {} \u{2192} {}", one.what, one.before, one.after)));
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
