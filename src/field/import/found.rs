//! What a reader hands on: shapes in degrees, each with its place in the file.

use super::{Form, Role};
use crate::error::letters::on_one_line;
use crate::error::{Fault, Severity};
use crate::field::Datum;
use crate::units::Length;

/// Most shapes of a file, usable or not.
const MOST_SHAPES: usize = 1000;
/// Most positions of a file: a track of two days at one a second.
const MOST_POSITIONS: usize = 200_000;

/// Longitude and latitude, degrees, in this order as in GeoJSON and KML.
pub(super) type Degrees = [f64; 2];

/// Where a shape stands in the file, and what it is called there.
#[derive(Debug, Clone, Default)]
pub(super) struct At {
    pub(super) name: String,
    pub(super) place: String,
    pub(super) line: Option<usize>,
}

impl At {
    /// A fault that leaves something of this shape out.
    pub(super) fn warning(&self, problem: impl Into<String>, way_out: impl Into<String>) -> Fault {
        Fault { line: self.line, ..Fault::warning(&*self.place, problem, way_out) }
    }
}

/// A shape as drawn. A point is a single ring of a single position; a ring may have holes after it.
#[derive(Debug, Clone)]
pub(super) struct Drawn {
    pub(super) at: At,
    pub(super) form: Form,
    pub(super) rings: Vec<Vec<Degrees>>,
    pub(super) role: Option<Role>,
    pub(super) height: Option<Length>,
}

impl Drawn {
    pub(super) fn new(at: &At, form: Form, rings: Vec<Vec<Degrees>>) -> Self {
        Self { at: at.clone(), form, rings, role: None, height: None }
    }
}

/// All of a file.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) drawn: Vec<Drawn>,
    pub(super) faults: Vec<Fault>,
    /// The datum that the file marks as such.
    pub(super) datum: Option<Datum>,
    seen: usize,
    positions: usize,
    heights: bool,
}

impl Found {
    pub(super) fn add(&mut self, drawn: Drawn) {
        self.seen += 1;
        let positions = self.positions + drawn.rings.iter().map(Vec::len).sum::<usize>();
        if positions > MOST_POSITIONS {
            let problem = format!("the file has more than {MOST_POSITIONS} positions");
            self.faults.push(drawn.at.warning(problem, "Export the tracks one by one, or thinned out"));
            return;
        }
        self.positions = positions;
        self.drawn.push(drawn);
    }

    pub(super) fn skip(&mut self, at: &At, problem: impl Into<String>, way_out: impl Into<String>) {
        self.seen += 1;
        self.faults.push(at.warning(problem, way_out));
    }

    /// Whether enough has been seen; says so once.
    pub(super) fn is_full(&mut self) -> bool {
        if self.seen == MOST_SHAPES {
            self.seen += 1;
            let problem = format!("only the first {MOST_SHAPES} shapes are read");
            self.faults.push(Fault::warning("", problem, "Export only the shapes of the field"));
        }
        self.seen > MOST_SHAPES
    }

    /// Says once for a whole file that heights are no part of a shape.
    pub(super) fn has_heights(&mut self) {
        if !self.heights {
            self.heights = true;
            let way_out = "Enter the heights of obstacles, and spot heights of the ground, by hand";
            self.faults.push(Fault::warning("", "the heights in the file are not taken", way_out));
        }
    }

    pub(super) fn failed(faults: &[Fault]) -> bool {
        faults.iter().any(|fault| fault.severity == Severity::Error)
    }
}

/// A name from the file as people can read it, or another where there is none.
pub(super) fn name_or(text: Option<&str>, otherwise: impl FnOnce() -> String) -> String {
    let clean = on_one_line(text.unwrap_or_default());
    let short: String = clean.split_whitespace().collect::<Vec<_>>().join(" ").chars().take(80).collect();
    if short.is_empty() { otherwise() } else { short }
}
