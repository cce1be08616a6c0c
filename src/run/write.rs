//! A scenario back to text, to a file, and to a hash that names it.

use std::path::Path;

use serde_json::Value;
use sha2::{Digest as _, Sha256};

use super::{Scenario, ScenarioFile, WholeFile};
use crate::error::{Result, json};

/// Keys that files did without at first. At its default none of them is hashed, so that a card in somebody's pocket goes
/// on naming the file it was printed from.
const YOUNGER: [&str; 13] = [
    "/jet/part_throttle_loss",
    "/limits/crossed_at_most",
    "/limits/kept_at_least",
    "/limits/people_buffer",
    "/limits/stall_factor_moment",
    "/limits/stall_over",
    "/recovery/load_lag",
    "/recovery/perception/flew_early",
    "/recovery/perception/height_wander",
    "/recovery/perception/height_wander_over",
    "/recovery/perception/static_error",
    "/recovery/speed_hold",
    "/wind/terrain",
];

fn remove(all: &mut Value, place: &str) {
    let (parent, key) = place.rsplit_once('/').unwrap_or_default();
    if let Some(members) = all.pointer_mut(parent).and_then(Value::as_object_mut) {
        members.shift_remove(key);
    }
}

/// The first twelve hexadecimal digits of the SHA-256 of a text.
fn digits(text: &str) -> String {
    Sha256::digest(text).iter().take(6).map(|byte| format!("{byte:02x}")).collect()
}

impl ScenarioFile {
    /// Names the file by its text, without the younger keys left at their defaults.
    pub(super) fn named(&self) -> String {
        let mut all = serde_json::to_value(self).unwrap_or_default();
        let mut bare = all.clone();
        YOUNGER.iter().for_each(|place| remove(&mut bare, place));
        let usual = serde_json::from_value::<Self>(bare).and_then(serde_json::to_value).unwrap_or_default();
        for place in YOUNGER {
            if all.pointer(place) == usual.pointer(place) {
                remove(&mut all, place);
            }
        }
        digits(&json::print(&all))
    }

    /// As it stands in a file, faulty or not: pretty JSON, keys in a fixed order.
    pub fn to_text(&self) -> String {
        json::print(&serde_json::to_value(self).unwrap_or_default())
    }

    /// Writes the file whole: nobody ever sees half of it, even if the power fails.
    pub fn save(&self, path: &Path) -> Result<()> {
        WholeFile::open(path)?.write(self.to_text().as_bytes())
    }
}

impl Scenario {
    /// As it stands in a file: pretty JSON, keys in a fixed order, the field inline.
    pub fn to_text(&self) -> String {
        self.file.to_text()
    }

    /// Names this scenario: twelve hexadecimal digits that any change of it changes.
    pub fn hash(&self) -> String {
        self.file.named()
    }

    /// Writes the file whole: nobody ever sees half of it, even if the power fails.
    pub fn save(&self, path: &Path) -> Result<()> {
        self.file.save(path)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn younger_keys_are_hashed_only_where_they_say_something() {
        let file = Scenario::tight_strip().file;
        let mut old = serde_json::to_value(&file).unwrap();
        for place in YOUNGER {
            assert!(old.pointer(place).is_some(), "{place}");
            remove(&mut old, place);
        }
        // As a program hashed it that had never heard of them.
        assert_eq!(file.named(), digits(&json::print(&old)));
        let mut asked = file.clone();
        asked.limits.stall_factor_moment += 0.01;
        assert_ne!(asked.named(), file.named());
    }
}
