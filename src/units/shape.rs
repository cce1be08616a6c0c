//! In which ways a JSON value departs from the shape its type wants: all of them, each in plain words.

use std::collections::HashSet;

use jsonschema::error::{TypeKind, ValidationErrorKind};
use jsonschema::{ValidationError, Validator};
use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
use serde_json::Value;

use super::{Bearing, Quantity as _, Temperature, UnitError, check_format, conversions};
use crate::error::json::{did_you_mean, join};
use crate::error::{Fault, MOST_TOLD, old_words, others_left};

/// How a format says that a number and a unit are wanted.
const WITH_UNIT: &str = "-with-unit";

/// The JSON Schema of a type, ready to hold values against.
#[derive(Debug)]
pub struct Shape {
    schema: Value,
    validator: Result<Validator, String>,
}

impl Shape {
    /// The shape of a type.
    pub fn of<T: JsonSchema>() -> Self {
        let settings = SchemaSettings::draft2020_12().with_transform(RecursiveTransform(tighten));
        let schema = settings.into_generator().into_root_schema_for::<T>().to_value();
        let mut kinds: Vec<_> = conversions().into_iter().map(|(kind, ..)| kind).collect();
        kinds.dedup();
        kinds.push(Temperature::KIND);
        let formats = jsonschema::options().should_validate_formats(true);
        let formats = formats.with_format("bearing", |text| text.parse::<Bearing>().is_ok());
        let formats = kinds.into_iter().fold(formats, |formats, kind| {
            formats.with_format(format!("{kind}{WITH_UNIT}"), |text| {
                check_format(kind, text).is_none_or(|read| read.is_ok())
            })
        });
        let validator = formats.build(&schema).map_err(|error| error.to_string());
        Self { schema, validator }
    }

    /// JSON Schema, draft 2020-12.
    ///
    /// Strings with a format such as "length-with-unit" are a number and a unit; those with the format "bearing" are an
    /// angle or a point of the compass.
    pub fn schema(&self) -> &Value {
        &self.schema
    }

    /// Every way in which `value`, which stands at `place`, departs from the shape.
    pub fn faults(&self, value: &Value, place: &str) -> Vec<Fault> {
        let validator = match &self.validator {
            Ok(validator) => validator,
            Err(error) => return vec![Fault::error(place, error, "This is a fault of the program; please report it")],
        };
        let (mut faults, mut others) = (Vec::new(), 0);
        for error in validator.iter_errors(value) {
            let found = match error.kind() {
                ValidationErrorKind::AdditionalProperties { unexpected } => unexpected.len(),
                _ => 1,
            };
            let room = MOST_TOLD - faults.len();
            // What is only counted needs no words.
            if room > 0 {
                faults.extend(self.explain(&error, place).into_iter().take(room));
            }
            others += found.saturating_sub(room);
        }
        if others > 0 {
            faults.push(others_left(others));
        }
        faults
    }

    /// The value without the keys that its objects may not have: what is wrong with the rest can be told all the same.
    pub fn known(&self, value: &Value) -> Value {
        let mut known = value.clone();
        let errors = self.validator.iter().flat_map(|validator| validator.iter_errors(value));
        for error in errors {
            if let ValidationErrorKind::AdditionalProperties { unexpected } = error.kind()
                && let Some(Value::Object(object)) = known.pointer_mut(error.instance_path().as_str())
            {
                let unexpected: HashSet<&String> = unexpected.iter().collect();
                object.retain(|key, _| !unexpected.contains(key));
            }
        }
        known
    }

