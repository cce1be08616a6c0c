//! Which files are meant where files and folders of logs are given?

use std::path::PathBuf;

use crate::{Error, Result};

/// Endings of files that may be logs.
pub const ENDINGS: [&str; 8] = ["gpx", "csv", "tsv", "txt", "log", "nmea", "nma", "igc"];

/// Every log that is meant: a folder stands for those in it, by name.
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
    Ok(all)
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
}
