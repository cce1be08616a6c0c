//! What goes to people and other programs.

pub mod cautions;
