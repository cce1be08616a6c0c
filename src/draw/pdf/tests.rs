//! The PDF read back by another library has the pages, the words and the lettering of the sheets.

use glam::DVec2;
use proptest::prelude::*;

use super::read::{lettering, pages};
use super::*;
use crate::draw::{Fill, Hatch, Lettering, Mark, Path, Pattern, Pen, Section, Sheet};

fn read(sheets: Vec<Sheet>) -> lopdf::Document {
    let document = Document { title: "Pack".into(), pages: sheets, ..Document::default() };
    lopdf::Document::load_mem(&pdf(&document).unwrap()).unwrap()
}

#[track_caller]
fn check_size(width: f64, height: f64) {
    let read = pages(&read(vec![Sheet::new(width, height, "", "")]));
    assert_eq!(read.len(), 1);
    assert!((read[0].size_mm - DVec2::new(width, height)).abs().max_element() < 0.01, "{}", read[0].size_mm);
}

#[test]
fn pages_are_as_large_as_their_sheets() {
    for (width, height) in [(210.0, 297.0), (297.0, 210.0), (297.0, 420.0), (105.0, 148.0)] {
        check_size(width, height);
    }
}

#[test]
fn a_sheet_without_size_and_a_document_without_sheets_are_refused() {
    for pages in [vec![], vec![Sheet::new(0.0, 10.0, "", "")], vec![Sheet::new(f64::NAN, 10.0, "", "")]] {
        let said = pdf(&Document { title: "Pack".into(), pages, ..Document::default() }).unwrap_err().to_string();
        assert!(said.contains("Pack") && said.contains("page"), "{said}");
    }
}

#[test]
fn words_stand_where_they_were_lettered_in_turn_and_once() {
    let mut sheet = Sheet::new(210.0, 297.0, "", "");
    let (at, plain) = (DVec2::new(100.0, 80.0), Lettering::new(5.0));
    let settings = [plain, plain.end().bold(), plain.middle().turned(90.0), plain.turned(-30.0).rimmed()];
    for (index, lettering) in settings.iter().enumerate() {
        sheet.words(at, format!("Way {index}"), *lettering);
    }
    let read = pages(&read(vec![sheet])).remove(0).lines;
    let words: Vec<&str> = read.iter().map(|line| line.words.as_str()).collect();
    assert_eq!(words, ["Way 0", "Way 1", "Way 2", "Way 3"]);
    // Anticlockwise about its place, y down the sheet; the middle and the end of the words are there.
    let wide = |bold, words: &str| {
        let set = crate::draw::font::Face::new(bold).unwrap().set(words);
        5.0 * set.iter().map(|glyph| glyph.advance).sum::<f64>()
    };
    let (right, up, down) = (DVec2::X, -DVec2::Y, DVec2::from_angle(30.0_f64.to_radians()));
    let expected = [
        (at, right),
        (at - right * wide(true, "Way 1"), right),
        (at - up * wide(false, "Way 2") / 2.0, up),
        (at, down),
    ];
    for (line, (place, way)) in read.iter().zip(expected) {
        assert!(line.at.distance(place) < 0.01, "{line:?} is not at {place}");
        assert!(line.along.distance(way * 5.0) < 0.01, "{line:?} does not run along {way}");
    }
}

#[test]
fn every_letter_can_be_found_again_even_one_the_lettering_lacks() {
    let awkward = ["<&\">", "é ö ß ł", "a 漢字 b 語", "ﬁ fi office", "א", "5\u{a0}m", "e\u{301}", "🛩 ok"];
    let mut sheet = Sheet::new(210.0, 297.0, "", "");
    for (index, words) in (0_u32..).zip(awkward) {
        sheet.words(DVec2::new(20.0, 20.0 + 8.0 * f64::from(index)), words, Lettering::new(4.0));
    }
    let read = pages(&read(vec![sheet])).remove(0).lines;
    assert_eq!(read.iter().map(|line| line.words.as_str()).collect::<Vec<_>>(), awkward);
}

