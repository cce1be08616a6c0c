//! Sheets as one page for a browser: each drawn in SVG, printed one to a page of its size, with what they say in plain
//! words below. Nothing is fetched; the file brings its lettering.

use std::fmt::Write as _;

use super::font::{FAMILY, style};
use super::sound::legible;
use super::svg::{escaped, number};
use super::{Document, Section};
use crate::report::VERSION;

/// Rules for every document; sizes of pages come with each.
const RULES: &str = "\
body{margin:0;color:#000;background:#fff;line-height:1.5}\
figure{margin:0;padding:1rem}\
figure svg{display:block;width:100%;height:auto;margin:0 auto;outline:1px solid #b4b9be}\
.words{max-width:42rem;margin:0 auto;padding:1rem}\
@media print{.words{display:none}figure{padding:0;overflow:hidden;break-inside:avoid}\
figure+figure{break-before:page}figure svg{margin:0;outline:none}}";

/// Sheets and words as one HTML file.
pub fn html(document: &Document) -> String {
    let title = text(&document.title);
    let mut html = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}</title>\n<meta name=\"generator\" content=\"Peewit {VERSION}\">\n"
    );
    for (name, words) in [("author", &document.author), ("description", &document.subject)] {
        if !words.is_empty() {
            let _ = writeln!(html, "<meta name=\"{name}\" content=\"{}\">", text(words));
        }
    }
    let _ = write!(html, "<style>{}body{{font-family:{FAMILY}}}{RULES}", style(lettering(document)));
    let sizes = sizes(document);
    for (index, [width, height]) in sizes.iter().enumerate() {
        // A browser that knows no named pages takes the size of the first sheet for all.
        let unnamed = if index == 0 { format!("@page{{size:{width}mm {height}mm;margin:0}}") } else { String::new() };
        let _ = write!(
            html,
            "{unnamed}@page size{index}{{size:{width}mm {height}mm;margin:0}}\
             .size{index}{{page:size{index}}}.size{index} svg{{max-width:{width}mm}}\
             @media print{{.size{index},.size{index} svg{{width:{width}mm;height:{height}mm}}}}"
        );
    }
    html.push_str("</style>\n</head>\n<body>\n<main>\n");
    for (index, sheet) in document.pages.iter().enumerate() {
        let size = sizes.iter().position(|size| *size == sheet.size_mm.to_array().map(number)).unwrap_or_default();
        let drawn = sheet.svg_named(&format!("page{}-", index + 1), "");
        let _ = writeln!(html, "<figure class=\"size{size}\">{}</figure>", drawn.trim_end());
    }
    if !document.words.is_empty() {
        let _ = writeln!(html, "<section class=\"words\">\n<h1>{title}</h1>");
        document.words.iter().for_each(|section| below(&mut html, section));
        html.push_str("</section>\n");
    }
    html + "</main>\n</body>\n</html>\n"
}

fn below(html: &mut String, section: &Section) {
    let _ = writeln!(html, "<h2>{}</h2>", text(&section.heading));
    for paragraph in &section.paragraphs {
        let _ = writeln!(html, "<p>{}</p>", text(paragraph));
    }
}

/// Words for text and for attributes in double quotes.
fn text(words: &str) -> String {
    escaped(&legible(words)).replace('<', "&lt;").replace('"', "&quot;")
}

/// Every size of sheet, the first sheet's first, mm.
fn sizes(document: &Document) -> Vec<[String; 2]> {
    let mut sizes = Vec::new();
    for size in document.pages.iter().map(|sheet| sheet.size_mm.to_array().map(number)) {
        if !sizes.contains(&size) {
            sizes.push(size);
        }
    }
    sizes
}

/// All words of sheets and sections, and whether they are heavy.
fn lettering(document: &Document) -> impl Iterator<Item = (&str, bool)> + Clone {
    let sheets = document.pages.iter().flat_map(|sheet| sheet.lettering());
    let headings = document.words.iter().map(|section| (section.heading.as_str(), true));
    let paragraphs = document.words.iter().flat_map(|section| &section.paragraphs);
    let title = (!document.words.is_empty()).then_some((document.title.as_str(), true));
    sheets.chain(title).chain(headings).chain(paragraphs.map(|words| (words.as_str(), false)))
}
