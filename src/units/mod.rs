//! How big, how fast, which way: quantities as people type them.
//!
//! Files and prompts carry strings with a unit ("60 m", "18mph", "400 ft"); inside the program a quantity is one f64
//! in SI base units. A number without a unit is refused with the list of units that fit.

mod bearing;
mod parse;
mod print;
mod quantity;
mod shape;
mod temperature;

pub use bearing::Bearing;
pub use parse::{Unit, UnitError, in_si};
pub use print::{decimals, figure, left_of, number, typed};
pub use quantity::{
    Angle, AngularRate, Area, Charge, Energy, Frequency, Length, Mass, Power, Pressure, Quantity, Ratio, Speed, Time,
    conversions,
};
pub use shape::{Shape, capital};
pub use temperature::Temperature;

/// Reads `text` as the quantity called `kind` ("length", "speed" and so on) and says what is wrong with it.
///
/// `None` where no quantity has that name.
pub fn check_format(kind: &str, text: &str) -> Option<Result<(), UnitError>> {
    if kind == Temperature::KIND {
        return Some(text.parse::<Temperature>().map(|_| ()));
    }
    quantity::check_format(kind, text)
}

/// Standard gravity, m/s^2, by definition (ISO 80000-3; the value in every handbook table checked against).
pub const G0: f64 = 9.80665;
