//! What stands in one cell of a table: a number, with a decimal point or comma, a unit or a side behind it?

use super::columns::Role;

/// Largest number that means anything in a log: microseconds since 1970 have sixteen digits.
const LARGEST: f64 = 1e16;

/// What loggers write where they know nothing.
const NOTHING: [&str; 8] = ["-", "--", "---", "nan", "null", "none", "n/a", "?"];

/// Whether a line is empty or a comment.
pub(super) fn is_comment(line: &str) -> bool {
    let line = line.trim_start();
    line.is_empty() || line.starts_with(['#', '%']) || line.starts_with("//")
}

/// The cells of a line; a separator between double quotes is part of a cell. Quotes that are never closed are letters.
pub(super) fn split<'a>(line: &'a str, separator: char, cells: &mut Vec<&'a str>) {
    cells.clear();
    let mut rest = line;
    loop {
        let trimmed = rest.trim_start_matches(' ');
        let quoted = trimmed.strip_prefix('"').and_then(|inside| inside.split_once('"'));
        if let Some((cell, after)) = quoted {
            let after = after.trim_start_matches(' ');
            if after.is_empty() {
                cells.push(cell.trim());
                return;
            }
            if let Some(next) = after.strip_prefix(separator) {
                cells.push(cell.trim());
                rest = next;
                continue;
            }
        }
        let Some((cell, next)) = rest.split_once(separator) else {
            cells.push(rest.trim());
            return;
        };
        cells.push(cell.trim());
        rest = next;
    }
}

/// Whether a cell is left empty, in one of the ways loggers have.
pub(super) fn is_missing(cell: &str) -> bool {
    cell.is_empty() || cell.len() < 5 && NOTHING.contains(&&*cell.to_ascii_lowercase())
}

/// The number of a cell in the column's own unit; a unit of the role behind it is its own.
pub(super) fn number(cell: &str, role: Role) -> Option<f64> {
    let fits = |value: &f64| value.abs() <= LARGEST;
    if let Ok(value) = cell.parse::<f64>() {
        return Some(value).filter(fits);
    }
    let digit = |letter: char| letter.is_ascii_digit() || ['+', '-', '.', ',', 'e', 'E'].contains(&letter);
    let end = cell.find(|letter| !digit(letter)).unwrap_or(cell.len());
    let (front, rest) = cell.split_at(end);
    // The E of east is no power of ten.
    let (front, rest) = match front.strip_suffix('E') {
        Some(front) => (front, "E"),
        None => (front, rest.trim()),
    };
    let value = if front.contains('.') { front.parse() } else { front.replacen(',', ".", 1).parse::<f64>() };
    let value = value.ok().filter(fits)?;
    match (role, rest) {
        (_, "") | (Role::Latitude, "N") | (Role::Longitude, "E") => Some(value),
        (Role::Latitude, "S") | (Role::Longitude, "W") => Some(-value),
        (Role::Latitude | Role::Longitude, "°") => Some(value),
        // Only where the column says the same by its first unit.
        _ => role.units().first().filter(|unit| unit.name == rest).map(|_| value),
    }
}

/// Latitude and longitude in one cell.
pub(super) fn pair(cell: &str) -> Option<[f64; 2]> {
    let spaced: Vec<&str> = cell.split_whitespace().collect();
    let parts = if spaced.len() == 2 { spaced } else { cell.split([',', ';']).map(str::trim).collect() };
    let [latitude, longitude] = parts[..] else { return None };
    let degrees = |part: &str, role| number(part.trim_end_matches([',', ';']), role);
    Some([degrees(latitude, Role::Latitude)?, degrees(longitude, Role::Longitude)?])
}
