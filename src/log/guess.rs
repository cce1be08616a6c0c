//! What do the names of the columns say, and what the first rows?

use super::cells::{number, pair};
use super::columns::{CLOCK, Column, Columns, Role};

/// Words of what was asked for, of how fast something changes, of how good it is: none of them is what was flown.
const OTHER: [&str; 26] = [
    "rate",
    "cmd",
    "command",
    "input",
    "demand",
    "stick",
    "setpoint",
    "target",
    "desired",
    "error",
    "err",
    "accuracy",
    "dop",
    "hdop",
    "vdop",
    "pdop",
    "std",
    "stddev",
    "sigma",
    "wp",
    "waypoint",
    "remaining",
    "limit",
    "offset",
    "trim",
    "vario",
];
const SPEED: [&str; 7] = ["speed", "spd", "vel", "velocity", "vspd", "acc", "accel"];
const SEA: [&str; 9] = ["sea", "msl", "amsl", "asl", "ellipsoid", "ellipsoidal", "geoid", "gps", "gnss"];
const HOME: [&str; 8] = ["home", "rel", "relative", "agl", "takeoff", "ground", "launch", "start"];

/// The words of a header in small letters: what stands between other signs, and before a capital in the middle.
fn words(header: &str) -> Vec<String> {
    let plain = header.replace("km/h", "kmh").replace("m/s", "mps").replace("ft/s", "fps").replace("mps²", "mps2");
    let mut words = vec![];
    let mut word = String::new();
    let mut before = ' ';
    for letter in plain.chars() {
        let part = letter.is_alphanumeric() || letter == '°';
        if !part || before.is_lowercase() && letter.is_uppercase() {
            words.push(std::mem::take(&mut word));
        }
        if part {
            word.extend(letter.to_lowercase());
        }
        before = letter;
    }
    words.push(word);
    words.retain(|word| !word.is_empty());
    words
}

/// What a column of that name may hold.
pub(super) fn role(header: &str) -> Role {
    let words = words(header);
    let has = |any: &[&str]| words.iter().any(|word| any.contains(&&**word));
    let latitude = has(&["lat", "latitude"]);
    let longitude = has(&["lon", "lng", "long", "longitude"]);
    let height = has(&["height", "hgt"]);
    let energy = has(&["energy"]);
    if energy && has(&["left", "remaining"]) {
        return Role::EnergyLeft;
    }
    match () {
        () if has(&OTHER) => Role::Ignored,
        () if has(&["stretch"]) => Role::Stretch,
        () if has(&["airspeed", "aspd", "ias", "tas", "eas", "cas"]) || has(&["air"]) && has(&SPEED) => Role::Airspeed,
        () if has(&SPEED) => Role::Ignored,
        () if latitude && longitude || has(&["latlon", "coordinates", "coords"]) => Role::Position,
        () if (latitude || longitude) && has(&["home"]) => Role::Ignored,
        () if latitude => Role::Latitude,
        () if longitude => Role::Longitude,
        () if has(&["east", "easting"]) || words == ["x", "m"] => Role::East,
        () if has(&["north", "northing"]) || words == ["y", "m"] => Role::North,
        () if has(&["bank", "roll"]) => Role::Bank,
        () if has(&["load", "loadfactor", "nz"]) => Role::Load,
        () if energy => Role::EnergyDrawn,
        // A height is above the ground, an altitude above the sea, unless more is said.
        () if height || has(&["alt", "altitude", "galt", "ele", "elevation"]) => {
            let home = !has(&SEA) && (height || has(&HOME));
            if home { Role::HeightAboveHome } else { Role::HeightAboveSea }
        }
        () if has(&["time", "timestamp", "elapsed", "millis", "clock", "utc", "datetime"]) || words == ["t"] => {
            Role::Time
        }
        () if words == ["t", "s"] || words == ["seconds"] || words == ["ms"] => Role::Time,
        () if has(&["date", "day"]) => Role::Date,
        () if has(&["gps", "gnss", "position", "location"]) && words.len() == 1 => Role::Position,
        () => Role::Ignored,
    }
}

