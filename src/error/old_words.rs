//! Words that files and commands had before: an old one is refused, and the one that took its place is named.

/// Keys of scenario files and of GeoJSON, old and new.
const KEYS: [(&str, &str); 14] = [
    ("bank_limit", "maximum_bank"),
    ("ceiling", "height_limit"),
    ("firmness", "gain"),
    ("fix_bank", "drift_bank"),
    ("hand_back", "take_over"),
    ("height_standoff", "height_buffer"),
    ("hub_m", "centre_m"),
    ("laps_in_hand", "laps_to_reserve"),
    ("outline", "boundary"),
    ("patches", "areas"),
    ("policy", "failsafe_action"),
    ("recognition", "failsafe_delay"),
    ("stand_m", "pilot_m"),
    ("standoff", "buffer"),
];

/// Words that stand as a value, old and new: of a rule, a loss, a guidance law, and a role in GeoJSON.
const VALUES: [(&str, &str); 11] = [
    ("avoid", "caution"),
    ("fix", "position"),
    ("hub", "centre"),
    ("link", "control"),
    ("never", "no-fly"),
    ("outline", "boundary"),
    ("patch", "area"),
    ("picture", "video"),
    ("ring-field", "field-of-directions"),
    ("stand", "pilot"),
    ("straight-at", "nose-on-the-centre"),
];

/// Commands and options, old and new.
const TYPED: [(&str, &str); 4] =
    [("--case", "--trial"), ("--cases", "--trials"), ("--hub", "--centre"), ("ceiling", "wind-limit")];

fn of(table: &[(&str, &'static str)], word: &str) -> Option<&'static str> {
    table.iter().find(|(old, _)| *old == word).map(|(_, new)| *new)
}

/// What a key is called now; none where it was never a key.
pub fn key(old: &str) -> Option<&'static str> {
    of(&KEYS, old)
}

/// What a key was called before; none where it has always been called so.
pub fn old_key(new: &str) -> Option<&'static str> {
    KEYS.iter().find(|(_, now)| *now == new).map(|(old, _)| *old)
}

/// What a word is called now, where the new one is among those known in its place; none elsewhere.
pub fn value<'a>(old: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'static str> {
    let new = of(&VALUES, old)?;
    known.into_iter().any(|word| word == new).then_some(new)
}

/// What a command or an option is called now; none where there never was one of that name.
pub fn typed(old: &str) -> Option<&'static str> {
    of(&TYPED, old.split('=').next().unwrap_or(old))
}

/// The sentence that names the new word.
pub fn renamed(old: &str, new: &str) -> String {
    format!("`{old}` is now called `{new}`")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_old_word_has_a_new_one_that_is_no_old_one_of_its_kind() {
        for table in [KEYS.as_slice(), &VALUES, &TYPED] {
            for (old, new) in table {
                assert_eq!(of(table, old), Some(*new));
                assert_eq!(of(table, new), None, "{new} is old as well");
            }
        }
        assert_eq!((key("hub_m"), old_key("centre_m"), key("radius")), (Some("centre_m"), Some("hub_m"), None));
        assert_eq!(value("never", ["no-fly", "above"]), Some("no-fly"));
        assert_eq!(value("never", ["return", "cut"]), None);
        assert_eq!(typed("--cases=400"), Some("--trials"));
    }
}
