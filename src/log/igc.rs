//! What does a flight recorder's file say? Layouts: Technical Specification for GNSS Flight Recorders, second edition with
//! amendment 8 (2023), appendix A: A3.2.4 the date, A3.3 the I record, A4.1 the B record, A7 the three-letter codes.

use std::ops::Range;

use super::clock::{date, digits};
use super::fill::SHORT_S;
use super::fix::{Clock, Fix, Heights, Raw, place};
use super::notes::{Kind, Notes};
use crate::geometry::TangentPlane;

const SIGNED: Kind = Kind {
    many: "signatures",
    way_out: "Nothing to do here: whether the file is as the recorder wrote it is not looked into",
};
const GARBLED: Kind = Kind { many: "fixes that can't be read", way_out: "They are left out" };
const FLAT: Kind = Kind {
    many: "fixes without a height from the satellites",
    way_out: "Their height is that of the pressure, moved to where both are known",
};
const FROZEN: Kind = Kind {
    many: "fixes without satellites, which repeat the last place",
    way_out: "They are left out (A4.1 of the specification has them repeat it)",
};
const PRESSURE: Kind = Kind {
    many: "files without a height from the satellites",
    way_out: "Heights are those of the pressure; over a day they drift by some metres an hour",
};

/// Whether a line is a fix: B, a time, a latitude, a longitude, a letter for the kind of fix.
pub(super) fn is_fix(line: &str) -> bool {
    let letter = |at: usize, letters: &[u8]| line.as_bytes().get(at).is_some_and(|byte| letters.contains(byte));
    line.starts_with('B') && letter(14, b"NS") && letter(23, b"EW") && letter(24, b"AV")
}

/// Where the fixes hold more digits than they have to.
#[derive(Default)]
struct More {
    latitude: Option<Range<usize>>,
    longitude: Option<Range<usize>>,
    second: Option<Range<usize>>,
}

impl More {
    /// From an I record: how many there are, then first column, last column and three letters of each.
    fn of(line: &str) -> Self {
        let mut more = Self::default();
        for part in line.get(3..).unwrap_or_default().as_bytes().chunks_exact(7) {
            let Ok(part) = std::str::from_utf8(part) else { continue };
            let column = |text: Option<&str>| text.and_then(digits).and_then(|column| usize::try_from(column).ok());
            let (Some(from), Some(to)) = (column(part.get(..2)), column(part.get(2..4))) else { continue };
            let range = (from > 35 && from <= to).then(|| from - 1..to);
            match part.get(4..) {
                Some("LAD") => more.latitude = range,
                Some("LOD") => more.longitude = range,
                Some("TDS") => more.second = range,
                _ => {}
            }
        }
        more
    }
}

/// A fix with both its heights, metres.
struct Both {
    fix: Fix,
    pressure_m: Option<f64>,
    satellite_m: Option<f64>,
}

pub(super) fn read(text: &str, plane: TangentPlane, notes: &mut Notes) -> Raw {
    let (mut more, mut day, mut all) = (More::default(), None, Vec::new());
    let mut last_place = None;
    for (line, number) in text.lines().zip(1..) {
        let line = line.trim_end();
        match line.as_bytes().first() {
            Some(b'B') if line.get(24..25) == Some("V") && last_place == line.get(7..24) => {
                notes.warn(&FROZEN, Some(number), || "the place is that of the fix before, marked as not valid".into());
            }
            Some(b'B') => match fix(line, number, &more, plane, notes) {
                Some(both) => {
                    last_place = line.get(7..24);
                    all.push(both);
                }
                None => notes.warn(&GARBLED, Some(number), || "this B record can't be read".into()),
            },
            Some(b'I') => more = More::of(line),
            Some(b'H') if line.get(2..5) == Some("DTE") && day.is_none() => {
                let digits = line[5..].trim_start_matches("DATE").trim_start_matches(':').trim_start();
                day = digits.get(..6).and_then(|text| date(text.get(4..)?, text.get(2..4)?, text.get(..2)?));
            }
            Some(b'G') => notes.warn(&SIGNED, Some(number), || "the signature is not checked".into()),
            _ => {}
        }
    }
    heights(&mut all, notes);
    Raw {
        fixes: all.into_iter().map(|both| both.fix).collect(),
        clock: Clock::Midnight,
        day,
        heights: Heights::Sea,
        height_gap_s: SHORT_S,
        one_clock: true,
        extras: [false; 4],
        stretch: false,
    }
}

