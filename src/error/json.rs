//! JSON text as people write it: what stops it being JSON, on which line each value stands, and how to print it well.

use std::collections::HashMap;

use jsonc_parser::ast::{ObjectPropName, Value as Node};
use jsonc_parser::common::Ranged as _;
use jsonc_parser::{CollectOptions, ParseOptions, parse_to_ast};
use serde_json::Value;

use super::Fault;

/// Widest line that an array or object is printed on as a whole.
const WIDTH: usize = 110;

/// Reads JSON text; one fault where it is not JSON.
pub fn parse(text: &str) -> Result<Value, Fault> {
    let mut value = serde_json::from_str(text).map_err(|error| {
        let problem = match error.classify() {
            serde_json::error::Category::Eof => format!("the file breaks off at column {}", error.column()),
            _ => format!("this is not JSON at column {}: {}", error.column(), plain(&error)),
        };
        let way_out = "Mend the bracket, comma or quote there or just before it; JSON has no comments";
        Fault { line: Some(error.line()), ..Fault::error("", problem, way_out) }
    })?;
    whole_numbers(&mut value);
    Ok(value)
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
    lines: HashMap<String, usize>,
    twice: Vec<Fault>,
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
        let mut walk = Walk { starts, found: Self::default() };
        if let Ok(Some(root)) = parse_to_ast(text, &CollectOptions::default(), &strict).map(|parsed| parsed.value) {
            walk.visit(&root, String::new(), root.range().start);
        }
        walk.found
    }

    /// The line of a value, or of the innermost one around it that is written.
    pub fn line(&self, place: &str) -> Option<usize> {
        let mut place = place;
        loop {
            match (self.lines.get(place), place.rfind('/')) {
                (Some(&line), _) => return Some(line),
                (None, Some(at)) => place = &place[..at],
                (None, None) => return None,
            }
        }
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
    starts: Vec<usize>,
    found: Lines,
}

impl Walk {
    fn visit(&mut self, node: &Node<'_>, place: String, start: usize) {
        let line = self.starts.partition_point(|&at| at <= start);
        match node {
            Node::Object(object) => {
                for member in &object.properties {
                    let name = match &member.name {
                        ObjectPropName::String(name) => name.value.as_ref(),
                        ObjectPropName::Word(name) => name.value,
                    };
                    let inner = join(&place, name);
                    let at = member.range.start;
                    if self.found.lines.contains_key(&inner) {
                        let line = Some(self.starts.partition_point(|&from| from <= at));
                        let problem = format!("\"{name}\" is written twice in the same place");
                        let fault = Fault::error(inner.clone(), problem, "Keep one of the two and delete the other");
                        self.found.twice.push(Fault { line, ..fault });
                    }
                    self.visit(&member.value, inner, at);
                }
            }
            Node::Array(array) => {
                for (index, item) in array.elements.iter().enumerate() {
                    self.visit(item, format!("{place}/{index}"), item.range().start);
                }
            }
            _ => {}
        }
        self.found.lines.insert(place, line);
    }
}

/// The JSON pointer of a member (RFC 6901).
pub fn join(place: &str, name: &str) -> String {
    format!("{place}/{}", name.replace('~', "~0").replace('/', "~1"))
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
