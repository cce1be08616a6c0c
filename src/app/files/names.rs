//! How are files called, and which path does a person mean?

use std::path::{Path, PathBuf};

/// A file's name without its folder.
pub(super) fn name_of(path: &Path) -> String {
    path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned()
}

/// A scenario's name as the name of a file: letters and digits with hyphens between.
pub(super) fn file_name(name: &str) -> String {
    let words: Vec<String> =
        name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    if words.is_empty() { "field.json".into() } else { words.join("-") + ".json" }
}

/// A path typed by a person, who may write "~" for home.
pub(super) fn at_home(text: &str) -> PathBuf {
    match (text.strip_prefix("~/"), directories::UserDirs::new()) {
        (Some(rest), Some(user)) => user.home_dir().join(rest),
        _ => text.into(),
    }
}

/// A path with the ending that its file must have.
pub(super) fn with_ending(path: PathBuf, wanted: &str) -> PathBuf {
    if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(wanted)) {
        return path;
    }
    let mut name = path.into_os_string();
    name.push(".");
    name.push(wanted);
    name.into()
}
