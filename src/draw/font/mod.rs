//! The built-in lettering, and how wide words are in it.

mod shape;
mod subset;

pub(super) use shape::{Face, Glyph};
pub(super) use subset::style;

use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider as _};

/// What the lettering is called, and what a viewer without it may take instead.
pub(super) const FAMILY: &str = "Atkinson Hyperlegible, Verdana, DejaVu Sans, sans-serif";

pub(super) const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/AtkinsonHyperlegible-Regular.ttf");
pub(super) const BOLD: &[u8] = include_bytes!("../../../assets/fonts/AtkinsonHyperlegible-Bold.ttf");

/// Width of words at a size (of the em), mm. Pairs that are set closer together make it a little less on paper.
pub fn width_mm(words: &str, size_mm: f64, bold: bool) -> f64 {
    let Ok(font) = FontRef::new(if bold { BOLD } else { REGULAR }) else { return 0.0 };
    let letters = font.charmap();
    let widths = font.glyph_metrics(Size::new(1000.0), LocationRef::default());
    let thousandths = |letter| {
        let glyph = letters.map(letter).unwrap_or_default();
        f64::from(widths.advance_width(glyph).unwrap_or_default())
    };
    words.chars().map(thousandths).sum::<f64>() / 1000.0 * size_mm
}

/// Words broken at spaces into lines of a width, mm. A word that is wider stands alone; a number keeps its unit.
pub fn lines(words: &str, size_mm: f64, bold: bool, width: f64) -> Vec<String> {
    let words: Vec<&str> = words.split_whitespace().collect();
    let pieces = words.chunk_by(|word, _| word.ends_with(|last: char| last.is_ascii_digit()));
    let mut lines: Vec<String> = Vec::new();
    for piece in pieces.map(|piece| piece.join(" ")) {
        match lines.last_mut() {
            Some(line) if width_mm(&format!("{line} {piece}"), size_mm, bold) <= width => {
                line.push(' ');
                line.push_str(&piece);
            }
            _ => lines.push(piece),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_as_wide_as_their_letters_and_grow_with_the_size() {
        assert!(width_mm("", 4.0, false).abs() < 1e-12);
        let (narrow, wide) = (width_mm("iii", 4.0, false), width_mm("mmm", 4.0, false));
        assert!(0.5 < narrow && narrow < wide && wide < 12.0, "{narrow} {wide}");
        approx::assert_relative_eq!(width_mm("mmm", 8.0, false), 2.0 * wide, max_relative = 1e-9);
        assert!(width_mm("circle", 4.0, true) > width_mm("circle", 4.0, false));
    }

    #[test]
    fn the_lettering_has_every_sign_of_print() {
        for bytes in [REGULAR, BOLD] {
            let font = FontRef::new(bytes).unwrap();
            let missing: String = (' '..='~').filter(|&letter| font.charmap().map(letter).is_none()).collect();
            assert_eq!(missing, "");
        }
    }

    #[test]
    fn lines_keep_to_the_width_lose_no_word_and_keep_number_and_unit_together() {
        let words = "blown 12 m wide of the ring in the mean wind of 6 m/s ".repeat(6);
        let set = lines(&words, 4.0, false, 50.0);
        assert!(set.len() > 3 && set.iter().all(|line| width_mm(line, 4.0, false) <= 50.0));
        assert_eq!(set.join(" "), words.trim());
        assert!(set.iter().all(|line| !line.ends_with("12") && !line.ends_with('6')), "{set:?}");
    }
}
