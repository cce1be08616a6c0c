//! The lettering cut down to the glyphs that are in use, for files that carry it with them.
//!
//! Glyphs keep their numbers, so the tables that set pairs closer and find letters stay as they are; only the outlines of
//! the others go. Libraries that cut lettering for PDF drop those tables, which a browser needs.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use write_fonts::FontBuilder;
use write_fonts::read::tables::glyf::Glyph;
use write_fonts::read::{FontRef, TableProvider as _};
use write_fonts::types::{GlyphId, Tag};

use super::{BOLD, Face, REGULAR};

/// Style rules that bring the lettering for words of both weights, in a form that XML and HTML take as it is.
pub(in crate::draw) fn style<'a>(words: impl Iterator<Item = (&'a str, bool)> + Clone) -> String {
    let mut style = String::new();
    for (bold, weight) in [(false, 400), (true, 700)] {
        let Some(face) = Face::new(bold) else { continue };
        let of_weight = words.clone().filter(|(_, heavy)| *heavy == bold);
        let used: BTreeSet<u32> = of_weight.flat_map(|(words, _)| face.set(words)).map(|glyph| glyph.number).collect();
        if used.is_empty() {
            continue;
        }
        let whole = if bold { BOLD } else { REGULAR };
        let file = BASE64_STANDARD.encode(cut(whole, used).unwrap_or_else(|| whole.into()));
        let _ = write!(
            style,
            "@font-face{{font-family:\"Atkinson Hyperlegible\";font-weight:{weight};\
             src:url(data:font/ttf;base64,{file})}}"
        );
    }
    style
}

/// A font without the outlines that are not in use; none where it is not one with short offsets, as ours are.
fn cut(whole: &[u8], mut used: BTreeSet<u32>) -> Option<Vec<u8>> {
    let font = FontRef::new(whole).ok()?;
    let (loca, glyf) = (font.loca(None).ok()?, font.glyf().ok()?);
    if font.head().ok()?.index_to_loc_format() != 0 {
        return None;
    }
    // The sign for what is missing, and the parts that a letter is put together from.
    let mut open: Vec<u32> = used.iter().copied().chain([0]).collect();
    while let Some(number) = open.pop() {
        used.insert(number);
        if let Ok(Some(Glyph::Composite(letter))) = loca.get_glyf(GlyphId::new(number), &glyf) {
            let parts = letter.components().map(|part| u32::from(part.glyph.to_u16()));
            open.extend(parts.filter(|part| !used.contains(part)));
        }
    }
    let (mut outlines, mut offsets) = (Vec::new(), vec![0, 0]);
    for (index, number) in (0..loca.len()).zip(0_u32..) {
        if used.contains(&number) {
            let place = loca.get_raw(index)? as usize..loca.get_raw(index + 1)? as usize;
            outlines.extend_from_slice(glyf.offset_data().as_bytes().get(place)?);
        }
        // Short offsets count pairs of bytes; what was cut from a font with short offsets comes in pairs.
        offsets.extend(u16::try_from(outlines.len() / 2).ok()?.to_be_bytes());
    }
    let mut builder = FontBuilder::new();
    builder.add_raw(Tag::new(b"glyf"), outlines).add_raw(Tag::new(b"loca"), offsets);
    Some(builder.copy_missing_tables(font).build())
}

#[cfg(test)]
mod tests {
    use super::*;
    use skrifa::MetadataProvider as _;
    use skrifa::instance::{LocationRef, Size};
    use skrifa::outline::DrawSettings;
    use skrifa::outline::pen::SvgPen;

    fn outline(font: &skrifa::FontRef, letter: char) -> String {
        let glyph = font.charmap().map(letter).unwrap();
        let settings = DrawSettings::unhinted(Size::unscaled(), LocationRef::default());
        let mut pen = SvgPen::new();
        font.outline_glyphs().get(glyph).unwrap().draw(settings, &mut pen).unwrap();
        pen.to_string()
    }

    #[test]
    fn letters_in_use_keep_outline_and_pairs_and_the_others_go() {
        let whole = skrifa::FontRef::new(REGULAR).unwrap();
        // The accented letter is put together from two glyphs that are not asked for.
        let used = Face::new(false).unwrap().set("Circle é").iter().map(|glyph| glyph.number).collect();
        let file = cut(REGULAR, used).unwrap();
        let font = skrifa::FontRef::new(&file).unwrap();
        for letter in "Circle é".chars() {
            assert_eq!(outline(&font, letter), outline(&whole, letter), "{letter}");
        }
        assert!(outline(&font, 'W').is_empty() && !outline(&whole, 'W').is_empty());
        let table = |font: &skrifa::FontRef, tag| font.table_data(skrifa::Tag::new(tag)).unwrap().as_bytes().to_vec();
        for tag in [b"GPOS", b"GSUB", b"cmap", b"hmtx"] {
            assert_eq!(table(&font, tag), table(&whole, tag));
        }
        assert!(file.len() < REGULAR.len() / 2, "{} of {}", file.len(), REGULAR.len());
    }

    #[test]
    fn only_the_weights_in_use_are_brought() {
        assert_eq!(style(std::iter::empty()), "");
        let one = style([("light", false)].into_iter());
        assert!(one.contains("font-weight:400") && !one.contains("font-weight:700"));
        let both = style([("light", false), ("heavy", true)].into_iter());
        assert_eq!(both.matches("@font-face").count(), 2);
        assert!(!both.contains('<') && !both.contains('&'));
    }
}
