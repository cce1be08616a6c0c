//! The elements of KML 2.2 (OGC 07-147r2) that the reports use, in the order its schema wants.

use std::collections::HashMap;

use kml::types::Element;
use kml::{Kml, KmlDocument, KmlWriter};

use crate::draw::Ink;
use crate::error::letters::shown;
use crate::{Error, Result};

/// Longitude, latitude, metres above the viewer's ground.
pub(super) type Position = [f64; 3];

/// What a placemark looks like, by name.
pub(super) const STYLES: [(&str, Ink, u32); 8] = [
    ("boundary", Ink::BLUE, 3),
    ("area", Ink::VERMILION, 2),
    ("people", Ink::BLACK, 4),
    ("obstacle", Ink::PURPLE, 2),
    ("line", Ink::BLACK, 2),
    ("circle", Ink::ORANGE, 2),
    ("circuit", Ink::PURPLE, 2),
    ("path", Ink::SKY, 4),
];

/// How heights are meant.
#[derive(Debug, Clone, Copy)]
pub(super) enum Heights {
    /// None: on the viewer's ground.
    Ground,
    /// Above the viewer's ground.
    AboveGround,
}

pub(super) fn branch(name: &str, children: Vec<Element>) -> Element {
    Element { name: name.into(), children, ..Element::default() }
}

/// An element of words; the library escapes them.
pub(super) fn leaf(name: &str, text: &str) -> Element {
    let content = Some(shown(text).into_owned());
    Element { name: name.into(), content, ..Element::default() }
}

pub(super) fn folder(name: &str, inside: Vec<Element>) -> Element {
    branch("Folder", std::iter::once(leaf("name", name)).chain(inside).collect())
}

pub(super) fn placemark(name: &str, about: &str, style: &str, geometry: Element) -> Element {
    let style = leaf("styleUrl", &format!("#{style}"));
    branch("Placemark", vec![leaf("name", name), leaf("description", about), style, geometry])
}

pub(super) fn point(at: Position, heights: Heights) -> Element {
    branch("Point", vec![mode(heights), coordinates(&[at])])
}

pub(super) fn line(places: &[Position], heights: Heights) -> Element {
    branch("LineString", vec![mode(heights), coordinates(places)])
}

/// On the ground; the outer ring anticlockwise and closed, each hole in an inner boundary of its own.
pub(super) fn polygon(rings: &[Vec<Position>]) -> Element {
    let ring = |places: &Vec<Position>| branch("LinearRing", vec![coordinates(places)]);
    let boundaries = rings.iter().enumerate().map(|(index, places)| {
        branch(if index == 0 { "outerBoundaryIs" } else { "innerBoundaryIs" }, vec![ring(places)])
    });
    branch("Polygon", std::iter::once(mode(Heights::Ground)).chain(boundaries).collect())
}

fn mode(heights: Heights) -> Element {
    let mode = match heights {
        Heights::Ground => "clampToGround",
        Heights::AboveGround => "relativeToGround",
    };
    leaf("altitudeMode", mode)
}

/// Degrees to nine decimals, metres to the millimetre.
fn coordinates(places: &[Position]) -> Element {
    let tuple = |[longitude, latitude, height]: &Position| format!("{longitude:.9},{latitude:.9},{height:.3}");
    leaf("coordinates", &places.iter().map(tuple).collect::<Vec<_>>().join("\n"))
}

fn style((name, ink, width): &(&str, Ink, u32)) -> Element {
    let [_, red, green, blue] = ink.0.to_be_bytes();
    // Opacity first, then the hues from the wrong end.
    let colour = |opacity: u8| format!("{opacity:02x}{blue:02x}{green:02x}{red:02x}");
    let line = branch("LineStyle", vec![leaf("color", &colour(0xff)), leaf("width", &width.to_string())]);
    let fill = branch("PolyStyle", vec![leaf("color", &colour(0x30))]);
    let attrs = HashMap::from([("id".to_owned(), (*name).to_owned())]);
    Element { attrs, ..branch("Style", vec![line, fill]) }
}

/// The whole file.
///
/// # Errors
///
/// Where the library refuses it.
pub(super) fn document(name: &str, about: &str, inside: Vec<Element>) -> Result<String> {
    let head = [leaf("name", name), leaf("open", "1"), leaf("description", about)];
    let document = branch("Document", head.into_iter().chain(STYLES.iter().map(style)).chain(inside).collect());
    let attrs = HashMap::from([("xmlns".to_owned(), "http://www.opengis.net/kml/2.2".to_owned())]);
    let file = Kml::KmlDocument(KmlDocument { attrs, elements: vec![Kml::Element(document)], ..Default::default() });
    let mut bytes = b"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n".to_vec();
    KmlWriter::<_, f64>::from_writer(&mut bytes).write(&file).map_err(refused)?;
    bytes.push(b'\n');
    String::from_utf8(bytes).map_err(refused)
}

fn refused(why: impl std::fmt::Display) -> Error {
    Error::Asked(format!("can't write the places as KML: {why}"))
}
