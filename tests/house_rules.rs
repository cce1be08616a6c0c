//! Does the source tree keep the house rules: who may use whom, a head on every file, no file too long, no word that
//! promises too much? The rules are explained in DEVELOPERS.md.

mod floors;
mod imports;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Longest file, lines.
const LONGEST: usize = 500;

/// The floor plan from the ground up: a room and the rooms it uses. What those use it may use as well.
const PLAN: [(&str, &[&str]); 22] = [
    ("error", &[]),
    ("lane", &[]),
    ("units", &["error", "lane"]),
    ("sun", &["units"]),
    ("geometry", &["units"]),
    ("draw", &["geometry"]),
    ("field", &["geometry"]),
    ("wind", &["geometry"]),
    ("jet", &["wind"]),
    ("recovery", &["jet", "field"]),
    ("run", &["recovery", "sun"]),
    ("margins", &["run"]),
    ("study", &["margins"]),
    ("rehearsal", &["study"]),
    ("log", &["run"]),
    ("debrief", &["log", "study"]),
    ("verify", &["debrief"]),
    ("words", &["rehearsal", "verify"]),
    ("brief", &["words"]),
    ("report", &["draw", "brief"]),
    ("app", &["report"]),
    ("cli", &["app"]),
];

/// Every room that `room` may use, itself included.
fn below(room: &str) -> BTreeSet<&'static str> {
    let mut all = BTreeSet::new();
    let mut open = vec![room];
    while let Some(next) = open.pop() {
        let Some(&(name, uses)) = PLAN.iter().find(|(name, _)| *name == next) else { continue };
        if all.insert(name) {
            open.extend(uses);
        }
    }
    all
}

/// The source with comments blanked out, and strings too, so that only code is left. Line ends stay.
fn code(source: &str) -> String {
    let mut left = source;
    let mut code = String::with_capacity(source.len());
    while let Some(first) = left.chars().next() {
        let hidden = comment(left).or_else(|| raw_string(left)).or_else(|| string(left)).or_else(|| quoted_char(left));
        match hidden {
            Some(length) => {
                code.extend(left[..length].chars().map(|c| if c == '\n' { '\n' } else { ' ' }));
                left = &left[length..];
            }
            None => {
                code.push(first);
                left = &left[first.len_utf8()..];
            }
        }
    }
    code
}

fn comment(text: &str) -> Option<usize> {
    if text.starts_with("//") {
        return Some(text.find('\n').unwrap_or(text.len()));
    }
    text.starts_with("/*").then(|| text.find("*/").map_or(text.len(), |end| end + 2))
}

fn raw_string(text: &str) -> Option<usize> {
    let inside = text.strip_prefix('r')?;
    let hashes = inside.len() - inside.trim_start_matches('#').len();
    let body = inside[hashes..].strip_prefix('"')?;
    let close = format!("\"{}", "#".repeat(hashes));
    let end = body.find(&close).map_or(body.len(), |end| end + close.len());
    Some(text.len() - body.len() + end)
}

