//! Which format a file's name asks for.

use std::path::Path;

use serde_json::Value;

use crate::{Error, Result};

/// What the tables begin with: of a path, the three studies, a log and a class.
const HEADS: [&str; 6] = [
    "time_s,x_m,y_m,latitude_deg,longitude_deg,height_m,",
    "radius_m,turn,",
    "wind_from_deg,wind_limit_mps,",
    "column,row,x_m,y_m,",
    "log,time_s,latitude_deg,",
    "pilot,points,failed_by,",
];

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

    /// Whether what a file holds is what this program writes in the format, or nothing: it may be written anew without asking.
    pub fn is_ours(self, found: &[u8]) -> bool {
        let holds = |sign: &[u8]| found.windows(sign.len()).any(|part| part == sign);
        let says = || {
            let value = serde_json::from_slice::<Value>(found).unwrap_or_default();
            // A scenario has the number of its format there.
            value["peewit_version"].is_string() || value["peewit"].is_string()
        };
        found.is_empty()
            || match self {
                Self::Text => found.starts_with(b"Peewit "),
                Self::Json | Self::GeoJson => says(),
                Self::Csv => HEADS.iter().any(|head| found.starts_with(head.as_bytes())),
                Self::Gpx => holds(b"creator=\"peewit "),
                Self::Kml => holds(b">Peewit ") || holds(b"\nPeewit "),
                Self::Svg => found.starts_with(b"<!-- Peewit "),
                Self::Png => holds(b"Software\0Peewit "),
                Self::Pdf => holds(b"(Peewit "),
                Self::Html => holds(b"content=\"Peewit "),
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
