//! The field card: one side of A4 for the flight line. What is done in an emergency stands first and largest, then where to
//! look, then up to what wind.

use glam::DVec2;

use super::paper::{EDGE, GAP, PAD, actions, actions_tall, boxed, list, one_by_one, size, strip};
use super::plot::Shown;
use crate::brief::{Facts, Plan};
use crate::draw::{Fill, Frame, Ink, Lettering, Pen, Room, Sheet, arrow_head};
use crate::recovery::Turn;
use crate::report::picture::STRIP;

/// Letters of what is done in an emergency, mm: 11 points, read at arm's length.
pub(super) const ACTION: f64 = 3.9;
/// Greatest height of a row of emergencies, mm.
const HIGHEST: f64 = 64.0;
/// Height of the emergency numbers, the stop list and the signatures.
const HELP: f64 = 38.0;
/// Height of the wind limit, and of the circle's figures under it.
const WIND: f64 = 26.0;
const CIRCLE: f64 = 12.0;
/// Smallest letters on the card, mm.
const LEAST: f64 = 2.4;

impl Plan<'_> {
    /// The field card.
    pub(super) fn card(&self) -> Sheet {
        let facts = self.facts();
        let name = &self.scenario.file.name;
        let about = format!(
            "Field card of {name}: circle of {} at {} {}, {}",
            facts.radius, facts.height[0], facts.turn[0], facts.wind
        );
        let mut sheet = Sheet::new(size::A4.x, size::A4.y, format!("{name}: field card"), about);
        let foot = self.foot(&mut sheet, EDGE, LEAST);
        let (left, right) = (EDGE, size::A4.x - EDGE);
        let top = self.head(&mut sheet, &facts);
        let top = self.emergencies(&mut sheet, DVec2::new(left, top + GAP), right);

        let help = Frame { low: DVec2::new(left, foot - GAP - HELP), high: DVec2::new(right, foot - GAP) };
        let middle = Frame { low: DVec2::new(left, top), high: DVec2::new(right, help.low.y - GAP) };
        // As wide as the ground is beside its height: nothing of the frame stays empty. Lines have their names on them, so
        // that no key takes room from the map.
        let ground = self.extent(Shown::CARD);
        let aspect = (ground.1 - ground.0).x / (ground.1 - ground.0).y;
        let split = left + ((middle.size().y - STRIP) * aspect).clamp(84.0, 122.0);
        self.map(&mut sheet, Frame { low: middle.low, high: DVec2::new(split, middle.high.y) }, Shown::CARD);
        let column = Frame { low: DVec2::new(split + GAP, middle.low.y), high: middle.high };
        let wind_high = column.high - DVec2::new(0.0, CIRCLE + 1.5);
        let wind = Frame { low: DVec2::new(column.low.x, wind_high.y - WIND), high: wind_high };
        self.look(&mut sheet, Frame { low: column.low, high: DVec2::new(column.high.x, wind.low.y - GAP) }, &facts);
        wind_limit(&mut sheet, wind, &facts);
        self.circle(&mut sheet, Frame { low: DVec2::new(column.low.x, wind.high.y + 1.5), high: column.high }, &facts);
        self.help(&mut sheet, help);
        sheet
    }

    /// Name, jet and how long it holds; returns its lower edge.
    fn head(&self, sheet: &mut Sheet, facts: &Facts) -> f64 {
        let file = &self.scenario.file;
        let (low, high) = (DVec2::splat(EDGE), DVec2::new(size::A4.x - EDGE, EDGE + 12.5));
        let white = strip(sheet, low, high);
        let split = high.x - 52.0;
        let name = Frame { low: low + DVec2::new(PAD, 0.9), high: DVec2::new(split, low.y + 7.6) };
        sheet.fitted(Room::new(name, 5.2, 3.6), std::slice::from_ref(&file.name), white);
        let jet = match file.brief.jet_marks.trim() {
            "" => file.jet.name.clone(),
            marks => format!("{}: {marks}", file.jet.name),
        };
        let below = Frame { low: low + DVec2::new(PAD, 7.6), high: DVec2::new(split, high.y - 0.4) };
        sheet.fitted(Room::new(below, 3.4, LEAST), &[jet], Lettering::new(0.0).ink(Ink::PAPER));
        let right = Frame { low: DVec2::new(split + 2.0, low.y + 1.2), high: high - DVec2::new(PAD, 0.5) };
        let day = match self.hours() {
            Some(hours) => format!("for {}, {hours}", file.date),
            None => format!("for {}", file.date),
        };
        sheet.fitted(Room::new(right, 3.9, LEAST), &[facts.valid.clone(), day], white.end());
        high.y
    }

    /// What is done when something is lost; returns where the next thing may stand.
    fn emergencies(&self, sheet: &mut Sheet, low: DVec2, right: f64) -> f64 {
        let boxes = self.loss_boxes();
        let (two, three) = boxes.split_at(2);
        let mut y = low.y;
        for row in [two, three] {
            #[allow(clippy::cast_precision_loss, reason = "two or three")]
            let wide = (right - low.x + GAP) / row.len() as f64 - GAP;
            let tall = row.iter().map(|told| actions_tall(&told.lines, ACTION, wide)).fold(0.0, f64::max).min(HIGHEST);
            let mut x = low.x;
            for told in row {
                let inside =
                    boxed(sheet, Frame { low: DVec2::new(x, y), high: DVec2::new(x + wide, y + tall) }, told.title);
                actions(sheet, inside, ACTION, &told.lines);
                x += wide + GAP;
            }
            y += tall + GAP;
        }
        let line = ACTION * Sheet::LEADING;
        for told in self.in_any() {
            let room = Frame { low: DVec2::new(low.x + PAD, y), high: DVec2::new(right, y + line + 0.1) };
            sheet.fitted(Room::new(room, ACTION, ACTION), &[told.into()], Lettering::new(0.0).bold());
            y += line;
        }
        y + GAP
    }

    fn look(&self, sheet: &mut Sheet, frame: Frame, facts: &Facts) {
        let inside = boxed(sheet, frame, "Look here, take over there");
        let look = facts.look.clone().unwrap_or_else(|| "It flies no whole lap: keep eyes on it all the time.".into());
        let sun = match self.glare.in_hours() {
            Some(false) => "clear of the circle.".into(),
            _ => self.sun_briefly(),
        };
        let said = [look, facts.take_over.clone(), format!("Sun: {sun}"), format!("{}.", facts.clock)];
        sheet.fitted(Room::new(inside, 4.0, LEAST), &said, Lettering::new(0.0));
    }

    /// Radius, height and way round, small: nobody flies by them on the day.
    fn circle(&self, sheet: &mut Sheet, frame: Frame, facts: &Facts) {
        let low = frame.low;
        let (middle, r) = (low + DVec2::new(5.0, 5.4), 3.6);
        let way = if self.scenario.file.recovery.turn == Turn::Anticlockwise { -1.0 } else { 1.0 };
        let around = |step: u8| {
            let angle = way * (f64::from(step) * 15.0 - 60.0).to_radians();
            middle + DVec2::from_angle(angle) * r
        };
        sheet.line((0..=18).map(around), Pen::plain(Ink::BLACK, 0.7));
        arrow_head(sheet, around(18), (around(18) - around(17)).normalize(), [2.2, 1.4, 1.7], (Ink::BLACK, 0.4));
        let lap = facts.lap.as_ref().map_or_else(String::new, |lap| format!(", one lap {lap}"));
        let told = [
            format!("radius {}, {} ({}) over home", facts.radius, facts.height[0], facts.height[1]),
            format!("{}, {}{lap}", facts.turn[0], facts.turn[1]),
        ];
        let room = Frame { low: low + DVec2::new(12.0, 0.4), high: frame.high };
        sheet.fitted(Room::new(room, 3.6, LEAST), &told, Lettering::new(0.0));
    }

    /// When to stop, whom to call, and who signed.
    fn help(&self, sheet: &mut Sheet, row: Frame) {
        let split = row.low.x + row.size().x * 0.47;
        let inside = boxed(sheet, Frame { low: row.low, high: DVec2::new(split, row.high.y) }, "Stop flying when");
        list(sheet, Room::new(inside, 3.4, LEAST), &self.stop_list());
        let help = &self.scenario.file.brief.emergency;
        let inside =
            boxed(sheet, Frame { low: DVec2::new(split + GAP, row.low.y), high: row.high }, "Ring, and where you are");
        let blank = |words: &str| if words.trim().is_empty() { "_".repeat(26) } else { words.to_owned() };
        let (latitude, longitude) = self.scenario.field.plane.to_degrees(self.scenario.field.pilot);
        let place = match help.grid_reference.trim() {
            "" => format!("{latitude:.5}, {longitude:.5} (pilot)"),
            grid => format!("{grid} (pilot {latitude:.5}, {longitude:.5})"),
        };
        let signed: Vec<String> = self.scenario.file.signed().into_iter().map(|(one, _)| one.name.clone()).collect();
        let told = [
            format!("Call: {}", blank(&help.call.join(";  "))),
            format!("Gate: {}", blank(&help.gate)),
            format!("Place: {place}"),
            format!("Fire kit: {}", blank(&help.fire_kit)),
            format!("Landowner: {}", blank(&help.landowner)),
            format!("Authorised by: {}. Signed: {}", self.facts().authority, signed.join(", ")),
        ];
        one_by_one(sheet, inside, [3.4, LEAST], &told);
    }
}

