//! The jets that a person has kept, to be taken over into any field.

use crate::jet::JetSheet;

/// The jets that a person has kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Jets {
    /// All of them, by name.
    pub kept: Vec<JetSheet>,
    /// The one that was taken off the list last.
    pub dropped: Option<JetSheet>,
}
