//! What moves the answer most, how much hangs on the law that steers, and the room budget.

use glam::DVec2;

use super::Flow;
use super::inputs::explained;
use super::table::{Cell, Sign, digits, text};
use crate::brief::{Law, Plan, RoomPart, laws, room_budget};
use crate::draw::{Fill, Frame, Hatch, Ink, Lettering, Pattern, Pen, Room, Scale, Sheet, shortened, width_mm};
use crate::study::radius::{RadiusStudy, Sensitivity};
use crate::words::{not_made, number, way};

/// Height of a row of the bars, mm.
const ROW: f64 = 7.6;
/// Size of the letters of the bars, mm.
const LETTERS: f64 = 2.7;
/// Paper for the names of the inputs, mm.
const NAMES: f64 = 56.0;
/// Paper for a value beside a bar, mm.
const VALUE: f64 = 11.0;

impl Plan<'_> {
    pub(super) fn pack_sensitivity(&self, flow: &mut Flow<'_>) {
        flow.section_before(
            "What moves the answer",
            self.studies.radius.map_or(20.0, |study| bars_tall(&study.sensitivity) + 14.0),
        );
        let Some(study) = self.studies.radius.filter(|study| !study.budget.is_empty()) else {
            flow.paragraph(&not_made("What moves the answer, the laws that steer, and the room budget"));
            return;
        };
        let (radius_m, turn) = study.looked_at;
        let plan = &self.scenario.file.recovery;
        if (radius_m, turn) != (plan.radius.m(), plan.turn) {
            flow.paragraph(&format!(
                "Of the circle of {}, which is not the plan's own: its trials don't say yes, and this is a proposal of its own.",
                way(radius_m, turn)
            ));
        }
        if study.sensitivity.is_empty() {
            flow.paragraph("The plan flies no circle, so nothing moves one.");
        } else {
            flow.paragraph(&format!(
                "Each input alone, one spread down and up or to the end of its range, all others at their middle, for the \
                 circle of {} in the mean wind. What moves a distance furthest comes first. Least spare: what is left of any \
                 margin in metres over what was asked for; smallest radius: the least that the maximum bank holds, in closed \
                 form.",
                way(radius_m, turn)
            ));
            bars(flow, &study.sensitivity);
        }
        family(flow, study);
        stack(flow, study);
    }
}

/// Paper that the bars take with the words before them, mm.
#[allow(clippy::cast_precision_loss, reason = "fifteen rows")]
fn bars_tall(inputs: &[Sensitivity]) -> f64 {
    inputs.len() as f64 * ROW + 16.0
}

/// One of the three distances that are looked at.
struct Panel {
    title: &'static str,
    frame: Frame,
    scale: Scale,
    values: fn(&Sensitivity) -> [Option<f64>; 2],
}

const PANELS: [(&str, fn(&Sensitivity) -> [Option<f64>; 2]); 3] = [
    ("furthest distance from the centre, m", |input| input.furthest_m),
    ("least spare, m", |input| input.spare_m.map(Some)),
    ("smallest radius, m", |input| input.smallest_m.map(Some)),
];

/// Bars from the answer at the low value to the answer at the high one, three distances beside each other.
fn bars(flow: &mut Flow<'_>, inputs: &[Sensitivity]) {
    let tall = bars_tall(inputs) - 16.0;
    flow.picture(bars_tall(inputs), |sheet, room| {
        let wide = (room.size().x - NAMES) / 3.0;
        let top = room.low.y + 5.0;
        for (index, (title, values)) in (0_u8..).zip(PANELS) {
            let left = room.low.x + NAMES + f64::from(index) * wide;
            let frame = Frame::new(left + VALUE, top, wide - 2.0 * VALUE, tall);
            let all = inputs.iter().flat_map(values).flatten().filter(|value| value.is_finite());
            let panel = Panel { title, frame, scale: Scale::over(all, 4), values };
            panel.draw(sheet, inputs);
        }
        for (index, input) in (0_u16..).zip(inputs) {
            let y = top + (f64::from(index) + 0.5) * ROW;
            let name = shortened(input.input, LETTERS + 0.2, true, NAMES - 3.0);
            sheet.words(DVec2::new(room.low.x, y - 0.5), name, Lettering::new(LETTERS + 0.2).bold());
            let values = format!("{} to {}", input.values[0], input.values[1]);
            let values = shortened(&values, LETTERS, false, NAMES - 3.0);
            sheet.words(DVec2::new(room.low.x, y + 2.7), values, Lettering::new(LETTERS));
        }
        let foot = DVec2::new(room.low.x, top + tall + 8.6);
        ends(sheet, foot);
    });
}

