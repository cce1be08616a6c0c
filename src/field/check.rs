//! Everything wrong with a field, each with its place.

use super::FieldFile;
use crate::error::Fault;

pub(super) fn check(_file: &FieldFile, _place: &str) -> Vec<Fault> {
    Vec::new()
}
