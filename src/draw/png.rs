//! A sheet as a picture of dots.

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

use super::Sheet;
use super::font::{BOLD, REGULAR};
use super::svg::Manner;
use crate::{Error, Result};

/// A sheet as PNG, so many dots an inch.
///
/// # Errors
///
/// Where it would take more memory than there is.
pub fn png(sheet: &Sheet, dots_an_inch: f64) -> Result<Vec<u8>> {
    canvas(sheet, dots_an_inch)?.encode_png().map_err(|why| refused(sheet, &why))
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
