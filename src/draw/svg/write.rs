//! Numbers, words and courses as SVG writes them.

use std::fmt::Write as _;

use glam::DVec2;
use xmlwriter::XmlWriter;

use crate::draw::Path;
use crate::draw::sound::legible;

/// An element with words, unless there are none.
pub(super) fn element_of_words(xml: &mut XmlWriter, element: &str, words: &str) {
    if !words.is_empty() {
        xml.start_element(element);
        xml.write_text(&escaped(&legible(words)));
        xml.end_element();
    }
}

/// Words as XML and HTML take them. The writer itself escapes `<` in text, and only that.
pub(in crate::draw) fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('>', "&gt;")
}

/// To a hundredth of a millimetre, without zeros at the end.
pub(in crate::draw) fn number(value: f64) -> String {
    let value = if value.is_finite() { value } else { 0.0 };
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".into() } else { text.into() }
}

/// Begins the element of a path; its attributes may follow.
pub(super) fn begin(xml: &mut XmlWriter, path: &Path) {
    if let Path::Circle(middle, radius) = path {
        xml.start_element("circle");
        xml.write_attribute("cx", &number(middle.x));
        xml.write_attribute("cy", &number(middle.y));
        xml.write_attribute("r", &number(*radius));
    } else {
        xml.start_element("path");
        xml.write_attribute("d", &course(path));
    }
}

fn course(path: &Path) -> String {
    let mut d = String::new();
    match path {
        Path::Open(points) => through(&mut d, points, ""),
        Path::Rings(rings) => rings.iter().for_each(|ring| through(&mut d, ring, "Z")),
        Path::Circle(..) => {}
    }
    d
}

/// Adds straight pieces through points to a course.
pub(super) fn through(d: &mut String, points: &[DVec2], close: &str) {
    for (index, point) in points.iter().enumerate() {
        let _ = write!(d, "{}{} {}", if index == 0 { 'M' } else { 'L' }, number(point.x), number(point.y));
    }
    d.push_str(close);
}
