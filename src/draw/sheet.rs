//! A sheet of paper and the marks on it.

use glam::DVec2;

use super::font::{lines, width_mm};
use super::{Fill, Ink, Pen};

/// Where words stand about their place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Set {
    /// They begin there.
    #[default]
    Start,
    /// Their middle is there.
    Middle,
    /// They end there.
    End,
}

/// How words are lettered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lettering {
    /// Size of the em, mm.
    pub size_mm: f64,
    /// Whether in the heavy weight.
    pub bold: bool,
    /// Colour.
    pub ink: Ink,
    /// Where they stand about their place.
    pub set: Set,
    /// Turned anticlockwise about their place, degrees.
    pub turned_deg: f64,
    /// Whether a rim of paper keeps them apart from what lies below.
    pub rimmed: bool,
}

impl Lettering {
    /// Black, upright, of a size.
    pub const fn new(size_mm: f64) -> Self {
        Self { size_mm, bold: false, ink: Ink::BLACK, set: Set::Start, turned_deg: 0.0, rimmed: false }
    }

    /// In the heavy weight.
    pub const fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    /// In another colour.
    pub const fn ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// With their middle at their place.
    pub const fn middle(self) -> Self {
        Self { set: Set::Middle, ..self }
    }

    /// With their end at their place.
    pub const fn end(self) -> Self {
        Self { set: Set::End, ..self }
    }

    /// Turned anticlockwise.
    pub const fn turned(self, turned_deg: f64) -> Self {
        Self { turned_deg, ..self }
    }

    /// With a rim of paper.
    pub const fn rimmed(self) -> Self {
        Self { rimmed: true, ..self }
    }
}

/// The course of a line or an edge.
#[derive(Debug, Clone, PartialEq)]
pub enum Path {
    /// Straight pieces through points.
    Open(Vec<DVec2>),
    /// Rings; ground inside an even number of them is left out.
    Rings(Vec<Vec<DVec2>>),
    /// A circle: middle and radius.
    Circle(DVec2, f64),
}

impl Path {
    /// Whether ground inside an even number of its rings is left out.
    pub(super) fn leaves_out_even(&self) -> bool {
        matches!(self, Self::Rings(rings) if rings.len() > 1)
    }
}

/// One mark.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A line or a surface.
    Shape {
        /// Its course.
        path: Path,
        /// Its line.
        pen: Option<Pen>,
        /// Its surface.
        fill: Fill,
        /// What a viewer tells about it; empty for nothing.
        about: String,
    },
    /// Words on one line, their foot at a place.
    Words {
        /// Where.
        at: DVec2,
        /// What.
        words: String,
        /// How.
        lettering: Lettering,
    },
    /// From here to [`Mark::Unclip`] nothing shows outside a rectangle: its corners.
    Clip(DVec2, DVec2),
    /// The end of that.
    Unclip,
}

/// A sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Width and height, mm.
    pub size_mm: DVec2,
    /// What it is called.
    pub title: String,
    /// What it shows, in words, for those who can't see it.
    pub about: String,
    /// What is on it, the lowest first.
    pub marks: Vec<Mark>,
}

impl Sheet {
    /// Distance from the foot of a line to the foot of the next, in ems.
    pub const LEADING: f64 = 1.3;

    /// An empty sheet.
    pub fn new(width_mm: f64, height_mm: f64, title: impl Into<String>, about: impl Into<String>) -> Self {
        Self { size_mm: DVec2::new(width_mm, height_mm), title: title.into(), about: about.into(), marks: Vec::new() }
    }

    /// Adds a shape that a viewer can tell something about.
    pub fn shape(&mut self, path: Path, pen: Option<Pen>, fill: Fill, about: impl Into<String>) {
        self.marks.push(Mark::Shape { path, pen, fill, about: about.into() });
    }

    /// Draws a line through points.
    pub fn line(&mut self, points: impl IntoIterator<Item = DVec2>, pen: Pen) {
        self.shape(Path::Open(points.into_iter().collect()), Some(pen), Fill::None, "");
    }

    /// Draws a surface with one edge.
    pub fn ring(&mut self, corners: impl IntoIterator<Item = DVec2>, pen: Option<Pen>, fill: Fill) {
        self.shape(Path::Rings(vec![corners.into_iter().collect()]), pen, fill, "");
    }

    /// Draws a rectangle between two corners.
    pub fn rectangle(&mut self, low: DVec2, high: DVec2, pen: Option<Pen>, fill: Fill) {
        self.ring(corners(low, high), pen, fill);
    }

    /// Draws a circle.
    pub fn circle(&mut self, middle: DVec2, radius_mm: f64, pen: Option<Pen>, fill: Fill) {
        self.shape(Path::Circle(middle, radius_mm), pen, fill, "");
    }

    /// Letters words on one line, their foot at a place.
    pub fn words(&mut self, at: DVec2, words: impl Into<String>, lettering: Lettering) {
        self.marks.push(Mark::Words { at, words: words.into(), lettering });
    }

