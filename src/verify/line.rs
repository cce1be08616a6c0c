//! One line of the table: what was expected and on whose word, what came out, and whether that holds.

use serde::{Deserialize, Deserializer, Serialize};

/// What a line holds the sums against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Group {
    /// Equations that can be solved on paper.
    ClosedForms,
    /// Figures that others have published.
    Published,
    /// Work and energy over whole recoveries.
    Energy,
    /// The same flight turned, in a mirror, in moving air.
    Frames,
    /// The same flight in finer steps.
    Step,
    /// The same flight in other company.
    SameBits,
    /// Fresh draws and flights, against what intervals and rings promise.
    Coverage,
}

impl Group {
    /// All of them, in the order of the table.
    pub const ALL: [Self; 7] =
        [Self::ClosedForms, Self::Published, Self::Energy, Self::Frames, Self::Step, Self::SameBits, Self::Coverage];
}

/// What is expected, with what it may be off by.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Expected {
    /// A value, no further off than the tolerance.
    Near {
        /// The value.
        value: f64,
        /// The tolerance, both sides, in the same unit.
        within: f64,
    },
    /// No more than a value.
    AtMost(f64),
    /// From one value to another, both included.
    Between(f64, f64),
}

/// One line of the table.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// What it holds the sums against.
    pub group: Group,
    /// What is worked out, in words.
    pub name: String,
    /// What should come out.
    pub expected: Expected,
    /// What came out; not a number where nothing did.
    #[serde(deserialize_with = "number")]
    pub got: f64,
    /// Unit of all of these numbers; empty for a bare one.
    pub unit: String,
    /// Where the expected value comes from, and how it was read.
    pub source: String,
}

/// JSON has no word for what is not a number, and writes none.
fn number<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    Ok(Option::deserialize(from)?.unwrap_or(f64::NAN))
}

impl Expected {
    /// Whether a number is what is expected. What is not a number never is.
    pub fn holds(self, got: f64) -> bool {
        match self {
            Self::Near { value, within } => (got - value).abs() <= within,
            Self::AtMost(most) => got <= most,
            Self::Between(low, high) => low <= got && got <= high,
        }
    }
}

impl Line {
    /// Whether what came out is what was expected.
    pub fn held(&self) -> bool {
        self.expected.holds(self.got)
    }
}

/// The lines of a group, as they come.
pub(super) struct Lines {
    group: Group,
    lines: Vec<Line>,
}

impl Lines {
    pub(super) const fn of(group: Group) -> Self {
        Self { group, lines: Vec::new() }
    }

    /// A value within a tolerance in its unit.
    pub(super) fn near(&mut self, name: &str, got: f64, (value, within): (f64, f64), unit: &str, source: &str) {
        self.add(name, got, Expected::Near { value, within }, unit, source);
    }

    /// A value within a share of it.
    pub(super) fn close(&mut self, name: &str, got: f64, (value, share): (f64, f64), unit: &str, source: &str) {
        self.near(name, got, (value, share * value.abs()), unit, source);
    }

    /// No more than a value.
    pub(super) fn at_most(&mut self, name: &str, got: f64, most: f64, unit: &str, source: &str) {
        self.add(name, got, Expected::AtMost(most), unit, source);
    }

    /// Whatever is expected.
    pub(super) fn add(&mut self, name: &str, got: f64, expected: Expected, unit: &str, source: &str) {
        let [name, unit, source] = [name, unit, source].map(str::to_owned);
        self.lines.push(Line { group: self.group, name, expected, got, unit, source });
    }

    pub(super) fn done(self) -> Vec<Line> {
        self.lines
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_expected_ends_where_it_says() {
        for (expected, inside, outside) in [
            (Expected::Near { value: 2.0, within: 0.5 }, [1.5, 2.0, 2.5], [1.49, 2.51, f64::NAN]),
            (Expected::AtMost(0.1), [0.0, 0.1, -7.0], [0.11, f64::INFINITY, f64::NAN]),
            (Expected::Between(0.9, 1.0), [0.9, 0.95, 1.0], [0.89, 1.01, f64::NAN]),
        ] {
            assert!(inside.into_iter().all(|got| expected.holds(got)), "{expected:?}");
            assert!(!outside.into_iter().any(|got| expected.holds(got)), "{expected:?}");
        }
    }
}