/// The one wind limit, and a line for the day's reading.
fn wind_limit(sheet: &mut Sheet, frame: Frame, facts: &Facts) {
    let inside = boxed(sheet, frame, "Wind limit, in the hand, at 2 m");
    let Some(wind) = facts.wind_for_card() else {
        sheet.fitted(Room::new(inside, 4.4, LEAST), &[facts.wind_for_day()], Lettering::new(0.0).bold());
        return;
    };
    let row = |from: f64, to: f64| Frame {
        low: DVec2::new(inside.low.x, inside.low.y + from),
        high: DVec2::new(inside.high.x, inside.low.y + to),
    };
    let limit = format!("{:.1} m/s, gusts {:.1} m/s", wind.mean_mps, wind.gust_mps);
    sheet.fitted(Room::new(row(0.0, 7.0), 5.4, 3.0), &[limit], Lettering::new(0.0).bold());
    let none = wind.none_from.map_or_else(String::new, |none| format!("; from {none}: none at all"));
    sheet.fitted(Room::new(row(7.0, 11.4), 3.4, LEAST), &[format!("from {}{none}", wind.from)], Lettering::new(0.0));
    let blank = "today: ______ m/s, gust ______";
    sheet.fitted(Room::new(row(12.4, 18.2), 4.2, 3.0), &[blank.into()], Lettering::new(0.0));
    sheet.rectangle(frame.low, frame.high, Some(Pen::plain(Ink::BLACK, 0.45)), Fill::None);
}
