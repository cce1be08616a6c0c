//! A sheet as SVG 1.1: real words, so that they can be found and read aloud, and hatches as patterns. The file brings its
//! lettering with it.

mod definitions;

use std::collections::BTreeMap;
use std::fmt::Write as _;

use glam::DVec2;
use xmlwriter::{Indent, Options, XmlWriter};

use super::font::{FAMILY, style};
use super::sheet::{Lettering, Mark, Path, Set, Sheet};
use super::sound::legible;
use super::tiles::{alike, tiles};
use super::{Fill, Hatch, Ink, Pen};
use definitions::definitions;

/// Hatches in use, numbered.
type Hatches = BTreeMap<Hatch, usize>;

/// What of an SVG depends on where it goes.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Manner<'a> {
    /// What every name in it begins with.
    pub(super) names: &'a str,
    /// Style rules it brings with it.
    pub(super) style: &'a str,
    /// Whether a viewer can tell about every tile of a surface; otherwise tiles that are alike are one.
    pub(super) told: bool,
}

impl Sheet {
    /// As SVG.
    pub fn svg(&self) -> String {
        self.svg_in(&Manner { style: &style(self.lettering()), told: true, ..Manner::default() })
    }

    /// Words and whether they are heavy.
    pub(super) fn lettering(&self) -> impl Iterator<Item = (&str, bool)> + Clone {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Words { words, lettering, .. } => Some((words.as_str(), lettering.bold)),
            _ => None,
        })
    }

    /// As SVG in a manner.
    pub(super) fn svg_in(&self, manner: &Manner) -> String {
        let Manner { names, style, told: each_told } = *manner;
        let mut xml = XmlWriter::new(Options { indent: Indent::None, ..Options::default() });
        let (width, height) = (number(self.size_mm.x), number(self.size_mm.y));
        let (marks, hatches) = (self.sound(), self.hatches());
        xml.start_element("svg");
        xml.write_attribute("xmlns", "http://www.w3.org/2000/svg");
        xml.write_attribute_fmt("width", format_args!("{width}mm"));
        xml.write_attribute_fmt("height", format_args!("{height}mm"));
        xml.write_attribute_fmt("viewBox", format_args!("0 0 {width} {height}"));
        xml.write_attribute("font-family", FAMILY);
        // Letters as wide as the lettering says, not rounded to the dots of a screen.
        xml.write_attribute("text-rendering", "geometricPrecision");
        xml.write_attribute("role", "img");
        told(&mut xml, "title", &self.title);
        told(&mut xml, "desc", &self.about);
        if !style.is_empty() {
            xml.start_element("style");
            xml.write_text(style);
            xml.end_element();
        }
        definitions(&mut xml, names, &marks, &hatches);
        xml.start_element("rect");
        xml.write_attribute("width", &width);
        xml.write_attribute("height", &height);
        xml.write_attribute("fill", &Ink::PAPER.hex());
        xml.end_element();
        let mut clips = 0;
        for run in marks.chunk_by(|mark, next| !each_told && alike(mark, next)) {
            match run {
                [Mark::Shape { path, pen, fill, about }] => {
                    shape(&mut xml, path, path.leaves_out_even(), pen.as_ref(), &paint(*fill, names, &hatches), about);
                }
                [Mark::Words { at, words, lettering }] => lettered(&mut xml, *at, words, lettering),
                [Mark::Clip(..)] => {
                    xml.start_element("g");
                    xml.write_attribute_fmt("clip-path", format_args!("url(#{names}clip{clips})"));
                    clips += 1;
                }
                [Mark::Unclip] => xml.end_element(),
                _ => {
                    if let Some((path, fill)) = tiles(run) {
                        shape(&mut xml, &path, false, None, &paint(fill, names, &hatches), "");
                    }
                }
            }
        }
        xml.end_document() + "\n"
    }

    fn hatches(&self) -> Hatches {
        let used = self.marks.iter().filter_map(|mark| match mark {
            Mark::Shape { fill: Fill::Hatch(hatch), .. } => Some(*hatch),
            _ => None,
        });
        let mut numbered: Hatches = used.map(|hatch| (hatch, 0)).collect();
        numbered.values_mut().enumerate().for_each(|(index, number)| *number = index);
        numbered
    }
}