    fn explain(&self, error: &ValidationError<'_>, place: &str) -> Vec<Fault> {
        let place = format!("{place}{}", error.instance_path().as_str());
        let keyword = error.schema_path().as_str();
        let wanted = keyword.rfind('/').and_then(|at| self.schema.pointer(&keyword[..at])).unwrap_or(&Value::Null);
        let found = error.instance().as_ref();
        match error.kind() {
            ValidationErrorKind::AdditionalProperties { unexpected } => {
                unexpected.iter().take(MOST_TOLD).map(|key| unknown_key(&place, key, wanted)).collect()
            }
            ValidationErrorKind::Required { property } => {
                // Where its old name stands, that is told already.
                let old = property.as_str().and_then(old_words::old_key);
                let is_there = old.is_some_and(|old| found.get(old).is_some());
                if is_there { vec![] } else { vec![missing_key(place, property, wanted)] }
            }
            ValidationErrorKind::Format { .. } => vec![bad_quantity(place, found, wanted)],
            ValidationErrorKind::Type { .. } if is_quantity(wanted) && found.is_number() => {
                vec![bad_quantity(place, found, wanted)]
            }
            kind => vec![departure(place, kind, found, wanted)],
        }
    }
}

/// What may be left out is left out, never null; and a whole number fits its size.
fn tighten(schema: &mut Schema) {
    let Some(object) = schema.as_object_mut() else { return };
    if let Some(Value::Array(types)) = object.get_mut("type") {
        types.retain(|kind| kind != "null");
        if let [only] = types.as_slice() {
            let only = only.clone();
            object.insert("type".into(), only);
        }
    }
    if let Some(Value::Array(choices)) = object.get("anyOf")
        && let [Value::Object(wanted), null] = choices.as_slice()
        && null["type"] == "null"
    {
        let wanted = wanted.clone();
        object.remove("anyOf");
        object.extend(wanted);
    }
    let most = match object.get("format").and_then(Value::as_str) {
        Some("uint32") => u64::from(u32::MAX),
        Some("uint64") => u64::MAX,
        _ => return,
    };
    object.insert("maximum".into(), most.into());
}

fn unknown_key(place: &str, key: &str, wanted: &Value) -> Fault {
    let known: Vec<&str> =
        wanted["properties"].as_object().into_iter().flat_map(|p| p.keys().map(String::as_str)).collect();
    if let Some(new) = old_words::key(key).filter(|new| known.contains(new)) {
        return Fault::error(join(place, key), old_words::renamed(key, new), format!("Write \"{new}\" instead"));
    }
    let way_out = format!("{}Known here: {}", did_you_mean(key, known.iter().copied()), known.join(", "));
    Fault::error(join(place, key), format!("\"{key}\" is not a key of this object"), way_out)
}

fn missing_key(place: String, key: &Value, wanted: &Value) -> Fault {
    let key = key.as_str().unwrap_or_default();
    let about = wanted["properties"][key]["description"].as_str().unwrap_or_default();
    Fault::error(place, format!("\"{key}\" is missing"), format!("Add \"{key}\": {}", lower(about)))
}

