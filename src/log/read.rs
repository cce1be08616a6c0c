//! From the bytes of a file to a flight: which format is it, what does it say, what has to be repaired?

use std::borrow::Cow;

use super::columns::Columns;
use super::fix::{Clock, Raw};
use super::notes::{Kind, Notes};
use super::{FlightLog, clock, fill, gpx, ground, igc, jumps, nmea, order, table};
use crate::error::Fault;
use crate::run::{Scenario, Track};

/// Largest file that is read, bytes.
pub(super) const LARGEST: usize = 64 << 20;
/// How many lines tell the format.
const LOOKED_AT: usize = 200;

const EXPORT: &str = "Export the flight as GPX, CSV, NMEA sentences or IGC";

const LETTERS: Kind = Kind {
    many: "files that are not UTF-8",
    way_out: "Letters outside of ASCII may be wrong, numbers are not; save it as UTF-8 where a name is needed",
};
const NO_TRACK: Kind = Kind { many: "tracks that are none", way_out: EXPORT };

/// Reads the log of a flight over the field of a scenario, given its name and what is in it.
///
/// `columns` says what the columns of a CSV file hold, where a person has said so; else they are guessed from the header.
/// What had to be repaired is in [`FlightLog::repairs`]; where nothing can be used, all that is wrong is returned.
///
/// # Errors
///
/// Every fault of the file, those that keep it from being used first.
pub fn read(name: &str, bytes: &[u8], scenario: &Scenario, columns: Option<&Columns>) -> Result<FlightLog, Vec<Fault>> {
    let mut notes = Notes::default();
    let text = text(name, bytes, &mut notes).map_err(|fault| vec![fault])?;
    let raw = told(name, &text, scenario, columns, &mut notes);
    let log = raw.filter(|_| !notes.failed()).and_then(|raw| repaired(raw, scenario, &mut notes));
    let Some((day, track)) = log.filter(|_| !notes.failed()) else {
        if !notes.failed() {
            notes.error(&NO_TRACK, None, || "the samples make no track".into());
        }
        return Err(notes.faults());
    };
    let name = name.rsplit(['/', '\\']).next().unwrap_or(name).to_owned();
    Ok(FlightLog { name, day, track, repairs: notes.faults() })
}

/// What the columns of a table seem to hold, to be shown to a person and corrected; none of what is no table.
pub fn guess_columns(bytes: &[u8]) -> Option<Columns> {
    let text = text("", bytes, &mut Notes::default()).ok()?;
    let other = text.trim_start().starts_with(['<', '{', '['])
        || text.lines().take(LOOKED_AT).any(|line| nmea::sentence(line).is_some() || igc::is_fix(line));
    if other { None } else { table::guessed(&text) }
}

/// The text of a file, whatever letters it is written in.
fn text<'a>(name: &str, bytes: &'a [u8], notes: &mut Notes) -> Result<Cow<'a, str>, Fault> {
    let refused = |problem: &str, way_out: &str| Err(Fault::error("", problem, way_out));
    if bytes.len() > LARGEST {
        let problem = format!("the file has more than {} MB", LARGEST >> 20);
        return refused(&problem, "Cut it to the one flight");
    }
    if bytes.starts_with(b"PK") || bytes.starts_with(b"\x1f\x8b") {
        return refused("this is a packed file, which is not opened", "Unpack it and open what is inside");
    }
    let front = &bytes[..bytes.len().min(4096)];
    if front.starts_with(b"\xff\xfe") || front.starts_with(b"\xfe\xff") {
        return refused("the file is UTF-16 text", "Save it as UTF-8");
    }
    if front.contains(&0) {
        let problem = format!("{name} is not text: a logger's own form can't be read here");
        return refused(&problem, EXPORT);
    }
    let text = String::from_utf8_lossy(bytes);
    if let Cow::Owned(text) = &text {
        let line = text.lines().position(|line| line.contains('\u{fffd}')).map(|at| at + 1);
        notes.warn(&LETTERS, line, || "the file is not UTF-8 from here on".into());
    }
    let text = match text {
        Cow::Borrowed(text) => Cow::Borrowed(text.trim_start_matches('\u{feff}')),
        owned @ Cow::Owned(_) => owned,
    };
    if text.trim().is_empty() {
        return refused("the file is empty", "Export it again");
    }
    Ok(text)
}

/// What the file says, by its content, and by the ending of its name where that tells nothing.
fn told(name: &str, text: &str, scenario: &Scenario, columns: Option<&Columns>, notes: &mut Notes) -> Option<Raw> {
    let plane = scenario.field.plane;
    let front = || text.lines().take(LOOKED_AT);
    let ending = name.rsplit_once('.').map_or(String::new(), |(_, ending)| ending.to_lowercase());
    let first = text.trim_start().chars().next();
    if first == Some('<') {
        return gpx::read(text, plane, notes);
    }
    if front().any(|line| nmea::sentence(line).is_some()) {
        return Some(nmea::read(text, plane, notes));
    }
    if front().any(|line| igc::is_fix(line) || line.starts_with("HFDTE")) {
        return Some(igc::read(text, plane, notes));
    }
    let problem = match (&*ending, first) {
        ("gpx", _) => "this is not XML, so no GPX",
        ("nmea" | "nma", _) => "there is no GGA or RMC sentence in the file",
        ("igc", _) => "there is no B record in the file",
        (_, Some('{' | '[')) => "this is JSON, which is no log of a flight here",
        _ => return table::read(text, scenario, columns, notes),
    };
    notes.pass_on(Fault::error("", problem, EXPORT));
    None
}

/// What is left of it when all that is wrong is set right: the day, and the track.
fn repaired(mut raw: Raw, scenario: &Scenario, notes: &mut Notes) -> Option<(Option<String>, Track)> {
    order::in_order(&mut raw, notes);
    jumps::without_jumps(&mut raw.fixes, notes);
    if !fill::whole(&mut raw, notes) {
        return None;
    }
    ground::above_home(&mut raw, scenario, notes);
    let channels = fill::channels(&raw, notes);
    let first_s = raw.fixes.first()?.time_s;
    let day = match (raw.clock, raw.day) {
        (Clock::Unix, _) => clock::day_of(first_s),
        (_, day) => day,
    };
    // To the microsecond: what counts from 1970 is not kept any finer.
    let time_s = raw.fixes.iter().map(|fix| ((fix.time_s - first_s) * 1e6).round() / 1e6).collect();
    let place = raw.fixes.iter().map(|fix| fix.place).collect::<Option<Vec<_>>>()?;
    let height_m = raw.fixes.iter().map(|fix| fix.height_m).collect::<Option<Vec<_>>>()?;
    let track = Track::new(time_s, place, height_m, channels)?;
    Some((day.map(|day| day.to_string()), track))
}