#[test]
fn lettering_comes_with_the_file_and_only_what_is_in_use() {
    let with = |lettering: &[Lettering]| {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        lettering.iter().for_each(|lettering| sheet.words(DVec2::splat(50.0), "circle", *lettering));
        sheet
    };
    let plain = Lettering::new(4.0);
    assert_eq!(lettering(&read(vec![with(&[])])), [""; 0]);
    assert_eq!(lettering(&read(vec![with(&[plain])])), ["AtkinsonHyperlegible-Regular"]);
    // However many pages: each weight once.
    let both = ["AtkinsonHyperlegible-Bold", "AtkinsonHyperlegible-Regular"];
    assert_eq!(lettering(&read(vec![with(&[plain, plain.bold()]), with(&[plain.bold()])])), both);
}

#[test]
fn title_language_and_maker_are_told_and_no_time() {
    let sheet = |name: &str| Sheet::new(105.0, 148.0, name, format!("What {name} shows."));
    let document = Document {
        title: "Pack & more".into(),
        author: "Hana Řehoř".into(),
        subject: "Circles".into(),
        pages: vec![sheet("One"), sheet("Two")],
        words: vec![Section::default()],
    };
    let bytes = pdf(&document).unwrap();
    let read = lopdf::Document::load_mem(&bytes).unwrap();
    let info = read.trailer.get_deref(b"Info", &read).unwrap().as_dict().unwrap();
    let told = |key: &[u8]| lopdf::decode_text_string(info.get(key).unwrap()).unwrap();
    assert_eq!((told(b"Title"), told(b"Author")), ("Pack & more".into(), "Hana Řehoř".into()));
    assert_eq!((told(b"Subject"), told(b"Creator")), ("Circles".into(), format!("Peewit {VERSION}")));
    assert_eq!(lopdf::decode_text_string(read.catalog().unwrap().get(b"Lang").unwrap()).unwrap(), "en");
    assert!(!info.has(b"CreationDate") && !info.has(b"ModDate"));
    let text = String::from_utf8_lossy(&bytes);
    assert!(!text.contains("CreateDate") && !text.contains("ModifyDate"));
    let list: Vec<_> = read.get_toc().unwrap().toc.into_iter().map(|entry| (entry.title, entry.page)).collect();
    assert_eq!(list, [("One".into(), 1), ("Two".into(), 2)]);
    // What a page shows is told as the words of its figure.
    let figures = read.objects.values().filter_map(|object| object.as_dict().ok()?.get(b"Alt").ok());
    let mut figures: Vec<_> = figures.map(|words| lopdf::decode_text_string(words).unwrap()).collect();
    figures.sort();
    assert_eq!(figures, ["What One shows.", "What Two shows."]);
}

#[test]
fn one_page_needs_no_list() {
    assert!(read(vec![Sheet::new(105.0, 148.0, "Card", "")]).get_toc().is_err());
}

#[test]
fn clips_dashes_and_hatches_are_drawn() {
    let mut sheet = Sheet::new(100.0, 100.0, "", "");
    let pen = Pen::plain(Ink::BLACK, 0.5);
    let hatch = |pattern| Fill::Hatch(Hatch { pattern, ink: Ink::BLACK, ground: Some(Ink::SKY), step: 200 });
    sheet.clipped(DVec2::splat(10.0), DVec2::splat(90.0), |sheet| {
        sheet.line([DVec2::ZERO, DVec2::splat(100.0)], pen.dashed(&[4.0, 1.6]));
    });
    sheet.rectangle(DVec2::splat(20.0), DVec2::splat(40.0), None, hatch(Pattern::Level));
    sheet.rectangle(DVec2::splat(50.0), DVec2::splat(70.0), None, hatch(Pattern::Dotted));
    let page = pages(&read(vec![sheet])).remove(0);
    let count = |operator: &str| page.operations.iter().filter(|done| done.operator == operator).count();
    // The clip and one for every hatch.
    assert_eq!(count("W"), 3);
    let dashes: Vec<_> = page.operations.iter().filter(|done| done.operator == "d").collect();
    let dashes: Vec<Vec<f32>> = dashes
        .iter()
        .map(|dash| dash.operands[0].as_array().unwrap().iter().map(|length| length.as_float().unwrap()).collect())
        .filter(|lengths: &Vec<f32>| !lengths.is_empty())
        .collect();
    assert_eq!(dashes, [vec![4.0, 1.6], vec![0.0, 2.0]]);
    // Level lines 2 mm apart from 20 to 40 mm: none is missing.
    let strokes = page.operations.iter().filter(|done| done.operator == "m").filter_map(|done| {
        let [x, y] = [0, 1].map(|part| done.operands[part].as_float().unwrap());
        (x < 20.5).then_some(y)
    });
    let level: Vec<f32> = strokes.filter(|y| *y > 20.5 && *y < 39.5).collect();
    assert_eq!(level, [21.0, 23.0, 25.0, 27.0, 29.0, 31.0, 33.0, 35.0, 37.0, 39.0]);
}