/// Whether the name of a height says what it is above.
pub(super) fn says_above(header: &str) -> bool {
    words(header).iter().any(|word| SEA.contains(&&**word) || HOME.contains(&&**word))
}

/// The unit that a name says, of those a role may have.
pub(super) fn unit(header: &str, role: Role) -> Option<&'static str> {
    // A name that is a unit alone ("seconds") is one too.
    words(header).iter().rev().find_map(|word| role.unit(word)).map(|unit| unit.name)
}

/// Whether a row below the header holds units.
pub(super) fn is_units(cells: &[&str]) -> bool {
    let roles = || Role::ALL.iter();
    let known = |cell: &&str| words(cell).iter().any(|word| roles().any(|role| role.unit(word).is_some()));
    let numbers = cells.iter().any(|cell| cell.parse::<f64>().is_ok() || cell.contains(':'));
    !numbers && cells.iter().any(known)
}

impl Columns {
    /// What the columns seem to hold, by their names, their units and the first rows; each role is taken once.
    pub fn guess(header: &[&str], rows: &[Vec<&str>]) -> Self {
        let units = rows.first().filter(|row| is_units(row));
        let rows = &rows[usize::from(units.is_some())..];
        let name = |index: usize| match units.and_then(|units| units.get(index)) {
            Some(unit) => format!("{} {unit}", header[index]),
            None => header[index].to_owned(),
        };
        let cells = |index: usize| rows.iter().filter_map(move |row| row.get(index).copied());
        let mut roles = vec![Role::Ignored; header.len()];
        for index in 0..header.len() {
            let role = role(&name(index));
            // A column that is empty so far makes room for a second one.
            let holds = rows.is_empty() || cells(index).any(|cell| holds(role, cell));
            if role != Role::Ignored && !roles.contains(&role) && holds {
                roles[index] = role;
            }
        }
        for (better, worse) in [
            (vec![Role::Latitude, Role::Longitude], vec![Role::Position, Role::East, Role::North]),
            (vec![Role::Position], vec![Role::East, Role::North]),
            (vec![Role::HeightAboveHome], vec![Role::HeightAboveSea]),
            (vec![Role::EnergyLeft], vec![Role::EnergyDrawn]),
        ] {
            if better.iter().all(|role| roles.contains(role)) {
                roles.iter_mut().filter(|role| worse.contains(role)).for_each(|role| *role = Role::Ignored);
            }
        }
        let columns = roles.iter().enumerate().map(|(index, &role)| {
            let values = || cells(index).filter_map(|cell| number(cell, role));
            let unit = match role {
                Role::Time if cells(index).any(|cell| cell.contains(':')) => Some(CLOCK),
                Role::Time => unit(&name(index), role).or_else(|| counted(&values().collect::<Vec<_>>())),
                Role::Latitude | Role::Longitude if values().any(|value| value.abs() > 180.0) => Some("1e-7 deg"),
                Role::Latitude | Role::Longitude => Some("deg"),
                _ => unit(&name(index), role),
            };
            let unit = unit.or(role.units().first().map(|unit| unit.name)).unwrap_or_default();
            Column { header: header[index].to_owned(), role, unit: unit.to_owned() }
        });
        Self { columns: columns.collect() }
    }
}

fn holds(role: Role, cell: &str) -> bool {
    match role {
        Role::Time => cell.contains(':') || number(cell, role).is_some(),
        Role::Date | Role::Stretch => !cell.is_empty(),
        Role::Position => pair(cell).is_some(),
        _ => number(cell, role).is_some(),
    }
}

/// In what a time without a unit is counted: one of today since 1970 by its size, another by its steps. A logger that
/// counts seconds writes one at least every few.
fn counted(values: &[f64]) -> Option<&'static str> {
    let first = values.first()?.abs();
    let mut steps: Vec<f64> = values.windows(2).map(|pair| pair[1] - pair[0]).filter(|step| *step > 0.0).collect();
    steps.sort_by(f64::total_cmp);
    let step = steps.get(steps.len() / 2).copied().unwrap_or(1.0);
    Some(match () {
        () if first > 1e14 || first < 1e8 && step >= 5000.0 => "us",
        () if first > 1e11 || first < 1e8 && step >= 10.0 => "ms",
        () => "s",
    })
}
