//! JSON text as people write it: what stops it being JSON, on which line each value stands, and how to print it well.

use std::collections::HashMap;

use jsonc_parser::ast::Value as Node;
use jsonc_parser::common::Ranged as _;
use jsonc_parser::{CollectOptions, ParseOptions, parse_to_ast};
use serde_json::Value;

use super::{Fault, MOST_TOLD, others_left};

/// Widest line that an array or object is printed on as a whole.
const WIDTH: usize = 110;

/// Reads JSON text; one fault where it is not JSON.
pub fn parse(text: &str) -> Result<Value, Fault> {
    if text.trim().is_empty() {
        let way_out = "Check that it is the file you mean; `peewit new` writes a scenario to start from";
        return Err(Fault { line: Some(1), ..Fault::error("", "the file is empty", way_out) });
    }
    let mut value = serde_json::from_str(text).map_err(|error| {
        if let Some(number) = decimal_comma(text, &error) {
            let point = number.replace(',', ".");
            let problem = format!("{number} is written with a comma");
            let way_out = format!("Write {point}: decimals stand after a point here");
            return Fault { line: Some(error.line()), ..Fault::error("", problem, way_out) };
        }
        let problem = match error.classify() {
            serde_json::error::Category::Eof => format!("the file breaks off at column {}", error.column()),
            _ => format!("this is not JSON at column {}: {}", error.column(), plain(&error)),
        };
        let way_out = "Fix the bracket, comma or quote there or just before it; JSON has no comments";
        Fault { line: Some(error.line()), ..Fault::error("", problem, way_out) }
    })?;
    whole_numbers(&mut value);
    Ok(value)
}

/// The number with a decimal comma that JSON breaks off at, such as 0,75: its comma is the last before that place, with a
/// digit to either side.
fn decimal_comma(text: &str, error: &serde_json::Error) -> Option<String> {
    let line = text.lines().nth(error.line().checked_sub(1)?)?;
    let comma = line.get(..error.column())?.rfind(',')?;
    let (before, after) = (&line[..comma], &line[comma + 1..]);
    let digit = |letter: char| letter.is_ascii_digit();
    let whole = before.rsplit(|letter: char| !digit(letter)).next().filter(|whole| !whole.is_empty())?;
    let decimals = after.split(|letter: char| !digit(letter)).next().filter(|decimals| !decimals.is_empty())?;
    Some(format!("{whole},{decimals}"))
}

/// The parser's message without the place it repeats.
fn plain(error: &serde_json::Error) -> String {
    let message = error.to_string();
    message.rsplit_once(" at line ").map_or(message.clone(), |(front, _)| front.into())
}

/// Writes 6.0 as 6, so that a whole number is one however it was typed.
fn whole_numbers(value: &mut Value) {
    match value {
        Value::Array(items) => items.iter_mut().for_each(whole_numbers),
        Value::Object(members) => members.values_mut().for_each(whole_numbers),
        Value::Number(number) => {
            let whole = number.as_f64().filter(|n| number.is_f64() && n.fract() == 0.0 && n.abs() < 2.0_f64.powi(53));
            if let Some(whole) = whole {
                #[allow(clippy::cast_possible_truncation, reason = "whole and below 2^53")]
                let whole = whole as i64;
                *number = whole.into();
            }
        }
        _ => {}
    }
}

/// On which line each value stands.
#[derive(Debug, Clone, Default)]
pub struct Lines {
    root: Option<Spot>,
    twice: Vec<Fault>,
}

/// A value's line, and those of the values inside it.
#[derive(Debug, Clone)]
struct Spot {
    line: usize,
    inside: Inside,
}

#[derive(Debug, Clone)]
enum Inside {
    Nothing,
    Items(Vec<Spot>),
    Members(HashMap<String, Spot>),
}

