//! Words and pictures that flow down pages: what finds no room on one goes on on the next.

use glam::DVec2;

use crate::draw::{Frame, Ink, Lettering, Pen, Sheet, lines, width_mm};

/// Size of running words, mm.
pub(super) const TEXT: f64 = 3.2;
/// Paper that follows a heading on the same page, mm.
const FOLLOWS: f64 = 26.0;

/// Pages as far as they are written.
pub(super) struct Flow<'a> {
    /// A page with its head and foot, and the room between them.
    begin: Box<dyn Fn() -> (Sheet, Frame) + 'a>,
    done: Vec<Sheet>,
    pub(super) sheet: Sheet,
    pub(super) room: Frame,
    /// Upper edge of what is free.
    pub(super) y: f64,
    sections: u32,
}

impl<'a> Flow<'a> {
    /// Begins on a first page.
    pub(super) fn new(begin: impl Fn() -> (Sheet, Frame) + 'a) -> Self {
        let (sheet, room) = begin();
        Self { begin: Box::new(begin), done: Vec::new(), sheet, room, y: room.low.y, sections: 0 }
    }

    /// Every page.
    pub(super) fn finish(mut self) -> Vec<Sheet> {
        self.done.push(self.sheet);
        self.done
    }

    /// Goes on on the next page.
    pub(super) fn turn(&mut self) {
        let (sheet, room) = (self.begin)();
        self.done.push(std::mem::replace(&mut self.sheet, sheet));
        (self.room, self.y) = (room, room.low.y);
    }

    /// Paper left on this page, mm.
    pub(super) fn left(&self) -> f64 {
        self.room.high.y - self.y
    }

    /// Whether nothing stands on this page yet.
    pub(super) fn fresh(&self) -> bool {
        self.y <= self.room.low.y
    }

    /// Goes on on the next page unless so much paper is left on this one, mm.
    pub(super) fn need(&mut self, tall: f64) {
        if self.left() < tall && !self.fresh() {
            self.turn();
        }
    }

    /// Leaves paper free, mm.
    pub(super) fn gap(&mut self, tall: f64) {
        if !self.fresh() {
            self.y += tall;
        }
    }

    /// The title of a section, numbered.
    pub(super) fn section(&mut self, title: &str) {
        self.section_before(title, FOLLOWS);
    }

    /// The title of a section, with so much paper after it on the same page, mm.
    pub(super) fn section_before(&mut self, title: &str, tall: f64) {
        self.need(14.0 + tall);
        self.gap(4.0);
        self.sections += 1;
        let size = 5.2;
        let foot = self.y + size;
        self.sheet.words(
            DVec2::new(self.room.low.x, foot),
            format!("A{}  {title}", self.sections),
            Lettering::new(size).bold(),
        );
        let rule = foot + 2.0;
        let ends = [DVec2::new(self.room.low.x, rule), DVec2::new(self.room.high.x, rule)];
        self.sheet.line(ends, Pen::plain(Ink::BLACK, 0.7));
        self.y = rule + 2.2;
    }

    /// The title of a part of a section.
    pub(super) fn part(&mut self, title: &str) {
        self.part_before(title, FOLLOWS);
    }

    /// The title of a part, with so much paper after it on the same page, mm.
    pub(super) fn part_before(&mut self, title: &str, tall: f64) {
        self.need(9.0 + tall);
        self.gap(2.4);
        self.set(0.0, title, Lettering::new(3.9).bold());
        self.y += 0.8;
    }

    /// A paragraph.
    pub(super) fn paragraph(&mut self, words: &str) {
        self.lettered(words, Lettering::new(TEXT));
    }

    /// A paragraph lettered otherwise.
    pub(super) fn lettered(&mut self, words: &str, lettering: Lettering) {
        self.set(0.0, words, lettering);
        self.y += 0.45 * lettering.size_mm;
    }

    /// A paragraph after a mark such as "1." or "-".
    pub(super) fn item(&mut self, mark: &str, words: &str) {
        let indent = if mark.len() > 1 { 7.0 } else { 3.6 };
        self.need(self.few(words, indent, Lettering::new(TEXT)));
        let foot = DVec2::new(self.room.low.x, self.y + 0.8 * TEXT);
        self.sheet.words(foot, mark, Lettering::new(TEXT).bold());
        self.set(indent, words, Lettering::new(TEXT));
        self.y += 0.3 * TEXT;
    }

