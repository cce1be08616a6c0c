//! Files that are written whole or not at all.

use std::fs::{File, Permissions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use crate::{Error, Result};

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

    /// The same where some files were read, none of which may be written over.
    ///
    /// # Errors
    ///
    /// As [`WholeFile::open`], and where it is one of those files under whatever name.
    pub fn open_beside(path: &Path, read: &[PathBuf]) -> Result<Self> {
        match read.iter().find(|other| is_same(path, other)) {
            Some(other) => Err(Error::Asked(format!(
                "{} is what this was read from ({}): write somewhere else, nothing that was read is written over",
                path.display(),
                other.display()
            ))),
            None => Self::open(path),
        }
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
    pub fn write(self, bytes: &[u8]) -> Result<()> {
        let Self { path, draft } = self;
        let put = |mut draft: NamedTempFile| -> io::Result<()> {
            draft.write_all(bytes)?;
            draft.as_file().sync_all()?;
            draft.persist(&path)?;
            Ok(())
        };
        put(draft).map_err(|source| Error::Write { path, source })
    }
}

/// Whether two names are of one file: by a link of either kind, or by another way to the same folder.
fn is_same(a: &Path, b: &Path) -> bool {
    let full = |path: &Path| in_full(path).ok();
    full(a).is_some_and(|a| Some(a) == full(b)) || is_linked(a, b)
}

#[cfg(unix)]
fn is_linked(a: &Path, b: &Path) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    let of = |path: &Path| path.metadata().ok().map(|known| (known.dev(), known.ino()));
    of(a).is_some_and(|a| Some(a) == of(b))
}

#[cfg(not(unix))]
fn is_linked(_: &Path, _: &Path) -> bool {
    false
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
    fn the_old_file_stands_until_the_new_one_is_complete() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("report.txt");
        std::fs::write(&path, "old").unwrap();
        let file = WholeFile::open(&path).unwrap();
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "old");
        file.write(b"new").unwrap();
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
    fn what_was_read_is_not_written_over_under_any_name() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let (read, soft, hard) = (at("strip.json"), at("soft.json"), at("hard.json"));
        std::fs::write(&read, "field").unwrap();
        std::os::unix::fs::symlink(&read, &soft).unwrap();
        std::fs::hard_link(&read, &hard).unwrap();
        std::fs::create_dir(at("sub")).unwrap();
        for name in [read.clone(), soft, hard, at("sub").join("../strip.json")] {
            let said = WholeFile::open_beside(&name, std::slice::from_ref(&read)).unwrap_err().to_string();
            assert!(said.contains("was read from"), "{said}");
        }
        WholeFile::open_beside(&at("report.json"), &[read, at("gone.json")]).unwrap();
    }

    #[cfg(unix)]
    #[test]
    fn others_may_read_a_new_file_as_they_may_any_other() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let (ours, any) = (folder.path().join("ours.txt"), folder.path().join("any.txt"));
        WholeFile::open(&ours).unwrap().write(b"x").unwrap();
        std::fs::write(&any, "x").unwrap();
        let mode = |path: &Path| path.metadata().unwrap().permissions().mode();
        assert_eq!(mode(&ours), mode(&any));
    }
}
