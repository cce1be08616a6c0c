//! Pages of prints and pictures of the briefing, drawn beside the window and kept as long as they are of use.

mod order;
mod shelf;

pub use order::{DrawnPages, Known, Told, What};
pub use shelf::{Seen, Shelf};
