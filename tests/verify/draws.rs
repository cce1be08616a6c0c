//! Whether every spread of the jet sheet reaches the cases that are drawn.

use peewit::run::{Scenario, WindChoice, draw};
use serde_json::{Value, json};

/// A tenth of a value as it stands in a file: `"2.1 kg"` gives `"0.21 kg"`.
fn tenth(value: &Value) -> Value {
    match value {
        Value::Number(number) => json!(number.as_f64().unwrap() / 10.0),
        Value::String(text) => {
            let (number, unit) = text.split_once(' ').unwrap();
            json!(format!("{} {unit}", number.parse::<f64>().unwrap() / 10.0))
        }
        other => panic!("{other} is no value of the sheet"),
    }
}

#[test]
fn every_spread_of_the_jet_sheet_changes_the_case_drawn() {
    let demo = serde_json::to_value(Scenario::demo().file).unwrap();
    let entries: Vec<String> = demo["jet"]
        .as_object()
        .unwrap()
        .iter()
        .filter(|(_, entry)| entry.get("value").is_some())
        .map(|(key, _)| key.clone())
        .collect();
    assert!(entries.len() >= 17, "{entries:?}");
    for spread_out in &entries {
        let mut file = demo.clone();
        for key in &entries {
            let value = file["jet"][key]["value"].clone();
            let spread = if key == spread_out { tenth(&value) } else { Value::Null };
            let entry = file["jet"][key].as_object_mut().unwrap();
            entry.shift_remove("spread");
            if !spread.is_null() {
                entry.insert("spread".into(), spread);
            }
        }
        let scenario = Scenario::from_file(serde_json::from_value(file).unwrap()).unwrap();
        let jet = |case| draw(&scenario, case, WindChoice::Mean).jet;
        assert_ne!(jet(1), jet(0), "{spread_out}");
        assert_eq!(jet(1), jet(1), "{spread_out}");
    }
}
