//! What do the sentences of a receiver say (NMEA 0183: GGA, RMC, ZDA of any talker)? The standard itself is not public;
//! layouts of GGA and RMC and the checksum: E. S. Raymond, "NMEA Revealed", version 2.24 (2021); of ZDA: value from memory.

use time::Date;

use super::clock::{date, digits};
use super::fill::SHORT_S;
use super::fix::{Clock, Fix, Heights, Raw, place};
use super::notes::{Kind, Notes};
use crate::geometry::TangentPlane;

const CHECKSUM: Kind = Kind {
    many: "sentences with a wrong checksum or none",
    way_out: "They are left out; where many are, the line from the receiver is bad",
};
const NO_CHECKSUM: Kind = Kind {
    many: "files without checksums",
    way_out: "A digit that was garbled on the way is not found out; log with checksums",
};
const INVALID: Kind =
    Kind { many: "sentences without a fix", way_out: "Nothing to do: the receiver says itself that it has none" };
const GARBLED: Kind = Kind { many: "lines that can't be read", way_out: "They are left out" };

/// The sentences in a line that are looked at: what stands after the dollar sign, and its kind.
pub(super) fn sentence(line: &str) -> Option<(&str, &str)> {
    let body = &line[line.find('$')? + 1..];
    let (address, _) = body.split_once(',')?;
    let kind = address.get(2..5).filter(|_| address.len() == 5)?;
    ["GGA", "RMC", "ZDA"].contains(&kind).then_some((body.trim_end(), kind))
}

pub(super) fn read(text: &str, plane: TangentPlane, notes: &mut Notes) -> Raw {
    let checked = text.contains('*');
    if !checked {
        notes.warn(&NO_CHECKSUM, None, || "the sentences have no checksum".into());
    }
    let mut fixes: Vec<Fix> = Vec::new();
    let mut day = None;
    // Which kinds have told of the newest moment.
    let mut told: Vec<&str> = Vec::new();
    for (line, number) in text.lines().zip(1..) {
        if !line.trim().is_empty() && !line.contains(['$', '!', '#']) {
            notes.warn(&GARBLED, Some(number), || "the line is no sentence".into());
        }
        let Some((body, kind)) = sentence(line) else { continue };
        let body = match body.split_once('*') {
            Some((body, sum)) if u8::from_str_radix(sum.trim(), 16) == Ok(checksum(body)) => body,
            None if !checked => body,
            _ => {
                notes.warn(&CHECKSUM, Some(number), || format!("the checksum of this {kind} sentence is wrong"));
                continue;
            }
        };
        let fields: Vec<&str> = body.split(',').collect();
        if kind == "ZDA" {
            day = day.or_else(|| date(fields.get(4)?, fields.get(3)?, fields.get(2)?));
            continue;
        }
        match fix(kind, &fields, number, plane, notes) {
            Ok((fix, its_day)) => {
                day = day.or(its_day);
                match fixes.last_mut().filter(|last| last.time_s == fix.time_s && !told.contains(&kind)) {
                    Some(last) => {
                        last.height_m = last.height_m.or(fix.height_m);
                        last.place = last.place.or(fix.place);
                    }
                    None => {
                        told.clear();
                        fixes.push(fix);
                    }
                }
                told.push(kind);
            }
            Err(true) => notes.warn(&INVALID, Some(number), || format!("this {kind} sentence says that it is no fix")),
            Err(false) => notes.warn(&GARBLED, Some(number), || format!("this {kind} sentence can't be read")),
        }
    }
    Raw {
        fixes,
        clock: Clock::Midnight,
        day,
        heights: Heights::Sea,
        height_gap_s: SHORT_S,
        one_clock: true,
        extras: [false; 4],
        stretch: false,
    }
}

fn checksum(body: &str) -> u8 {
    body.bytes().fold(0, |sum, byte| sum ^ byte)
}

/// The fix of a sentence and its day; else whether it says itself that it is none.
fn fix(
    kind: &str,
    fields: &[&str],
    line: usize,
    plane: TangentPlane,
    notes: &mut Notes,
) -> Result<(Fix, Option<Date>), bool> {
    let field = |at: usize| fields.get(at).copied().unwrap_or_default();
    let (at, valid) = match kind {
        "GGA" => (2, !["", "0"].contains(&field(6))),
        _ => (3, field(2) == "A"),
    };
    if !valid {
        return Err(true);
    }
    let time_s = time_of_day(field(1)).ok_or(false)?;
    let latitude = degrees(field(at), field(at + 1), 2).ok_or(false)?;
    let longitude = degrees(field(at + 2), field(at + 3), 3).ok_or(false)?;
    let place = place(plane, [latitude, longitude], line, notes);
    let height_m = field(9).parse::<f64>().ok().filter(|height_m| kind == "GGA" && height_m.abs() < 1e5);
    let written = field(9);
    let day = (kind == "RMC" && written.len() == 6 && written.is_ascii())
        .then(|| date(&written[4..], &written[2..4], &written[..2]))
        .flatten();
    Ok((Fix::new(line, time_s, place, height_m), day))
}

/// hhmmss.sss as seconds since midnight.
fn time_of_day(text: &str) -> Option<f64> {
    let (hours, minutes) = (digits(text.get(..2)?)?, digits(text.get(2..4)?)?);
    let seconds = plain(text.get(4..)?)?;
    (hours < 24 && minutes < 60 && seconds < 61.0).then(|| f64::from(hours * 3600 + minutes * 60) + seconds)
}

/// Degrees of so many digits and minutes with decimals, one after the other, and a letter for the side.
fn degrees(text: &str, side: &str, width: usize) -> Option<f64> {
    let (whole, minutes) = text.split_at_checked(width)?;
    let minutes = plain(minutes).filter(|minutes| *minutes < 60.0)?;
    let value = f64::from(digits(whole)?) + minutes / 60.0;
    match (side, width) {
        ("N", 2) | ("E", 3) => Some(value),
        ("S", 2) | ("W", 3) => Some(-value),
        _ => None,
    }
}

/// A number of digits and a point.
fn plain(text: &str) -> Option<f64> {
    let digits = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    digits.then(|| text.parse().ok()).flatten()
}
