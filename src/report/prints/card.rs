//! The field card: one side of A4 for the flight line, to be read at arm's length.

use glam::DVec2;

use super::paper::{EDGE, GAP, PAD, alarm_box, box_row, boxed, list, one_by_one, size, strip, within};
use super::plot::Shown;
use crate::brief::{Facts, Plan};
use crate::draw::{Fill, Frame, Ink, Lettering, Pen, Room, Sheet};
use crate::units::{Quantity as _, Speed};

/// Width of the column of numerals.
const COLUMN: f64 = 62.0;
/// Height of the boxes of the three losses.
const LOSSES: f64 = 37.0;
/// Height of the look cue and the stop list.
const LOOK: f64 = 45.0;
/// Height of the emergency box and the signatures.
const HELP: f64 = 32.0;
/// What a hand-held meter can't tell from a calm, m/s (judgement).
const CALM_MPS: f64 = 0.5;
/// Smallest letters on the card, mm.
const LEAST: f64 = 2.7;

impl Plan<'_> {
    /// The field card.
    pub fn card(&self) -> Sheet {
        let facts = self.facts();
        let name = &self.scenario.file.name;
        let about = format!(
            "Field card of {name}: circle of {} at {} {}, {}",
            facts.radius, facts.height[0], facts.turn[0], facts.wind
        );
        let mut sheet = Sheet::new(size::A4.x, size::A4.y, format!("{name}: field card"), about);
        let foot = self.foot(&mut sheet, EDGE, 2.6);
        let (left, right) = (EDGE, size::A4.x - EDGE);
        let top = self.head(&mut sheet, &facts);

        let help = Frame { low: DVec2::new(left, foot - GAP - HELP), high: DVec2::new(right, foot - GAP) };
        let look = Frame { low: DVec2::new(left, help.low.y - GAP - LOOK), high: DVec2::new(right, help.low.y - GAP) };
        let losses =
            Frame { low: DVec2::new(left, look.low.y - GAP - LOSSES), high: DVec2::new(right, look.low.y - GAP) };
        let split = right - COLUMN;
        let map = Frame { low: DVec2::new(left, top + GAP), high: DVec2::new(split - GAP, losses.low.y - GAP - 13.6) };
        let left_out = self.map(&mut sheet, map, Shown::ALL);
        let key = Frame { low: DVec2::new(left, map.high.y), high: DVec2::new(split - GAP, losses.low.y) };
        self.key(&mut sheet, key, Shown::ALL, left_out);
        let column = Frame { low: DVec2::new(split, map.low.y), high: DVec2::new(right, losses.low.y - GAP) };
        self.numerals(&mut sheet, column, &facts);
        box_row(&mut sheet, losses, &self.loss_boxes(), [3.9, LEAST]);
        self.look(&mut sheet, look, &facts);
        self.help(&mut sheet, help);
        sheet
    }

    /// Name, jet, how long it holds, up to what wind, and what must not be overlooked; returns its lower edge.
    fn head(&self, sheet: &mut Sheet, facts: &Facts) -> f64 {
        let file = &self.scenario.file;
        let (low, high) = (DVec2::splat(EDGE), DVec2::new(size::A4.x - EDGE, EDGE + 15.0));
        let white = strip(sheet, low, high);
        let split = high.x - 52.0;
        let name = Frame { low: low + DVec2::new(PAD, 1.2), high: DVec2::new(split, low.y + 9.6) };
        sheet.fitted(Room::new(name, 6.6, 3.6), std::slice::from_ref(&file.name), white);
        let jet = match file.brief.jet_marks.trim() {
            "" => file.jet.name.clone(),
            marks => format!("{}: {marks}", file.jet.name),
        };
        let below = Frame { low: low + DVec2::new(PAD, 9.4), high: DVec2::new(split, high.y - 0.5) };
        sheet.fitted(Room::new(below, 3.8, LEAST), &[jet], Lettering::new(0.0).ink(Ink::PAPER));
        let right = Frame { low: DVec2::new(split + 2.0, low.y + 1.6), high: high - DVec2::new(PAD, 0.5) };
        let day = match self.hours() {
            Some(hours) => format!("for {}, {hours}", file.date),
            None => format!("for {}", file.date),
        };
        sheet.fitted(Room::new(right, 4.6, LEAST), &[facts.valid.clone(), day], white.end());
        let row = Frame { low: DVec2::new(low.x, high.y), high: DVec2::new(high.x, high.y + 18.5) };
        self.wind_limit(sheet, row, facts);
        let below = DVec2::new(low.x, row.high.y + 1.5);
        alarm_box(sheet, below, high.x - low.x, &facts.alarms, [3.6, LEAST], 30.0).unwrap_or(row.high.y)
    }

    /// Up to what wind, at the circle and hand-held.
    fn wind_limit(&self, sheet: &mut Sheet, row: Frame, facts: &Facts) {
        sheet.rectangle(row.low, row.high, Some(Pen::plain(Ink::BLACK, 0.6)), Fill::None);
        let cell = |from: f64, to: f64| Frame {
            low: DVec2::new(row.low.x + from + PAD, row.low.y + 1.3),
            high: DVec2::new(row.low.x + to - PAD, row.high.y - 0.6),
        };
        let Some(wind_limits) = &facts.wind_limits else {
            let told = "Wind limit: not worked out for this print.".to_owned();
            sheet.fitted(Room::new(cell(0.0, row.size().x), 6.0, LEAST), &[told], Lettering::new(0.0).bold());
            return;
        };
        let numeral = |sheet: &mut Sheet, frame: Frame, label: String, numeral: String, beside: String| {
            let head = Frame { low: frame.low, high: DVec2::new(frame.high.x, frame.low.y + 3.9) };
            sheet.fitted(Room::new(head, 3.0, 2.4), &[label], Lettering::new(0.0));
            let body = Frame {
                low: DVec2::new(frame.low.x, frame.low.y + 4.2),
                high: DVec2::new(frame.high.x, frame.low.y + 12.9),
            };
            sheet.fitted(Room::new(body, 7.4, 3.4), &[numeral], Lettering::new(0.0).bold());
            let foot = Frame { low: DVec2::new(frame.low.x, frame.low.y + 12.9), high: frame.high };
            sheet.fitted(Room::new(foot, 3.0, 2.4), &[beside], Lettering::new(0.0));
        };
        let worst = match &wind_limits.worst {
            (way, Some(most)) => format!("worst, from {way}: {most:.1} m/s"),
            (_, None) if wind_limits.hand_by_wind.iter().all(|(_, hand)| hand.is_none()) => {
                "nor from any other direction".into()
            }
            (way, None) => format!("in no wind from {way}"),
        };
        let (hand, aloft) = (cell(0.0, 62.0), cell(62.0, 118.0));
        match (wind_limits.hand_mps, wind_limits.aloft_mps) {
            (Some([low, _]), Some(most)) => {
                let beside = if low < CALM_MPS {
                    format!("{low:.1} m/s, from {}", wind_limits.from)
                } else {
                    format!("{}, from {}", others(low), wind_limits.from)
                };
                let numeral_of =
                    |mps: f64| if mps < CALM_MPS { "calm only".to_owned() } else { format!("{mps:.1} m/s") };
                numeral(sheet, hand, "WIND LIMIT hand-held, at 2 m".into(), numeral_of(low), beside);
                numeral(sheet, aloft, "the same at circle height".into(), format!("{most:.1} m/s"), worst);
            }
            _ => {
                let label = format!("WIND LIMIT from {}", wind_limits.from);
                let alone = wind_limits.plan_mps.map_or_else(
                    || "it holds in none, not even in a calm".to_owned(),
                    |most| format!("not by trials; the plan without errors in {most:.1} m/s"),
                );
                numeral(sheet, hand, label, "no wind".into(), alone);
                numeral(sheet, aloft, "what is missed".into(), wind_limits.limit.clone(), worst);
            }
        }
        let table = cell(118.0, row.size().x);
        sheet.line(
            [DVec2::new(table.low.x - PAD, row.low.y), DVec2::new(table.low.x - PAD, row.high.y)],
            Pen::plain(Ink::RULE, 0.3),
        );
        let head = Frame { low: table.low, high: DVec2::new(table.high.x, table.low.y + 3.9) };
        sheet.fitted(Room::new(head, 3.0, 2.4), &["hand-held, by wind, m/s".into()], Lettering::new(0.0));
        for (index, (name, hand)) in (0_u8..).zip(wind_limits.hand_by_wind) {
            let wide = table.size().x / 4.0;
            let at = table.low + DVec2::new(f64::from(index % 4) * wide, 9.0 + f64::from(index / 4) * 6.2);
            sheet.words(at, name, Lettering::new(3.2));
            let told = hand.map_or_else(|| "none".into(), |hand| format!("{hand:.1}"));
            sheet.words(at + DVec2::new(7.0, 0.0), told, Lettering::new(if hand.is_some() { 4.2 } else { 3.0 }).bold());
        }
    }

    /// The numbers of the circle, large.
    fn numerals(&self, sheet: &mut Sheet, column: Frame, facts: &Facts) {
        sheet.rectangle(column.low, column.high, Some(Pen::plain(Ink::BLACK, 0.6)), Fill::None);
        let none = || "-".to_owned();
        let flown_out =
            facts.furthest.as_ref().map_or_else(|| "no lap is flown".into(), |far| format!("flown out to {far}"));
        let laps = facts.laps.clone().unwrap_or_else(none);
        let lap = facts.lap.clone().unwrap_or_else(none);
        let home =
            facts.home.as_ref().map_or_else(|| "never on the circle".into(), |home| format!("circling at {home}"));
        let rows = [
            ("radius", facts.radius.clone(), flown_out),
            ("height over home", facts.height[0].clone(), facts.height[1].clone()),
            ("way round", facts.turn[0].to_owned(), facts.turn[1].to_owned()),
            ("one lap", lap, home),
            ("endurance", laps, "laps to the reserve".into()),
        ];
        let about_mm = 30.0;
        let each = (column.size().y - about_mm) / 5.0;
        for (index, (label, numeral, beside)) in (0_u8..).zip(rows) {
            let low = column.low + DVec2::new(PAD, f64::from(index) * each);
            let high = DVec2::new(column.high.x - PAD, low.y + each);
            sheet.line(
                [DVec2::new(column.low.x, high.y), DVec2::new(column.high.x, high.y)],
                Pen::plain(Ink::RULE, 0.3),
            );
            let middle = low.x + 23.0;
            let head = Frame { low: low + DVec2::new(0.0, 0.9), high: DVec2::new(middle, low.y + 5.1) };
            sheet.fitted(Room::new(head, 3.2, LEAST), &[label.into()], Lettering::new(0.0).bold());
            let told = Frame { low: DVec2::new(low.x, low.y + 5.0), high: DVec2::new(middle - 1.0, high.y) };
            sheet.fitted(Room::new(told, 2.9, 2.4), &[beside], Lettering::new(0.0));
            let size = ((each - 2.2) / Sheet::LEADING).min(9.6);
            let over = (each - size * Sheet::LEADING) / 2.0;
            let body = Frame { low: DVec2::new(middle, low.y + over), high };
            sheet.fitted(Room::new(body, size, 3.6), &[numeral], Lettering::new(0.0).bold().end());
        }
        let low = DVec2::new(column.low.x + PAD, column.high.y - about_mm + 1.2);
        let room = Frame { low, high: column.high - DVec2::new(PAD, 0.4) };
        let told = [
            facts.losses.clone(),
            format!("When control is lost: {}.", facts.failsafe_action),
            format!("Authorised by: {}", facts.authority),
            facts.met.clone().map_or_else(|| "Trials: none flown.".into(), |met| format!("This circle {met}.")),
        ];
        one_by_one(sheet, room, [3.4, 2.4], &told);
    }

    fn look(&self, sheet: &mut Sheet, row: Frame, facts: &Facts) {
        let split = row.low.x + row.size().x * 0.53;
        let inside =
            boxed(sheet, Frame { low: row.low, high: DVec2::new(split, row.high.y) }, "Look here, take over there");
        let look = facts.look.clone().unwrap_or_else(|| "It flies no whole lap: keep eyes on it all the time.".into());
        let seen = self.look.as_ref().map(|look| {
            format!(
                "{:.0} to {:.0} m away round the lap, {:.0} to {:.0} deg up.",
                look.slants_m[0], look.slants_m[1], look.elevations_deg[0], look.elevations_deg[1]
            )
        });
        let said: Vec<String> = [
            Some(look),
            Some(facts.take_over.clone()),
            seen,
            Some(format!("Sun: {}", self.sun_briefly())),
            Some(format!("{}. One fist at arm's length is about 10 deg.", facts.clock)),
        ]
        .into_iter()
        .flatten()
        .collect();
        sheet.fitted(Room::new(inside, 4.0, LEAST), &said, Lettering::new(0.0));
        let inside =
            boxed(sheet, Frame { low: DVec2::new(split + GAP, row.low.y), high: row.high }, "Stop flying when");
        list(sheet, Room::new(inside, 3.6, LEAST), &self.stop_list());
    }

    /// Whom to call, and who signed.
    fn help(&self, sheet: &mut Sheet, row: Frame) {
        let split = row.low.x + row.size().x * 0.53;
        let help = &self.scenario.file.brief.emergency;
        let inside = boxed(sheet, Frame { low: row.low, high: DVec2::new(split, row.high.y) }, "Emergency");
        let blank = |words: &str| if words.trim().is_empty() { "_".repeat(26) } else { words.to_owned() };
        let (latitude, longitude) = self.pilot_degrees();
        let place = match help.grid_reference.trim() {
            "" => format!("{latitude:.5}, {longitude:.5} (pilot)"),
            grid => format!("{grid} (pilot {latitude:.5}, {longitude:.5})"),
        };
        let told = [
            format!("Call: {}", blank(&help.call.join(";  "))),
            format!("Gate: {}", blank(&help.gate)),
            format!("Place: {place}"),
            format!("Fire kit: {}", blank(&help.fire_kit)),
            format!("Landowner: {}", blank(&help.landowner)),
        ];
        one_by_one(sheet, Frame { low: inside.low - DVec2::new(0.0, 0.5), high: inside.high }, [3.4, 2.4], &told);
        let inside = boxed(sheet, Frame { low: DVec2::new(split + GAP, row.low.y), high: row.high }, "Signed");
        let mut told: Vec<String> = self
            .scenario
            .file
            .signed()
            .into_iter()
            .map(|(one, version)| match one.role.trim() {
                "" => version.mark(&format!("{}, {}", one.name, one.on)),
                role => version.mark(&format!("{role}: {}, {}", one.name, one.on)),
            })
            .collect();
        // A name that does not count leaves its line to be signed again.
        let counting = self.scenario.file.signed().iter().filter(|(_, version)| version.counts()).count();
        if counting < 2 {
            let missing =
                ["pilot ________________________  date ________", "second person ________________  date ________"];
            told.extend(missing[counting..].iter().map(|line| (*line).to_owned()));
        }
        sheet.fitted(Room::new(within(inside, 0.2), 3.6, 2.4), &told, Lettering::new(0.0));
    }

    /// Latitude and longitude of the pilot position, degrees.
    pub(super) fn pilot_degrees(&self) -> (f64, f64) {
        self.scenario.field.plane.to_degrees(self.scenario.field.pilot)
    }
}

/// A wind in the other units people read it in.
fn others(mps: f64) -> String {
    let speed = Speed::new(mps);
    let unit = |name: &str| speed.in_unit(name).unwrap_or(f64::NAN);
    format!("{:.0} kt, {:.0} mph", unit("kt").floor(), unit("mph").floor())
}