    /// Letters a paragraph in a width, the foot of its first line at a place; returns the foot of the line after it.
    pub fn paragraph(&mut self, at: DVec2, width_mm: f64, words: &str, lettering: Lettering) -> DVec2 {
        let mut foot = at;
        for line in lines(words, lettering.size_mm, lettering.bold, width_mm) {
            self.words(foot, line, lettering);
            foot.y += lettering.size_mm * Self::LEADING;
        }
        foot
    }

    /// Draws with nothing showing outside a rectangle.
    pub fn clipped(&mut self, low: DVec2, high: DVec2, draw: impl FnOnce(&mut Self)) {
        self.marks.push(Mark::Clip(low, high));
        draw(self);
        self.marks.push(Mark::Unclip);
    }

    /// Puts everything that is on another sheet onto this one, so many times as large, its upper left corner at a place.
    pub fn paste(&mut self, other: Self, at: DVec2, times: f64) {
        let place = |point: DVec2| at + point * times;
        let pen = |pen: Pen| Pen { width_mm: pen.width_mm * times, ..pen };
        let marks = other.marks.into_iter().map(|mark| match mark {
            Mark::Shape { path, pen: line, fill, about } => Mark::Shape {
                path: match path {
                    Path::Open(points) => Path::Open(points.into_iter().map(place).collect()),
                    Path::Rings(rings) => {
                        Path::Rings(rings.into_iter().map(|ring| ring.into_iter().map(place).collect()).collect())
                    }
                    Path::Circle(middle, radius) => Path::Circle(place(middle), radius * times),
                },
                pen: line.map(pen),
                fill,
                about,
            },
            Mark::Words { at, words, lettering } => Mark::Words {
                at: place(at),
                words,
                lettering: Lettering { size_mm: lettering.size_mm * times, ..lettering },
            },
            Mark::Clip(low, high) => Mark::Clip(place(low), place(high)),
            Mark::Unclip => Mark::Unclip,
        });
        self.marks.extend(marks);
    }

    /// The smallest upright rectangle about every line of words, with those words.
    pub fn lettered(&self) -> Vec<(String, DVec2, DVec2)> {
        self.marks.iter().filter_map(extent).collect()
    }
}

/// Corners of a rectangle in turn.
pub(super) fn corners(low: DVec2, high: DVec2) -> [DVec2; 4] {
    [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)]
}

fn extent(mark: &Mark) -> Option<(String, DVec2, DVec2)> {
    let Mark::Words { at, words, lettering } = mark else { return None };
    let width = width_mm(words, lettering.size_mm, lettering.bold);
    let left = match lettering.set {
        Set::Start => 0.0,
        Set::Middle => -width / 2.0,
        Set::End => -width,
    };
    let (low, high) = (DVec2::new(left, -0.75 * lettering.size_mm), DVec2::new(left + width, 0.22 * lettering.size_mm));
    let turn = DVec2::from_angle(-lettering.turned_deg.to_radians());
    let turned = corners(low, high).map(|corner| *at + turn.rotate(corner));
    let fold = |pick: fn(DVec2, DVec2) -> DVec2| turned.into_iter().reduce(pick).unwrap_or(*at);
    Some((words.clone(), fold(DVec2::min), fold(DVec2::max)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_take_the_room_their_setting_says() {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        let at = DVec2::new(50.0, 50.0);
        let plain = Lettering::new(4.0);
        for lettering in [plain, plain.middle(), plain.end(), plain.turned(90.0)] {
            sheet.words(at, "boundary", lettering);
        }
        let wide = width_mm("boundary", 4.0, false);
        let found = sheet.lettered();
        let (left, right) = (|index: usize| found[index].1.x, |index: usize| found[index].2.x);
        approx::assert_abs_diff_eq!(left(0), 50.0, epsilon = 1e-9);
        approx::assert_abs_diff_eq!(right(1), 50.0 + wide / 2.0, epsilon = 1e-9);
        approx::assert_abs_diff_eq!(right(2), 50.0, epsilon = 1e-9);
        // Turned a quarter anticlockwise they run up the sheet.
        approx::assert_abs_diff_eq!(found[3].1.y, 50.0 - wide, epsilon = 1e-9);
    }

    #[test]
    fn what_is_pasted_is_larger_and_in_its_place() {
        let mut small = Sheet::new(50.0, 50.0, "", "");
        small.words(DVec2::new(10.0, 20.0), "boundary", Lettering::new(3.0));
        small.circle(DVec2::new(5.0, 5.0), 2.0, Some(Pen::plain(Ink::BLACK, 0.5)), Fill::None);
        let mut sheet = Sheet::new(200.0, 200.0, "", "");
        sheet.paste(small, DVec2::new(100.0, 50.0), 2.0);
        let (_, low, high) = &sheet.lettered()[0];
        approx::assert_abs_diff_eq!(low.x, 120.0, epsilon = 1e-9);
        approx::assert_abs_diff_eq!(high.x - low.x, width_mm("boundary", 6.0, false), epsilon = 1e-9);
        let Mark::Shape { path, pen, .. } = &sheet.marks[1] else { panic!("no circle") };
        assert_eq!(*path, Path::Circle(DVec2::new(110.0, 60.0), 4.0));
        assert_eq!(pen.map(|pen| pen.width_mm), Some(1.0));
    }
}