impl Panel {
    fn x(&self, value: f64) -> f64 {
        self.frame.low.x + self.frame.size().x * self.scale.share(value)
    }

    fn draw(&self, sheet: &mut Sheet, inputs: &[Sensitivity]) {
        let frame = self.frame;
        let over = Frame {
            low: DVec2::new(frame.low.x - VALUE + 1.0, frame.low.y - 5.0),
            high: DVec2::new(frame.high.x + VALUE - 1.0, frame.low.y),
        };
        sheet.fitted(Room::new(over, 3.0, 2.4), &[self.title.into()], Lettering::new(0.0).bold().middle());
        for value in self.scale.ticks() {
            let x = self.x(value);
            sheet.line([DVec2::new(x, frame.low.y), DVec2::new(x, frame.high.y)], Pen::plain(Ink::FAINT, 0.25));
        }
        let (first, last) = (self.scale.from, self.scale.to);
        for value in [first, last] {
            let foot = DVec2::new(self.x(value), frame.high.y + 3.2);
            sheet.words(foot, self.scale.tick(value), Lettering::new(LETTERS).middle());
        }
        for (index, input) in (0_u16..).zip(inputs) {
            let y = frame.low.y + (f64::from(index) + 0.5) * ROW;
            self.bar(sheet, y, (self.values)(input));
        }
    }

    /// A value beside a bar: one decimal where all of them are close together.
    fn in_words(&self, value: f64) -> String {
        if self.scale.to - self.scale.from < 30.0 { format!("{value:.1}") } else { format!("{:.0}", value + 0.0) }
    }

    fn bar(&self, sheet: &mut Sheet, y: f64, values: [Option<f64>; 2]) {
        let words = Lettering::new(LETTERS).rimmed();
        let [Some(low), Some(high)] = values.map(|value| value.filter(|value| value.is_finite())) else {
            let told = match values.map(|value| value.filter(|value| value.is_finite())) {
                [Some(one), None] => format!("{one:.0}; at the high end no lap"),
                [None, Some(one)] => format!("at the low end no lap; {one:.0}"),
                _ => "no lap at either end".into(),
            };
            let frame = Frame {
                low: DVec2::new(self.frame.low.x - VALUE + 1.0, y - 2.6),
                high: DVec2::new(self.frame.high.x + VALUE - 1.0, y + 2.8),
            };
            sheet.fitted(Room::new(frame, LETTERS, 2.4), &[told], Lettering::new(0.0).middle().bold());
            return;
        };
        let (from, to) = (self.x(low), self.x(high));
        let (left, right) = (from.min(to), from.max(to));
        let half = DVec2::new(0.0, 1.7);
        let grey = Fill::Hatch(Hatch {
            pattern: Pattern::Rising,
            ink: Ink::SOFT,
            ground: Some(Ink::SKY.thinned(0.35)),
            step: 120,
        });
        sheet.rectangle(
            DVec2::new(left, y) - half,
            DVec2::new(right, y) + half,
            Some(Pen::plain(Ink::BLACK, 0.3)),
            grey,
        );
        mark(sheet, DVec2::new(from, y), false);
        mark(sheet, DVec2::new(to, y), true);
        let (under, over) = if low <= high { (low, high) } else { (high, low) };
        sheet.words(DVec2::new(left - 2.0, y + 0.95), self.in_words(under), words.end());
        sheet.words(DVec2::new(right + 2.0, y + 0.95), self.in_words(over), words);
    }
}

/// The end of a bar: open at the low value of the input, full at the high one.
fn mark(sheet: &mut Sheet, at: DVec2, full: bool) {
    let fill = Fill::Plain(if full { Ink::BLACK } else { Ink::PAPER });
    sheet.circle(at, 1.15, Some(Pen::plain(Ink::BLACK, 0.4)), fill);
}

fn ends(sheet: &mut Sheet, at: DVec2) {
    mark(sheet, at + DVec2::new(1.2, -1.0), false);
    sheet.words(at + DVec2::new(3.6, 0.0), "at the low value of the input", Lettering::new(LETTERS));
    mark(sheet, at + DVec2::new(46.2, -1.0), true);
    sheet.words(at + DVec2::new(48.6, 0.0), "at the high value", Lettering::new(LETTERS));
}

