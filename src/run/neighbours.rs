//! What people beside the field, an agent, a parish council or an insurer ask of a plan, as far as it is agreed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What is agreed with people beside the field. Whatever is left out is printed as a question with a line to write on.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Neighbours {
    /// Paths and roads that anybody may use within reach, and who watches them while flying.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub footpaths: String,
    /// How loud the jet is, measured where and how, and what is agreed about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub noise: String,
    /// Whom to complain to, and what happens then.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub complaints: String,
    /// How people come onto the ground, and who may fetch a jet from land that is not ours.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub access: String,
}

impl Neighbours {
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
