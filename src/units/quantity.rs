//! The quantities themselves, their units and their factors to SI.

use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::parse::{UnitError, number_and_unit};

/// One unit of a quantity: the names people type, first the one that is printed, and its size in SI.
#[derive(Debug, Clone, Copy)]
pub struct Unit {
    /// Names, matched without regard to case where that is unambiguous.
    pub names: &'static [&'static str],
    /// How many SI units one of it is.
    pub si: f64,
}

/// A physical quantity that is read and printed with its unit.
pub trait Quantity: Copy + FromStr<Err = UnitError> + fmt::Display {
    /// What it is called in a message, such as "length".
    const KIND: &'static str;
    /// Units that may be typed; the first is the one printed.
    const UNITS: &'static [Unit];
    /// From a value in SI units.
    fn from_si(value: f64) -> Self;
    /// The value in SI units.
    fn si(self) -> f64;
    /// The value in the unit of that name, where there is one.
    fn in_unit(self, name: &str) -> Option<f64> {
        Self::UNITS.iter().find(|unit| unit.names.contains(&name)).map(|unit| self.si() / unit.si)
    }
}

/// To twelve significant digits, so that 35 degrees come back from radians as 35 and not as 34.99999999999999.
fn tidy(value: f64) -> f64 {
    format!("{value:.11e}").parse().unwrap_or(value)
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident, $kind:literal, $accessor:ident: [$([$($unit:literal),+] = $si:expr),+ $(,)?];)+) => {
        $(
            $(#[$doc])*
            #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
            pub struct $name(f64);

            impl $name {
                /// From a value in SI units.
                pub const fn new(si: f64) -> Self {
                    Self(si)
                }

                /// The value in SI units.
                pub const fn $accessor(self) -> f64 {
                    self.0
                }
            }

            impl Quantity for $name {
                const KIND: &'static str = $kind;
                const UNITS: &'static [Unit] = &[$(Unit { names: &[$($unit),+], si: $si }),+];

                fn from_si(value: f64) -> Self {
                    Self(value)
                }

                fn si(self) -> f64 {
                    self.0
                }
            }

            impl fmt::Display for $name {
                fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                    let unit = &Self::UNITS[0];
                    let value = tidy(self.0 / unit.si);
                    match f.precision() {
                        Some(digits) => write!(f, "{value:.digits$} {}", unit.names[0]),
                        None => write!(f, "{value} {}", unit.names[0]),
                    }
                }
            }

            impl FromStr for $name {
                type Err = UnitError;

                fn from_str(text: &str) -> Result<Self, UnitError> {
                    number_and_unit(text, Self::KIND, Self::UNITS).map(Self)
                }
            }

            impl Serialize for $name {
                fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                    serializer.collect_str(self)
                }
            }

            impl<'de> Deserialize<'de> for $name {
                fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                    String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
                }
            }

            impl JsonSchema for $name {
                fn inline_schema() -> bool {
                    true
                }

                fn schema_name() -> std::borrow::Cow<'static, str> {
                    $kind.into()
                }

                fn json_schema(_: &mut SchemaGenerator) -> Schema {
                    json_schema!({ "type": "string", "format": $kind })
                }
            }
        )+

        /// Reads `text` as the quantity called `kind` ("length", "speed" and so on) and says what is wrong with it.
        ///
        /// `None` where no quantity has that name.
        pub fn check_format(kind: &str, text: &str) -> Option<Result<(), UnitError>> {
            match kind {
                $($kind => Some($name::from_str(text).map(|_| ())),)+
                _ => None,
            }
        }

        /// Every unit that may be typed: the quantity's name, the unit's names and its size in SI.
        pub fn conversions() -> Vec<(&'static str, &'static [&'static str], f64)> {
            let mut all = Vec::new();
            $(all.extend($name::UNITS.iter().map(|unit| ($kind, unit.names, unit.si)));)+
            all
        }
    };
}

/// One foot in metres, exactly.
const FOOT: f64 = 0.3048;
/// One pound in kilograms, exactly.
const POUND: f64 = 0.453_592_37;

quantities! {
    /// A length, metres.
    Length, "length", m: [
        ["m", "metre", "metres", "meter", "meters"] = 1.0,
        ["ft", "foot", "feet", "'"] = FOOT,
        ["km"] = 1000.0,
        ["cm"] = 0.01,
        ["mm"] = 0.001,
        ["in", "inch", "inches", "\""] = FOOT / 12.0,
        ["yd", "yard", "yards"] = 3.0 * FOOT,
        ["mi", "mile", "miles"] = 5280.0 * FOOT,
        ["NM", "nmi"] = 1852.0,
    ];
    /// A speed, metres per second.
    Speed, "speed", mps: [
        ["m/s", "mps", "ms-1"] = 1.0,
        ["kt", "kts", "knot", "knots", "kn"] = 1852.0 / 3600.0,
        ["mph", "mi/h"] = 5280.0 * FOOT / 3600.0,
        ["km/h", "kmh", "kph"] = 1.0 / 3.6,
        ["ft/s", "fps"] = FOOT,
    ];
    /// A mass, kilograms.
    Mass, "mass", kg: [
        ["kg"] = 1.0,
        ["g", "gram", "grams"] = 0.001,
        ["lb", "lbs", "pound", "pounds"] = POUND,
        ["oz", "ounce", "ounces"] = POUND / 16.0,
    ];
    /// An area, square metres.
    Area, "area", m2: [
        ["m2", "m^2", "sqm"] = 1.0,
        ["dm2", "dm^2"] = 0.01,
        ["cm2", "cm^2"] = 0.0001,
        ["ft2", "ft^2", "sqft"] = FOOT * FOOT,
        ["in2", "in^2", "sqin"] = FOOT * FOOT / 144.0,
    ];
    /// A time, seconds.
    Time, "time", s: [
        ["s", "sec", "second", "seconds"] = 1.0,
        ["min", "minute", "minutes"] = 60.0,
        ["h", "hr", "hour", "hours"] = 3600.0,
        ["ms"] = 0.001,
    ];
    /// An angle, radians inside, degrees in print.
    Angle, "angle", rad: [
        ["deg", "degree", "degrees", "\u{b0}"] = std::f64::consts::PI / 180.0,
        ["rad"] = 1.0,
    ];
    /// A rate of turn or roll, radians per second inside, degrees per second in print.
    AngularRate, "angular-rate", rad_per_s: [
        ["deg/s", "\u{b0}/s"] = std::f64::consts::PI / 180.0,
        ["rad/s"] = 1.0,
    ];
    /// Electric power, watts.
    Power, "power", w: [["W", "watt", "watts"] = 1.0, ["kW"] = 1000.0, ["hp"] = 745.699_871_582_270_2];
    /// Energy, joules inside, watt-hours in print.
    Energy, "energy", j: [["Wh"] = 3600.0, ["J"] = 1.0, ["kJ"] = 1000.0];
    /// Battery charge, coulombs inside, milliampere-hours in print.
    Charge, "charge", c: [["mAh"] = 3.6, ["Ah"] = 3600.0];
    /// A rate of events, hertz.
    Frequency, "frequency", hz: [["Hz", "/s"] = 1.0];
    /// A share of a whole, 1 inside, per cent in print.
    Ratio, "ratio", share: [["%", "percent"] = 0.01];
}
