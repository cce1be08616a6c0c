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
    let refused = |why: &dyn std::fmt::Display| Error::Asked(format!("can't draw {}: {why}", sheet.title));
    // The fonts of the machine stay out of it.
    let mut options = Options::default();
    options.fontdb_mut().load_font_data(REGULAR.to_vec());
    options.fontdb_mut().load_font_data(BOLD.to_vec());
    let tree = Tree::from_str(&sheet.svg_in(&Manner::default()), &options).map_err(|why| refused(&why))?;
    let dots = sheet.size_mm / 25.4 * dots_an_inch;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a cast stops at the ends of u32")]
    let [width, height] = [dots.x, dots.y].map(|dots| dots.round() as u32);
    let mut canvas = Pixmap::new(width, height).ok_or_else(|| refused(&format!("{width} by {height} dots")))?;
    #[allow(clippy::cast_possible_truncation, reason = "dots are placed to far less than a millionth of the sheet")]
    let scale = (dots.x / f64::from(tree.size().width())) as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut canvas.as_mut());
    canvas.encode_png().map_err(|why| refused(&why))
}
