//! What a scenario file says, and everything wrong with it.

use std::path::{Component, Path, PathBuf};

use serde::de::DeserializeOwned;
use serde_json::Value;

use super::check::{check, letters};
use super::schema::SHAPE;
use super::sections::Sections;
use super::{Brief, RuleNote, Scenario, ScenarioFile, date, version};
use crate::error::json::{self, Lines, join};
use crate::error::{Error, Fault, Faults, Result, Severity, at_most, unread};
use crate::field::{Field, FieldFile, GeoField, Month};

/// Largest file read, bytes.
const LARGEST: u64 = 16 << 20;

/// A scenario file, read.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The scenario, where nothing worse than a warning was found.
    pub scenario: Option<Scenario>,
    /// What is written in it, its field inline, where all of it could be understood, faulty or not: a draft to be
    /// fixed.
    pub file: Option<ScenarioFile>,
    /// Everything wrong, in the order of the file.
    pub faults: Vec<Fault>,
}

impl Reading {
    fn refused(faults: Vec<Fault>) -> Self {
        Self { scenario: None, file: None, faults }
    }
}

/// Reads a file. Only a file that can't be read at all is an error; what is wrong inside it is in the reading.
pub fn read(path: &Path) -> Result<Reading> {
    let bytes = bytes(path).map_err(|source| Error::Read { path: path.into(), source })?;
    Ok(match text(bytes) {
        Ok(text) => read_text(&text, path.parent()),
        Err(fault) => Reading::refused(vec![fault]),
    })
}

/// The files that a scenario is read from: its own, and that of its field where it has one. None of them may be written
/// over.
pub fn sources(path: &Path) -> Vec<PathBuf> {
    let value = bytes(path).ok().and_then(|bytes| text(bytes).ok()).and_then(|text| json::parse(&text).ok());
    let name = value.as_ref().and_then(|value| value.get("field_file")?.as_str());
    let field = name.map(|name| path.parent().unwrap_or(Path::new("")).join(name));
    std::iter::once(path.to_owned()).chain(field).collect()
}