fn family(flow: &mut Flow<'_>, study: &RadiusStudy) {
    if study.family.is_empty() {
        return;
    }
    flow.part("The laws that steer");
    let columns = [
        text("law", 30.0),
        text("gain", 24.0),
        digits("furthest from the centre", 24.0),
        text("every margin in the mean wind", 104.0),
    ];
    let row = |law: Law| -> Vec<Cell> {
        let loud = law.missed.is_some();
        let told = law.missed.map_or_else(|| "met".into(), |missed| format!("not met: {missed}"));
        let furthest = law.furthest.unwrap_or_else(|| "no lap".into());
        vec![law.guidance.into(), law.gain.into(), furthest.into(), Cell::loud(told, loud)]
    };
    flow.table(&columns, &laws(study).into_iter().map(row).collect::<Vec<_>>());
}

const FILLS: [Pattern; 6] =
    [Pattern::Rising, Pattern::Falling, Pattern::Dotted, Pattern::Level, Pattern::Crossed, Pattern::Upright];

/// The room budget as one bar over the distance that is free, and what each part is.
fn stack(flow: &mut Flow<'_>, study: &RadiusStudy) {
    flow.part_before("Room budget", 62.0);
    let budget = room_budget(study);
    let fill = |index: usize| match index.checked_sub(1) {
        None => Fill::Plain(Ink::FAINT),
        Some(index) => Fill::Hatch(Hatch {
            pattern: FILLS[index % FILLS.len()],
            ink: Ink::BLACK,
            ground: Some(Ink::PAPER),
            step: 150,
        }),
    };
    flow.paragraph(&budget.told);
    flow.picture(21.0, |sheet, room| {
        let scale = Scale::over([0.0, budget.sum_m, study.free_m], 8);
        let x = |metres: f64| room.low.x + 4.0 + (room.size().x - 12.0) * scale.share(metres);
        let (top, foot) = (room.low.y + 5.0, room.low.y + 13.0);
        let mut from = 0.0;
        for (index, part) in budget.parts.iter().enumerate().filter(|(_, part)| part.takes_m > 0.0) {
            let (low, high) = (DVec2::new(x(from), top), DVec2::new(x(from + part.takes_m), foot));
            sheet.rectangle(low, high, Some(Pen::plain(Ink::BLACK, 0.35)), fill(index));
            from += part.takes_m;
        }
        let radius = study.looked_at.0;
        let (told, words) = (format!("radius, {} m", number(radius)), Lettering::new(LETTERS + 0.3).bold());
        let wide = width_mm(&told, words.size_mm, true);
        if wide + 4.0 < x(radius) - x(0.0) {
            sheet.words(DVec2::new(x(0.0) + 2.0, (top + foot) / 2.0 + 1.0), told, words);
        }
        for value in scale.ticks() {
            sheet.line([DVec2::new(x(value), foot), DVec2::new(x(value), foot + 1.4)], Pen::plain(Ink::BLACK, 0.3));
            sheet.words(DVec2::new(x(value), foot + 4.6), scale.tick(value), Lettering::new(LETTERS).middle());
        }
        let free = x(study.free_m.max(0.0));
        sheet.line([DVec2::new(free, top - 4.0), DVec2::new(free, foot + 1.0)], Pen::plain(Ink::BLACK, 1.1));
        let words = Lettering::new(LETTERS).bold();
        let told = format!("{:.0} m are free", study.free_m);
        let right = free + 26.0 > room.high.x;
        let at = DVec2::new(free + if right { -1.6 } else { 1.6 }, top - 1.6);
        sheet.words(at, told, if right { words.end() } else { words });
    });
    let columns = [text("part", 50.0), digits("metres", 18.0), text("where the number comes from", 114.0)];
    let row = |(index, part): (usize, &RoomPart)| -> Vec<Cell> {
        vec![Cell::signed(Sign::Swatch(fill(index)), part.name), number(part.takes_m).into(), part.origin.into()]
    };
    flow.table(&columns, &budget.parts.iter().enumerate().map(row).collect::<Vec<_>>());
    explained(flow, "Each part is an upper value of its own; together they are more than will mostly come at once.");
}
