//! The go or no-go sheet: one side of A4 with today's wind beside its limit and every gate of the day, to be filled in and
//! signed by two people.

use glam::DVec2;

use super::paper::{EDGE, GAP, PAD, boxed, size, strip};
use crate::brief::{Facts, Gate, Plan, Said};
use crate::draw::{Fill, Frame, Ink, Lettering, Pen, Room, Sheet};
use crate::words::metered;

/// Smallest letters, mm.
const LEAST: f64 = 2.4;
/// Height of the box for the wind.
const WIND: f64 = 36.0;
/// Height of the box for the decision.
const DECISION: f64 = 42.0;
/// Share of the room between them that the gates take.
const GATES: f64 = 0.56;

/// What only people can see, with lines to write on.
const PEOPLE: [&str; 10] = [
    "Satellites ______; position wandered ______ m in a minute (at most 3 m)",
    "Home captured ______ m from the peg it is meant to be on (at most ______ m)",
    "Height reads ______ m on the ground (zero, give or take 2 m)",
    "Controls and the stabiliser move the right way; failsafe action tried, fan made harmless",
    "Spotter briefed, beside the pilot, card in hand: ______________________",
    "Nobody else's circle or circuit lies inside this one",
    "Animals are where the plan has them",
    "Nobody on or beside the field who is not told",
    "Battery no. ______, ______ V at rest; land at ______ V",
    "Airspace and notices looked up at ______ o'clock; range check done",
];

impl Plan<'_> {
    /// The sheet.
    pub fn today(&self) -> Sheet {
        let (name, facts) = (&self.scenario.file.name, self.facts());
        let about = format!("Go or no-go sheet of {name}: circle of {} at {}", facts.radius, facts.height[0]);
        let mut sheet = Sheet::new(size::A4.x, size::A4.y, format!("{name}: go or no-go"), about);
        let foot = self.foot(&mut sheet, EDGE, 2.6);
        let (left, right) = (EDGE, size::A4.x - EDGE);
        let top = self.today_title(&mut sheet, &facts);
        let wind = Frame { low: DVec2::new(left, top + GAP), high: DVec2::new(right, top + GAP + WIND) };
        wind_now(&mut sheet, wind, &facts);
        let decision = Frame { low: DVec2::new(left, foot - GAP - DECISION), high: DVec2::new(right, foot - GAP) };
        let middle = Frame { low: DVec2::new(left, wind.high.y + GAP), high: DVec2::new(right, decision.low.y - GAP) };
        let split = middle.low.y + middle.size().y * GATES;
        let gates = Frame { low: middle.low, high: DVec2::new(right, split) };
        draw_gates(&mut sheet, gates, &self.gates());
        let people = Frame { low: DVec2::new(left, split + GAP), high: middle.high };
        self.seen_by_people(&mut sheet, people);
        decide(&mut sheet, decision);
        sheet
    }

    /// Field, jet and day on a dark strip; returns its lower edge.
    fn today_title(&self, sheet: &mut Sheet, facts: &Facts) -> f64 {
        let file = &self.scenario.file;
        let (low, high) = (DVec2::splat(EDGE), DVec2::new(size::A4.x - EDGE, EDGE + 15.0));
        let white = strip(sheet, low, high);
        let split = high.x - 56.0;
        let name = Frame { low: low + DVec2::new(PAD, 1.2), high: DVec2::new(split, low.y + 9.2) };
        sheet.fitted(Room::new(name, 6.0, 3.0), &[format!("Go or no-go: {}", file.name)], white);
        let below = Frame { low: low + DVec2::new(PAD, 9.4), high: DVec2::new(split, high.y - 0.5) };
        let told = format!("{}; circle {} at {}, {}", file.jet.name, facts.radius, facts.height[0], facts.turn[0]);
        sheet.fitted(Room::new(below, 3.6, LEAST), &[told], Lettering::new(0.0).ink(Ink::PAPER));
        let beside = Frame { low: DVec2::new(split + 2.0, low.y + 1.6), high: high - DVec2::new(PAD, 0.5) };
        sheet.fitted(Room::new(beside, 4.2, LEAST), &[facts.valid.clone(), "day ____________".into()], white.end());
        high.y
    }

    fn seen_by_people(&self, sheet: &mut Sheet, frame: Frame) {
        let inside = boxed(sheet, frame, "What only people can see: tick yes or no");
        let charge = format!(
            "The plan reckons with {} in the pack at the loss, and {} of error of home each way.",
            self.scenario.file.loss.charge,
            self.scenario.file.recovery.perception.home_spread()
        );
        let each = (inside.size().y - 4.4) / f64::from(u8::try_from(PEOPLE.len()).unwrap_or(u8::MAX));
        for (index, told) in (0_u8..).zip(PEOPLE) {
            let low = DVec2::new(inside.low.x, inside.low.y + f64::from(index) * each);
            ticks(sheet, DVec2::new(inside.high.x - 26.0, low.y + each / 2.0));
            let room = Frame { low, high: DVec2::new(inside.high.x - 28.0, low.y + each) };
            centred(sheet, Room::new(room, 3.6, 2.8), told, Lettering::new(0.0));
            if index > 0 {
                sheet.line([low, DVec2::new(inside.high.x, low.y)], Pen::plain(Ink::RULE, 0.2));
            }
        }
        let last = Frame { low: DVec2::new(inside.low.x, inside.high.y - 4.0), high: inside.high };
        sheet.fitted(Room::new(last, 2.9, LEAST), &[charge], Lettering::new(0.0).ink(Ink::SOFT));
    }
}