fn fix(line: &str, number: usize, more: &More, plane: TangentPlane, notes: &mut Notes) -> Option<Both> {
    if !line.is_ascii() || line.len() < 35 || !is_fix(line) {
        return None;
    }
    let whole = |range: Range<usize>| digits(&line[range]).map(f64::from);
    // Digits that go on behind the point.
    let behind = |range: &Option<Range<usize>>| {
        let text = range.clone().and_then(|range| line.get(range)).filter(|text| digits(text).is_some());
        text.and_then(|text| format!("0.{text}").parse::<f64>().ok()).unwrap_or_default()
    };
    let (hours, minutes, seconds) = (whole(1..3)?, whole(3..5)?, whole(5..7)?);
    if hours > 23.0 || minutes > 59.0 || seconds > 60.0 {
        return None;
    }
    let time_s = hours * 3600.0 + minutes * 60.0 + seconds + behind(&more.second);
    let degrees = |whole: f64, thousandths: f64, more: f64| {
        (thousandths < 60_000.0).then_some(whole + (thousandths + more) / 60_000.0)
    };
    let side = |at: usize| if [b'S', b'W'].contains(&line.as_bytes()[at]) { -1.0 } else { 1.0 };
    let latitude = side(14) * degrees(whole(7..9)?, whole(9..14)?, behind(&more.latitude))?;
    let longitude = side(23) * degrees(whole(15..18)?, whole(18..23)?, behind(&more.longitude))?;
    let height = |text: &str| text.parse::<f64>().ok().filter(|height_m| height_m.is_finite());
    let (pressure_m, satellite_m) = (height(&line[25..30]), height(&line[30..35]));
    let place = place(plane, [latitude, longitude], number, notes);
    let satellite_m = satellite_m.filter(|_| line.as_bytes()[24] == b'A');
    Some(Both { fix: Fix::new(number, time_s, place, None), pressure_m, satellite_m })
}

/// Takes the heights from the satellites where they are valid, else those of the pressure.
fn heights(all: &mut [Both], notes: &mut Notes) {
    // A recorder that does not know one of the two writes zeros all along.
    let known = |list: &dyn Fn(&Both) -> Option<f64>| all.iter().filter_map(list).any(|height_m| height_m != 0.0);
    let satellites = known(&|both| both.satellite_m) || !known(&|both| both.pressure_m);
    let has_pressure = known(&|both| both.pressure_m);
    let valid = satellites && all.iter().any(|both| both.satellite_m.is_some());
    if !valid && !all.is_empty() {
        notes.warn(&PRESSURE, None, || "no height from the satellites is valid; the pressure's is taken".into());
    }
    let mut apart: Vec<f64> =
        all.iter().filter_map(|both| Some(both.satellite_m? - both.pressure_m?)).filter(|_| valid).collect();
    apart.sort_by(f64::total_cmp);
    let apart_m = apart.get(apart.len() / 2).copied().unwrap_or_default();
    for both in all {
        let pressure_m = both.pressure_m.filter(|_| has_pressure || !valid).map(|height_m| height_m + apart_m);
        if valid && both.satellite_m.is_none() {
            notes.warn(&FLAT, Some(both.fix.line), || "the fix is marked as without a height".into());
        }
        both.fix.height_m = both.satellite_m.filter(|_| valid).or(pressure_m);
    }
}
