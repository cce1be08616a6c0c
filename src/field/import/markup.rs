//! KML or GPX, whichever the outermost element names.

use super::found::Found;
use super::{gpx, kml, xml};
use crate::error::Fault;

/// Reads whichever of the two the outermost element names.
pub(super) fn read(text: &str, found: &mut Found) -> Result<(), Fault> {
    let (document, lines) = xml::parse(text)?;
    let root = document.root_element();
    match root.tag_name().name() {
        "kml" => kml::read(root, &lines, found),
        "gpx" => gpx::read(root, &lines, found),
        other => {
            let problem = format!("this is XML of another kind, <{other}>");
            return Err(Fault::error("", problem, "Export the shapes as GeoJSON, KML or GPX"));
        }
    }
    Ok(())
}
