//! A scenario back to text, to a file, and to a hash that names it.

use std::path::Path;

use sha2::{Digest as _, Sha256};

use super::{Scenario, ScenarioFile, WholeFile};
use crate::error::{Result, json};

impl ScenarioFile {
    /// As it stands in a file, faulty or not: pretty JSON, keys in a fixed order.
    pub fn to_text(&self) -> String {
        json::print(&serde_json::to_value(self).unwrap_or_default())
    }

    /// Writes the file whole: nobody ever sees half of it, even if the power fails.
    pub fn save(&self, path: &Path) -> Result<()> {
        WholeFile::open(path)?.write(self.to_text().as_bytes())
    }
}

/// The first twelve hexadecimal digits of the SHA-256 of a text.
pub(super) fn named(text: &str) -> String {
    Sha256::digest(text).iter().take(6).map(|byte| format!("{byte:02x}")).collect()
}

impl Scenario {
    /// As it stands in a file: pretty JSON, keys in a fixed order, the field inline.
    pub fn to_text(&self) -> String {
        self.file.to_text()
    }

    /// Names this scenario: the first twelve hexadecimal digits of the SHA-256 of its text. Any change changes it.
    pub fn hash(&self) -> String {
        named(&self.to_text())
    }

    /// Writes the file whole: nobody ever sees half of it, even if the power fails.
    pub fn save(&self, path: &Path) -> Result<()> {
        self.file.save(path)
    }
}
