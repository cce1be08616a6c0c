//! A sheet as SVG 1.1: real words, so that they can be found and read aloud, and hatches as patterns.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use glam::DVec2;
use xmlwriter::{Indent, Options, XmlWriter};

use super::font::FAMILY;
use super::sheet::{Lettering, Mark, Path, Set, Sheet};
use super::{Fill, Hatch, Ink, Pattern, Pen};

impl Sheet {
    /// As SVG.
    pub fn svg(&self) -> String {
        let mut xml = XmlWriter::new(Options { indent: Indent::None, ..Options::default() });
        let (width, height) = (number(self.size_mm.x), number(self.size_mm.y));
        xml.start_element("svg");
        xml.write_attribute("xmlns", "http://www.w3.org/2000/svg");
        xml.write_attribute_fmt("width", format_args!("{width}mm"));
        xml.write_attribute_fmt("height", format_args!("{height}mm"));
        xml.write_attribute_fmt("viewBox", format_args!("0 0 {width} {height}"));
        xml.write_attribute("font-family", FAMILY);
        xml.write_attribute("role", "img");
        told(&mut xml, "title", &self.title);
        told(&mut xml, "desc", &self.about);
        let hatches = self.hatches();
        self.definitions(&mut xml, &hatches);
        xml.start_element("rect");
        xml.write_attribute("width", &width);
        xml.write_attribute("height", &height);
        xml.write_attribute("fill", &Ink::PAPER.hex());
        xml.end_element();
        let mut clips = 0;
        for mark in &self.marks {
            match mark {
                Mark::Shape { path, pen, fill, about } => {
                    shape(&mut xml, path, pen.as_ref(), &paint(*fill, &hatches), about);
                }
                Mark::Words { at, words, lettering } => lettered(&mut xml, *at, words, lettering),
                Mark::Clip(..) => {
                    xml.start_element("g");
                    xml.write_attribute_fmt("clip-path", format_args!("url(#clip{clips})"));
                    clips += 1;
                }
                Mark::Unclip => xml.end_element(),
            }
        }
        xml.end_document() + "\n"
    }

    /// Every hatch in use, numbered.
    fn hatches(&self) -> BTreeMap<Hatch, usize> {
        let used = self.marks.iter().filter_map(|mark| match mark {
            Mark::Shape { fill: Fill::Hatch(hatch), .. } => Some(*hatch),
            _ => None,
        });
        let mut numbered: BTreeMap<Hatch, usize> = used.map(|hatch| (hatch, 0)).collect();
        numbered.values_mut().enumerate().for_each(|(index, number)| *number = index);
        numbered
    }

    fn definitions(&self, xml: &mut XmlWriter, hatches: &BTreeMap<Hatch, usize>) {
        xml.start_element("defs");
        hatches.iter().for_each(|(hatch, index)| pattern(xml, hatch, *index));
        let clips = self.marks.iter().filter_map(|mark| match mark {
            Mark::Clip(low, high) => Some((*low, *high)),
            _ => None,
        });
        for (index, (low, high)) in clips.enumerate() {
            xml.start_element("clipPath");
            xml.write_attribute_fmt("id", format_args!("clip{index}"));
            xml.start_element("path");
            xml.write_attribute("d", &course(&Path::Rings(vec![super::sheet::corners(low, high).to_vec()])));
            xml.end_element();
            xml.end_element();
        }
        xml.end_element();
    }
}

fn told(xml: &mut XmlWriter, element: &str, words: &str) {
    if !words.is_empty() {
        xml.start_element(element);
        xml.write_text(words);
        xml.end_element();
    }
}

/// To a hundredth of a millimetre, without noughts at the end.
fn number(value: f64) -> String {
    let text = format!("{:.2}", value);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".into() } else { text.into() }
}

fn paint(fill: Fill, hatches: &BTreeMap<Hatch, usize>) -> String {
    match fill {
        Fill::None => "none".into(),
        Fill::Plain(ink) => ink.hex(),
        Fill::Hatch(hatch) => format!("url(#hatch{})", hatches.get(&hatch).copied().unwrap_or_default()),
    }
}

fn shape(xml: &mut XmlWriter, path: &Path, pen: Option<&Pen>, fill: &str, about: &str) {
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
    if matches!(path, Path::Rings(rings) if rings.len() > 1) {
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
    xml.write_text(words);
    xml.end_element();
}

fn pattern(xml: &mut XmlWriter, hatch: &Hatch, index: usize) {
    let step = f64::from(hatch.step) / 100.0;
    let (half, width) = (step / 2.0, step * 0.22);
    xml.start_element("pattern");
    xml.write_attribute_fmt("id", format_args!("hatch{index}"));
    xml.write_attribute("patternUnits", "userSpaceOnUse");
    xml.write_attribute("width", &number(step));
    xml.write_attribute("height", &number(step));
    if matches!(hatch.pattern, Pattern::Rising | Pattern::Falling | Pattern::Crossed) {
        xml.write_attribute(
            "patternTransform",
            if hatch.pattern == Pattern::Falling { "rotate(45)" } else { "rotate(-45)" },
        );
    }
    if let Some(ground) = hatch.ground {
        xml.start_element("rect");
        xml.write_attribute("width", &number(step));
        xml.write_attribute("height", &number(step));
        xml.write_attribute("fill", &ground.hex());
        xml.end_element();
    }
    let level = format!("M0 {0}L{1} {0}", number(half), number(step));
    let upright = format!("M{0} 0L{0} {1}", number(half), number(step));
    let lines = match hatch.pattern {
        Pattern::Rising | Pattern::Falling | Pattern::Level => level,
        Pattern::Upright => upright,
        Pattern::Crossed | Pattern::Squared => level + &upright,
        Pattern::Dotted | Pattern::Spotted => {
            let share = if hatch.pattern == Pattern::Dotted { 0.16 } else { 0.26 };
            xml.start_element("circle");
            xml.write_attribute("cx", &number(half));
            xml.write_attribute("cy", &number(half));
            xml.write_attribute("r", &number(step * share));
            xml.write_attribute("fill", &hatch.ink.hex());
            xml.end_element();
            xml.end_element();
            return;
        }
    };
    xml.start_element("path");
    xml.write_attribute("d", &lines);
    xml.write_attribute("stroke", &hatch.ink.hex());
    xml.write_attribute("stroke-width", &number(width));
    xml.end_element();
    xml.end_element();
}
