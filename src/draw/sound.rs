//! What of a sheet can be put out: numbers that are finite, surfaces that close, clips that end, letters that files can
//! hold. Whatever was drawn, every format gets marks it can write.

use glam::DVec2;

use super::{Fill, Mark, Path, Pen, Sheet};
use crate::error::letters::on_one_line;

/// Farther from the corner of the sheet nothing is drawn, mm: formats differ in the numbers they take.
const FARTHEST: f64 = 10_000.0;

impl Sheet {
    /// The marks that can be put out, every clip with its end.
    pub fn sound(&self) -> Vec<Mark> {
        let (mut marks, mut open) = (Vec::with_capacity(self.marks.len()), 0_usize);
        for mark in &self.marks {
            let sound = match mark {
                Mark::Shape { path, pen, fill, about } => shape(path, pen.filter(visible), *fill, about),
                Mark::Words { at, words, lettering } => {
                    let sizes = [at.x, at.y, lettering.size_mm, lettering.turned_deg];
                    let words = legible(words);
                    let put = within(*at) && sizes.iter().all(|size| size.is_finite()) && lettering.size_mm > 0.0;
                    (put && !words.is_empty()).then_some(Mark::Words { at: *at, words, lettering: *lettering })
                }
                Mark::Clip(low, high) => {
                    open += 1;
                    let corner = |corner: DVec2| if corner.is_nan() { DVec2::ZERO } else { nearer(corner) };
                    Some(Mark::Clip(corner(*low), corner(*high)))
                }
                Mark::Unclip => (open > 0).then(|| {
                    open -= 1;
                    Mark::Unclip
                }),
            };
            marks.extend(sound);
        }
        marks.extend(std::iter::repeat_n(Mark::Unclip, open));
        marks
    }
}

fn shape(path: &Path, pen: Option<Pen>, fill: Fill, about: &str) -> Option<Mark> {
    let course = |points: &[DVec2]| -> Vec<DVec2> {
        points.iter().filter(|point| point.is_finite()).map(|point| nearer(*point)).collect()
    };
    let path = match path {
        Path::Open(points) => Path::Open(course(points)),
        Path::Rings(rings) => {
            Path::Rings(rings.iter().map(|ring| course(ring)).filter(|ring| ring.len() > 1).collect())
        }
        Path::Circle(middle, radius) => Path::Circle(*middle, radius.min(FARTHEST)),
    };
    let there = match &path {
        Path::Open(points) => points.len() > 1,
        Path::Rings(rings) => !rings.is_empty(),
        Path::Circle(middle, radius) => within(*middle) && *radius > 0.0,
    };
    let seen = pen.is_some() || fill != Fill::None;
    (there && seen).then(|| Mark::Shape { path, pen, fill, about: legible(about) })
}

fn visible(pen: &Pen) -> bool {
    pen.width_mm.is_finite() && pen.width_mm > 0.0
}

fn within(point: DVec2) -> bool {
    point.abs().max_element() <= FARTHEST
}

fn nearer(point: DVec2) -> DVec2 {
    point.clamp(DVec2::splat(-FARTHEST), DVec2::splat(FARTHEST))
}

/// Words without what neither XML nor a line of print can hold; single spaces between them, as SVG shows them.
pub(super) fn legible(words: &str) -> String {
    on_one_line(words).split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::{Ink, Lettering};

    #[track_caller]
    fn check(words: &str, expected: &str) {
        assert_eq!(legible(words), expected);
    }

    #[test]
    fn words_keep_every_letter_that_can_be_written() {
        check("plain words", "plain words");
        check("  two\n lines\t", "two lines");
        check("5\u{a0}m <&\"> é漢", "5\u{a0}m <&\"> é漢");
        check("nought\0and \u{FFFF}", "nought and \u{FFFD}");
    }

    #[test]
    fn marks_that_no_format_can_write_are_left_out_and_clips_end() {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        let pen = Pen::plain(Ink::BLACK, 0.3);
        sheet.marks.push(Mark::Unclip);
        sheet.line([DVec2::ZERO], pen);
        sheet.line([DVec2::ZERO, DVec2::new(f64::NAN, 0.0), DVec2::new(1e9, 5.0)], pen);
        sheet.line([DVec2::ZERO, DVec2::ONE], Pen::plain(Ink::BLACK, f64::INFINITY));
        sheet.circle(DVec2::ZERO, -1.0, Some(pen), Fill::None);
        sheet.words(DVec2::NAN, "nowhere", Lettering::new(4.0));
        sheet.words(DVec2::ZERO, "nought", Lettering::new(0.0));
        sheet.words(DVec2::ZERO, " \n ", Lettering::new(4.0));
        sheet.marks.push(Mark::Clip(DVec2::ZERO, DVec2::splat(50.0)));
        let (path, fill, about) = (Path::Open(vec![DVec2::ZERO, DVec2::new(FARTHEST, 5.0)]), Fill::None, String::new());
        let expected = [
            Mark::Shape { path, pen: Some(pen), fill, about },
            Mark::Clip(DVec2::ZERO, DVec2::splat(50.0)),
            Mark::Unclip,
        ];
        assert_eq!(sheet.sound(), expected);
    }
}