/// The bytes of a file, and one more than the largest allowed where it is larger than that.
pub(super) fn bytes(path: &Path) -> std::io::Result<Vec<u8>> {
    use std::io::Read as _;
    let mut bytes = Vec::new();
    std::fs::File::open(path)?.take(LARGEST + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The text of a file, without the byte order mark that some editors put in front.
pub(super) fn text(bytes: Vec<u8>) -> Result<String, Fault> {
    if bytes.len() as u64 > LARGEST {
        let problem = format!("the file is larger than {} MiB", LARGEST >> 20);
        return Err(Fault::error("", problem, "A scenario has a few kilobytes; check that this is one"));
    }
    let text = String::from_utf8(bytes).map_err(|error| {
        let before = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = before.split(|&byte| byte == b'\n').count();
        // No text holds a nothing, but for one of two bytes a letter.
        let wide = error.as_bytes().starts_with(&[0xff, 0xfe]) || error.as_bytes().starts_with(&[0xfe, 0xff]);
        if error.as_bytes().contains(&0) && !wide {
            let way_out = "It may be a picture, a PDF or a packed file: check that it is the file you mean";
            return Fault::error("", "the file is no text", way_out);
        }
        let way_out = "Save it as UTF-8 from the editor it was written with";
        Fault { line: Some(line), ..Fault::error("", "the file is not text in UTF-8", way_out) }
    })?;
    Ok(text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text))
}

/// Reads the text of a file that stands in `folder`, which is where its `field_file` is looked for.
pub fn read_text(text: &str, folder: Option<&Path>) -> Reading {
    let value = match json::parse(text) {
        Ok(value) => value,
        Err(fault) => return Reading::refused(vec![fault]),
    };
    if matches!(value["type"].as_str(), Some("FeatureCollection" | "Feature")) {
        let way_out = "Write a scenario with `peewit new`, and in it \"field_file\" with the name of this file instead of \
                       \"field\"";
        return Reading::refused(vec![Fault::error("", "this is a field in GeoJSON, not a scenario", way_out)]);
    }
    let lines = Lines::of(text);
    let mut faults = lines.twice().to_vec();
    // A key that does not belong there is a fault, and keeps nobody from looking at the others.
    let known = SHAPE.known(&value);
    let departures = faults.iter().cloned().chain(SHAPE.faults(&known, "")).collect();
    faults.extend(SHAPE.faults(&value, ""));
    let mut parts = Parts { value: &known, departures, faults };
    let field_file = parts.section::<FieldFile>("field");
    let outside = parts.section::<PathBuf>("field_file");
    let date = parts.section::<String>("date");
    let month = date.as_deref().and_then(date::month).unwrap_or(Month::Jan);
    let (field_file, field) = match (field_file, outside) {
        (inline, None) => {
            if value.is_object() && value.get("field").is_none() && value.get("field_file").is_none() {
                parts.faults.push(no_field());
            }
            let built = inline.as_ref().and_then(|file| parts.take(Field::build(file, "/field", month)));
            (inline, built)
        }
        (None, Some(outside)) if value.get("field").is_none() => {
            let (file, field, faults) = elsewhere(&outside, folder, month);
            parts.faults.extend(faults);
            (file, field)
        }
        (inline, Some(_)) => {
            let way_out = "Keep one of the two";
            parts.faults.push(Fault::error("/field_file", "`field` and `field_file` are both there", way_out));
            let _ = inline.as_ref().and_then(|file| parts.take(Field::build(file, "/field", month)));
            (None, None)
        }
    };
    let (name, jet) = (parts.section::<String>("name"), parts.section("jet"));
    let (wind, air, loss) = (parts.section("wind"), parts.section("air"), parts.section("loss"));
    let (recovery, limits) = (parts.section("recovery"), parts.section("limits"));
    let rules = parts.section::<Vec<RuleNote>>("rules");
    let brief = parts.section::<Brief>("brief");
    let notes = parts.section::<Vec<String>>("notes");
    let sections = Sections {
        format: parts.section("peewit"),
        notes: notes.as_deref(),
        name: name.as_deref(),
        date: date.as_deref(),
        field: field.as_ref(),
        jet: jet.as_ref(),
        wind: wind.as_ref(),
        air: air.as_ref(),
        loss: loss.as_ref(),
        recovery: recovery.as_ref(),
        limits: limits.as_ref(),
        rules: rules.as_deref(),
        brief: brief.as_ref(),
    };
    parts.faults.extend(check(&sections));
    parts.faults.extend(letters::check(&known, ""));
    let mut faults = parts.faults;
    let file = typed(value, field_file, &mut faults);
    let good = faults.iter().all(|fault| fault.severity < Severity::Error);
    faults.extend(file.iter().flat_map(version::check));
    let scenario = file.clone().filter(|_| good).zip(field).map(|(file, field)| Scenario { file, field });
    let mut faults = at_most(faults);
    lines.mark(&mut faults);
    faults.sort_by_key(|fault| fault.line.unwrap_or(usize::MAX));
    Reading { scenario, file, faults }
}

fn no_field() -> Fault {
    let way_out = "Add \"field\", or \"field_file\" with the name of a GeoJSON file beside this one";
    Fault::error("", "the scenario has no field", way_out)
}

/// What is written in the file, where each value of it is of its kind and it has one field.
fn typed(mut value: Value, field: Option<FieldFile>, faults: &mut Vec<Fault>) -> Option<ScenarioFile> {
    let field = field?;
    // A scenario carries its field with it, wherever that came from, so that its hash covers it.
    value.as_object_mut()?.retain(|key, _| key != "field" && key != "field_file");
    match serde_json::from_value::<ScenarioFile>(value) {
        Ok(head) => Some(ScenarioFile { field: Some(field), ..head }),
        Err(error) => {
            if faults.iter().all(|fault| fault.severity < Severity::Error) {
                faults.push(Fault::error("", error.to_string(), "Fix that value"));
            }
            None
        }
    }
}

/// A scenario's value, of which each section is read by itself, so that a fault in one hides none in another.
struct Parts<'a> {
    value: &'a Value,
    /// What of its shape leaves a section unread.
    departures: Vec<Fault>,
    faults: Vec<Fault>,
}

