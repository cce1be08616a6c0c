//! How is a file written whole or not at all, whoever else writes it, and whatever ends the program half way?

use std::fs::{File, Permissions, TryLockError};
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
        let folder = target.parent().unwrap_or(Path::new("."));
        sweep(folder);
        let draft = draft_in(folder, permissions(&target)).map_err(refused)?;
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

/// What every draft is called: before and after the letters that tell it from others.
const DRAFT: [&str; 2] = [".peewit-", ".part"];
/// How often a name for a draft is tried.
const TRIES: usize = 16;

/// A draft in a folder, so that the rename does not cross file systems. It is locked for as long as it is written, which
/// tells it from one that a program left half way.
fn draft_in(folder: &Path, permissions: Option<Permissions>) -> io::Result<NamedTempFile> {
    for _ in 0..TRIES {
        let mut builder = tempfile::Builder::new();
        builder.prefix(DRAFT[0]).suffix(DRAFT[1]);
        if let Some(permissions) = &permissions {
            builder.permissions(permissions.clone());
        }
        let draft = builder.tempfile_in(folder)?;
        // Somebody who swept before it was locked has taken it for left over.
        match draft.as_file().try_lock() {
            Ok(()) if draft.path().exists() => return Ok(draft),
            // Not every file system knows locks; there nothing is swept either.
            Err(TryLockError::Error(_)) => return Ok(draft),
            Ok(()) | Err(TryLockError::WouldBlock) => {}
        }
    }
    Err(io::Error::other("others write there all the time"))
}

/// Takes away what programs that were killed have left in a folder. Nothing of it is needed: a file stands whole, or not
/// at all. Where it can't be taken away, nothing is lost but its room.
fn sweep(folder: &Path) {
    let drafts = std::fs::read_dir(folder).into_iter().flatten().filter_map(|entry| Some(entry.ok()?.path()));
    let left = drafts.filter(|path| {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        name.starts_with(DRAFT[0]) && name.ends_with(DRAFT[1]) && path.is_file()
    });
    for path in left {
        // Whoever still writes it holds its lock. Whoever has just made it finds it locked, as long as it is looked at.
        if let Ok(draft) = File::options().write(true).open(&path)
            && draft.try_lock().is_ok()
        {
            let _ = std::fs::remove_file(&path);
        }
    }
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
    fn what_a_killed_program_left_is_gone_at_the_next_start_and_what_is_being_written_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        let others = ["report.part", ".peewit-notes", ".peewit-.txt", "peewit-a.part"];
        for name in [".peewit-k1lled.part", ".peewit-.part"].iter().chain(&others) {
            std::fs::write(at(name), "half a rep").unwrap();
        }
        std::fs::create_dir(at(".peewit-folder.part")).unwrap();
        let first = WholeFile::open(&at("a.txt")).unwrap();
        let second = WholeFile::open(&at("a.txt")).unwrap();
        second.write(b"second").unwrap();
        first.write(b"first").unwrap();
        assert_eq!(std::fs::read_to_string(at("a.txt")).unwrap(), "first");
        let mut left: Vec<_> = std::fs::read_dir(folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        left.sort();
        let mut expected = vec!["a.txt", ".peewit-folder.part"];
        expected.extend(others);
        expected.sort_unstable();
        assert_eq!(left, expected);
    }

    #[test]
    fn a_file_that_many_write_at_once_is_one_of_theirs_and_whole() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("report.txt");
        std::thread::scope(|scope| {
            for letter in b'a'..=b'h' {
                let path = &path;
                scope.spawn(move || {
                    for _ in 0..25 {
                        WholeFile::open(path).unwrap().write(&vec![letter; 100_000]).unwrap();
                        let read = std::fs::read(path).unwrap();
                        assert!(read.len() == 100_000 && read.iter().all(|byte| *byte == read[0]));
                    }
                });
            }
        });
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
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
