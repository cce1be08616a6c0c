//! Which format a file's name asks for.

use std::path::Path;

use crate::{Error, Result};

/// What a report can be written as. Which of them fit depends on what it reports.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Format {
    /// For people.
    Text,
    /// Everything, for other programs.
    Json,
    /// A table.
    Csv,
    /// Places on a map.
    GeoJson,
    /// The path as a track with times.
    Gpx,
    /// Field and path for a viewer of the Earth.
    Kml,
    /// The picture, as lines and words.
    Svg,
    /// The picture, as dots.
    Png,
    /// Sheets to print.
    Pdf,
    /// Sheets and words for a browser.
    Html,
}

impl Format {
    /// The ending of a file's name that asks for it.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Text => "txt",
            Self::Json => "json",
            Self::Csv => "csv",
            Self::GeoJson => "geojson",
            Self::Gpx => "gpx",
            Self::Kml => "kml",
            Self::Svg => "svg",
            Self::Png => "png",
            Self::Pdf => "pdf",
            Self::Html => "html",
        }
    }

    /// The format that a file's ending asks for, of those that fit.
    ///
    /// # Errors
    ///
    /// Where the ending is none of theirs; the message lists them.
    pub fn of(path: &Path, fitting: &[Self]) -> Result<Self> {
        let ending = path.extension().unwrap_or_default();
        let known = fitting.iter().find(|format| ending.eq_ignore_ascii_case(format.ending()));
        known.copied().ok_or_else(|| {
            let endings: Vec<_> = fitting.iter().map(|format| format!(".{}", format.ending())).collect();
            let (shown, endings) = (path.display(), endings.join(", "));
            Error::Asked(match ending.to_str().filter(|ending| !ending.is_empty()) {
                Some(other) => format!("can't write {shown}: this command writes no .{other}. It writes {endings}"),
                None => {
                    format!("can't write {shown}: the ending of its name says what to write. Give it one of {endings}")
                }
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::Recovery;

    #[test]
    fn the_ending_decides_the_format() {
        for &format in Recovery::FORMATS {
            let of = |name: String| Format::of(Path::new(&name), Recovery::FORMATS).unwrap();
            assert_eq!(of(format!("a.b.{}", format.ending())), format);
            assert_eq!(of(format!("A.{}", format.ending().to_uppercase())), format);
        }
        for wrong in ["report", "report.doc", "json", ".json", "path.svg"] {
            let said = Format::of(Path::new(wrong), Recovery::FORMATS).unwrap_err().to_string();
            assert!(said.contains(wrong) && said.contains(".geojson"), "{said}");
            assert_eq!(said.contains("writes no ."), wrong.contains('.') && wrong != ".json", "{said}");
        }
    }
}
