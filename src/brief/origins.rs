//! Which numbers of a scenario nobody has measured.

use serde_json::Value;

use crate::run::ScenarioFile;

/// The names of the entries that are defaults, and of those that are estimates, in the order of the file.
#[derive(Debug, Clone, PartialEq, Eq, Default, serde::Serialize)]
pub(crate) struct Unmeasured {
    /// Nobody has looked.
    #[serde(rename = "default")]
    pub(crate) defaults: Vec<String>,
    /// Worked out or judged.
    #[serde(rename = "estimated")]
    pub(crate) estimates: Vec<String>,
}

/// Looks through a scenario for entries with an origin, what was left out of the jet among them.
pub(crate) fn unmeasured(file: &ScenarioFile) -> Unmeasured {
    let mut found = Unmeasured::default();
    collect(&serde_json::to_value(file.whole()).unwrap_or_default(), "", &mut found);
    found
}

fn collect(value: &Value, name: &str, found: &mut Unmeasured) {
    match value.get("origin").and_then(Value::as_str) {
        Some("default") => found.defaults.push(name.replace('_', " ")),
        Some("estimated") => found.estimates.push(name.replace('_', " ")),
        _ => value.as_object().into_iter().flatten().for_each(|(key, inner)| collect(inner, key, found)),
    }
}