/// A box for yes and one for no about the middle of a row.
fn ticks(sheet: &mut Sheet, at: DVec2) {
    for (right, word) in [(0.0, "yes"), (13.0, "no")] {
        let low = at + DVec2::new(right, -1.9);
        sheet.rectangle(low, low + DVec2::splat(3.8), Some(Pen::plain(Ink::BLACK, 0.4)), Fill::Plain(Ink::PAPER));
        sheet.words(at + DVec2::new(right + 5.0, 1.1), word, Lettering::new(3.2));
    }
}

/// Today's reading beside the limit, to be compared by hand.
fn wind_now(sheet: &mut Sheet, frame: Frame, facts: &Facts) {
    let inside = boxed(sheet, frame, "Wind today, at arm's length over your head, 2 m");
    let row = |from: f64, to: f64| Frame {
        low: inside.low + DVec2::new(0.0, from),
        high: DVec2::new(inside.high.x, inside.low.y + to),
    };
    let blank = "today: mean ______ m/s, gusts ______ m/s, from ______ deg, at ______ o'clock, by ____________";
    sheet.fitted(Room::new(row(0.4, 6.0), 4.0, 3.0), &[blank.into()], Lettering::new(0.0));
    sheet.fitted(Room::new(row(6.6, 12.4), 4.6, 3.0), &[facts.wind_for_day()], Lettering::new(0.0).bold());
    let Some(wind_limits) = &facts.wind_limits else { return };
    let wide = (inside.size().x - 28.0) / 8.0;
    let foot = inside.low.y + 16.6;
    sheet.words(DVec2::new(inside.low.x, foot), "mean at most:", Lettering::new(3.1));
    sheet.words(DVec2::new(inside.low.x, foot + 4.2), "gusts at most:", Lettering::new(3.1));
    for (index, (name, hand)) in (0_u8..).zip(wind_limits.hand_by_wind) {
        let x = inside.low.x + 28.0 + f64::from(index) * wide;
        sheet.words(DVec2::new(x, foot), name, Lettering::new(3.1));
        let gust = hand.map(|hand| metered(hand * wind_limits.gust_times));
        for (mps, down) in [(hand, 0.0), (gust, 4.2)] {
            let told = mps.map_or_else(|| "none".into(), |mps| format!("{mps:.1}"));
            sheet.words(DVec2::new(x + 6.0, foot + down), told, Lettering::new(3.4).bold());
        }
    }
    if facts.wind_for_card().is_some() {
        let question = "Is today's mean and gust within that, or within what stands under where the wind comes from?";
        let asked = row(22.0, 26.4);
        let asked = Frame { high: DVec2::new(inside.high.x - 28.0, asked.high.y), ..asked };
        centred(sheet, Room::new(asked, 3.6, 2.8), question, Lettering::new(0.0));
        ticks(sheet, DVec2::new(inside.high.x - 26.0, asked.middle().y));
    }
}

