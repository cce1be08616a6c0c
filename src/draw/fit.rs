//! Words that keep to the room they are given, and names that keep off one another.

use glam::DVec2;

use super::font::{lines, width_mm};
use super::{Frame, Lettering, Set, Sheet};

/// What stands at the end of words that were cut short.
const CUT: &str = "...";

/// Sizes that words may take to fit, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Where.
    pub frame: Frame,
    /// Largest size of the em, mm.
    pub largest_mm: f64,
    /// Smallest size that can still be read, mm.
    pub least_mm: f64,
}

impl Room {
    /// A room, and the sizes that fit its use.
    pub const fn new(frame: Frame, largest_mm: f64, least_mm: f64) -> Self {
        Self { frame, largest_mm, least_mm }
    }
}

impl Sheet {
    /// Letters paragraphs in a room, as large as fits, from its upper edge down; returns the size taken, mm, and the lower
    /// edge of the last line.
    ///
    /// Where not even the least size fits, what does not is left out, and three dots say so.
    pub fn fitted(&mut self, room: Room, paragraphs: &[String], lettering: Lettering) -> (f64, f64) {
        let width = room.frame.size().x;
        let (size, broken) = broken(room, paragraphs, lettering.bold);
        let lettering = Lettering { size_mm: size, ..lettering };
        let x = match lettering.set {
            Set::Start => room.frame.low.x,
            Set::Middle => room.frame.middle().x,
            Set::End => room.frame.high.x,
        };
        let mut y = room.frame.low.y;
        for (index, paragraph) in broken.iter().enumerate() {
            y += if index > 0 { between(size) } else { 0.0 };
            for line in paragraph {
                self.words(DVec2::new(x, y + 0.8 * size), shortened(line, size, lettering.bold, width), lettering);
                y += size * Self::LEADING;
            }
        }
        (size, y)
    }
}

/// Room between paragraphs, mm.
fn between(size: f64) -> f64 {
    0.35 * size
}

/// The largest size that fits, and the paragraphs broken into lines at that size.
fn broken(room: Room, paragraphs: &[String], bold: bool) -> (f64, Vec<Vec<String>>) {
    let (width, height) = (room.frame.size().x, room.frame.size().y);
    let mut size = room.largest_mm;
    loop {
        let broken: Vec<Vec<String>> = paragraphs.iter().map(|words| lines(words, size, bold, width)).collect();
        let wide = broken.iter().flatten().any(|line| width_mm(line, size, bold) > width);
        if tall(&broken, size) <= height && !wide {
            return (size, broken);
        }
        if size <= room.least_mm {
            return (size, cut(broken, size, height));
        }
        size = (size - 0.1).max(room.least_mm);
    }
}

#[allow(clippy::cast_precision_loss, reason = "a page has few lines")]
fn tall(broken: &[Vec<String>], size: f64) -> f64 {
    let count: usize = broken.iter().map(Vec::len).sum();
    count as f64 * size * Sheet::LEADING + broken.len().saturating_sub(1) as f64 * between(size)
}

/// As many lines as fit a height; three dots at the end of the last where there were more.
fn cut(mut broken: Vec<Vec<String>>, size: f64, height: f64) -> Vec<Vec<String>> {
    let mut short = false;
    while tall(&broken, size) > height {
        short = true;
        let count = broken.len();
        match broken.last_mut() {
            Some(last) if last.len() > 1 => drop(last.pop()),
            Some(_) if count > 1 => drop(broken.pop()),
            _ => break,
        }
    }
    if let Some(line) = broken.last_mut().and_then(|last| last.last_mut()).filter(|_| short) {
        line.push_str(CUT);
    }
    broken
}

/// A line that is no wider than it may be, mm: three dots stand for what was cut off.
pub fn shortened(line: &str, size: f64, bold: bool, width: f64) -> String {
    if width_mm(line, size, bold) <= width {
        return line.to_owned();
    }
    let line = line.trim_end_matches('.');
    let mut room = width - width_mm(CUT, size, bold);
    let fits = line.char_indices().find(|(_, letter)| {
        room -= width_mm(letter.encode_utf8(&mut [0; 4]), size, bold);
        room < 0.0
    });
    // At least the last letter goes, since the whole did not fit.
    let last = line.char_indices().next_back().map_or(0, |(at, _)| at);
    line[..fits.map_or(last, |(at, _)| at)].trim_end().to_owned() + CUT
}

/// Places on a sheet where something stands already.
#[derive(Debug, Clone, Default)]
pub struct Taken {
    /// What nothing may lie on.
    kept: Vec<(DVec2, DVec2)>,
    /// What is better left free.
    better: Vec<(DVec2, DVec2)>,
}