fn told(xml: &mut XmlWriter, element: &str, words: &str) {
    if !words.is_empty() {
        xml.start_element(element);
        xml.write_text(&escaped(&legible(words)));
        xml.end_element();
    }
}

/// Words as XML and HTML take them. The writer itself escapes `<` in text, and only that.
pub(super) fn escaped(words: &str) -> String {
    words.replace('&', "&amp;").replace('>', "&gt;")
}

/// To a hundredth of a millimetre, without noughts at the end.
pub(super) fn number(value: f64) -> String {
    let value = if value.is_finite() { value } else { 0.0 };
    let text = format!("{:.2}", value);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".into() } else { text.into() }
}

fn paint(fill: Fill, names: &str, hatches: &Hatches) -> String {
    match fill {
        Fill::None => "none".into(),
        Fill::Plain(ink) => ink.hex(),
        Fill::Hatch(hatch) => format!("url(#{names}hatch{})", hatches.get(&hatch).copied().unwrap_or_default()),
    }
}

fn shape(xml: &mut XmlWriter, path: &Path, even_odd: bool, pen: Option<&Pen>, fill: &str, about: &str) {
    if let Path::Circle(middle, radius) = path {
        xml.start_element("circle");
        xml.write_attribute("cx", &number(middle.x));
        xml.write_attribute("cy", &number(middle.y));
        xml.write_attribute("r", &number(*radius));
    } else {
        xml.start_element("path");
        xml.write_attribute("d", &course(path));
    }
    xml.write_attribute("fill", fill);
    if even_odd {
        xml.write_attribute("fill-rule", "evenodd");
    }
    if pen.is_none() && matches!(path, Path::Rings(_)) {
        // Neighbours without a line between them show no seam.
        xml.write_attribute("shape-rendering", "crispEdges");
    }
    if let Some(pen) = pen {
        xml.write_attribute("stroke", &pen.ink.hex());
        xml.write_attribute("stroke-width", &number(pen.width_mm));
        xml.write_attribute("stroke-linejoin", "round");
        if !pen.dash_mm.is_empty() {
            let dashes: Vec<String> = pen.dash_mm.iter().map(|length| number(*length)).collect();
            xml.write_attribute("stroke-dasharray", &dashes.join(" "));
        }
    }
    told(xml, "title", about);
    xml.end_element();
}

fn course(path: &Path) -> String {
    let mut d = String::new();
    let mut through = |points: &[DVec2], close: &str| {
        for (index, point) in points.iter().enumerate() {
            let _ = write!(d, "{}{} {}", if index == 0 { 'M' } else { 'L' }, number(point.x), number(point.y));
        }
        d.push_str(close);
    };
    match path {
        Path::Open(points) => through(points, ""),
        Path::Rings(rings) => rings.iter().for_each(|ring| through(ring, "Z")),
        Path::Circle(..) => {}
    }
    d
}

fn lettered(xml: &mut XmlWriter, at: DVec2, words: &str, lettering: &Lettering) {
    xml.start_element("text");
    xml.write_attribute("x", &number(at.x));
    xml.write_attribute("y", &number(at.y));
    xml.write_attribute("font-size", &number(lettering.size_mm));
    if lettering.bold {
        xml.write_attribute("font-weight", "700");
    }
    match lettering.set {
        Set::Start => {}
        Set::Middle => xml.write_attribute("text-anchor", "middle"),
        Set::End => xml.write_attribute("text-anchor", "end"),
    }
    xml.write_attribute("fill", &lettering.ink.hex());
    if lettering.rimmed {
        xml.write_attribute("stroke", &Ink::PAPER.hex());
        xml.write_attribute("stroke-width", &number(lettering.size_mm * 0.3));
        xml.write_attribute("stroke-linejoin", "round");
        xml.write_attribute("paint-order", "stroke");
    }
    if lettering.turned_deg != 0.0 {
        let turn = number(-lettering.turned_deg);
        xml.write_attribute_fmt("transform", format_args!("rotate({turn} {} {})", number(at.x), number(at.y)));
    }
    xml.write_text(&escaped(words));
    xml.end_element();
}
