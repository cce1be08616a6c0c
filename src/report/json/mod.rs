//! Every report for other programs: everything the text says and the numbers behind it, SI with the unit in the key.

mod answer;
mod blocks;
mod keep;
mod losses;
mod radius;
mod recovery;
mod study;
mod trials;
mod wind_limit;

pub(super) use answer::{Answer, People};
pub(super) use blocks::amounts;
pub(super) use keep::Line;
pub(super) use recovery::recovery;
pub(super) use study::study;
pub(super) use trials::{Verdict, outcomes};

use serde::Serialize;

use super::values::tidied;
use crate::{Error, Result};

/// A report, indented, with a line end.
pub(super) fn written(report: &impl Serialize) -> Result<String> {
    let text = serde_json::to_value(report).and_then(|report| serde_json::to_string_pretty(&tidied(report)));
    text.map(|text| text + "\n").map_err(|why| Error::Asked(format!("can't write the report as JSON: {why}")))
}
