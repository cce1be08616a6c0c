//! Reads a PDF back with a library that had no part in writing it: sizes of pages, words with their places, lettering.

use glam::{DAffine2, DVec2};
use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, decode_text_string};

use super::POINTS;

/// A line of words on a page.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ReadLine {
    /// What can be searched and copied.
    pub(crate) words: String,
    /// Its first foot, mm from the upper left corner.
    pub(crate) at: DVec2,
    /// A step of one em along it, mm.
    pub(crate) along: DVec2,
}

/// A page.
#[derive(Debug)]
pub(crate) struct ReadPage {
    /// Width and height, mm.
    pub(crate) size_mm: DVec2,
    /// Its lines of words, as they come.
    pub(crate) lines: Vec<ReadLine>,
    /// Everything it does.
    pub(crate) operations: Vec<Operation>,
}

/// Reads the pages.
pub(crate) fn pages(file: &Document) -> Vec<ReadPage> {
    file.page_iter()
        .map(|id| {
            let page = file.get_dictionary(id).unwrap();
            let sides = page.get_deref(b"MediaBox", file).unwrap().as_array().unwrap();
            let sides: Vec<f64> = sides.iter().map(number).collect();
            assert_eq!(sides[..2], [0.0, 0.0]);
            let fonts = file.get_page_fonts(id).unwrap();
            let operations = Content::decode(&file.get_page_content(id)).unwrap().operations;
            let size_mm = DVec2::new(sides[2], sides[3]) / POINTS;
            let said = |font: &[u8], bytes: &[u8]| {
                let letters = fonts[font].get_font_encoding(file).unwrap();
                Document::decode_text(&letters, bytes).unwrap()
            };
            let lines = lines(&operations, size_mm.y, said);
            ReadPage { size_mm, lines, operations }
        })
        .collect()
}

fn number(object: &Object) -> f64 {
    object.as_float().unwrap().into()
}

fn matrix(operation: &Operation) -> DAffine2 {
    let parts: Vec<f64> = operation.operands.iter().map(number).collect();
    DAffine2::from_cols_array(&parts.try_into().unwrap())
}

fn lines(operations: &[Operation], height: f64, said: impl Fn(&[u8], &[u8]) -> String) -> Vec<ReadLine> {
    let flip = |point: DVec2| DVec2::new(point.x / POINTS, height - point.y / POINTS);
    let (mut lines, mut kept) = (Vec::<ReadLine>::new(), Vec::new());
    let (mut at, mut text) = (DAffine2::IDENTITY, DAffine2::IDENTITY);
    let (mut font, mut size) = (Vec::new(), 0.0);
    // Whether what is marked has words given in its stead; those of a line that has not begun.
    let (mut instead, mut waiting, mut within) = (Vec::new(), String::new(), false);
    for operation in operations {
        match operation.operator.as_str() {
            "q" => kept.push(at),
            "Q" => at = kept.pop().unwrap(),
            "cm" => at *= matrix(operation),
            "BT" => {
                within = true;
                let words = std::mem::take(&mut waiting);
                lines.push(ReadLine { words, at: DVec2::NAN, along: DVec2::NAN });
            }
            "ET" => within = false,
            "Tm" => text = matrix(operation),
            "Tf" => {
                font = operation.operands[0].as_name().unwrap().to_vec();
                size = number(&operation.operands[1]);
            }
            "BDC" | "BMC" => {
                let actual = operation.operands.get(1).and_then(|dict| dict.as_dict().ok()?.get(b"ActualText").ok());
                if let Some(words) = actual.filter(|_| !instead.contains(&true)) {
                    let words = decode_text_string(words).unwrap();
                    if within { lines.last_mut().unwrap().words.push_str(&words) } else { waiting = words }
                }
                instead.push(actual.is_some());
            }
            "EMC" => drop(instead.pop().unwrap()),
            "Tj" | "TJ" => {
                let line = lines.last_mut().unwrap();
                if line.at.is_nan() {
                    line.at = flip((at * text).translation);
                    line.along = flip((at * text).transform_point2(DVec2::X * size)) - line.at;
                }
                if !instead.contains(&true) {
                    let parts = operation.operands.iter().flat_map(|part| match part {
                        Object::Array(parts) => parts.as_slice(),
                        other => std::slice::from_ref(other),
                    });
                    line.words.extend(parts.filter_map(|part| part.as_str().ok()).map(|bytes| said(&font, bytes)));
                }
            }
            _ => {}
        }
    }
    assert!(kept.is_empty() && instead.is_empty() && !within, "something is not closed");
    lines
}

/// Names of the lettering in the file, after finding that each is embedded and cut to what is in use.
pub(crate) fn lettering(file: &Document) -> Vec<String> {
    let fonts = file.objects.values().filter_map(|object| object.as_dict().ok());
    let fonts: Vec<&Dictionary> = fonts.filter(|dict| dict.has_type(b"Font")).collect();
    let text =
        |font: &Dictionary, key: &[u8]| String::from_utf8_lossy(font.get(key).unwrap().as_name().unwrap()).into_owned();
    let mut names = Vec::new();
    for font in fonts {
        let name = text(font, b"BaseFont");
        match text(font, b"Subtype").as_str() {
            "Type0" => assert!(font.has(b"ToUnicode"), "{name} can't be searched"),
            "CIDFontType2" => {
                let descriptor = font.get_deref(b"FontDescriptor", file).unwrap().as_dict().unwrap();
                let outlines = descriptor.get_deref(b"FontFile2", file).unwrap().as_stream().unwrap();
                let bytes = outlines.decompressed_content().unwrap();
                assert!(skrifa::FontRef::new(&bytes).is_ok(), "{name} is no font");
                let (tag, rest) = name.split_once('+').unwrap();
                assert!(tag.len() == 6 && tag.chars().all(|letter| letter.is_ascii_uppercase()), "{name} is whole");
                names.push(rest.to_owned());
            }
            other => panic!("{name} is {other}, which brings no outlines"),
        }
    }
    names.sort();
    names
}
