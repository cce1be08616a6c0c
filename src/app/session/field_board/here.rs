//! Which faults lie where on the map, and in which words.

use super::{Chosen, Part};
use crate::error::Fault;
use crate::run::ScenarioFile;

/// The faults of one place of the map.
#[derive(Debug, Clone, PartialEq)]
pub struct Here<'a> {
    /// The part, and its corner where the fault is at one.
    pub at: Chosen,
    /// The faults, in the order of the file.
    pub faults: Vec<&'a Fault>,
}

/// The faults that belong to a part of the field, gathered by place.
pub fn here<'a>(file: &ScenarioFile, faults: &'a [Fault]) -> Vec<Here<'a>> {
    let mut found: Vec<Here<'a>> = Vec::new();
    for fault in faults {
        let Some(mut at) = Part::of_place(&fault.place) else { continue };
        let count = at.part.points(file).len();
        at.corner = at.corner.filter(|corner| *corner < count);
        match found.iter_mut().find(|known| known.at == at) {
            Some(known) => known.faults.push(fault),
            None => found.push(Here { at, faults: vec![fault] }),
        }
    }
    found
}

/// The words of a fault for the map, where corners and other things are counted from 1 as people count.
pub fn as_people_count(text: &str) -> String {
    const FROM_ZERO: &str = "counted from 0";
    if !text.contains(FROM_ZERO) && !text.contains("from corner ") {
        return text.to_owned();
    }
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let bare = word.trim_end_matches([',', '.', ')']);
        let end = &word[bare.len()..];
        let last = words.last().map(String::as_str).unwrap_or_default();
        let before = words.len().checked_sub(3).map(|at| words[at].as_str()).unwrap_or_default();
        let counts =
            ["corner", "hole", "area", "obstacle", "height"].contains(&last) || (last == "to" && before == "corner");
        let number = bare.parse::<u64>().ok().filter(|_| counts);
        words.push(number.map_or_else(|| word.to_owned(), |number| format!("{}{end}", number + 1)));
    }
    words.join(" ").replace(" (counted from 0)", "").replace(", counted from 0", "")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::{Scenario, ScenarioFile};

    fn faulty() -> (ScenarioFile, Vec<Fault>) {
        let mut file = Scenario::tight_strip().file;
        let field = file.field.as_mut().unwrap();
        // Two corners exchanged: the ring crosses itself.
        field.areas[0].ring_m.swap(1, 2);
        field.areas[1].name = field.areas[0].name.clone();
        field.home_m = [900.0, 0.0];
        let faults = Scenario::from_file(file.clone()).unwrap_err();
        (file, faults)
    }

    #[test]
    fn faults_are_found_at_their_part_and_corner() {
        let (file, faults) = faulty();
        let found: Vec<Chosen> = here(&file, &faults).into_iter().map(|here| here.at).collect();
        let at = |part, corner| Chosen { part, corner };
        assert!(
            found.contains(&at(Part::Area(0), Some(0))) || found.contains(&at(Part::Area(0), Some(1))),
            "{found:?}"
        );
        assert!(found.contains(&at(Part::Area(1), None)) && found.contains(&at(Part::Home, None)), "{found:?}");
    }

    #[test]
    fn a_sound_field_has_no_fault_on_the_map() {
        let scenario = Scenario::demo();
        assert!(here(&scenario.file, &scenario.warnings()).is_empty());
    }

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(as_people_count(text), expected);
    }

    #[test]
    fn corners_are_counted_as_people_count() {
        check(
            "the edge from corner 0 to 1 meets the edge from corner 2 to 3 at (10.0, 20.0) m",
            "the edge from corner 1 to 2 meets the edge from corner 3 to 4 at (10.0, 20.0) m",
        );
        check("Move or reorder those corners (counted from 0) so that it", "Move or reorder those corners so that it");
        check("\"a\" is already the name of area 0, counted from 0", "\"a\" is already the name of area 1");
        check("the ring has 2 different corners", "the ring has 2 different corners");
    }
}