#[test]
fn the_same_sheets_give_the_same_bytes_in_any_thread() {
    let sheet = || {
        let mut sheet = Sheet::new(210.0, 297.0, "Card", "About");
        for size in 3_u32..20 {
            sheet.words(DVec2::new(20.0, 12.0 * f64::from(size)), "Every bird é 漢", Lettering::new(size.into()));
        }
        sheet
    };
    let bytes = move || pdf(&Document::from(sheet())).unwrap();
    let first = bytes();
    assert!(first.len() < 40_000, "{} bytes", first.len());
    assert!(first == bytes() && first == std::thread::spawn(bytes).join().unwrap());
}

fn point() -> impl Strategy<Value = DVec2> {
    let side = prop_oneof![8 => -50.0..350.0_f64, 1 => any::<f64>()];
    (side.clone(), side).prop_map(DVec2::from)
}

fn mark() -> impl Strategy<Value = Mark> {
    let points = || prop::collection::vec(point(), 0..6);
    let path = prop_oneof![
        points().prop_map(Path::Open),
        prop::collection::vec(points(), 0..3).prop_map(Path::Rings),
        (point(), -1.0..80.0).prop_map(|(middle, radius)| Path::Circle(middle, radius)),
    ];
    let pattern = prop::sample::select(vec![Pattern::Rising, Pattern::Falling, Pattern::Squared, Pattern::Spotted]);
    let hatch = (pattern, any::<bool>(), 0_u32..400).prop_map(|(pattern, ground, step)| {
        Fill::Hatch(Hatch { pattern, ink: Ink::BLUE, ground: ground.then_some(Ink::SKY), step })
    });
    let fill = prop_oneof![Just(Fill::None), Just(Fill::Plain(Ink::YELLOW)), hatch];
    let dashes: &[&'static [f64]] = &[&[], &[2.0, 1.0], &[0.0, 0.0], &[-1.0], &[f64::NAN]];
    let pen = (-0.5..3.0, prop::sample::select(dashes))
        .prop_map(|(width, dash)| Pen::plain(Ink::VERMILION, width).dashed(dash));
    let lettering = (-1.0..12.0, any::<bool>(), prop_oneof![Just(0.0), -400.0..400.0], any::<bool>());
    let lettering = lettering.prop_map(|(size, bold, turned, rimmed)| Lettering {
        bold,
        rimmed,
        ..Lettering::new(size).middle().turned(turned)
    });
    prop_oneof![
        4 => (path, prop::option::of(pen), fill, ".{0,9}")
            .prop_map(|(path, pen, fill, about)| Mark::Shape { path, pen, fill, about }),
        4 => (point(), any::<String>(), lettering)
            .prop_map(|(at, words, lettering)| Mark::Words { at, words, lettering }),
        1 => (point(), point()).prop_map(|(low, high)| Mark::Clip(low, high)),
        1 => Just(Mark::Unclip),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn whatever_is_drawn_gives_files_that_can_be_read(
        marks in prop::collection::vec(mark(), 0..12),
        title in any::<String>(),
        size in (10.0..420.0, 10.0..420.0),
    ) {
        let mut sheet = Sheet::new(size.0, size.1, title.clone(), title.clone());
        sheet.marks = marks;
        let svg = sheet.svg();
        prop_assert!(roxmltree::Document::parse(&svg).is_ok(), "{svg}");
        let words = vec![Section { heading: title.clone(), paragraphs: vec![title] }];
        let document = Document { words, pages: vec![sheet.clone(), sheet], ..Document::default() };
        let options = roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() };
        let html = crate::draw::html(&document);
        prop_assert!(roxmltree::Document::parse_with_options(&html, options).is_ok(), "{html}");
        let read = lopdf::Document::load_mem(&pdf(&document).unwrap()).unwrap();
        prop_assert_eq!(pages(&read).len(), 2);
        lettering(&read);
    }
}
