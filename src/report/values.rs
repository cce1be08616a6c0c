//! How numbers are written in files for other programs.

use serde_json::Value;

/// To a millionth, so that the last bit of a cosine does not make two machines differ; no minus in front of nothing.
pub(super) fn tidy(value: f64) -> f64 {
    rounded(value, 1e6)
}

/// Every number of a block as [`tidy`] has it, but a latitude and a longitude to a billionth of a degree, 0.1 mm.
pub(super) fn tidied(block: Value) -> Value {
    within(block, 1e6)
}

fn within(value: Value, parts: f64) -> Value {
    let of = |key: &str| if matches!(key, "latitude_deg" | "longitude_deg") { 1e9 } else { 1e6 };
    match value {
        Value::Number(number) if number.is_f64() => {
            number.as_f64().map_or(Value::Null, |number| rounded(number, parts).into())
        }
        Value::Array(all) => all.into_iter().map(|inner| within(inner, parts)).collect(),
        Value::Object(all) => all
            .into_iter()
            .map(|(key, inner)| {
                let parts = of(&key);
                (key, within(inner, parts))
            })
            .collect(),
        other => other,
    }
}

fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts + 0.0
}
