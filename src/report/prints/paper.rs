//! What every print has: the edge of the paper, boxes with a title, and the foot with its stamp and caution.

use glam::DVec2;

use crate::brief::Plan;
use crate::draw::{Fill, Frame, Ink, Lettering, Pen, Room, Sheet, lines};
use crate::words::cautions::FOOT;

/// Paper left free on every side: printers don't reach the edge.
pub(super) const EDGE: f64 = 9.0;
/// Between boxes.
pub(super) const GAP: f64 = 2.5;
/// Inside a box.
pub(super) const PAD: f64 = 2.2;
/// Height of the tab with a box's title, and what is left free under it and at the foot of the box.
const TAB: f64 = 6.4;
const OVER: f64 = 1.4;
const UNDER: f64 = 1.0;

/// Sizes of paper, mm.
pub(super) mod size {
    use glam::DVec2;

    /// A4, standing.
    pub(in crate::report::prints) const A4: DVec2 = DVec2::new(210.0, 297.0);
    /// A4, lying.
    pub(in crate::report::prints) const A4_LYING: DVec2 = DVec2::new(297.0, 210.0);
    /// A3, standing.
    pub(in crate::report::prints) const A3: DVec2 = DVec2::new(297.0, 420.0);
    /// A6, standing.
    pub(in crate::report::prints) const A6: DVec2 = DVec2::new(105.0, 148.0);
}

/// A dark strip; returns how it is lettered.
pub(super) fn strip(sheet: &mut Sheet, low: DVec2, high: DVec2) -> Lettering {
    sheet.rectangle(low, high, None, Fill::Plain(Ink::BLACK));
    Lettering::new(0.0).bold().ink(Ink::PAPER)
}

/// A box: a thin rule about it and its title on a dark tab; returns the room inside.
pub(super) fn boxed(sheet: &mut Sheet, frame: Frame, title: &str) -> Frame {
    boxed_larger(sheet, frame, title, 1.0)
}

/// A box whose title is so many times as large.
pub(super) fn boxed_larger(sheet: &mut Sheet, frame: Frame, title: &str, times: f64) -> Frame {
    let tab = TAB * times;
    sheet.rectangle(frame.low, frame.high, Some(Pen::plain(Ink::BLACK, 0.45)), Fill::None);
    let white = strip(sheet, frame.low, DVec2::new(frame.high.x, frame.low.y + tab));
    let title_room =
        Frame { low: frame.low + DVec2::new(PAD, times), high: DVec2::new(frame.high.x - PAD, frame.low.y + tab) };
    sheet.fitted(Room::new(title_room, 4.1 * times, 3.0 * times), &[title.into()], white);
    Frame { low: DVec2::new(frame.low.x + PAD, frame.low.y + tab + OVER), high: frame.high - DVec2::new(PAD, UNDER) }
}

/// What is done, each action with its number.
pub(super) fn numbered(lines: &[String]) -> Vec<String> {
    lines.iter().zip(1..).map(|(line, number)| format!("{number}. {line}")).collect()
}

/// Between actions, in sizes of their letters.
const BETWEEN: f64 = 0.15;
/// Room for the number of an action, in sizes of its letters.
const NUMBER: f64 = 1.35;

/// Height of a box with numbered actions, of its width, mm.
pub(super) fn actions_tall(actions: &[String], size: f64, wide: f64) -> f64 {
    let wide = wide - 2.0 * PAD - NUMBER * size;
    let tall = actions.iter().map(|action| action_tall(action, size, wide)).sum::<f64>();
    tall + TAB + OVER + UNDER
}

fn action_tall(action: &str, size: f64, wide: f64) -> f64 {
    #[allow(clippy::cast_precision_loss, reason = "a few lines")]
    let count = lines(action, size, false, wide).len() as f64;
    (count * Sheet::LEADING + BETWEEN) * size
}

/// Numbered actions, one under the other; what finds no room is left out, and said to be.
pub(super) fn actions(sheet: &mut Sheet, room: Frame, size: f64, actions: &[String]) {
    let left = room.low.x + NUMBER * size;
    let mut y = room.low.y;
    for (action, number) in actions.iter().zip(1..) {
        let tall = action_tall(action, size, room.high.x - left);
        if y + tall > room.high.y + UNDER {
            let at = DVec2::new(room.high.x, room.high.y + 0.4);
            sheet.words(at, "and more: see the pack", Lettering::new(2.4).bold().end());
            break;
        }
        sheet.words(DVec2::new(room.low.x, y + 0.8 * size), format!("{number}"), Lettering::new(size).bold());
        let own = Frame { low: DVec2::new(left, y), high: DVec2::new(room.high.x, y + tall) };
        sheet.fitted(Room::new(own, size, size), std::slice::from_ref(action), Lettering::new(0.0));
        y += tall;
    }
}