fn string(text: &str) -> Option<usize> {
    let body = text.strip_prefix('"')?;
    let mut escaped = false;
    for (at, c) in body.char_indices() {
        match c {
            '"' if !escaped => return Some(at + 2),
            '\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    Some(text.len())
}

/// Only the characters that would otherwise open or hide a string; a lifetime is none of them.
fn quoted_char(text: &str) -> Option<usize> {
    ["'\"'", "'\\\"'", "'\\\\'", "'\\''"].iter().find(|quoted| text.starts_with(**quoted)).map(|quoted| quoted.len())
}

/// The words that follow `crate::` anywhere in code, groups taken apart: `crate::{a, b::c}` gives a and b.
fn names_after(start: &str, code: &str) -> Vec<String> {
    let word = |text: &str| text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
    let mut names = Vec::new();
    for (at, _) in code.match_indices(start) {
        let rest = &code[at + start.len()..];
        let Some(group) = rest.strip_prefix('{') else {
            names.push(word(rest));
            continue;
        };
        let mut depth = 1;
        let mut begins = true;
        for (at, c) in group.char_indices() {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 1 => begins = true,
                c if begins && depth == 1 && !c.is_whitespace() => {
                    names.push(word(&group[at..]));
                    begins = false;
                }
                _ => {}
            }
            if depth == 0 {
                break;
            }
        }
    }
    names
}

/// The room of a file below `src`: `src/wind/sheet.rs` and `src/error.rs` are in `wind` and `error`.
fn room(path: &Path) -> Option<String> {
    let mut parts = path.strip_prefix("src").ok()?.components();
    let first = parts.next()?.as_os_str().to_str()?;
    let name = first.strip_suffix(".rs").unwrap_or(first);
    (!["lib", "main"].contains(&name)).then(|| name.to_owned())
}

fn uses_beside_or_above(path: &Path, source: &str) -> Vec<String> {
    let Some(room) = room(path) else { return Vec::new() };
    if !PLAN.iter().any(|(name, _)| *name == room) {
        return vec![format!("{}: {room} is not a room of the floor plan", path.display())];
    }
    let (allowed, code) = (below(&room), code(source));
    // As many steps up as the file is deep lead to the crate; one more from a module inside the file.
    let depth = path.components().count() - 1 - usize::from(path.ends_with("mod.rs"));
    let ways = ["crate::".to_owned(), "super::".repeat(depth), "super::".repeat(depth + 1)];
    let names = ways.iter().flat_map(|way| names_after(way, &code));
    names
        .filter(|name| PLAN.iter().any(|(known, _)| known == name) && !allowed.contains(name.as_str()))
        .map(|name| format!("{}: {room} may not use {name}", path.display()))
        .collect()
}

fn head_missing(path: &Path, source: &str) -> Vec<String> {
    let head = source.starts_with("//! ") || source.starts_with("#![doc = include_str!");
    if head { vec![] } else { vec![format!("{}: does not begin with a //! head", path.display())] }
}

fn too_long(path: &Path, source: &str) -> Vec<String> {
    let lines = source.lines().count();
    if lines <= LONGEST { vec![] } else { vec![format!("{}: {lines} lines, more than {LONGEST}", path.display())] }
}

fn window_outside_its_room(path: &Path, source: &str) -> Vec<String> {
    let elsewhere = room(path).is_some_and(|room| room != "app");
    let named = ["bevy", "egui"].iter().filter(|name| elsewhere && source.contains(**name));
    named.map(|name| format!("{}: names {name} outside src/app", path.display())).collect()
}

/// The one word that the tool never says. The rule itself may be quoted in the two documents.
fn promises(path: &Path, text: &str) -> Vec<String> {
    let forbidden = "safe";
    let document = path.components().count() == 1 && path.extension().is_some_and(|ending| ending == "md");
    let said = |line: &str| {
        let quoted = document && line.contains("never") && line.contains("\"safe\"");
        !quoted && line.to_lowercase().split(|c: char| !c.is_alphanumeric() && c != '_').any(|word| word == forbidden)
    };
    let lines = text.lines().zip(1..).filter(|(line, _)| said(line));
    lines.map(|(_, number)| format!("{}:{number}: says \"{forbidden}\"", path.display())).collect()
}

/// Every file below a folder of the package, with its path from there; those that are no text are passed over.
fn texts(folder: &str) -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut open = vec![root.join(folder)];
    let mut found = Vec::new();
    while let Some(path) = open.pop() {
        if let Ok(entries) = fs::read_dir(&path) {
            open.extend(entries.map(|entry| entry.unwrap().path()));
        } else if let Ok(text) = fs::read_to_string(&path) {
            found.push((path.strip_prefix(root).unwrap().into(), text));
        }
    }
    found.sort();
    found
}

