//! A sheet as SVG 1.1: real words, so that they can be found and read aloud, in lettering that the file brings with it.

mod marks;
mod write;

use xmlwriter::{Indent, Options, XmlWriter};

use super::Ink;
use super::font::{FAMILY, style};
use super::sheet::{Mark, Path, Sheet, corners};
use super::tiles::{alike, tiles};
use crate::VERSION;
use marks::MarkWriter;
use write::element_of_words;
pub(super) use write::{escaped, number};

/// What of an SVG depends on where it goes.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Manner<'a> {
    /// What every name in it begins with.
    pub(super) names: &'a str,
    /// Style rules it brings with it.
    pub(super) style: &'a str,
    /// Whether a viewer can tell about every tile of a surface; that takes room.
    pub(super) tiles_told: bool,
}

impl Sheet {
    /// As SVG.
    pub fn svg(&self) -> String {
        let drawn = self.svg_in(&Manner { style: &style(self.lettering()), tiles_told: true, ..Manner::default() });
        format!("<!-- Peewit {VERSION} -->\n{drawn}")
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
        let mut xml = XmlWriter::new(Options { indent: Indent::None, ..Options::default() });
        let (width, height) = (number(self.size_mm.x), number(self.size_mm.y));
        xml.start_element("svg");
        xml.write_attribute("xmlns", "http://www.w3.org/2000/svg");
        xml.write_attribute_fmt("width", format_args!("{width}mm"));
        xml.write_attribute_fmt("height", format_args!("{height}mm"));
        xml.write_attribute_fmt("viewBox", format_args!("0 0 {width} {height}"));
        xml.write_attribute("font-family", FAMILY);
        // Letters as wide as the lettering says, not rounded to the dots of a screen.
        xml.write_attribute("text-rendering", "geometricPrecision");
        xml.write_attribute("role", "img");
        element_of_words(&mut xml, "title", &self.title);
        element_of_words(&mut xml, "desc", &self.about);
        if !manner.style.is_empty() {
            xml.start_element("style");
            xml.write_text(manner.style);
            xml.end_element();
        }
        xml.start_element("rect");
        xml.write_attribute("width", &width);
        xml.write_attribute("height", &height);
        xml.write_attribute("fill", &Ink::PAPER.hex());
        xml.end_element();
        let mut desk = MarkWriter { xml, names: manner.names, clips: 0, size: self.size_mm };
        for run in self.sound().chunk_by(alike) {
            match run {
                [Mark::Shape { path, pen, fill, about }] => {
                    desk.shape(path, path.leaves_out_even(), pen.as_ref(), *fill, about);
                }
                [Mark::Words { at, words, lettering }] => desk.words(*at, words, lettering),
                [Mark::Clip(low, high)] => {
                    let clip = desk.clip(&Path::Rings(vec![corners(*low, *high).to_vec()]), false);
                    desk.xml.start_element("g");
                    desk.xml.write_attribute("clip-path", &clip);
                }
                [Mark::Unclip] => desk.xml.end_element(),
                _ => {
                    if let Some((path, fill)) = tiles(run) {
                        desk.shape(&path, false, None, fill, "");
                    }
                    if manner.tiles_told {
                        desk.unseen(run);
                    }
                }
            }
        }
        desk.xml.end_document() + "\n"
    }
}

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;
    use crate::draw::{Fill, Hatch, Lettering, Pattern, Pen};

    fn check(sheet: &Sheet, look: impl Fn(&roxmltree::Document)) {
        look(&roxmltree::Document::parse(&sheet.svg()).unwrap());
    }

    fn text<'a>(read: &'a roxmltree::Document, tag: &str) -> Vec<&'a str> {
        read.descendants().filter(|node| node.tag_name().name() == tag).filter_map(|node| node.text()).collect()
    }

    #[test]
    fn words_come_through_whatever_signs_they_have() {
        let mut sheet = Sheet::new(100.0, 100.0, "A & <B>", "\"c\" > d");
        let all = ["&", "a]]>b", "&amp;", "é ö ß ł 漢"];
        all.iter().for_each(|words| sheet.words(DVec2::splat(20.0), *words, Lettering::new(4.0)));
        check(&sheet, |read| {
            assert_eq!(text(read, "text"), all);
            assert_eq!((text(read, "title"), text(read, "desc")), (vec!["A & <B>"], vec!["\"c\" > d"]));
        });
    }

    #[test]
    fn the_lettering_comes_with_the_file_and_only_what_is_in_use() {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        check(&sheet, |read| assert!(text(read, "style").is_empty()));
        sheet.words(DVec2::splat(20.0), "circle", Lettering::new(4.0));
        check(&sheet, |read| {
            let style = text(read, "style").concat();
            assert!(style.starts_with("@font-face{font-family:\"Atkinson Hyperlegible\";font-weight:400;"), "{style}");
            assert!(style.len() < 40_000, "{} letters", style.len());
        });
    }

    #[test]
    fn tiles_are_one_surface_and_each_can_still_be_told_about() {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        let fill = Fill::Hatch(Hatch { pattern: Pattern::Rising, ink: Ink::BLACK, ground: None, step: 150 });
        for x in [10.0, 20.0] {
            let ring = corners(DVec2::new(x, 10.0), DVec2::new(x + 10.0, 20.0)).to_vec();
            sheet.shape(Path::Rings(vec![ring]), None, fill, format!("tile {x}"));
        }
        check(&sheet, |read| {
            assert_eq!(text(read, "title"), ["tile 10", "tile 20"]);
            let clips: Vec<_> = read.descendants().filter(|node| node.tag_name().name() == "clipPath").collect();
            assert_eq!(clips.len(), 1);
            let course = clips[0].first_element_child().unwrap().attribute("d").unwrap();
            assert_eq!(course, "M10 10L20 10L20 20L10 20ZM20 10L30 10L30 20L20 20Z");
        });
        assert!(!sheet.svg_in(&Manner::default()).contains("tile"));
    }

    #[test]
    fn a_hatch_is_lines_within_its_surface_under_its_edge() {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        let hatch = Hatch { pattern: Pattern::Level, ink: Ink::BLUE, ground: Some(Ink::SKY), step: 500 };
        let pen = Pen::plain(Ink::BLACK, 0.3);
        sheet.shape(Path::Circle(DVec2::splat(50.0), 7.0), Some(pen), Fill::Hatch(hatch), "spot");
        check(&sheet, |read| {
            let group = read.descendants().find(|node| node.tag_name().name() == "g").unwrap();
            let parts: Vec<_> = group.children().map(|part| part.tag_name().name()).collect();
            assert_eq!(parts, ["title", "circle", "clipPath", "path", "circle"]);
            let lines = group.children().nth(3).unwrap();
            assert_eq!(
                (lines.attribute("stroke"), lines.attribute("clip-path")),
                (Some("#0072b2"), Some("url(#clip0)"))
            );
            // From 43 to 57 mm: half a step and whole steps from the corner of the sheet.
            assert_eq!(
                lines.attribute("d"),
                Some("M42.5 42.5L57.5 42.5M42.5 47.5L57.5 47.5M42.5 52.5L57.5 52.5M42.5 57.5L57.5 57.5")
            );
        });
    }
}