/// A box for what must not be overlooked, as high as its words need between the two sizes of letters, and no higher than so
/// many mm; returns its lower edge, none where there is nothing to say.
pub(super) fn alarm_box(
    sheet: &mut Sheet,
    low: DVec2,
    width: f64,
    alarms: &[String],
    [size, least]: [f64; 2],
    highest: f64,
) -> Option<f64> {
    if alarms.is_empty() {
        return None;
    }
    let (side, over) = (PAD, 1.3);
    let inside = Frame { low: low + DVec2::new(side, over), high: low + DVec2::new(width - side, highest - over) };
    let lettering = Lettering::new(0.0).bold();
    let room = Room::new(inside, size, least);
    let (_, foot) = Sheet::new(1.0, 1.0, "", "").fitted(room, alarms, lettering);
    let high = DVec2::new(low.x + width, foot + over - 0.3);
    sheet.rectangle(low, high, Some(Pen::plain(Ink::BLACK, 1.0)), Fill::Plain(Ink::YELLOW.thinned(0.35)));
    sheet.fitted(room, alarms, lettering);
    Some(high.y)
}

/// Short texts one under the other, each in a row of its own, so that a long one shortens itself and no other.
#[allow(clippy::cast_precision_loss, reason = "a handful")]
pub(super) fn one_by_one(sheet: &mut Sheet, room: Frame, sizes: [f64; 2], texts: &[String]) {
    let [largest, least] = sizes;
    let wide = room.size().x;
    // At one size for all, as large as fits them together or else each alone.
    let need =
        |size: f64| texts.iter().map(move |text| lines(text, size, false, wide).len() as f64 * size * Sheet::LEADING);
    let gap = 0.6;
    let gaps = gap * texts.len().saturating_sub(1) as f64;
    let mut size = largest;
    while size > least && need(size).sum::<f64>() + gaps > room.size().y {
        size = (size - 0.1).max(least);
    }
    let all: f64 = need(size).sum::<f64>() + gaps;
    let line = size * Sheet::LEADING;
    // Where they don't fit together, each gets its share in whole lines, and one line at least.
    let short = all > room.size().y;
    let most = ((room.size().y - gaps) / texts.len().max(1) as f64 / line).floor().max(1.0) * line;
    let mut y = room.low.y;
    for (text, tall) in texts.iter().zip(need(size).collect::<Vec<_>>()) {
        let tall = if short { tall.min(most) } else { tall };
        let own = Frame { low: DVec2::new(room.low.x, y), high: DVec2::new(room.high.x, y + tall + 0.01) };
        sheet.fitted(Room::new(own, size, size), std::slice::from_ref(text), Lettering::new(0.0));
        y += tall + gap;
    }
}

/// A short list: each line after a square to tick or a dot. As large as fits.
pub(super) fn list(sheet: &mut Sheet, room: Room, items: &[String]) {
    let indent = 4.2;
    let frame = Frame { low: room.frame.low + DVec2::new(indent, 0.0), high: room.frame.high };
    // The size of all of them together, then one by one, so that each has its dot.
    let mut probe = Sheet::new(1.0, 1.0, "", "");
    let (size, _) = probe.fitted(Room { frame, ..room }, items, Lettering::new(0.0));
    let mut y = frame.low.y;
    for item in items {
        let count = lines(item, size, false, frame.size().x).len();
        #[allow(clippy::cast_precision_loss, reason = "a few lines")]
        let tall = count as f64 * size * Sheet::LEADING;
        if y + tall > frame.high.y + 0.6 {
            let more = DVec2::new(frame.high.x, room.frame.high.y + 0.4);
            sheet.words(more, "and more: see the pack", Lettering::new(size).bold().end());
            break;
        }
        let dot = DVec2::new(room.frame.low.x + 1.4, y + 0.52 * size);
        sheet.rectangle(dot - DVec2::splat(0.75), dot + DVec2::splat(0.75), None, Fill::Plain(Ink::BLACK));
        let own = Frame { low: DVec2::new(frame.low.x, y), high: DVec2::new(frame.high.x, frame.high.y + 0.6) };
        sheet.fitted(Room::new(own, size, size), std::slice::from_ref(item), Lettering::new(0.0));
        y += tall + 0.35 * size;
    }
}

impl Plan<'_> {
    /// Draws stamp and caution at the foot of a page; returns where the foot begins.
    pub(super) fn foot(&self, sheet: &mut Sheet, edge: f64, size: f64) -> f64 {
        foot(sheet, edge, size, &self.stamp())
    }
}

/// Draws a stamp and the caution at the foot of a page; returns where the foot begins.
pub(super) fn foot(sheet: &mut Sheet, edge: f64, size: f64, stamp: &str) -> f64 {
    let width = sheet.size_mm.x - 2.0 * edge;
    let count = |words: &str, bold| lines(words, size, bold, width).len();
    #[allow(clippy::cast_precision_loss, reason = "a handful of lines")]
    let tall = (count(stamp, false) + count(FOOT, true)) as f64 * size * Sheet::LEADING;
    let top = sheet.size_mm.y - edge - tall;
    sheet.line([DVec2::new(edge, top - 1.6), DVec2::new(edge + width, top - 1.6)], Pen::plain(Ink::RULE, 0.3));
    let foot = sheet.paragraph(DVec2::new(edge, top + 0.8 * size), width, stamp, Lettering::new(size));
    sheet.paragraph(foot, width, FOOT, Lettering::new(size).bold());
    top - 1.6
}