fn draw_gates(sheet: &mut Sheet, frame: Frame, gates: &[Gate]) {
    let inside = boxed(sheet, frame, "What the plan knows");
    let each = inside.size().y / f64::from(u8::try_from(gates.len()).unwrap_or(u8::MAX));
    let [name, asked, here, said] = [0.0, 34.0, 84.0, inside.size().x - 22.0];
    for (index, gate) in (0_u8..).zip(gates) {
        let top = inside.low.y + f64::from(index) * each;
        let cell = |from: f64, to: f64| Frame {
            low: DVec2::new(inside.low.x + from, top + 0.4),
            high: DVec2::new(inside.low.x + to - 2.0, top + each - 0.2),
        };
        centred(sheet, Room::new(cell(name, asked), 3.2, LEAST), gate.name, Lettering::new(0.0).bold());
        centred(sheet, Room::new(cell(asked, here), 3.0, LEAST), &gate.asked, Lettering::new(0.0));
        centred(sheet, Room::new(cell(here, said), 3.0, LEAST), &gate.here, Lettering::new(0.0));
        verdict(
            sheet,
            Frame {
                low: DVec2::new(inside.low.x + said, top + 0.9),
                high: DVec2::new(inside.high.x, top + each - 0.9),
            },
            gate.said,
        );
        if index > 0 {
            sheet.line([DVec2::new(inside.low.x, top), DVec2::new(inside.high.x, top)], Pen::plain(Ink::RULE, 0.2));
        }
    }
}

/// Letters words in the middle of the height of a room, as large as fits.
fn centred(sheet: &mut Sheet, room: Room, words: &str, lettering: Lettering) {
    let told = [words.to_owned()];
    // Tried on a sheet of its own first, to learn how tall they are.
    let (size, foot) = Sheet::new(1.0, 1.0, "", "").fitted(room, &told, lettering);
    // Between lines of words there is paper that does not count below the last one.
    let free = (room.frame.high.y - (foot - (Sheet::LEADING - 1.0) * size)).max(0.0);
    let low = room.frame.low + DVec2::new(0.0, free / 2.0);
    sheet.fitted(Room { frame: Frame { low, ..room.frame }, ..room }, &told, lettering);
}

/// A no stands white on black, what is not known or to be checked in a frame, what is met in plain words.
fn verdict(sheet: &mut Sheet, frame: Frame, said: Said) {
    let (pen, fill, lettering) = match said {
        Said::No => (None, Fill::Plain(Ink::BLACK), Lettering::new(3.6).bold().ink(Ink::PAPER)),
        Said::Unknown | Said::Check => {
            (Some(Pen::plain(Ink::BLACK, 0.4).dashed(&[1.2, 0.8])), Fill::None, Lettering::new(3.2))
        }
        Said::Met => (None, Fill::None, Lettering::new(3.2)),
    };
    sheet.rectangle(frame.low, frame.high, pen, fill);
    let size = lettering.size_mm;
    sheet.words(frame.middle() + DVec2::new(0.0, 0.3 * size), said.name(), lettering.middle());
}

fn decide(sheet: &mut Sheet, frame: Frame) {
    let inside = boxed(sheet, frame, "Two people decide");
    let rule = "Any no is a no, and so is a box left open. The plan met its margins or it did not: this sheet never says go. When \
                anything changes, begin again.";
    let lead = Frame { low: inside.low, high: DVec2::new(inside.high.x, inside.low.y + 9.6) };
    sheet.fitted(Room::new(lead, 3.4, 2.8), &[rule.into()], Lettering::new(0.0));
    let wide = inside.size().x / 2.0;
    for (index, who) in (0_u8..).zip(["pilot", "second person"]) {
        let x = inside.low.x + f64::from(index) * wide;
        let mut y = inside.low.y + 14.6;
        for (right, word) in [(0.0, "GO"), (22.0, "NO-GO")] {
            let low = DVec2::new(x + 34.0 + right, y - 4.2);
            sheet.rectangle(low, low + DVec2::splat(5.4), Some(Pen::plain(Ink::BLACK, 0.6)), Fill::Plain(Ink::PAPER));
            sheet.words(DVec2::new(low.x + 7.0, y), word, Lettering::new(4.2).bold());
        }
        sheet.words(DVec2::new(x, y), who, Lettering::new(3.8).bold());
        for line in ["name _________________________________", "signed ______________________  at ______"] {
            y += 8.0;
            sheet.words(DVec2::new(x, y), line, Lettering::new(3.4));
        }
    }
}
