//! `peewit card` as people run it: what it writes, what it refuses, and what an expired plan says.

use serde_json::Value;

use crate::commands::Desk;

/// Few trials: what is printed is looked at elsewhere.
const FEW: [&str; 2] = ["--trials", "16"];

#[test]
fn a_card_is_written_in_every_format_and_told_on_the_screen() {
    let desk = Desk::new();
    let outs = ["c.pdf", "c.html", "c.svg", "c.png", "c.txt", "c.json"].map(|name| ["--out", name]).concat();
    let words = [&["card", "field.json", "--on", "2026-04-18"], &FEW[..], &outs[..]].concat();
    let (told, said) = desk.check(&words, 0);
    // So few trials decide nothing.
    for part in ["the field card", "DO NOT FLY", "Video lost", "Authorised by", "A spotter stands beside the pilot"] {
        assert!(told.to_lowercase().contains(&part.to_lowercase()), "{told}");
    }
    assert!(said.contains("wrote c.pdf") || said.contains("c.pdf"), "{said}");
    let read = |name: &str| std::fs::read(desk.path(name)).unwrap();
    assert!(read("c.pdf").starts_with(b"%PDF-") && read("c.png").starts_with(b"\x89PNG"));
    assert!(String::from_utf8(read("c.html")).unwrap().contains("@page"));
    let card: Value = serde_json::from_slice(&read("c.json")).unwrap();
    assert_eq!((card["radius_m"].as_f64(), card["expired"].as_bool()), (Some(115.0), Some(false)));
    assert_eq!(card["do_not_fly"].as_array().map(Vec::len), Some(1), "{card}");
    // The same again gives the same bytes.
    let before: Vec<Vec<u8>> = ["c.pdf", "c.html", "c.svg"].map(read).into();
    desk.check(&words, 0);
    let after: Vec<Vec<u8>> = ["c.pdf", "c.html", "c.svg"].map(read).into();
    assert!(before == after);
}

#[test]
fn every_print_goes_into_a_folder() {
    let desk = Desk::new();
    let words = [&["card", "field.json", "--into", "prints", "--on", "2026-04-18"], &FEW[..]].concat();
    assert!(desk.check(&words, 0).1.contains("made the folder prints"));
    let names: Vec<String> = std::fs::read_dir(desk.path("prints"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    for print in peewit::report::prints::Print::ALL {
        let name = format!("field-{}.pdf", print.name());
        assert!(names.contains(&name), "no {name} in {names:?}");
        assert!(std::fs::read(desk.path("prints").join(name)).unwrap().starts_with(b"%PDF-"));
    }
}

#[test]
fn what_can_t_be_printed_is_refused_before_anything_is_written() {
    let desk = Desk::new();
    let before = desk.names();
    for (words, said) in [
        (vec!["--on", "2026-02-30"], "year-month-day"),
        (vec!["--print", "leaflet"], "poster"),
        (vec!["--out", "card.docx"], ".pdf"),
        (vec!["--out", "card.png", "--page", "9"], "no page 9"),
        (vec!["--into", "field.json"], "is a file: --into takes a folder"),
    ] {
        let words = [&["card", "field.json"], &FEW[..], &words].concat();
        let (_, error) = desk.check(&words, 2);
        assert!(error.contains(said), "{words:?}: {error}");
        assert_eq!(desk.names(), before, "{words:?}");
    }
}

#[test]
fn an_expired_plan_says_so_in_every_report() {
    let desk = Desk::new();
    let text = std::fs::read_to_string(desk.path("field.json")).unwrap();
    std::fs::write(desk.path("field.json"), text.replace("2030-03-31", "2026-04-30")).unwrap();
    let card = |on: &str| desk.check(&[&["card", "field.json", "--on", on], &FEW[..]].concat(), 0).0;
    assert!(!card("2026-04-30").contains("EXPIRED"));
    assert!(card("2026-05-01").contains("EXPIRED: this plan was to be checked again by 2026-04-30"));
    // Today lies after that day.
    let said = "EXPIRED: this plan was to be checked again by 2026-04-30";
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        vec!["recover", "field.json"],
        vec!["recover", "field.json", "--json"],
        vec!["radius", "field.json", "--radii", "115 m", "--trials", "1"],
        vec!["wind-limit", "field.json", "--directions", "1", "--trials", "1", "--json"],
        vec!["losses", "field.json", "--cells", "3", "--headings", "1", "--trials", "0"],
    ] {
        let (told, _) = desk.check(&words, 0);
        assert!(flat(&told).contains(said), "{words:?}: {told}");
    }
    let (_, warned) = desk.check(&["check", "field.json"], 0);
    assert!(warned.contains("EXPIRED"), "{warned}");
}
