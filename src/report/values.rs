//! How a number, a quantity and a choice are written in JSON, in every file that has some.

use serde::Serialize;
use serde_json::Value;

use crate::units::Quantity;

/// To a millionth, so that the last bit of a cosine does not make two machines differ; no minus in front of nothing.
pub(super) fn tidy(value: f64) -> f64 {
    (value * 1e6).round() / 1e6 + 0.0
}

/// A quantity in SI, tidied.
pub(super) fn si(quantity: impl Quantity) -> f64 {
    tidy(quantity.si())
}

/// The name a choice has in a scenario file.
pub(super) fn name(choice: impl Serialize) -> Value {
    serde_json::to_value(choice).unwrap_or_default()
}
