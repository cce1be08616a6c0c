//! A sheet as a picture of dots.

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

use super::Sheet;
use super::font::{BOLD, REGULAR};
use super::svg::Manner;
use crate::{Error, Result, VERSION};

/// A sheet as PNG, so many dots an inch.
///
/// # Errors
///
/// Where it would take more memory than there is.
pub fn png(sheet: &Sheet, dots_an_inch: f64) -> Result<Vec<u8>> {
    let png = canvas(sheet, dots_an_inch)?.encode_png().map_err(|why| refused(sheet, &why))?;
    Ok(named(png, &format!("Software\0Peewit {VERSION}")))
}

/// Where the first chunk of a PNG ends, which its standard (W3C, Portable Network Graphics, 5) has as the header: 8 bytes of
/// signature, and 13 of its own with 12 about them.
const HEADER_ENDS: usize = 33;

/// A PNG with a keyword and words in it (chunk `tEXt`), after its header.
fn named(mut png: Vec<u8>, words: &str) -> Vec<u8> {
    let body = [b"tEXt", words.as_bytes()].concat();
    #[allow(clippy::cast_possible_truncation, reason = "some twenty bytes")]
    let length = (words.len() as u32).to_be_bytes();
    let chunk = [&length, &*body, &checksum(&body).to_be_bytes()].concat();
    png.splice(HEADER_ENDS..HEADER_ENDS, chunk);
    png
}

/// The checksum of a chunk (same standard, annex D): CRC-32 of ISO 3309, the lowest bit first.
fn checksum(bytes: &[u8]) -> u32 {
    let shifted = |rest: u32| if rest & 1 == 1 { 0xedb8_8320 ^ (rest >> 1) } else { rest >> 1 };
    let one = |rest: u32, byte: &u8| (0..8).fold(rest ^ u32::from(*byte), |rest, _| shifted(rest));
    !bytes.iter().fold(u32::MAX, one)
}

/// The dots themselves, for a screen: how many across and down, and red, green, blue and opaque of each, row by row from
/// the top. Colours are multiplied by how opaque they are.
///
/// # Errors
///
/// Where it would take more memory than there is.
pub fn dots(sheet: &Sheet, dots_an_inch: f64) -> Result<([u32; 2], Vec<u8>)> {
    let canvas = canvas(sheet, dots_an_inch)?;
    Ok(([canvas.width(), canvas.height()], canvas.take()))
}

fn refused(sheet: &Sheet, why: &dyn std::fmt::Display) -> Error {
    Error::Asked(format!("can't draw {}: {why}", sheet.title))
}

fn canvas(sheet: &Sheet, dots_an_inch: f64) -> Result<Pixmap> {
    // The fonts of the machine stay out of it.
    let mut options = Options::default();
    options.fontdb_mut().load_font_data(REGULAR.to_vec());
    options.fontdb_mut().load_font_data(BOLD.to_vec());
    let tree = Tree::from_str(&sheet.svg_in(&Manner::default()), &options).map_err(|why| refused(sheet, &why))?;
    let dots = sheet.size_mm / 25.4 * dots_an_inch;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a cast stops at the ends of u32")]
    let [width, height] = [dots.x, dots.y].map(|dots| dots.round() as u32);
    let mut canvas = Pixmap::new(width, height).ok_or_else(|| refused(sheet, &format!("{width} by {height} dots")))?;
    #[allow(clippy::cast_possible_truncation, reason = "dots are placed to far less than a millionth of the sheet")]
    let scale = (dots.x / f64::from(tree.size().width())) as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut canvas.as_mut());
    Ok(canvas)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_says_what_drew_it_and_is_one_still() {
        // The check value that every catalogue has of this sum.
        assert_eq!(checksum(b"123456789"), 0xcbf4_3926);
        let drawn = png(&Sheet::new(20.0, 10.0, "", ""), 25.4).unwrap();
        assert!(drawn.windows(16).any(|bytes| bytes == b"Software\0Peewit "));
        let read = Pixmap::decode_png(&drawn).unwrap();
        assert_eq!((read.width(), read.height()), (20, 10));
    }
}
