//! The poster for the clubhouse wall: A3, to be read from two metres.

use glam::DVec2;

use super::paper::{GAP, alarm_box, box_row, size, strip};
use super::plot::Shown;
use crate::brief::{Facts, Plan};
use crate::draw::{Fill, Frame, Ink, Lettering, Pen, Room, Sheet};
use crate::words::capital;

/// Paper left free.
pub(super) const EDGE: f64 = 12.0;
/// Width of the column beside the map.
const COLUMN: f64 = 150.0;
/// Height of the boxes below both.
const BOXES: f64 = 66.0;
/// How much larger than on a card the map and its names are.
const LARGER: f64 = 1.5;
/// Smallest letters that are read from two metres, mm.
const LEAST: f64 = 4.6;

impl Plan<'_> {
    /// The poster.
    pub fn poster(&self) -> Sheet {
        let (facts, file) = (self.facts(), &self.scenario.file);
        let about = format!(
            "Poster of {}: where a {} circles by itself when its control is lost: {} {}, {} up",
            file.name, file.jet.name, facts.radius, facts.turn[0], facts.height[0]
        );
        let paper = size::A3_LYING;
        let mut sheet = Sheet::new(paper.x, paper.y, format!("{}: poster", file.name), about);
        let foot = self.foot(&mut sheet, EDGE, 3.6);
        let (left, right) = (EDGE, paper.x - EDGE);
        let head = Frame { low: DVec2::splat(EDGE), high: DVec2::new(right, EDGE + 23.0) };
        let white = strip(&mut sheet, head.low, head.high);
        let title = Frame { low: head.low + DVec2::new(5.0, 2.6), high: DVec2::new(right - 96.0, head.high.y) };
        sheet.fitted(Room::new(title, 14.0, 6.0), std::slice::from_ref(&file.name), white);
        let beside = Frame { low: DVec2::new(right - 94.0, head.low.y + 2.6), high: head.high - DVec2::new(5.0, 1.0) };
        sheet.fitted(Room::new(beside, 7.4, LEAST), &[file.jet.name.clone(), facts.valid.clone()], white.end());
        let below = DVec2::new(left, head.high.y + GAP);
        let alarmed = alarm_box(&mut sheet, below, right - left, &facts.alarms, [6.0, LEAST], 46.0);
        let top = alarmed.unwrap_or(head.high.y) + GAP;
        let boxes = Frame { low: DVec2::new(left, foot - GAP - BOXES), high: DVec2::new(right, foot - GAP) };
        let split = right - COLUMN;
        // What never circles is shown by the way it goes.
        let shown = Shown { path: self.lap.is_none(), ..Shown::ALL };
        // Drawn small and put on larger, so that names and signs are read from afar too.
        let low = DVec2::new(left, top);
        let size = (DVec2::new(split - GAP, boxes.low.y - GAP) - low) / LARGER;
        let mut small = Sheet::new(size.x, size.y, "", "");
        let map = Frame { low: DVec2::ZERO, high: size - DVec2::new(0.0, 14.8) };
        let left_out = self.map(&mut small, map, shown);
        let key = Frame { low: DVec2::new(0.0, map.high.y + 0.6), high: size };
        self.key(&mut small, key, shown, left_out);
        sheet.paste(small, low, LARGER);
        self.column(
            &mut sheet,
            Frame { low: DVec2::new(split, top), high: DVec2::new(right, boxes.low.y - GAP) },
            &facts,
        );
        let all: Vec<_> = self.loss_boxes().into_iter().chain([facts.others()]).collect();
        box_row(&mut sheet, boxes, &all, [6.4, 4.2]);
        sheet
    }

    /// The circle in numbers, up to what wind, and who said so.
    fn column(&self, sheet: &mut Sheet, column: Frame, facts: &Facts) {
        sheet.rectangle(column.low, column.high, Some(Pen::plain(Ink::BLACK, 0.8)), Fill::None);
        let numerals = [
            ("radius", facts.radius.clone()),
            ("height", facts.height[0].clone()),
            ("one lap", facts.lap.clone().unwrap_or_else(|| "none".into())),
        ];
        let wide = column.size().x / 3.0;
        let tall = (column.size().y * 0.22).min(27.0);
        for (index, (label, numeral)) in (0_u8..).zip(numerals) {
            let low = column.low + DVec2::new(f64::from(index) * wide + 4.0, 2.4);
            let head = Frame { low, high: low + DVec2::new(wide - 6.0, 7.0) };
            sheet.fitted(Room::new(head, 5.2, LEAST), &[label.into()], Lettering::new(0.0));
            let body = Frame { low: low + DVec2::new(0.0, 7.0), high: low + DVec2::new(wide - 6.0, tall) };
            sheet.fitted(Room::new(body, 13.0, LEAST), &[numeral], Lettering::new(0.0).bold());
        }
        let rule = column.low.y + tall + 3.0;
        sheet.line([DVec2::new(column.low.x, rule), DVec2::new(column.high.x, rule)], Pen::plain(Ink::RULE, 0.5));
        let turn = format!("{}, {}.", capital(facts.turn[0]), facts.turn[1]);
        let flown_out = facts
            .furthest
            .as_ref()
            .map(|far| format!("In the wind of the plan it is flown out to {far} from the centre."));
        let told: Vec<String> = [
            Some(turn),
            Some(facts.wind_for_wall()),
            flown_out,
            Some(format!("Take over: {}", facts.take_over)),
            Some(format!("The sun: {}", self.sun_briefly())),
            Some(format!("When control is lost: {}.", facts.failsafe_action)),
            Some(format!("Authorised by: {}.", facts.authority)),
            Some(facts.losses.clone()),
            facts.met.as_ref().map(|met| format!("In this model it {met}.")),
        ]
        .into_iter()
        .flatten()
        .collect();
        let room = Frame { low: DVec2::new(column.low.x + 4.0, rule + 3.0), high: column.high - DVec2::new(4.0, 1.5) };
        sheet.fitted(Room::new(room, 7.0, LEAST), &told, Lettering::new(0.0));
    }
}
