//! Page 2, the plan to scale: where it is flown, how exact the drawing is, who and what is near.

use glam::DVec2;

use super::by_case::asked;
use super::field::{away, rule, today};
use super::grid::{Entry, Grid};
use crate::brief::Plan;
use crate::draw::{Frame, Sheet};
use crate::geometry::Region;
use crate::report::picture::STRIP;
use crate::report::prints::plot::Shown;
use crate::words::{self, not_made};

/// Scales that a ruler is read at: a metre of ground is a thousandth of so many mm.
const SCALES: [f64; 15] = [
    500.0, 1000.0, 1250.0, 2000.0, 2500.0, 3000.0, 4000.0, 5000.0, 6000.0, 7500.0, 10_000.0, 12_500.0, 20_000.0,
    25_000.0, 50_000.0,
];
/// Greatest height of the map without its strip, mm.
const MAP: f64 = 128.0;
/// What the map shows: the sun is a matter of hours.
const SHOWN: Shown = Shown { sun: false, ..Shown::ALL };

impl Plan<'_> {
    pub(super) fn page_to_scale(&self, sheet: &mut Sheet, mut room: Frame) {
        let (low, high) = self.extent(SHOWN);
        let ground = high - low;
        let paper = DVec2::new(room.size().x, MAP);
        let fits = |scale: &&f64| (ground * 1000.0 / **scale).cmple(paper).all();
        let scale = SCALES.iter().find(fits).copied();
        let told = match scale {
            Some(scale) => format!("Scale 1 : {scale:.0} on A4: a centimetre is {} m.", words::number(scale / 100.0)),
            None => "No round scale fits on the page: the bar under the map says how far is how much.".into(),
        };
        let hidden = if self.lap.is_some() {
            " Where the circle as commanded is not seen, it lies under the one flown."
        } else {
            ""
        };
        room.low.y = super::heading(sheet, room, "2", "The plan to scale", &[format!("{told} North is up.{hidden}")]);
        let tall = scale.map_or(MAP, |scale| ground.y * 1000.0 / scale);
        let map = Frame { low: room.low, high: DVec2::new(room.high.x, room.low.y + tall + STRIP) };
        let left_out = self.map(sheet, map, SHOWN);
        let key = Frame { low: DVec2::new(room.low.x, map.high.y + 0.5), high: room.high };
        let foot = self.key(sheet, key, SHOWN, left_out);
        room.low.y = foot + 2.5;
        let keep = self.studies.line().map_or_else(|| not_made("Keep-inside line"), words::keep_inside);
        let survey = self.survey();
        let rows = vec![vec![Entry::bold(survey.about), asked(survey)], vec![Entry::bold("Keep inside"), keep.into()]];
        let most = Frame { low: room.low, high: DVec2::new(room.high.x, room.low.y + (room.size().y * 0.5).max(24.0)) };
        room.low.y = Grid { columns: &[("", 34.0), ("", 150.0)], size: 3.4, least: 0.0 }.set(sheet, most, &rows) + 3.0;
        let below = super::under(sheet, room, "People, areas and tall things, the nearest first");
        self.areas_near(sheet, below);
    }

    /// What is drawn on the ground, by how near its nearest edge is to the centre.
    fn areas_near(&self, sheet: &mut Sheet, room: Frame) {
        let (field, file) = (&self.scenario.field, self.scenario.file.field.as_ref());
        let from = |region: &Region| {
            let metres = if region.contains(field.centre) { 0.0 } else { region.nearest(field.centre).distance };
            (metres, away(region, field.centre))
        };
        let pilot = from(&Region::point(field.pilot));
        let mut near = vec![(pilot, ["pilot position".to_owned(), "people".into(), "people".into()])];
        let written = file.into_iter().flat_map(|file| &file.areas);
        near.extend(
            field
                .areas
                .iter()
                .zip(written)
                .map(|(area, written)| (from(&area.region), [area.name.clone(), rule(written), today(area.rule)])),
        );
        let written = file.into_iter().flat_map(|file| &file.obstacles);
        near.extend(field.obstacles.iter().zip(written).map(|(tall, written)| {
            (from(&tall.region), [tall.name.clone(), format!("{} high", written.height), "to be flown over".into()])
        }));
        near.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
        let rows: Vec<Vec<Entry>> = near
            .into_iter()
            .map(|((_, away), [name, rule, today])| {
                let people = today == "people";
                let name = if people { Entry::bold(name) } else { name.into() };
                vec![name, rule.into(), today.into(), away.into()]
            })
            .collect();
        let day = format!("on {}", self.scenario.file.date);
        let columns = [("what", 60.0), ("rule", 62.0), (day.as_str(), 36.0), ("from the centre", 26.0)];
        Grid { columns: &columns, size: 3.4, least: 0.0 }.set(sheet, room, &rows);
    }
}
