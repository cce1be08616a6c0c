//! Sheets as one PDF: pages of their size to a hundredth of a millimetre, real words in lettering that the file brings
//! with it, and what a sheet shows in words for those who can't see it. No clock: the same sheets give the same bytes.

mod page;
mod shape;
mod words;

#[cfg(test)]
pub(crate) mod read;
#[cfg(test)]
mod tests;

use krilla::SerializeSettings;
use krilla::color::{Color, luma, rgb};
use krilla::destination::XyzDestination;
use krilla::geom::{Point, Transform};
use krilla::metadata::{Metadata, TextDirection};
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::tagging::TagTree;

use super::sound::legible;
use super::{Document, Ink};
use crate::{Error, Result, VERSION};

/// Points, the unit of PDF, in a millimetre.
const POINTS: f64 = 72.0 / 25.4;

/// Sheets as PDF, with a list of the pages where there are several.
///
/// # Errors
///
/// Where there is no page, or one without width or height.
pub fn pdf(document: &Document) -> Result<Vec<u8>> {
    let refused = |why: &str| Error::Asked(format!("can't write {} as PDF: {why}", document.title));
    let letters = words::Letters::new().ok_or_else(|| refused("its lettering can't be read"))?;
    if document.pages.is_empty() {
        return Err(refused("it has no pages"));
    }
    let mut file = krilla::Document::new_with(SerializeSettings::default());
    let (mut tags, mut list) = (TagTree::new(), Outline::new());
    for (index, sheet) in document.pages.iter().enumerate() {
        let [width, height] = (sheet.size_mm * POINTS).to_array().map(short);
        let settings = PageSettings::from_wh(width, height);
        let settings = settings.filter(|_| width.is_finite() && height.is_finite());
        let settings = settings.ok_or_else(|| refused(&format!("page {} has no size", index + 1)))?;
        let mut page = file.start_page_with(settings);
        let mut surface = page.surface();
        let scale = short(POINTS);
        surface.push_transform(&Transform::from_scale(scale, scale));
        tags.push(page::draw(&mut surface, sheet, &letters));
        surface.pop();
        surface.finish();
        page.finish();
        let top = XyzDestination::new(index, Point::from_xy(0.0, 0.0));
        list.push_child(OutlineNode::new(legible(&sheet.title), top));
    }
    file.set_tag_tree(tags);
    if document.pages.len() > 1 {
        file.set_outline(list);
    }
    file.set_metadata(metadata(document));
    file.finish().map_err(|why| refused(&why.to_string()))
}

fn metadata(document: &Document) -> Metadata {
    let made_by = format!("Peewit {VERSION}");
    let author = legible(&document.author);
    Metadata::new()
        .title(legible(&document.title))
        .description(legible(&document.subject))
        .authors(if author.is_empty() { vec![] } else { vec![author] })
        .language("en".into())
        .text_direction(TextDirection::LeftToRight)
        .creator(made_by.clone())
        .producer(made_by)
}

/// A colour; greys as such, so that a printer takes black alone for them.
fn colour(ink: Ink) -> Color {
    let [_, red, green, blue] = ink.0.to_be_bytes();
    if red == green && green == blue { luma::Color::new(red).into() } else { rgb::Color::new(red, green, blue).into() }
}

/// A number as PDF holds it.
#[allow(clippy::cast_possible_truncation, reason = "seven digits place a mark on any sheet")]
const fn short(value: f64) -> f32 {
    value as f32
}