impl Parts<'_> {
    /// A section that has the shape it should have.
    fn section<T: DeserializeOwned>(&mut self, key: &str) -> Option<T> {
        let section = self.value.get(key)?;
        let place = join("", key);
        let inside = |fault: &Fault| {
            fault.place.strip_prefix(&place).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
        };
        if self.departures.iter().any(|fault| fault.severity == Severity::Error && inside(fault)) {
            return None;
        }
        serde_json::from_value(section.clone())
            .map_err(|error| self.faults.push(Fault::error(place, error.to_string(), "Fix that value")))
            .ok()
    }

    fn take<T>(&mut self, (value, faults): (Option<T>, Vec<Fault>)) -> Option<T> {
        self.faults.extend(faults);
        value
    }
}

/// The field of a GeoJSON file beside the scenario.
fn elsewhere(name: &Path, folder: Option<&Path>, month: Month) -> (Option<FieldFile>, Option<Field>, Vec<Fault>) {
    let refuse = |problem: String, way_out: &str| (None, None, vec![Fault::error("/field_file", problem, way_out)]);
    let plain = name.components().all(|part| matches!(part, Component::Normal(_)));
    let (Some(folder), true) = (folder, plain && name.file_name().is_some()) else {
        let problem = format!("\"{}\" can't be looked for", name.display());
        return refuse(problem, "Write the name of a file that stands beside this one, without a path from the root");
    };
    let text = match bytes(&folder.join(name)) {
        Ok(bytes) => text(bytes),
        Err(error) => {
            let (problem, _) = unread(name, &error);
            return refuse(problem, "Put the GeoJSON file of the field beside this one, and write its name here");
        }
    };
    let GeoField { file, mut faults, places } = match text {
        Ok(text) => GeoField::read(&text),
        Err(fault) => GeoField { file: None, faults: vec![fault], places: Default::default() },
    };
    let field = file.as_ref().and_then(|file| {
        let (field, mut found) = Field::build(file, "", month);
        found.extend(serde_json::to_value(file).iter().flat_map(|value| letters::check(value, "")));
        faults.extend(found.into_iter().map(|fault| places.translate(fault)));
        field
    });
    for fault in &mut faults {
        fault.place = format!("{}#{}", name.display(), fault.place);
    }
    (file, field, faults)
}

impl Scenario {
    /// The scenario of a file, with its warnings.
    pub fn load(path: &Path) -> Result<(Self, Vec<Fault>)> {
        let Reading { scenario, faults, .. } = read(path)?;
        match scenario {
            Some(scenario) => Ok((scenario, faults)),
            None => Err(Error::Input(Faults { file: path.into(), faults })),
        }
    }

    /// A strip hemmed in by a paddock, its circle over the people: the place that the hand-worked distances of tests
    /// belong to.
    #[cfg(test)]
    pub(crate) fn tight_strip() -> Self {
        read_text(include_str!("../../tests/fixtures/tight-strip.json"), None).scenario.unwrap()
    }

    /// The scenario of a file in memory, such as one that has been edited. Its field must be inline.
    pub fn from_file(file: ScenarioFile) -> Result<Self, Vec<Fault>> {
        let Some(inline) = &file.field else { return Err(vec![no_field()]) };
        let month = date::month(&file.date).unwrap_or(Month::Jan);
        let (field, mut faults) = Field::build(inline, "/field", month);
        faults.extend(check(&Sections::of(&file, field.as_ref())));
        faults.extend(version::check(&file));
        faults.extend(serde_json::to_value(&file).iter().flat_map(|value| letters::check(value, "")));
        match field {
            Some(field) if faults.iter().all(|fault| fault.severity < Severity::Error) => {
                Ok(Self { file: ScenarioFile { field_file: None, ..file }, field })
            }
            _ => Err(at_most(faults)),
        }
    }

    /// What is worth a look in this scenario, though it can be used.
    pub fn warnings(&self) -> Vec<Fault> {
        let month = date::month(&self.file.date).unwrap_or(Month::Jan);
        let mut faults = self.file.field.as_ref().map(|file| Field::build(file, "/field", month).1).unwrap_or_default();
        faults.extend(check(&Sections::of(&self.file, Some(&self.field))));
        faults.extend(version::check(&self.file));
        faults
    }
}
