//! `peewit verify` as people run it: the table on the screen and in files, and the committee pack that prints it.

use peewit::verify::Checked;
use serde_json::Value;

use crate::commands::Desk;

#[test]
fn the_table_holds_is_kept_and_goes_into_the_pack() {
    let desk = Desk::new();
    let (text, said) = desk.check(&["verify", "--quick", "--seed", "7", "--out", "checks.json", "--out", "a.txt"], 0);
    assert!(said.contains("checks.json") && text == std::fs::read_to_string(desk.path("a.txt")).unwrap());
    let heads = ["Closed forms", "Published figures", "Work and energy", "finer steps", "Fresh cases"];
    for told in heads.into_iter().chain(["checks held.", "seed 7", "ICAO Doc 8168", "Planning aid"]) {
        assert!(text.contains(told), "{told}");
    }
    let kept = Checked::read(&desk.path("checks.json")).unwrap();
    assert!(kept.holds() && kept.lines.len() > 100 && kept.seed == 7);
    let json: Value = serde_json::from_slice(&std::fs::read(desk.path("checks.json")).unwrap()).unwrap();
    assert_eq!(json["held"], Value::Bool(true));
    assert!(json["lines"].as_array().unwrap().iter().all(|line| line["held"] == Value::Bool(true)));

    let pack = ["card", "field.json", "--trials", "1", "--print", "pack", "--checks", "checks.json"];
    desk.check(&[&pack[..], &["--out", "pack.html"]].concat(), 0);
    let html = std::fs::read_to_string(desk.path("pack.html")).unwrap();
    assert!(html.contains("What the sums are checked against") && !html.contains("not run for this pack"));
    // What is read is not written over, and a run that is none is refused.
    desk.check(&[&pack[..], &["--out", "checks.json"]].concat(), 2);
    let (_, said) = desk.check(&["card", "field.json", "--print", "pack", "--checks", "field.json"], 2);
    assert!(said.contains("is not what `peewit verify"), "{said}");
    let (_, said) = desk.check(&["card", "field.json", "--checks", "checks.json"], 2);
    assert!(said.contains("--print pack"), "{said}");
}
