//! The marks of a sheet, written into an SVG.

use glam::DVec2;
use xmlwriter::XmlWriter;

use super::write::{begin, element_of_words, escaped, number, through};
use crate::draw::hatch::{dash_mm, lines, width_mm};
use crate::draw::{Fill, Hatch, Ink, Lettering, Mark, Path, Pen, Set};

/// An SVG that is being written.
pub(super) struct MarkWriter<'a> {
    /// What is written.
    pub(super) xml: XmlWriter,
    /// What every name begins with.
    pub(super) names: &'a str,
    /// How many clips there are.
    pub(super) clips: usize,
    /// Width and height of the sheet, mm.
    pub(super) size: DVec2,
}

impl MarkWriter<'_> {
    /// A shape and what a viewer tells about it.
    pub(super) fn shape(&mut self, path: &Path, even_odd: bool, pen: Option<&Pen>, fill: Fill, about: &str) {
        let Fill::Hatch(hatch) = fill else { return self.plain(path, even_odd, pen, fill, about) };
        self.xml.start_element("g");
        element_of_words(&mut self.xml, "title", about);
        if let Some(ground) = hatch.ground {
            self.plain(path, even_odd, None, Fill::Plain(ground), "");
        }
        self.hatch(path, even_odd, hatch);
        if pen.is_some() {
            self.plain(path, false, pen, Fill::None, "");
        }
        self.xml.end_element();
    }

    fn plain(&mut self, path: &Path, even_odd: bool, pen: Option<&Pen>, fill: Fill, about: &str) {
        let xml = &mut self.xml;
        begin(xml, path);
        match fill {
            Fill::Plain(ink) => xml.write_attribute("fill", &ink.hex()),
            Fill::None | Fill::Hatch(_) => xml.write_attribute("fill", "none"),
        }
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
        element_of_words(xml, "title", about);
        xml.end_element();
    }

    fn hatch(&mut self, path: &Path, even_odd: bool, hatch: Hatch) {
        let mut d = String::new();
        lines(hatch, path, self.size).iter().for_each(|line| through(&mut d, line, ""));
        if d.is_empty() {
            return;
        }
        let clip = self.clip(path, even_odd);
        let xml = &mut self.xml;
        xml.start_element("path");
        xml.write_attribute("d", &d);
        xml.write_attribute("fill", "none");
        xml.write_attribute("stroke", &hatch.ink.hex());
        xml.write_attribute("stroke-width", &number(width_mm(hatch)));
        if let Some([drawn, left_out]) = dash_mm(hatch) {
            xml.write_attribute_fmt("stroke-dasharray", format_args!("{} {}", number(drawn), number(left_out)));
            xml.write_attribute("stroke-linecap", "round");
        }
        xml.write_attribute("clip-path", &clip);
        xml.end_element();
    }

    /// Defines a clip and returns how it is referred to.
    pub(super) fn clip(&mut self, path: &Path, even_odd: bool) -> String {
        let name = format!("{}clip{}", self.names, self.clips);
        self.clips += 1;
        self.xml.start_element("clipPath");
        self.xml.write_attribute("id", &name);
        begin(&mut self.xml, path);
        if even_odd {
            self.xml.write_attribute("clip-rule", "evenodd");
        }
        self.xml.end_element();
        self.xml.end_element();
        format!("url(#{name})")
    }

    /// Surfaces that show nothing and let a viewer tell about them.
    pub(super) fn unseen(&mut self, run: &[Mark]) {
        self.xml.start_element("g");
        self.xml.write_attribute("fill", "none");
        self.xml.write_attribute("pointer-events", "all");
        for mark in run {
            if let Mark::Shape { path, about, .. } = mark
                && !about.is_empty()
            {
                begin(&mut self.xml, path);
                element_of_words(&mut self.xml, "title", about);
                self.xml.end_element();
            }
        }
        self.xml.end_element();
    }

    /// Words on one line.
    pub(super) fn words(&mut self, at: DVec2, words: &str, lettering: &Lettering) {
        let xml = &mut self.xml;
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
}
