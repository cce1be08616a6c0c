//! Which glyphs words are set with and how far apart: pairs closer, ligatures where the lettering has them, as every
//! viewer of SVG sets them.

use std::ops::Range;

use glam::DVec2;
use harfrust::{Direction, ShapeOptions, ShaperData, UnicodeBuffer};
use skrifa::FontRef;
use skrifa::raw::TableProvider as _;

use super::{BOLD, REGULAR};

/// A glyph in a line of words. Lengths are ems.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::draw) struct Glyph {
    /// Its number in the lettering; 0 stands for a letter that is missing.
    pub(in crate::draw) number: u32,
    /// From here to the foot of the next.
    pub(in crate::draw) advance: f64,
    /// How far it stands from its foot, to the right and up.
    pub(in crate::draw) aside: DVec2,
    /// Bytes of the words that it stands for.
    pub(in crate::draw) letters: Range<usize>,
}

/// One weight of the lettering, ready to set words.
pub(in crate::draw) struct Face {
    font: FontRef<'static>,
    shaper: ShaperData,
    units_an_em: f64,
}

impl Face {
    /// The regular or the heavy weight; none where it can't be read.
    pub(in crate::draw) fn new(bold: bool) -> Option<Self> {
        let font = FontRef::new(if bold { BOLD } else { REGULAR }).ok()?;
        let units_an_em = f64::from(font.head().ok()?.units_per_em());
        Some(Self { shaper: ShaperData::new(&font), font, units_an_em })
    }

    /// Words from left to right.
    pub(in crate::draw) fn set(&self, words: &str) -> Vec<Glyph> {
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(words);
        buffer.guess_segment_properties();
        buffer.set_direction(Direction::LeftToRight);
        let set = self.shaper.shaper(&self.font).build().shape(buffer, ShapeOptions::new());
        let begins: Vec<usize> = set.glyph_infos().iter().map(|glyph| glyph.cluster as usize).collect();
        let end = |begin: usize| begins.iter().copied().filter(|other| *other > begin).min().unwrap_or(words.len());
        let ems = |units: i32| f64::from(units) / self.units_an_em;
        let glyphs = set.glyph_infos().iter().zip(set.glyph_positions()).zip(&begins);
        glyphs
            .map(|((glyph, place), begin)| Glyph {
                number: glyph.glyph_id,
                advance: ems(place.x_advance),
                aside: DVec2::new(ems(place.x_offset), ems(place.y_offset)),
                letters: *begin..end(*begin),
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::width_mm;

    #[track_caller]
    fn check(words: &str, letters: &[&str], missing: usize) {
        let set = Face::new(false).unwrap().set(words);
        assert_eq!(set.iter().map(|glyph| &words[glyph.letters.clone()]).collect::<Vec<_>>(), letters);
        assert_eq!(set.iter().filter(|glyph| glyph.number == 0).count(), missing, "{words}");
    }

    #[test]
    fn every_letter_is_set_and_a_missing_one_has_a_sign_in_its_stead() {
        check("", &[], 0);
        check("a<&\">é", &["a", "<", "&", "\"", ">", "é"], 0);
        check("ößł", &["ö", "ß", "ł"], 0);
        check("a漢b", &["a", "漢", "b"], 1);
        check("אב", &["א", "ב"], 2);
    }

    #[test]
    fn words_are_no_wider_than_their_letters_one_by_one_and_pairs_are_closer() {
        for (words, closer) in [("AVAVAV", true), ("To", true), ("nnnn", false)] {
            for bold in [false, true] {
                let set: f64 = Face::new(bold).unwrap().set(words).iter().map(|glyph| glyph.advance).sum();
                let alone = width_mm(words, 1.0, bold);
                assert!(set <= alone + 1e-9 && (set < alone - 0.01) == closer, "{words}: {set} of {alone}");
            }
        }
    }
}
