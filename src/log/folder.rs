//! Which files are meant where files and folders of logs are given, and what is in one?

use std::collections::BTreeSet;
use std::fs::File;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use super::read::LARGEST;
use crate::{Error, Result};

/// Endings of files that may be logs.
pub const ENDINGS: [&str; 8] = ["gpx", "csv", "tsv", "txt", "log", "nmea", "nma", "igc"];

/// Every log that is meant, once, however often it is given: a folder stands for those in it, by name.
///
/// # Errors
/// A folder can't be read, or has no log in it.
pub fn listed(given: &[PathBuf]) -> Result<Vec<PathBuf>> {
    let mut all = Vec::new();
    for path in given {
        if !path.is_dir() {
            all.push(path.clone());
            continue;
        }
        let refused = |source| Error::Read { path: path.clone(), source };
        let mut inside: Vec<PathBuf> = std::fs::read_dir(path)
            .map_err(refused)?
            .filter_map(|entry| Some(entry.ok()?.path()))
            .filter(|path| {
                let ending = path.extension().unwrap_or_default();
                path.is_file() && ENDINGS.iter().any(|known| ending.eq_ignore_ascii_case(known))
            })
            .collect();
        if inside.is_empty() {
            let all = ENDINGS.join(", .");
            return Err(Error::Asked(format!("there is no log in {}: it has none of .{all}", path.display())));
        }
        inside.sort();
        all.extend(inside);
    }
    let mut seen = BTreeSet::new();
    all.retain(|path| seen.insert(path.canonicalize().unwrap_or_else(|_| path.clone())));
    Ok(all)
}

/// What is in a log; of one larger than can be read just enough to tell.
///
/// # Errors
/// It can't be read.
pub fn bytes(path: &Path) -> Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)
        .and_then(|file| file.take(LARGEST as u64 + 1).read_to_end(&mut bytes))
        .map_err(|source| Error::Read { path: path.into(), source })?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_stands_for_the_logs_in_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        for name in ["b.GPX", "a.csv", "plan.json", "notes"] {
            std::fs::write(path(name), "").unwrap();
        }
        let inside = listed(&["single.txt".into(), folder.path().into()]).unwrap();
        assert_eq!(inside, [PathBuf::from("single.txt"), path("a.csv"), path("b.GPX")]);
        let empty = tempfile::tempdir().unwrap();
        let error = listed(&[empty.path().into()]).unwrap_err().to_string();
        assert!(error.contains("there is no log in") && error.contains(".igc"), "{error}");
    }

    #[test]
    fn a_log_given_twice_counts_once_where_it_is_given_first() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        for name in ["a.csv", "b.csv"] {
            std::fs::write(path(name), "").unwrap();
        }
        let given = [path("b.csv"), folder.path().into(), path("./b.csv"), "gone.csv".into(), "gone.csv".into()];
        assert_eq!(listed(&given).unwrap(), [path("b.csv"), path("a.csv"), "gone.csv".into()]);
    }

    #[test]
    fn no_more_is_read_than_tells_that_it_is_too_much() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("long.csv");
        File::create(&path).unwrap().set_len(LARGEST as u64 + 4096).unwrap();
        let read = bytes(&path).unwrap();
        assert_eq!(read.len(), LARGEST + 1);
        let refused = super::super::read("long.csv", &read, &crate::run::Scenario::demo(), None).unwrap_err();
        assert!(refused[0].problem.contains("more than 64 MB"), "{refused:?}");
        std::fs::write(&path, "time_s").unwrap();
        assert_eq!(bytes(&path).unwrap(), b"time_s");
        assert!(bytes(&folder.path().join("gone.csv")).is_err());
    }
}
