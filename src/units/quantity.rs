//! The quantities themselves, their units and their factors to SI.

use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::parse::{Unit, UnitError, number_and_unit};
use super::print::{decimals, tidy, typed};

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
                        Some(digits) => write!(f, "{} {}", decimals(value, digits), unit.names[0]),
                        None => write!(f, "{} {}", typed(value), unit.names[0]),
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
                    json_schema!({ "type": "string", "format": concat!($kind, "-with-unit") })
                }
            }
        )+

        /// Reads `text` as the quantity called `kind` and says what is wrong with it; none where none is called that.
        pub(super) fn check_format(kind: &str, text: &str) -> Option<Result<(), UnitError>> {
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
    /// A pressure of the air, pascals inside, hectopascals in print. One inch of mercury is the conventional one.
    Pressure, "pressure", pa: [
        ["hPa", "mbar", "mb"] = 100.0,
        ["Pa"] = 1.0,
        ["kPa"] = 1000.0,
        ["inHg"] = 3_386.388_6,
    ];
    /// A share of a whole, 1 inside, per cent in print.
    Ratio, "ratio", share: [["%", "percent"] = 0.01];
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is printed reads back as the same number, to twelve digits.
    #[track_caller]
    fn round_trip<Q: Quantity>(si: f64) {
        let text = Q::from_si(si).to_string();
        approx::assert_relative_eq!(text.parse::<Q>().unwrap().si(), si, max_relative = 1e-11);
    }

    #[test]
    fn printed_quantities_read_back() {
        for si in [1.0, -2.5, 0.1 + 0.2, 1.0 / 3.0, 6.02e5, 1e-9] {
            round_trip::<Length>(si);
            round_trip::<Angle>(si);
            round_trip::<Energy>(si);
            round_trip::<Charge>(si);
            round_trip::<Ratio>(si);
        }
    }

    #[test]
    fn prints_short() {
        assert_eq!("35 deg".parse::<Angle>().unwrap().to_string(), "35 deg");
        assert_eq!("400 ft".parse::<Length>().unwrap().to_string(), "121.92 m");
        assert_eq!("5 Ah".parse::<Charge>().unwrap().to_string(), "5000 mAh");
        assert_eq!(Length::new(-0.0).to_string(), "0 m");
        assert_eq!(format!("{:.1}", Length::new(-0.04)), "0.0 m");
        assert_eq!("15 %".parse::<Ratio>().unwrap().to_string(), "15 %");
        assert_eq!(format!("{:.1}", Speed::new(8.74)), "8.7 m/s");
    }

    #[test]
    fn converts_to_a_unit_by_name() {
        assert_eq!(Length::new(0.3048).in_unit("ft"), Some(1.0));
        assert_eq!(Length::new(1.0).in_unit("kg"), None);
    }

    #[test]
    fn formats_are_checked_by_the_name_of_the_quantity() {
        assert_eq!(check_format("length", "3 m"), Some(Ok(())));
        assert!(check_format("length", "3").is_some_and(|checked| checked.is_err()));
        assert_eq!(check_format("colour", "3 m"), None);
    }
}
