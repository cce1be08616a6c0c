//! A drawing desk for paper: sheets in millimetres, lettering, pens, hatches, axes and maps, put out as SVG or PNG.
//!
//! Lengths are millimetres of the sheet, x to the right and y down from its upper left corner. Only the lettering that
//! is built in is used, so the same drawing gives the same bytes on every machine.

mod axes;
mod fit;
mod font;
mod ink;
mod map;
mod png;
mod polar;
mod sheet;
mod svg;

pub use axes::{Axes, Frame, Scale};
pub use fit::{Room, Taken, shortened};
pub use font::{lines, width_mm};
pub use ink::{Fill, Hatch, Ink, Pattern, Pen};
pub use map::{MapFrame, north, wind};
pub use png::png;
pub use polar::Polar;
pub use sheet::{Lettering, Mark, Path, Set, Sheet};
