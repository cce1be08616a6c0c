//! What of a rehearsal goes into a file.

use crate::report::Format;

/// What goes into a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum RehearsalFile {
    /// The last run as a recording, which can be flown again.
    Recording,
    /// The last run as a report or a track.
    Run(Format),
    /// The class.
    Class(Format),
}

impl RehearsalFile {
    /// What the last run can be put into.
    pub const OF_A_RUN: [Self; 5] = [
        Self::Recording,
        Self::Run(Format::Text),
        Self::Run(Format::Gpx),
        Self::Run(Format::Csv),
        Self::Run(Format::GeoJson),
    ];
    /// What the class can be put into.
    pub const OF_A_CLASS: [Self; 2] = [Self::Class(Format::Csv), Self::Class(Format::Pdf)];

    /// The ending of its name.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::Recording => "jsonl",
            Self::Run(format) | Self::Class(format) => format.ending(),
        }
    }

    /// What its button says.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Recording => "Save the recording\u{2026}",
            Self::Run(Format::Text) => "Report\u{2026}",
            Self::Run(Format::Gpx) => "GPX\u{2026}",
            Self::Run(Format::GeoJson) => "GeoJSON\u{2026}",
            Self::Run(_) => "CSV\u{2026}",
            Self::Class(Format::Csv) => "Table as CSV\u{2026}",
            Self::Class(_) => "Sheet to print\u{2026}",
        }
    }

    /// What is in it.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Recording => "everything that was done, to be flown again to the same bits",
            Self::Run(Format::Text) => "what came of it, for people",
            Self::Run(_) => "the path, as of any flight",
            Self::Class(_) => "a line a person",
        }
    }
}
