//! Every number and word of a scenario's file with what it means, where it came from and how far it may be off: taken from
//! the file itself and its schema, so that none can be forgotten.

use serde_json::{Map, Value};

/// Where a number came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kept {
    /// Measured on this jet.
    Measured,
    /// Judged by somebody.
    Estimated,
    /// The tool's own: nobody has looked.
    Default,
    /// Decided, or read off the day: it has no origin in the file.
    Written,
}

/// One line of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Item {
    /// Its keys, such as "wind / mean".
    pub(crate) key: String,
    /// What it is.
    pub(crate) label: String,
    /// Its value in print.
    pub(crate) value: String,
    /// One standard deviation in print; none where it has none in the file.
    pub(crate) spread: Option<String>,
    /// Where it came from.
    pub(crate) kept: Kept,
}

/// The lines of one section of the file, such as "jet".
pub(crate) fn items(file: &Value, schema: &Value, section: &str) -> Vec<Item> {
    let node = resolved(&schema["properties"][section], schema);
    let mut found = Vec::new();
    match &file[section] {
        Value::Object(members) => walk(members, node, schema, "", &mut found),
        Value::Null => {}
        value => found.extend(leaf(section, "", value, &schema["properties"][section])),
    }
    found
}

fn walk(members: &Map<String, Value>, node: &Value, schema: &Value, of: &str, found: &mut Vec<Item>) {
    for (key, value) in members {
        let wanted = &node["properties"][key];
        let label = format!("{of}{}", described(key, wanted));
        match value {
            Value::Object(entry) if entry.contains_key("value") => found.push(entry_item(key, &label, entry)),
            Value::Object(inner) => {
                let of = format!("{}: ", label.trim_end_matches('.'));
                walk(inner, resolved(wanted, schema), schema, &of, found);
            }
            value => found.extend(leaf(key, of, value, wanted)),
        }
    }
}

fn entry_item(key: &str, label: &str, entry: &Map<String, Value>) -> Item {
    let kept = match entry.get("origin").and_then(Value::as_str) {
        Some("measured") => Kept::Measured,
        Some("estimated") => Kept::Estimated,
        _ => Kept::Default,
    };
    let value = entry.get("value").map(told).unwrap_or_default();
    Item { key: key.into(), label: label.into(), value, spread: entry.get("spread").map(told), kept }
}

fn leaf(key: &str, of: &str, value: &Value, wanted: &Value) -> Option<Item> {
    let own = &wanted["default"];
    // A number typed in that is the tool's own can't be told from one left out: both are the tool's own.
    let same = match (value.as_f64(), own.as_f64()) {
        (Some(one), Some(other)) => (one - other).abs() < 1e-12,
        _ => !own.is_null() && value == own,
    };
    let unit = if key.ends_with("_m") { " m" } else { "" };
    let value = told(value) + unit;
    let kept = if same { Kept::Default } else { Kept::Written };
    let label = format!("{of}{}", described(key, wanted));
    (value != unit).then(|| Item { key: key.into(), label, value, spread: None, kept })
}

/// What the schema says of a key, without the full stop.
fn described(key: &str, wanted: &Value) -> String {
    match wanted["description"].as_str() {
        Some(words) => words.replace('`', "").trim_end_matches('.').split_whitespace().collect::<Vec<_>>().join(" "),
        None => key.replace('_', " "),
    }
}

/// The definition that a node points to.
fn resolved<'s>(node: &'s Value, schema: &'s Value) -> &'s Value {
    let pointer = node["$ref"].as_str().and_then(|reference| reference.strip_prefix('#'));
    pointer.and_then(|pointer| schema.pointer(pointer)).unwrap_or(node)
}

/// A value in print.
pub(crate) fn told(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::Bool(true) => "yes".into(),
        Value::Bool(false) => "no".into(),
        Value::Number(number) => number.as_f64().map_or_else(|| number.to_string(), |number| number.to_string()),
        Value::String(words) => words.clone(),
        Value::Array(all) if all.iter().all(Value::is_number) => {
            format!("({})", all.iter().map(told).collect::<Vec<_>>().join(", "))
        }
        Value::Array(all) => all.iter().map(told).collect::<Vec<_>>().join("; "),
        Value::Object(members) => {
            members.values().map(told).filter(|words| !words.is_empty()).collect::<Vec<_>>().join(", ")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::{Scenario, schema};

    #[track_caller]
    fn check(section: &str, key: &str, value: &str, spread: Option<&str>, kept: Kept) {
        let file = serde_json::to_value(&Scenario::tight_strip().file).unwrap();
        let found = items(&file, &schema(), section);
        let item = found.iter().find(|item| item.key == key).unwrap();
        assert_eq!((item.value.as_str(), item.spread.as_deref(), item.kept), (value, spread, kept), "{key}");
        assert!(item.label.len() > 3, "{}", item.label);
    }

    #[test]
    fn values_spreads_and_origins_are_those_of_the_file() {
        check("jet", "mass", "2.1 kg", Some("0.063 kg"), Kept::Measured);
        check("jet", "fan_efficiency", "50 %", Some("5 %"), Kept::Default);
        check("wind", "mean", "6 m/s", None, Kept::Written);
        check("wind", "terrain", "open", None, Kept::Default);
        check("limits", "height", "120 m", None, Kept::Written);
        check("recovery", "fix_rate", "10 Hz", None, Kept::Default);
        check("loss", "at_m", "(200, 30) m", None, Kept::Written);
        check("seed", "seed", "1", None, Kept::Written);
    }
}
