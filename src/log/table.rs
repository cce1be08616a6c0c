//! What does a table of a flight say (CSV and its relatives), whatever its separator, its columns and their units?

use super::cells::{is_comment, split};
use super::columns::{Columns, Role};
use super::fix::Raw;
use super::notes::{Kind, Notes};
use super::{guess, rows};
use crate::run::Scenario;

/// How many lines are looked at for the header, and how many rows below it for what the columns hold.
const LOOKED_AT: usize = 60;
const SEPARATORS: [char; 4] = [';', '\t', ',', '|'];

const EXAMPLE: &str =
    "A line names the columns, as in time_s,latitude_deg,longitude_deg,altitude_m; say which is which";
const LACKS: Kind = Kind { many: "columns that are not there", way_out: EXAMPLE };
const OTHERS: Kind = Kind {
    many: "headers that are another's",
    way_out: "The columns are guessed; say anew which is which if that is wrong",
};
const SECOND: Kind = Kind {
    many: "columns of what another column tells",
    way_out: "They are not read; say which column to read if it is the wrong one",
};
const GRANTED: Kind = Kind {
    many: "things taken for granted of a column",
    way_out: "Say what it holds, in which unit, if that is wrong",
};

/// Fewest columns of a header whose names say nothing: time, two of the place, height.
const LEAST_COLUMNS: usize = 4;

/// Where the table begins.
struct Header<'a> {
    /// Number of its line, from 0.
    at: usize,
    separator: char,
    names: Vec<&'a str>,
}

/// What the columns of a table seem to hold, to be shown and corrected; none where it has no header that could be one.
pub(super) fn guessed(text: &str) -> Option<Columns> {
    let lines = lines(text);
    let found = named(&lines).or_else(|| header(&lines, &|names| names.len() >= LEAST_COLUMNS))?;
    Some(Columns::guess(&found.names, &rows_below(&lines, &found)))
}

fn lines(text: &str) -> Vec<&str> {
    if text.contains('\n') { text.lines().collect() } else { text.split('\r').collect() }
}

/// The header, by names that tell a time or a place.
fn named<'a>(lines: &[&'a str]) -> Option<Header<'a>> {
    let place = |names: &[&str]| {
        let has = |role| names.iter().any(|name| guess::role(name) == role);
        has(Role::Latitude) && has(Role::Longitude) || has(Role::Position) || has(Role::East) && has(Role::North)
    };
    let time = |names: &[&str]| names.iter().any(|name| guess::role(name) == Role::Time);
    header(lines, &|names| time(names) && place(names)).or_else(|| header(lines, &|names| time(names) || place(names)))
}

/// The first rows below the header.
fn rows_below<'a>(lines: &[&'a str], found: &Header<'a>) -> Vec<Vec<&'a str>> {
    let rows = lines[found.at + 1..].iter().filter(|row| !is_comment(row)).take(LOOKED_AT);
    let cells = rows.map(|row| {
        let mut cells = Vec::new();
        split(row, found.separator, &mut cells);
        cells
    });
    cells.collect()
}

pub(super) fn read(text: &str, scenario: &Scenario, chosen: Option<&Columns>, notes: &mut Notes) -> Option<Raw> {
    let lines = lines(text);
    let is_chosen = |names: &[&str]| chosen.is_some_and(|chosen| Columns::key(names) == chosen.own_key());
    let Some(found) = header(&lines, &is_chosen).or_else(|| named(&lines)) else {
        notes.error(&LACKS, Some(1), || "no line names the columns of a time and of a place".into());
        return None;
    };
    let line = Some(found.at + 1);
    let sample = rows_below(&lines, &found);
    let columns = match chosen {
        Some(chosen) if is_chosen(&found.names) => chosen.clone(),
        _ => {
            if chosen.is_some() {
                notes.warn(&OTHERS, line, || "these are not the columns that were chosen".into());
            }
            let guessed = Columns::guess(&found.names, &sample);
            granted(&guessed, sample.first().filter(|row| guess::is_units(row)), line, notes);
            guessed
        }
    };
    let has = |role| columns.of(role).is_some();
    let names = || found.names.iter().take(20).map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", ");
    let mut lacks = |what: &str| notes.error(&LACKS, line, || format!("no column holds the {what}, among {}", names()));
    if !has(Role::Time) {
        lacks("time");
    }
    let degrees = has(Role::Latitude) && has(Role::Longitude) || has(Role::Position);
    if !(degrees || has(Role::East) && has(Role::North)) {
        lacks("place");
    }
    if !has(Role::HeightAboveSea) && !has(Role::HeightAboveHome) {
        lacks("height");
    }
    let first = found.at + 1 + usize::from(sample.first().is_some_and(|row| guess::is_units(row)));
    let table = rows::Table { lines: &lines, first, names: &found.names, separator: found.separator };
    if notes.failed() { None } else { rows::read(&table, &columns, scenario, notes) }
}

/// The first line with names that fit, comments after the others; by the separator that leaves most of them.
fn header<'a>(lines: &[&'a str], fits: &dyn Fn(&[&str]) -> bool) -> Option<Header<'a>> {
    let front = || lines.iter().take(LOOKED_AT).enumerate();
    let plain = front().filter(|(_, line)| !is_comment(line));
    let comments = front().filter(|(_, line)| is_comment(line));
    plain.chain(comments).find_map(|(at, line)| {
        let line = line.trim_start_matches(['#', '%', '/', ' ']);
        let by = SEPARATORS.into_iter().filter_map(|separator| {
            let mut names = Vec::new();
            split(line, separator, &mut names);
            (names.len() > 1 && fits(&names)).then_some(Header { at, separator, names })
        });
        by.max_by_key(|header| header.names.len())
    })
}

/// Says what a guess takes for granted, and what it leaves aside.
fn granted(columns: &Columns, units: Option<&Vec<&str>>, line: Option<usize>, notes: &mut Notes) {
    for (index, column) in columns.columns.iter().enumerate() {
        let unit = units.and_then(|units| units.get(index)).copied().unwrap_or_default();
        let (name, role) = (format!("{} {unit}", column.header), column.role);
        if role == Role::Ignored {
            let would_be = guess::role(&name);
            if would_be != Role::Ignored {
                notes.warn(&SECOND, line, || format!("\"{}\" ({}) is not read", column.header, would_be.name()));
            }
            continue;
        }
        let degrees = matches!(role, Role::Latitude | Role::Longitude | Role::Load);
        let bare = !degrees && column.unit != super::columns::CLOCK && !column.unit.is_empty();
        if bare && guess::unit(&name, role).is_none() {
            notes.warn(&GRANTED, line, || format!("\"{}\" has no unit and is taken as {}", column.header, column.unit));
        }
        if matches!(role, Role::HeightAboveSea | Role::HeightAboveHome) && !guess::says_above(&name) {
            notes.warn(&GRANTED, line, || format!("\"{}\" is taken as {}", column.header, role.name()));
        }
    }
}
