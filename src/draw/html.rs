//! Sheets as one page for a browser: each drawn in SVG, printed one to a page of its size, with what they say in plain
//! words below. Nothing is fetched; the file brings its lettering. It is well-formed XML too.

use std::fmt::Write as _;

use super::font::{FAMILY, style};
use super::sound::legible;
use super::svg::{Manner, escaped, number};
use super::{Document, Section};
use crate::VERSION;

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
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n\
         <title>{title}</title>\n<meta name=\"generator\" content=\"Peewit {VERSION}\"/>\n"
    );
    for (name, words) in [("author", &document.author), ("description", &document.subject)] {
        if !words.is_empty() {
            let _ = writeln!(html, "<meta name=\"{name}\" content=\"{}\"/>", text(words));
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
        let drawn = sheet.svg_in(&Manner { names: &format!("page{}-", index + 1), ..Manner::default() });
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

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;
    use crate::draw::{Fill, Hatch, Ink, Lettering, Pattern, Sheet};

    fn hatched(width_mm: f64, height_mm: f64) -> Sheet {
        let mut sheet = Sheet::new(width_mm, height_mm, "A <sheet> & \"more\"", "What it shows.");
        let hatch = Hatch { pattern: Pattern::Rising, ink: Ink::BLACK, ground: None, step: 150 };
        sheet.clipped(DVec2::ZERO, DVec2::splat(50.0), |sheet| {
            sheet.circle(DVec2::splat(40.0), 20.0, None, Fill::Hatch(hatch));
        });
        sheet.words(DVec2::splat(20.0), "wait & see <here>", Lettering::new(4.0));
        sheet
    }

    fn of(pages: Vec<Sheet>) -> Document {
        let words = vec![Section { heading: "In <words>".into(), paragraphs: vec!["First & last.".into()] }];
        Document { title: "Pack \"A\" <&>".into(), author: "Ł. Ø".into(), subject: "\"&\"".into(), pages, words }
    }

    fn check(html: &str, look: impl Fn(&roxmltree::Document)) {
        let options = roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() };
        look(&roxmltree::Document::parse_with_options(html, options).unwrap());
    }

    #[test]
    fn words_come_through_whatever_signs_they_have() {
        check(&html(&of(vec![hatched(210.0, 297.0)])), |read| {
            let text = |tag: &str| -> Vec<&str> {
                let tagged = read.descendants().filter(|node| node.tag_name().name() == tag);
                tagged.filter_map(|node| node.text()).collect()
            };
            assert_eq!(text("title"), ["Pack \"A\" <&>", "A <sheet> & \"more\""]);
            assert_eq!(text("desc"), ["What it shows."]);
            assert_eq!(text("text"), ["wait & see <here>"]);
            assert_eq!((text("h1"), text("h2")), (vec!["Pack \"A\" <&>"], vec!["In <words>"]));
            assert_eq!(text("p"), ["First & last."]);
            assert_eq!(read.root_element().attribute("lang"), Some("en"));
        });
    }

    #[test]
    fn names_are_used_once_and_nothing_is_fetched() {
        let html = html(&of(vec![hatched(210.0, 297.0), hatched(210.0, 297.0)]));
        check(&html, |read| {
            let ids: Vec<&str> = read.descendants().filter_map(|node| node.attribute("id")).collect();
            assert_eq!(ids, ["page1-clip0", "page1-clip1", "page2-clip0", "page2-clip1"]);
            for name in ids {
                assert!(html.contains(&format!("url(#{name})")), "{name} is not used");
            }
        });
        let fetched = html.replace("http://www.w3.org/2000/svg", "").replace("url(data:", "").replace("url(#", "");
        for sign in ["http", "url(", "src=", "href", "<script", "@import"] {
            assert!(!fetched.contains(sign), "{sign}");
        }
    }

    #[test]
    fn every_sheet_prints_on_paper_of_its_size() {
        let html = html(&of(vec![hatched(297.0, 210.0), hatched(297.0, 420.0), hatched(297.0, 210.0)]));
        for said in ["@page{size:297mm 210mm;", "@page size0{size:297mm 210mm;", "@page size1{size:297mm 420mm;"] {
            assert_eq!(html.matches(said).count(), 1, "{said}");
        }
        let of_size = |size: usize| html.matches(&format!("<figure class=\"size{size}\">")).count();
        assert_eq!((of_size(0), of_size(1)), (2, 1));
    }

    #[test]
    fn without_words_there_is_nothing_below() {
        let html = html(&Document { words: vec![], ..of(vec![hatched(100.0, 100.0)]) });
        assert!(!html.contains("<section") && !html.contains("<h1"));
    }
}
