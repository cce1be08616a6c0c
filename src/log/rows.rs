//! What do the rows of a table say, once it is known what its columns hold?

use glam::DVec2;

use super::cells::{is_comment, is_missing, number, pair, split};
use super::clock::{self, moment};
use super::columns::{CLOCK, Columns, Role};
use super::fill::SHORT_S;
use super::fix::{AIRSPEED, BANK, Clock, ENERGY, Fix, Heights, LOAD, Raw, near, place};
use super::notes::{Kind, Notes};
use crate::run::{Scenario, Stretch, WindChoice, draw};

/// Seconds since 1970 are more than this, those since a start are less.
const SINCE_1970_S: f64 = 5e8;

const HEADERS: Kind = Kind { many: "headers in the middle", way_out: "Nothing to do: the columns are the same" };
const TORN: Kind = Kind {
    many: "rows with more or fewer cells than the header",
    way_out: "They are left out; where all are, see that decimals and cells are not both parted by commas",
};
const NO_TIME: Kind = Kind { many: "rows without a time", way_out: "They are left out" };
const NO_NUMBER: Kind = Kind { many: "cells that hold no number", way_out: "They count as missing" };
const DRAWN: Kind = Kind {
    many: "packs",
    way_out: "Nothing to do if that is right; only what is drawn from one sample to another is in the log",
};

/// A table, taken apart.
pub(super) struct Table<'a> {
    pub(super) lines: &'a [&'a str],
    /// The first row, from 0.
    pub(super) first: usize,
    pub(super) names: &'a [&'a str],
    pub(super) separator: char,
}

/// One thing to be read of every row.
struct Reader<'a> {
    columns: &'a Columns,
    /// Of every column, its unit in SI.
    si: Vec<f64>,
    clock: Option<Clock>,
    pack_j: f64,
}

pub(super) fn read(table: &Table<'_>, columns: &Columns, scenario: &Scenario, notes: &mut Notes) -> Option<Raw> {
    let si = |column: &super::columns::Column| column.role.unit(&column.unit).map_or(1.0, |unit| unit.si);
    let si = columns.columns.iter().map(si).collect();
    let mut pack_j = 0.0;
    if columns.of(Role::EnergyDrawn).is_some() {
        pack_j = draw(scenario, 0, WindChoice::Mean).energy_j;
        notes.warn(&DRAWN, None, || format!("the pack is taken to hold {:.1} Wh before the first", pack_j / 3600.0));
    }
    let mut reader = Reader { columns, si, clock: None, pack_j };
    let (mut fixes, mut cells) = (Vec::new(), Vec::new());
    for (line, number) in table.lines.iter().zip(1..).skip(table.first) {
        if is_comment(line) {
            continue;
        }
        split(line, table.separator, &mut cells);
        if cells == table.names {
            notes.warn(&HEADERS, Some(number), || "the header comes again".into());
            continue;
        }
        let wide = table.names.len();
        while cells.len() > wide && cells.last() == Some(&"") {
            cells.pop();
        }
        if cells.len() != wide {
            let count = cells.len();
            notes.warn(&TORN, Some(number), || format!("the row has {count} cells and the header {wide}"));
            continue;
        }
        fixes.extend(reader.fix(&cells, number, scenario, notes));
    }
    let has = |role| columns.of(role).is_some();
    let mut extras = [false; 4];
    extras[AIRSPEED] = has(Role::Airspeed);
    extras[LOAD] = has(Role::Load);
    extras[BANK] = has(Role::Bank);
    extras[ENERGY] = has(Role::EnergyLeft) || has(Role::EnergyDrawn);
    Some(Raw {
        fixes,
        clock: reader.clock.unwrap_or(Clock::Start),
        day: None,
        heights: if has(Role::HeightAboveHome) { Heights::Home } else { Heights::Sea },
        height_gap_s: SHORT_S,
        one_clock: true,
        extras,
        stretch: has(Role::Stretch),
    })
}

impl Reader<'_> {
    fn fix(&mut self, cells: &[&str], line: usize, scenario: &Scenario, notes: &mut Notes) -> Option<Fix> {
        let Some(time_s) = self.time_s(cells) else {
            notes.warn(&NO_TIME, Some(line), || "the row has no time that can be read".into());
            return None;
        };
        let mut fix = Fix::new(line, time_s, None, None);
        let (mut degrees, mut metres) = ([None; 2], [None; 2]);
        for ((column, &si), &cell) in self.columns.columns.iter().zip(&self.si).zip(cells) {
            let role = column.role;
            if matches!(role, Role::Ignored | Role::Time | Role::Date) || is_missing(cell) {
                continue;
            }
            if role == Role::Stretch {
                fix.stretch = Stretch::ALL.into_iter().find(|stretch| stretch.name() == cell);
                continue;
            }
            let value = match role {
                Role::Position => {
                    degrees = pair(cell).map_or([None; 2], |pair| pair.map(Some));
                    degrees[0]
                }
                _ => number(cell, role).map(|value| value * si),
            };
            let Some(value) = value else {
                let short: String = cell.chars().take(40).collect();
                notes.warn(&NO_NUMBER, Some(line), || format!("\"{short}\" is no {}", role.name()));
                continue;
            };
            match role {
                Role::Latitude => degrees[0] = Some(value),
                Role::Longitude => degrees[1] = Some(value),
                Role::East => metres[0] = Some(value),
                Role::North => metres[1] = Some(value),
                Role::HeightAboveSea | Role::HeightAboveHome => fix.height_m = Some(value).filter(|m| m.abs() < 1e5),
                Role::Airspeed => fix.extra[AIRSPEED] = value,
                Role::Bank => fix.extra[BANK] = value,
                Role::Load => fix.extra[LOAD] = value,
                Role::EnergyLeft => fix.extra[ENERGY] = value,
                Role::EnergyDrawn => fix.extra[ENERGY] = self.pack_j - value,
                _ => {}
            }
        }
        fix.place = match (degrees, metres) {
            ([Some(latitude), Some(longitude)], _) => place(scenario.field.plane, [latitude, longitude], line, notes),
            (_, [Some(east), Some(north)]) => near(DVec2::new(east, north), line, notes),
            _ => None,
        };
        Some(fix)
    }

    /// The time of a row; none where it counts from something else than that of the first row.
    fn time_s(&mut self, cells: &[&str]) -> Option<f64> {
        let at = self.columns.of(Role::Time)?;
        let cell = cells.get(at)?;
        let day = self.columns.of(Role::Date).and_then(|at| cells.get(at)).and_then(|cell| clock::day(cell));
        let (time_s, clock) = if self.columns.columns[at].unit == CLOCK {
            let read = moment(cell)?;
            let read = clock::Moment { day: read.day.or(day), ..read };
            (read.seconds(), if read.day.is_some() { Clock::Unix } else { Clock::Midnight })
        } else {
            let time_s = number(cell, Role::Time)? * self.si[at];
            (time_s, if time_s > SINCE_1970_S { Clock::Unix } else { Clock::Start })
        };
        (*self.clock.get_or_insert(clock) == clock).then_some(time_s)
    }
}
