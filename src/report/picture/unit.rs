//! In which unit a picture has its numbers: those of the prints, or the ones a person has chosen for the window.

use crate::words::{Measure, Units, number};

/// A unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PictureUnit<'a> {
    /// Its name.
    pub name: &'a str,
    /// How many of it make one of SI.
    pub each: f64,
}

impl<'a> PictureUnit<'a> {
    /// The one that a person reads a measure in first.
    pub fn first(units: &'a Units, measure: Measure) -> Self {
        Self { name: &units.of(measure).first, each: units.first(measure, 1.0) }
    }

    /// Metres.
    pub const METRES: Self = Self { name: "m", each: 1.0 };
    /// Metres per second.
    pub const MPS: Self = Self { name: "m/s", each: 1.0 };

    /// A value in SI, in this unit.
    pub fn of(&self, si: f64) -> f64 {
        si * self.each
    }

    /// A value in SI as digits.
    pub fn digits(&self, si: f64) -> String {
        number(self.of(si))
    }

    /// A value in SI in whole units, with their name.
    pub fn whole(&self, si: f64) -> String {
        format!("{:.0} {}", self.of(si), self.name)
    }
}
