//! Words on a page of PDF: letters that can be searched and copied, set as in the SVG, over a rim of paper where one is
//! asked for. The rim is of outlines, so that nothing is read twice.

use glam::DVec2;
use krilla::geom::{Point, Transform};
use krilla::paint::{Fill, LineJoin, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{ContentTag, TagGroup};
use krilla::text::{Font, GlyphId, KrillaGlyph};

use super::{colour, short};
use crate::draw::font::{BOLD, Face, Glyph, REGULAR};
use crate::draw::{Ink, Lettering, Set};

/// Both weights of the lettering.
pub(super) struct Letters {
    regular: (Face, Font),
    bold: (Face, Font),
}

impl Letters {
    /// None where they can't be read.
    pub(super) fn new() -> Option<Self> {
        let weight = |bold, bytes: &'static [u8]| Some((Face::new(bold)?, Font::new(bytes.into(), 0)?));
        Some(Self { regular: weight(false, REGULAR)?, bold: weight(true, BOLD)? })
    }

    /// Whether a letter of the words is missing in a weight.
    pub(super) fn lack(&self, words: &str, bold: bool) -> bool {
        self.weight(bold).0.set(words).iter().any(|glyph| glyph.number == 0)
    }

    fn weight(&self, bold: bool) -> &(Face, Font) {
        if bold { &self.bold } else { &self.regular }
    }

    /// The words themselves.
    pub(super) fn draw(&self, surface: &mut Surface, at: DVec2, words: &str, lettering: &Lettering) {
        surface.set_stroke(None);
        surface.set_fill(Some(Fill { paint: colour(lettering.ink).into(), ..Fill::default() }));
        self.set(surface, at, words, lettering, false);
    }

    /// The rim of paper about them, if they have one: a part of the figure.
    pub(super) fn rim(
        &self,
        surface: &mut Surface,
        at: DVec2,
        words: &str,
        lettering: &Lettering,
        figure: &mut TagGroup,
    ) {
        if !lettering.rimmed {
            return;
        }
        figure.push(surface.start_tagged(ContentTag::Other));
        surface.set_fill(None);
        surface.set_stroke(Some(Stroke {
            paint: colour(Ink::PAPER).into(),
            width: short(lettering.size_mm * 0.3),
            line_join: LineJoin::Round,
            ..Stroke::default()
        }));
        self.set(surface, at, words, lettering, true);
        surface.end_tagged();
    }

    fn set(&self, surface: &mut Surface, at: DVec2, words: &str, lettering: &Lettering, outlined: bool) {
        let (face, font) = self.weight(lettering.bold);
        let set = face.set(words);
        let width = set.iter().map(|glyph| glyph.advance).sum::<f64>() * lettering.size_mm;
        let before = match lettering.set {
            Set::Start => 0.0,
            Set::Middle => width / 2.0,
            Set::End => width,
        };
        let (words, glyphs) = one_sign(words, set);
        let (x, y) = (short(at.x), short(at.y));
        surface.push_transform(&Transform::from_rotate_at(short(-lettering.turned_deg), x, y));
        let start = Point::from_xy(short(at.x - before), y);
        surface.draw_glyphs(start, &glyphs, font.clone(), &words, short(lettering.size_mm), outlined);
        surface.pop();
    }
}

/// Glyphs for words in which every missing letter has become one and the same, as its sign is one and the same.
fn one_sign(words: &str, set: Vec<Glyph>) -> (String, Vec<KrillaGlyph>) {
    let (mut plain, mut glyphs, mut before) = (String::new(), Vec::<KrillaGlyph>::new(), None);
    for glyph in set {
        let letters = match glyphs.last() {
            Some(last) if before == Some(glyph.letters.start) => last.text_range.clone(),
            _ => {
                let begin = plain.len();
                match words.get(glyph.letters.clone()) {
                    Some(letters) if glyph.number != 0 => plain.push_str(letters),
                    _ => plain.push(char::REPLACEMENT_CHARACTER),
                }
                begin..plain.len()
            }
        };
        before = Some(glyph.letters.start);
        let (number, [x, y]) = (GlyphId::new(glyph.number), glyph.aside.to_array());
        glyphs.push(KrillaGlyph::new(number, short(glyph.advance), short(x), short(y), 0.0, letters, None));
    }
    (plain, glyphs)
}