#[track_caller]
fn check_tree(folders: &[&str], rule: impl Fn(&Path, &str) -> Vec<String>, only_rust: bool) {
    let files: Vec<_> = folders.iter().flat_map(|folder| texts(folder)).collect();
    assert!(!files.is_empty(), "nothing to look at in {folders:?}");
    let rust = |path: &Path| path.extension().is_some_and(|ending| ending == "rs");
    let files = files.iter().filter(|(path, _)| !only_rust || rust(path));
    let faults: Vec<_> = files.flat_map(|(path, text)| rule(path, text)).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn rooms_use_only_rooms_below() {
    check_tree(&["src"], uses_beside_or_above, true);
}

#[test]
fn every_file_has_a_head() {
    check_tree(&["src", "tests"], head_missing, true);
}

#[test]
fn no_file_is_too_long() {
    check_tree(&["src", "tests"], too_long, true);
}

#[test]
fn the_window_keeps_to_its_room() {
    check_tree(&["src"], window_outside_its_room, true);
}

#[test]
fn nothing_promises_too_much() {
    check_tree(&["src", "scenarios", "assets", "README.md", "DEVELOPERS.md"], promises, false);
}

#[test]
fn every_folder_is_on_the_plan_and_the_plan_stands_on_the_ground() {
    for (at, (room, uses)) in PLAN.iter().enumerate() {
        for used in *uses {
            assert!(PLAN[..at].iter().any(|(lower, _)| lower == used), "{room} uses {used}, which is not below it");
        }
    }
    assert!(!below("jet").contains("field") && below("recovery").contains("field") && !below("app").contains("cli"));
}

#[track_caller]
fn check(rule: impl Fn(&Path, &str) -> Vec<String>, path: &str, source: &str, faults: &[&str]) {
    let found = rule(Path::new(path), source);
    assert_eq!(found.len(), faults.len(), "{found:?}");
    for (found, expected) in found.iter().zip(faults) {
        assert!(found.contains(expected), "{found} does not say {expected}");
    }
}

#[test]
fn a_planted_use_is_found_however_it_is_written() {
    let rule = uses_beside_or_above;
    check(rule, "src/wind/sheet.rs", "use crate::run::Scenario;", &["wind may not use run"]);
    check(rule, "src/jet/step.rs", "fn f() { crate::field::Field::new() }", &["jet may not use field"]);
    check(rule, "src/wind/a.rs", "use crate::{jet::{A, B}, units::C, margins};", &["use jet", "use margins"]);
    check(rule, "src/margins/mod.rs", "use super::cli::main;", &["margins may not use cli"]);
    check(rule, "src/units.rs", "use super::{error, field};", &["units may not use field"]);
    check(rule, "src/wind/a.rs", "use super::super::run::Run;", &["wind may not use run"]);
    check(
        rule,
        "src/wind/a/b.rs",
        "mod tests { use super::super::super::super::run::Run; }",
        &["wind may not use run"],
    );
    check(rule, "src/shed/a.rs", "", &["not a room"]);
    check(rule, "src/app/a.rs", "use crate::cli::main;", &["app may not use cli"]);
}

#[test]
fn what_is_no_use_is_no_fault() {
    let rule = uses_beside_or_above;
    check(rule, "src/recovery/a.rs", "use crate::{field::Field, wind, Result};\nuse crate::error::Fault;", &[]);
    check(rule, "src/wind/a.rs", "//! See [`crate::run`].\n/* crate::run */ let a = \"crate::run\";", &[]);
    check(rule, "src/wind/a.rs", "let q = '\"'; // crate::run\nlet r = r#\"\" crate::run\"#;", &[]);
    check(rule, "src/field/a/b.rs", "use super::super::run; use super::wind;", &[]);
    check(rule, "src/lib.rs", "pub use crate::cli::main;", &[]);
}

#[test]
fn the_other_rules_find_what_is_planted() {
    check(head_missing, "src/a.rs", "use std::fs;\n", &["head"]);
    check(head_missing, "src/a.rs", "//! What?\n", &[]);
    check(too_long, "src/a.rs", &"\n".repeat(LONGEST + 1), &["501 lines"]);
    check(too_long, "src/a.rs", &"\n".repeat(LONGEST), &[]);
    check(window_outside_its_room, "src/field/a.rs", "use bevy::prelude::*;", &["names bevy"]);
    check(window_outside_its_room, "src/app/a.rs", "use bevy::prelude::*;", &[]);
    check(promises, "src/a.rs", "fn a() {}\n// it is SAFE here", &["src/a.rs:2"]);
    check(promises, "README.md", "It is safe.", &["README.md:1"]);
    check(promises, "README.md", "The tool never says \"safe\".", &[]);
    check(promises, "src/a.rs", "never says \"safe\"", &["src/a.rs:1"]);
    check(promises, "Cargo.toml", "unsafe_code = \"forbid\" # unsafe, safety, safely", &[]);
}
