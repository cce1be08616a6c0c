//! What the jet can do, and where it is one step later.

mod sheet;

pub use sheet::{Entry, JetSheet, Origin, PlainEntry};
