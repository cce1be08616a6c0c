//! A drawing desk for paper: sheets in millimetres, lettering, pens, hatches, axes and maps, put out as SVG,
//! PNG, PDF or HTML.
//!
//! Lengths are millimetres of the sheet, x to the right and y down from its upper left corner. Only the lettering that
//! is built in is used, so the same drawing gives the same bytes on every machine.

mod axes;
mod document;
mod fit;
mod font;
pub mod hatch;
mod html;
mod ink;
mod map;
mod pdf;
mod png;
mod polar;
mod sheet;
mod sound;
mod svg;
mod tiles;

pub use axes::{Axes, Frame, Scale};
pub use document::{Document, Section};
pub use fit::{Room, Taken, shortened};
pub use font::{lines, width_mm};
pub use html::html;
pub use ink::{Fill, Hatch, Ink, Pattern, Pen};
pub use map::{MapFrame, arrow_head, north, wind};
pub use pdf::pdf;
#[cfg(test)]
pub(crate) use pdf::read;
pub use png::{dots, png};
pub use polar::Polar;
pub use sheet::{Lettering, Mark, Path, Set, Sheet};