impl Taken {
    /// Something stands between two corners.
    pub fn take(&mut self, low: DVec2, high: DVec2) {
        self.kept.push((low, high));
    }

    /// A line goes there that words had better keep off.
    pub fn line(&mut self, points: impl IntoIterator<Item = DVec2>) {
        let mut last: Option<DVec2> = None;
        for point in points {
            let steps = last.map_or(0.0, |last| (last.distance(point) / 1.5).ceil()).min(400.0);
            let from = last.unwrap_or(point);
            let mut step = 1.0;
            while step <= steps.max(1.0) {
                let at = from.lerp(point, step / steps.max(1.0));
                self.better.push((at - 0.6, at + 0.6));
                step += 1.0;
            }
            last = Some(point);
        }
    }

    /// Whether nothing stands between two corners.
    pub fn is_free(&self, low: DVec2, high: DVec2) -> bool {
        !lies(&self.kept, low, high)
    }

    /// Letters words with their middle at the first of some places at which nothing stands and which lies within a frame,
    /// best one without a line; says whether there was one. Places are the middles of the words' height.
    pub fn letter(
        &mut self,
        sheet: &mut Sheet,
        frame: Frame,
        words: &str,
        lettering: Lettering,
        places: impl IntoIterator<Item = DVec2>,
    ) -> bool {
        let size = lettering.size_mm;
        let half = DVec2::new(width_mm(words, size, lettering.bold) / 2.0 + 0.4, 0.55 * size);
        let fits = |at: &DVec2| {
            let (low, high) = (*at - half, *at + half);
            low.cmpge(frame.low).all() && high.cmple(frame.high).all() && self.is_free(low, high)
        };
        let places: Vec<DVec2> = places.into_iter().filter(fits).collect();
        let off_lines = places.iter().find(|at| !lies(&self.better, **at - half, **at + half));
        let Some(at) = off_lines.or(places.first()).copied() else { return false };
        self.take(at - half, at + half);
        sheet.words(at + DVec2::new(0.0, 0.27 * size), words, lettering.middle());
        true
    }
}

/// Whether one of some things lies between two corners.
fn lies(all: &[(DVec2, DVec2)], low: DVec2, high: DVec2) -> bool {
    all.iter().any(|(other_low, other_high)| low.cmplt(*other_high).all() && high.cmpgt(*other_low).all())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn room() -> Room {
        Room::new(Frame::new(10.0, 10.0, 40.0, 20.0), 6.0, 3.0)
    }

    #[test]
    fn few_words_are_large_and_many_are_small_and_the_rest_is_left_out_with_a_sign() {
        let size =
            |words: &str| Sheet::new(100.0, 100.0, "", "").fitted(room(), &[words.into()], Lettering::new(0.0)).0;
        approx::assert_abs_diff_eq!(size("circle"), 6.0);
        assert!((3.0..6.0).contains(&size("blown wide on the downwind side")));
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        sheet.fitted(room(), &["boundary and areas ".repeat(30)], Lettering::new(0.0));
        assert!(sheet.lettered().last().unwrap().0.ends_with(CUT));
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        sheet.fitted(room(), &["Llanfairpwllgwyngyllgogerychwyrndrobwll".into()], Lettering::new(0.0));
        assert!(sheet.lettered()[0].0.ends_with(CUT));
    }

    #[test]
    fn names_keep_off_one_another() {
        let (mut sheet, mut taken) = (Sheet::new(100.0, 100.0, "", ""), Taken::default());
        let frame = Frame::new(0.0, 0.0, 100.0, 100.0);
        let places = [DVec2::new(50.0, 50.0), DVec2::new(50.0, 51.0), DVec2::new(50.0, 56.0)];
        let mut letter = |words| taken.letter(&mut sheet, frame, words, Lettering::new(4.0), places);
        assert!(letter("goats") && letter("pits"));
        assert!(!letter("cars"));
        assert_eq!(sheet.lettered().len(), 2);
    }

    proptest! {
        #[test]
        fn whatever_is_said_stays_in_its_room(words in proptest::collection::vec("[a-zA-Z0-9 .,]{0,200}", 0..6)) {
            let mut sheet = Sheet::new(100.0, 100.0, "", "");
            let (size, _) = sheet.fitted(room(), &words, Lettering::new(0.0).bold());
            prop_assert!((3.0..=6.0).contains(&size));
            for (line, low, high) in sheet.lettered() {
                prop_assert!(low.x >= 9.999 && high.x <= 50.001, "{line} to {}", high.x);
                prop_assert!(low.y >= 9.9 && high.y <= 30.6, "{line} from {} to {}", low.y, high.y);
            }
        }
    }
}
