//! What the marks of an SVG refer to by name: hatches as patterns, and clips.

use std::fmt::Write as _;

use xmlwriter::XmlWriter;

use super::{Hatches, course, number};
use crate::report::draw::sheet::corners;
use crate::report::draw::{Hatch, Mark, Path};

/// Hatches and clips, every name beginning alike.
pub(super) fn definitions(xml: &mut XmlWriter, names: &str, marks: &[Mark], hatches: &Hatches) {
    xml.start_element("defs");
    hatches.iter().for_each(|(hatch, index)| pattern(xml, hatch, &format!("{names}hatch{index}")));
    let clips = marks.iter().filter_map(|mark| match mark {
        Mark::Clip(low, high) => Some((*low, *high)),
        _ => None,
    });
    for (index, (low, high)) in clips.enumerate() {
        xml.start_element("clipPath");
        xml.write_attribute_fmt("id", format_args!("{names}clip{index}"));
        xml.start_element("path");
        xml.write_attribute("d", &course(&Path::Rings(vec![corners(low, high).to_vec()])));
        xml.end_element();
        xml.end_element();
    }
    xml.end_element();
}

fn pattern(xml: &mut XmlWriter, hatch: &Hatch, name: &str) {
    let (step, half) = (number(hatch.step_mm()), number(hatch.step_mm() / 2.0));
    xml.start_element("pattern");
    xml.write_attribute("id", name);
    xml.write_attribute("patternUnits", "userSpaceOnUse");
    xml.write_attribute("width", &step);
    xml.write_attribute("height", &step);
    if hatch.turned_deg() != 0.0 {
        xml.write_attribute_fmt("patternTransform", format_args!("rotate({})", number(hatch.turned_deg())));
    }
    if let Some(ground) = hatch.ground {
        xml.start_element("rect");
        xml.write_attribute("width", &step);
        xml.write_attribute("height", &step);
        xml.write_attribute("fill", &ground.hex());
        xml.end_element();
    }
    if let Some(radius) = hatch.dot_mm() {
        xml.start_element("circle");
        xml.write_attribute("cx", &half);
        xml.write_attribute("cy", &half);
        xml.write_attribute("r", &number(radius));
        xml.write_attribute("fill", &hatch.ink.hex());
        xml.end_element();
    }
    let (level, upright) = hatch.families();
    let mut lines = String::new();
    if level {
        let _ = write!(lines, "M0 {half}L{step} {half}");
    }
    if upright {
        let _ = write!(lines, "M{half} 0L{half} {step}");
    }
    if !lines.is_empty() {
        xml.start_element("path");
        xml.write_attribute("d", &lines);
        xml.write_attribute("stroke", &hatch.ink.hex());
        xml.write_attribute("stroke-width", &number(hatch.line_mm()));
        xml.end_element();
    }
    xml.end_element();
}