impl Lines {
    /// Of a text that [`parse`] has read.
    pub fn of(text: &str) -> Self {
        let strict = ParseOptions {
            allow_comments: false,
            allow_loose_object_property_names: false,
            allow_trailing_commas: false,
            allow_missing_commas: false,
            allow_single_quoted_strings: false,
            allow_hexadecimal_numbers: false,
            allow_unary_plus_numbers: false,
            allow_bare_decimal_point_numbers: false,
            allow_non_finite_numbers: false,
            allow_extended_string_escapes: false,
        };
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        let mut walk = Walk { starts, place: String::new(), twice: vec![], again: 0 };
        let parsed = parse_to_ast(text, &CollectOptions::default(), &strict).ok().and_then(|parsed| parsed.value);
        let root = parsed.map(|root| walk.visit(&root, root.range().start));
        let left = walk.again.saturating_sub(MOST_TOLD);
        let more = (left > 0).then(|| others_left(left));
        Self { root, twice: walk.twice.into_iter().chain(more).collect() }
    }

    /// The line of a value, or of the innermost one around it that is written.
    pub fn line(&self, place: &str) -> Option<usize> {
        let mut spot = self.root.as_ref()?;
        for name in place.split('/').skip(1) {
            let inner = match &spot.inside {
                Inside::Nothing => None,
                Inside::Items(items) => name.parse::<usize>().ok().and_then(|index| items.get(index)),
                Inside::Members(members) => members.get(&name.replace("~1", "/").replace("~0", "~")),
            };
            let Some(inner) = inner else { break };
            spot = inner;
        }
        Some(spot.line)
    }

    /// Keys written twice in the same object, of which only the last would count.
    pub fn twice(&self) -> &[Fault] {
        &self.twice
    }

    /// Adds the lines to faults that have none.
    pub fn mark(&self, faults: &mut [Fault]) {
        for fault in faults.iter_mut().filter(|fault| fault.line.is_none() && !fault.place.is_empty()) {
            fault.line = self.line(&fault.place);
        }
    }
}

struct Walk {
    /// Where each line starts.
    starts: Vec<usize>,
    /// The pointer to the object being walked.
    place: String,
    twice: Vec<Fault>,
    /// How many keys are written again.
    again: usize,
}

impl Walk {
    fn line(&self, at: usize) -> usize {
        self.starts.partition_point(|&start| start <= at)
    }

    fn visit(&mut self, node: &Node<'_>, start: usize) -> Spot {
        let depth = self.place.len();
        let within = |walk: &mut Self, name: &str, value: &Node<'_>, start: usize| {
            walk.place.push('/');
            walk.place.push_str(name);
            let spot = walk.visit(value, start);
            walk.place.truncate(depth);
            spot
        };
        let inside = match node {
            Node::Object(object) => {
                let mut members = HashMap::new();
                for member in &object.properties {
                    let name = member.name.as_str();
                    let spot = within(self, &escaped(name), &member.value, member.range.start);
                    let line = spot.line;
                    if members.insert(name.to_owned(), spot).is_some() {
                        self.again += 1;
                        if self.again > MOST_TOLD {
                            continue;
                        }
                        let problem = format!("\"{name}\" is written twice in the same place");
                        let way_out = "Keep one of the two and delete the other";
                        let fault = Fault::error(join(&self.place, name), problem, way_out);
                        self.twice.push(Fault { line: Some(line), ..fault });
                    }
                }
                Inside::Members(members)
            }
            Node::Array(array) => {
                let items = array.elements.iter().enumerate();
                let spots = items.map(|(index, item)| within(self, &index.to_string(), item, item.range().start));
                Inside::Items(spots.collect())
            }
            _ => Inside::Nothing,
        };
        Spot { line: self.line(start), inside }
    }
}

/// The JSON pointer of a member (RFC 6901).
pub fn join(place: &str, name: &str) -> String {
    format!("{place}/{}", escaped(name))
}

fn escaped(name: &str) -> String {
    name.replace('~', "~0").replace('/', "~1")
}

/// Prints JSON for people: whatever fits on a line stands on one, so that a ring of corners can be read.
pub fn print(value: &Value) -> String {
    let mut value = value.clone();
    whole_numbers(&mut value);
    let mut out = String::new();
    write(&value, 0, 0, &mut out);
    out.push('\n');
    out
}

