//! Where a report goes: which format a file's name asks for, and files that are written whole or not at all.

use std::fs::{File, Permissions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use crate::{Error, Result};

/// What a report can be written as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Format {
    /// For people.
    Text,
    /// Everything, for other programs.
    Json,
    /// The path as a table.
    Csv,
    /// The path on a map.
    GeoJson,
    /// The path as a track with times.
    Gpx,
}

impl Format {
    /// Every format with the ending that asks for it.
    pub const ENDINGS: [(&'static str, Self); 5] =
        [("txt", Self::Text), ("json", Self::Json), ("csv", Self::Csv), ("geojson", Self::GeoJson), ("gpx", Self::Gpx)];

    /// The format that a file's ending asks for.
    ///
    /// # Errors
    ///
    /// Where the ending is none of [`Format::ENDINGS`]; the message lists them.
    pub fn of(path: &Path) -> Result<Self> {
        let ending = path.extension().unwrap_or_default();
        let known = Self::ENDINGS.iter().find(|(name, _)| ending.eq_ignore_ascii_case(name));
        known.map(|&(_, format)| format).ok_or_else(|| {
            let endings = Self::ENDINGS.map(|(name, _)| format!(".{name}")).join(", ");
            Error::Asked(format!("can't tell the format of {}: give it one of the endings {endings}", path.display()))
        })
    }
}

/// A file that appears complete or not at all: until [`WholeFile::write`] has put everything on the disk, the old one
/// stands. Opening it early finds out about a bad path before any work is done.
#[derive(Debug)]
pub struct WholeFile {
    path: PathBuf,
    draft: NamedTempFile,
}

impl WholeFile {
    /// Makes sure that the file can be written.
    ///
    /// # Errors
    ///
    /// Where its folder does not exist or may not be written to, or where something stands there that is no file.
    pub fn open(path: &Path) -> Result<Self> {
        let refused = |source| Error::Write { path: path.into(), source };
        let target = in_full(path).map_err(refused)?;
        if target.exists() {
            if !target.is_file() {
                return Err(refused(io::Error::other("it is not a file")));
            }
            File::options().append(true).open(&target).map_err(refused)?;
        }
        let draft = draft_beside(&target).map_err(refused)?;
        Ok(Self { path: target, draft })
    }

    /// Where it will stand.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Puts the file in place.
    ///
    /// # Errors
    ///
    /// Where the disk refuses; what stood there before is untouched.
    pub fn write(self, text: &str) -> Result<()> {
        let Self { path, draft } = self;
        let put = |mut draft: NamedTempFile| -> io::Result<()> {
            draft.write_all(text.as_bytes())?;
            draft.as_file().sync_all()?;
            draft.persist(&path)?;
            Ok(())
        };
        put(draft).map_err(|source| Error::Write { path, source })
    }
}

/// The one full name of a file. A link is followed, so that it goes on pointing at the file.
fn in_full(path: &Path) -> io::Result<PathBuf> {
    if path.exists() {
        return path.canonicalize();
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    Ok(folder.canonicalize()?.join(path.file_name().unwrap_or_default()))
}

/// A temporary file in the same folder, so that the rename does not cross file systems.
fn draft_beside(target: &Path) -> io::Result<NamedTempFile> {
    let folder = target.parent().unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    if let Some(permissions) = permissions(target) {
        builder.permissions(permissions);
    }
    builder.tempfile_in(folder)
}

/// Those of the file that is replaced, or those any new file gets; temporary files are otherwise private.
#[cfg(unix)]
fn permissions(target: &Path) -> Option<Permissions> {
    use std::os::unix::fs::PermissionsExt as _;
    Some(target.metadata().map_or_else(|_| Permissions::from_mode(0o666), |known| known.permissions()))
}

#[cfg(not(unix))]
fn permissions(_: &Path) -> Option<Permissions> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ending_decides_the_format() {
        for (name, format) in Format::ENDINGS {
            assert_eq!(Format::of(Path::new(&format!("a.b.{name}"))).unwrap(), format);
            assert_eq!(Format::of(Path::new(&format!("A.{}", name.to_uppercase()))).unwrap(), format);
        }
        for wrong in ["report", "report.doc", "json", ".json"] {
            let said = Format::of(Path::new(wrong)).unwrap_err().to_string();
            assert!(said.contains(wrong) && said.contains(".geojson"), "{said}");
        }
    }

    #[test]
    fn the_old_file_stands_until_the_new_one_is_complete() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("report.txt");
        std::fs::write(&path, "old").unwrap();
        let file = WholeFile::open(&path).unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "old");
        file.write("new").unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "new");
    }

    #[test]
    fn a_file_that_is_never_written_leaves_nothing_behind() {
        let folder = tempfile::tempdir().unwrap();
        drop(WholeFile::open(&folder.path().join("report.txt")).unwrap());
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn a_path_that_can_not_be_written_is_refused_before_any_work() {
        let folder = tempfile::tempdir().unwrap();
        for wrong in [folder.path().to_path_buf(), folder.path().join("nowhere/report.txt")] {
            let said = WholeFile::open(&wrong).unwrap_err().to_string();
            assert!(said.contains(&*wrong.display().to_string()), "{said}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn others_may_read_a_new_file_as_they_may_any_other() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let (ours, any) = (folder.path().join("ours.txt"), folder.path().join("any.txt"));
        WholeFile::open(&ours).unwrap().write("x").unwrap();
        std::fs::write(&any, "x").unwrap();
        let mode = |path: &Path| path.metadata().unwrap().permissions().mode();
        assert_eq!(mode(&ours), mode(&any));
    }
}
