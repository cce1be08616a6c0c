//! Which column of a table holds what, in which unit: guessed from the header, corrected by a person, remembered by a key.

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Nothing that is read.
    Ignored,
    /// The time, counted or by the clock, with the day or without.
    Time,
    /// The day, where it stands beside the time of day.
    Date,
    /// Latitude, north positive.
    Latitude,
    /// Longitude, east positive.
    Longitude,
    /// Latitude and longitude in one cell, in degrees.
    Position,
    /// Metres east of the datum.
    East,
    /// Metres north of the datum.
    North,
    /// Height above the sea, the ellipsoid, or a pressure.
    HeightAboveSea,
    /// Height above home's ground.
    HeightAboveHome,
    /// Airspeed.
    Airspeed,
    /// Bank, positive to the right.
    Bank,
    /// Load factor.
    Load,
    /// Energy that can still be drawn.
    EnergyLeft,
    /// Energy drawn since the log began.
    EnergyDrawn,
    /// Stretch of the recovery, by its name.
    Stretch,
}

/// A unit that a column may be in.
#[derive(Debug, PartialEq)]
pub struct ColumnUnit {
    /// Its name on screens and in files.
    pub name: &'static str,
    /// Its size in SI units; of latitudes and longitudes, in degrees.
    pub si: f64,
    /// What else headers call it, in small letters.
    also: &'static [&'static str],
}

const fn unit(name: &'static str, si: f64, also: &'static [&'static str]) -> ColumnUnit {
    ColumnUnit { name, si, also }
}

/// A time that is written as a clock shows it.
pub(super) const CLOCK: &str = "clock";

const TIMES: &[ColumnUnit] = &[
    unit("s", 1.0, &["sec", "secs", "second", "seconds"]),
    unit("ms", 1e-3, &["msec", "millis", "millisecond", "milliseconds"]),
    unit("us", 1e-6, &["µs", "usec", "micros", "microsecond", "microseconds"]),
    unit("min", 60.0, &["minutes"]),
    unit(CLOCK, 1.0, &[]),
];
const DEGREES: &[ColumnUnit] =
    &[unit("deg", 1.0, &["°", "degree", "degrees"]), unit("1e-7 deg", 1e-7, &["1e7", "dege7", "e7"])];
const LENGTHS: &[ColumnUnit] = &[
    unit("m", 1.0, &["metre", "metres", "meter", "meters"]),
    unit("ft", 0.3048, &["feet", "foot"]),
    unit("dm", 0.1, &[]),
    unit("cm", 0.01, &[]),
    unit("mm", 0.001, &[]),
    unit("km", 1000.0, &[]),
];
const SPEEDS: &[ColumnUnit] = &[
    unit("m/s", 1.0, &["mps", "ms"]),
    unit("km/h", 1.0 / 3.6, &["kmh", "kph"]),
    unit("kt", 1852.0 / 3600.0, &["kts", "kn", "knot", "knots"]),
    unit("mph", 0.447_04, &[]),
    unit("ft/s", 0.3048, &["fps"]),
    unit("cm/s", 0.01, &["cmps"]),
];
const ANGLES: &[ColumnUnit] = &[
    unit("deg", std::f64::consts::PI / 180.0, &["°", "degree", "degrees"]),
    unit("rad", 1.0, &["radian", "radians"]),
    unit("cdeg", std::f64::consts::PI / 18_000.0, &["centideg"]),
];
const LOADS: &[ColumnUnit] = &[unit("g", 1.0, &["gs"]), unit("m/s2", 1.0 / crate::units::G0, &["mps2", "mpss"])];
const ENERGIES: &[ColumnUnit] =
    &[unit("Wh", 3600.0, &[]), unit("mWh", 3.6, &[]), unit("J", 1.0, &["joule", "joules"]), unit("kJ", 1000.0, &[])];

impl Role {
    /// Every role, in the order of a list to choose from.
    pub const ALL: [Self; 16] = [
        Self::Ignored,
        Self::Time,
        Self::Date,
        Self::Latitude,
        Self::Longitude,
        Self::Position,
        Self::East,
        Self::North,
        Self::HeightAboveSea,
        Self::HeightAboveHome,
        Self::Airspeed,
        Self::Bank,
        Self::Load,
        Self::EnergyLeft,
        Self::EnergyDrawn,
        Self::Stretch,
    ];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ignored => "not read",
            Self::Time => "time",
            Self::Date => "day",
            Self::Latitude => "latitude",
            Self::Longitude => "longitude",
            Self::Position => "latitude and longitude",
            Self::East => "east of the datum",
            Self::North => "north of the datum",
            Self::HeightAboveSea => "height above the sea",
            Self::HeightAboveHome => "height above home",
            Self::Airspeed => "airspeed",
            Self::Bank => "bank",
            Self::Load => "load",
            Self::EnergyLeft => "energy left",
            Self::EnergyDrawn => "energy drawn",
            Self::Stretch => "stretch",
        }
    }

    /// The units it may be in, the first by default; none where it has none.
    pub const fn units(self) -> &'static [ColumnUnit] {
        match self {
            Self::Time => TIMES,
            Self::Latitude | Self::Longitude => DEGREES,
            Self::East | Self::North | Self::HeightAboveSea | Self::HeightAboveHome => LENGTHS,
            Self::Airspeed => SPEEDS,
            Self::Bank => ANGLES,
            Self::Load => LOADS,
            Self::EnergyLeft | Self::EnergyDrawn => ENERGIES,
            Self::Ignored | Self::Date | Self::Position | Self::Stretch => &[],
        }
    }

    /// The unit of that name, or that headers call so.
    pub(super) fn unit(self, name: &str) -> Option<&'static ColumnUnit> {
        let small = name.to_lowercase();
        let units = self.units().iter();
        units
            .clone()
            .find(|unit| unit.name == name)
            .or_else(|| units.clone().find(|unit| unit.name.to_lowercase() == small || unit.also.contains(&&*small)))
    }
}

/// One column of a table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Column {
    /// Its name in the header.
    pub header: String,
    /// What it holds.
    pub role: Role,
    /// Its unit, the name of one of [`Role::units`]; empty where there is none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub unit: String,
}

/// What the columns of a table hold, one entry a column.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Columns {
    /// The columns, in the order of the header.
    pub columns: Vec<Column>,
}

impl Columns {
    /// Names a header, whatever its capitals and the space around its names: what is said of its columns once can be
    /// remembered by it.
    pub fn key(header: &[&str]) -> String {
        let mut hash = Sha256::new();
        for name in header {
            hash.update(name.trim().to_lowercase());
            hash.update([0x1f]);
        }
        hash.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect()
    }

    /// The key of its own header.
    pub fn own_key(&self) -> String {
        Self::key(&self.columns.iter().map(|column| &*column.header).collect::<Vec<_>>())
    }

    /// Number of the column with a role, from 0.
    pub fn of(&self, role: Role) -> Option<usize> {
        self.columns.iter().position(|column| column.role == role)
    }
}
