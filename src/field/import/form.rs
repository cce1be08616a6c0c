//! What shapes are made of.

/// What a shape is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Form {
    /// A single place.
    Point,
    /// Places in order, two or more.
    Line,
    /// Corners around ground, three or more.
    Ring,
}

impl Form {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Point => "point",
            Self::Line => "line",
            Self::Ring => "ring",
        }
    }
}
