//! Which shapes are in somebody else's file? GeoJSON, KML and GPX become points, lines and rings in metres, to be given
//! a role by a person. And what was logged of a flight?

mod form;
mod found;
mod gpx;
mod json;
mod kml;
mod log;
mod markup;
mod metres;
mod place;
mod role;
mod shape;
pub(crate) mod xml;

pub use form::Form;
pub use log::{Log, log};
pub use place::place;
pub use role::Role;
pub use shape::Shape;

use found::Found;

use super::Datum;
use crate::error::{Fault, at_most};

/// Largest file that is read, bytes. A survey of a field has thousands.
const LARGEST: usize = 32 << 20;

/// What a file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Import {
    /// Origin of the metres; null island where nothing was found to lay it by.
    pub datum: Datum,
    /// The shapes that can be used, in the order of the file.
    pub shapes: Vec<Shape>,
    /// Everything odd: a warning for whatever was left out or changed, an error where nothing can be used.
    pub faults: Vec<Fault>,
}

/// Reads the shapes of a file, given its name and what is in it. Nothing that the file points to is ever loaded.
///
/// The metres are about `datum`; where none is given, about the one that the file marks as such, or else about the
/// middle of everything found. A place on the plane is good to a decimetre within 3 km of it.
pub fn shapes(name: &str, bytes: &[u8], datum: Option<Datum>) -> Import {
    let mut found = Found::default();
    if let Err(fault) = read(name, bytes, &mut found) {
        found.faults.push(fault);
    }
    let import = metres::import(found, datum);
    Import { faults: at_most(import.faults), ..import }
}

/// The first sign of the text says more than the name's ending, which only words the refusal.
fn read(name: &str, bytes: &[u8], found: &mut Found) -> Result<(), Fault> {
    let refused = |problem: &str, way_out: &str| Err(Fault::error("", problem, way_out));
    let ending = name.rsplit_once('.').map_or(String::new(), |(_, ending)| ending.to_lowercase());
    if ending == "kmz" || bytes.starts_with(b"PK") {
        return refused(
            "this is a packed file, which is not opened",
            "Export KML instead of KMZ; or rename it to end in .zip, unpack it and take the doc.kml inside",
        );
    }
    let text = text(bytes, "Export only the shapes of the field")?;
    match text.trim_start().chars().next() {
        Some('{' | '[') => json::read(text, found),
        Some('<') => markup::read(text, found),
        None => refused("the file is empty", "Export it again"),
        Some(_) => {
            let problem = match &*ending {
                "geojson" | "json" => "this is not JSON",
                "kml" | "gpx" => "this is not XML",
                _ => "this is neither GeoJSON, KML nor GPX",
            };
            refused(problem, "Export the shapes as GeoJSON, KML or GPX")
        }
    }
}

/// The text of a file that is none too large; `less` says how to get a smaller one.
fn text<'a>(bytes: &'a [u8], less: &str) -> Result<&'a str, Fault> {
    if bytes.len() > LARGEST {
        let problem = format!("the file has {} MB, more than {} MB", bytes.len() >> 20, LARGEST >> 20);
        return Err(Fault::error("", problem, less));
    }
    let text = std::str::from_utf8(bytes)
        .map_err(|_| Fault::error("", "the file is not UTF-8 text", "Save it as UTF-8, or export it again"))?;
    Ok(text.trim_start_matches('\u{feff}'))
}
