//! The shape of a scenario file as JSON Schema, derived from the types.

use std::sync::LazyLock;

use serde_json::Value;

use super::ScenarioFile;
use crate::units::Shape;

/// The shape every scenario file is held against.
pub(super) static SHAPE: LazyLock<Shape> = LazyLock::new(Shape::of::<ScenarioFile>);

/// JSON Schema (draft 2020-12) of a scenario file.
pub fn schema() -> Value {
    SHAPE.schema().clone()
}