/// A description as the rest of a sentence.
fn lower(text: &str) -> String {
    let text = text.trim_end_matches('.');
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

fn is_quantity(wanted: &Value) -> bool {
    wanted["format"].as_str().is_some_and(|format| format == "bearing" || format.ends_with(WITH_UNIT))
}

/// A number and a unit that can't be read as the quantity wanted.
fn bad_quantity(place: String, found: &Value, wanted: &Value) -> Fault {
    let text = found.as_str().map_or_else(|| found.to_string(), str::to_owned);
    let format = wanted["format"].as_str().unwrap_or_default();
    let told = |error: UnitError, more| {
        let way_out = error.way_out();
        Fault::error(place.clone(), error.problem(), format!("{}{more}", capital(&way_out)))
    };
    if format == "bearing" {
        let error = text.parse::<Bearing>().err();
        return error
            .map(|error| told(error, ", or write a point of the compass such as \"SW\""))
            .unwrap_or_else(|| Fault::error(place.clone(), format!("{text} is not text"), "Put it in quotes"));
    }
    match check_format(format.trim_end_matches(WITH_UNIT), &text) {
        Some(Err(error)) => told(error, ""),
        _ => Fault::error(place, format!("{text} is not wanted here"), "Write a number and its unit, in quotes"),
    }
}

/// With a capital letter.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Every other departure.
fn departure(place: String, kind: &ValidationErrorKind, found: &Value, wanted: &Value) -> Fault {
    let items = found.as_array().map_or(0, Vec::len);
    match kind {
        ValidationErrorKind::OneOfNotValid { .. } | ValidationErrorKind::Enum { .. } => {
            wrong_word(place, found, wanted)
        }
        ValidationErrorKind::MinItems { limit } | ValidationErrorKind::MaxItems { limit } => {
            let (problem, way_out) = match wanted["items"]["type"].as_str() {
                Some("number") => (
                    format!("{items} numbers where a position has {limit}"),
                    "Write a position as [east, north], metres about the datum".to_owned(),
                ),
                _ => (format!("{items} entries where {limit} are wanted"), format!("Write {limit} entries")),
            };
            Fault::error(place, problem, way_out)
        }
        ValidationErrorKind::Minimum { limit } => {
            Fault::error(place, format!("{found} is too small"), format!("Write {limit} or more"))
        }
        ValidationErrorKind::Maximum { limit } => {
            Fault::error(place, format!("{found} is too large"), format!("Write {limit} or less"))
        }
        ValidationErrorKind::Type { kind } => {
            let kind = match kind {
                TypeKind::Single(kind) => kind.as_str(),
                TypeKind::Multiple(_) => "value",
            };
            let problem = format!("{} stands where {} is wanted", found_word(found), wanted_word(kind));
            Fault::error(place, problem, type_way_out(kind, found, wanted))
        }
        other => Fault::error(place, format!("{found} does not fit ({})", other.keyword()), "See `peewit schema`"),
    }
}

fn wrong_word(place: String, found: &Value, wanted: &Value) -> Fault {
    let listed = wanted["oneOf"].as_array().or(wanted["enum"].as_array());
    let words: Vec<&str> = listed
        .into_iter()
        .flatten()
        .filter_map(|choice| choice.as_str().or_else(|| choice["const"].as_str()))
        .collect();
    let renamed = found.as_str().and_then(|old| Some((old, old_words::value(old, words.iter().copied())?)));
    if let Some((old, new)) = renamed {
        return Fault::error(place, old_words::renamed(old, new), format!("Write \"{new}\" instead"));
    }
    let meant = found.as_str().map(|word| did_you_mean(word, words.iter().copied())).unwrap_or_default();
    // A guess between left and right would be wrong half the time, and believed.
    let meant = if words.contains(&"clockwise") { String::new() } else { meant };
    let problem = format!("{} is not one of the words known here", short(found));
    Fault::error(place, problem, format!("{meant}Write one of: {}", words.join(", ")))
}

/// A value for a message, never long.
fn short(value: &Value) -> String {
    let text = value.to_string();
    if text.chars().count() <= 40 { text } else { format!("{}...", text.chars().take(37).collect::<String>()) }
}

fn found_word(value: &Value) -> String {
    match value {
        Value::Null => "null".into(),
        Value::Bool(_) | Value::Number(_) | Value::String(_) => short(value),
        Value::Array(_) => "a list".into(),
        Value::Object(_) => "an object".into(),
    }
}

fn wanted_word(kind: &str) -> &str {
    match kind {
        "object" => "an object",
        "array" => "a list",
        "string" => "text",
        "integer" => "a whole number",
        "number" => "a number",
        "boolean" => "true or false",
        other => other,
    }
}

fn type_way_out(kind: &str, found: &Value, wanted: &Value) -> String {
    let what = match kind {
        _ if found.is_null() => return "Leave the key out where there is nothing to say".into(),
        "object" if wanted["properties"]["origin"].is_object() => {
            return "Write { \"value\": ..., \"spread\": ..., \"origin\": \"measured\" }; only the value must be there"
                .into();
        }
        "object" => "Put it in braces, with a name before each value",
        "array" => "Put it in square brackets",
        "string" if is_quantity(wanted) => "Write a number and its unit, in quotes",
        "string" => "Put it in quotes",
        "integer" => "Write a whole number, without quotes",
        "number" => "Write a number, without quotes",
        "boolean" => "Write true or false, without quotes",
        _ => "See `peewit schema`",
    };
    what.into()
}