fn write(value: &Value, depth: usize, used: usize, out: &mut String) {
    let flat = flat(value);
    if depth > 0 && 2 * depth + used + flat.len() <= WIDTH {
        out.push_str(&flat);
        return;
    }
    let mut block = |open: char, close: char, items: &mut dyn Iterator<Item = (String, &Value)>| {
        out.push(open);
        for (index, (key, item)) in items.enumerate() {
            out.push_str(if index == 0 { "\n" } else { ",\n" });
            out.push_str(&"  ".repeat(depth + 1));
            out.push_str(&key);
            write(item, depth + 1, key.len() + 1, out);
        }
        out.push('\n');
        out.push_str(&"  ".repeat(depth));
        out.push(close);
    };
    match value {
        Value::Array(items) if !items.is_empty() => {
            block('[', ']', &mut items.iter().map(|item| (String::new(), item)));
        }
        Value::Object(members) if !members.is_empty() => {
            block('{', '}', &mut members.iter().map(|(key, item)| (format!("{}: ", Value::from(key.as_str())), item)));
        }
        _ => out.push_str(&flat),
    }
}

/// On one line, with a space after each comma and colon.
fn flat(value: &Value) -> String {
    match value {
        Value::Array(items) => format!("[{}]", items.iter().map(flat).collect::<Vec<_>>().join(", ")),
        Value::Object(members) if members.is_empty() => "{}".into(),
        Value::Object(members) => {
            let member = |(key, item): (&String, &Value)| format!("{}: {}", Value::from(key.as_str()), flat(item));
            format!("{{ {} }}", members.iter().map(member).collect::<Vec<_>>().join(", "))
        }
        _ => value.to_string(),
    }
}

/// "did you mean" for a word that is not among those known; empty where none is near.
pub fn did_you_mean<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> String {
    let near = |name: &&'a str| strsim::jaro_winkler(&word.to_lowercase(), &name.to_lowercase());
    let best = known.into_iter().map(|name| (near(&name), name)).max_by(|a, b| a.0.total_cmp(&b.0));
    match best {
        Some((score, name)) if score > 0.75 => format!("Did you mean \"{name}\"? "),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn lines_are_those_of_the_text() {
        let lines = Lines::of("{\n  \"a\": 1,\n  \"b\": [\n    2,\n    { \"c/d\": 3 }\n  ]\n}");
        for (place, line) in [("", 1), ("/a", 2), ("/b", 3), ("/b/0", 4), ("/b/1/c~1d", 5), ("/b/7", 3), ("/z", 1)] {
            assert_eq!(lines.line(place), Some(line), "{place}");
        }
    }

    #[test]
    fn what_fits_stands_on_one_line() {
        let value = json!({ "ring_m": [[0.0, 1.5], [2.0, -3.0]], "text": "a \"b\"", "none": {}, "nil": [] });
        let printed = print(&value);
        assert_eq!(
            printed,
            "{\n  \"ring_m\": [[0, 1.5], [2, -3]],\n  \"text\": \"a \\\"b\\\"\",\n  \"none\": {},\n  \"nil\": []\n}\n"
        );
        let long = json!({ "list": vec!["twenty letters here."; 9] });
        assert!(print(&long).lines().count() == 13 && print(&long).lines().all(|line| line.len() <= WIDTH));
        assert_eq!(parse(&print(&long)).unwrap(), long);
    }

    #[test]
    fn what_is_no_json_is_told_as_a_person_would() {
        for (text, says) in [
            ("", "the file is empty"),
            (" \n", "the file is empty"),
            ("{\n  \"a\": 0,75\n}", "0,75 is written with a comma"),
            ("{ \"a\": 12,5, \"b\": 1 }", "12,5 is written with a comma"),
            ("{ \"a\": 12, 5 }", "this is not JSON"),
            ("{ \"a\": 12, \"b\" }", "this is not JSON"),
            ("{", "breaks off"),
        ] {
            let fault = parse(text).unwrap_err();
            assert!(fault.problem.contains(says), "{text}: {fault}");
        }
    }

    #[test]
    fn suggests_only_what_is_near() {
        let known = ["radius", "height", "turn"];
        assert_eq!(did_you_mean("raduis", known), "Did you mean \"radius\"? ");
        assert_eq!(did_you_mean("Height", known), "Did you mean \"height\"? ");
        assert_eq!(did_you_mean("colour", known), "");
    }
}
