//! A scenario back to text, to a file, and to a hash that names it.

use std::io::Write as _;
use std::path::Path;

use sha2::{Digest as _, Sha256};

use super::Scenario;
use crate::error::{Error, Result, json};

impl Scenario {
    /// As it stands in a file: pretty JSON, keys in a fixed order, the field inline.
    pub fn to_text(&self) -> String {
        json::print(&serde_json::to_value(&self.file).unwrap_or_default())
    }

    /// Names this scenario: the first twelve hexadecimal digits of the SHA-256 of its text. Any change changes it.
    pub fn hash(&self) -> String {
        let digest = Sha256::digest(self.to_text());
        digest.iter().take(6).map(|byte| format!("{byte:02x}")).collect()
    }

    /// Writes the file whole: nobody ever sees half of it, even if the power fails.
    pub fn save(&self, path: &Path) -> Result<()> {
        write_whole(path, self.to_text().as_bytes())
    }
}

/// Writes a file whole: temporary file beside it, flushed to the disk, then renamed.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<()> {
    let write = || {
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let mut file = tempfile::NamedTempFile::new_in(folder)?;
        file.write_all(bytes)?;
        file.as_file().sync_all()?;
        file.persist(path).map(|_| ()).map_err(|error| error.error)
    };
    write().map_err(|source| Error::Write { path: path.into(), source })
}