    /// A paragraph that leaves room before it, mm, for a sign that is drawn already.
    pub(super) fn after(&mut self, indent: f64, words: &str) {
        self.set(indent, words, Lettering::new(TEXT));
        self.y += 0.3 * TEXT;
    }

    /// Draws something so tall in a frame as wide as the page.
    pub(super) fn picture(&mut self, tall: f64, draw: impl FnOnce(&mut Sheet, Frame)) {
        self.need(tall);
        let frame = Frame {
            low: DVec2::new(self.room.low.x, self.y),
            high: DVec2::new(self.room.high.x, self.y + tall.min(self.left())),
        };
        draw(&mut self.sheet, frame);
        self.y = frame.high.y + 2.0;
    }

    fn set(&mut self, indent: f64, words: &str, lettering: Lettering) {
        self.need(self.few(words, indent, lettering));
        let size = lettering.size_mm;
        let tall = size * Sheet::LEADING;
        for line in wrapped(words, size, lettering.bold, self.room.size().x - indent) {
            self.need(tall);
            let foot = DVec2::new(self.room.low.x + indent, self.y + 0.8 * size);
            self.sheet.words(foot, line, lettering);
            self.y += tall;
        }
    }

    /// Paper for the first lines of a paragraph: a short one is not torn apart.
    #[allow(clippy::cast_precision_loss, reason = "five at most")]
    fn few(&self, words: &str, indent: f64, lettering: Lettering) -> f64 {
        let size = lettering.size_mm;
        let count = lines(words, size, lettering.bold, self.room.size().x - indent).len();
        let together = if count <= 5 { count } else { 2 };
        together as f64 * size * Sheet::LEADING
    }
}

/// Words broken into lines of a width, mm; a word that is wider is broken between its letters.
pub(super) fn wrapped(words: &str, size: f64, bold: bool, width: f64) -> Vec<String> {
    let mut broken = Vec::new();
    for line in lines(words, size, bold, width) {
        if width_mm(&line, size, bold) <= width {
            broken.push(line);
            continue;
        }
        let mut piece = String::new();
        for letter in line.chars() {
            piece.push(letter);
            if width_mm(&piece, size, bold) > width && piece.chars().count() > 1 {
                piece.pop();
                broken.push(std::mem::replace(&mut piece, letter.to_string()));
            }
        }
        broken.push(piece);
    }
    broken.iter().map(|line| line.trim().to_owned()).filter(|line| !line.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flow() -> Flow<'static> {
        Flow::new(|| (Sheet::new(100.0, 60.0, "", ""), Frame::new(10.0, 10.0, 80.0, 40.0)))
    }

    #[test]
    fn what_finds_no_room_goes_on_on_the_next_page_and_no_word_is_lost() {
        let mut flow = flow();
        let words = "the way flown is a line between its steps, and every margin the least along it ".repeat(30);
        flow.paragraph(&words);
        let pages = flow.finish();
        assert!(pages.len() > 2);
        let lettered: Vec<(String, DVec2, DVec2)> = pages.iter().flat_map(Sheet::lettered).collect();
        assert!(lettered.iter().all(|(_, low, high)| low.y >= 10.0 && high.y <= 50.0 && high.x <= 90.0));
        let told: Vec<&str> = lettered.iter().flat_map(|(words, ..)| words.split_whitespace()).collect();
        assert_eq!(told, words.split_whitespace().collect::<Vec<_>>());
    }

    #[test]
    fn a_word_without_end_is_broken_between_its_letters() {
        let name = "Llanfairpwllgwyngyllgogerychwyrndrobwll".repeat(4);
        let lines = wrapped(&name, 3.0, false, 40.0);
        assert!(lines.len() > 3 && lines.iter().all(|line| width_mm(line, 3.0, false) <= 40.0));
        assert_eq!(lines.concat(), name);
        assert_eq!(wrapped(" ", 3.0, false, 40.0), Vec::<String>::new());
    }
}
