//! How things look, with no state of its own: theme, sizes, lens, numbers as the screen writes them, pens, hatches, labels, marks,
//! sheets of the prints, letters and swatches of charts.

pub mod chart;
pub mod clip;
pub mod hatch;
pub mod inks;
pub mod labels;
pub mod lens;
pub mod marks;
pub mod palette;
pub mod pens;
pub mod sheet;
pub mod surface;
pub mod theme;
pub mod words;
