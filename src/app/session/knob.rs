//! The five numbers of a plan that can be turned in the window, and how each is read and set.

use std::ops::RangeInclusive;

use crate::run::ScenarioFile;
use crate::units::{Bearing, Length, Speed};

/// A number that can be turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Knob {
    /// Commanded radius of the circle, metres.
    Radius,
    /// Commanded height of the circle, metres.
    Height,
    /// Return speed, m/s.
    ReturnSpeed,
    /// Mean wind where it was measured, m/s. The gust keeps its proportion to it.
    WindSpeed,
    /// Direction the wind blows from, degrees true.
    WindFrom,
}

impl Knob {
    /// All of them, in the order of their keys 1 to 5.
    pub const ALL: [Self; 5] = [Self::Radius, Self::Height, Self::ReturnSpeed, Self::WindSpeed, Self::WindFrom];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Radius => "circle radius",
            Self::Height => "circle height",
            Self::ReturnSpeed => "return speed",
            Self::WindSpeed => "wind speed",
            Self::WindFrom => "wind from",
        }
    }

    /// Lowest and highest value it can be turned to.
    pub const fn range(self) -> RangeInclusive<f64> {
        match self {
            Self::Radius => 20.0..=300.0,
            Self::Height => 20.0..=150.0,
            Self::ReturnSpeed => 10.0..=40.0,
            Self::WindSpeed => 0.0..=20.0,
            Self::WindFrom => 0.0..=359.0,
        }
    }

    /// How far one press of an arrow key turns it.
    pub const fn step(self) -> f64 {
        match self {
            Self::Radius | Self::Height | Self::WindFrom => 1.0,
            Self::ReturnSpeed | Self::WindSpeed => 0.1,
        }
    }

    /// Its value in a scenario, in its unit.
    pub fn get(self, file: &ScenarioFile) -> f64 {
        match self {
            Self::Radius => file.recovery.radius.m(),
            Self::Height => file.recovery.height.m(),
            Self::ReturnSpeed => file.jet.return_speed.value.mps(),
            Self::WindSpeed => file.wind.mean.mps(),
            Self::WindFrom => file.wind.from.deg(),
        }
    }

    /// Sets its value, kept inside its range.
    pub fn set(self, written: &ScenarioFile, file: &mut ScenarioFile, value: f64) {
        let range = self.range();
        let value = value.clamp(*range.start(), *range.end());
        match self {
            Self::Radius => file.recovery.radius = Length::new(value),
            Self::Height => file.recovery.height = Length::new(value),
            Self::ReturnSpeed => file.jet = file.jet.returning_at(Speed::new(value), file.air.density()),
            Self::WindSpeed => {
                let wind = written.wind.with_mean(Speed::new(value));
                (file.wind.mean, file.wind.gust) = (wind.mean, wind.gust);
            }
            Self::WindFrom => file.wind.from = Bearing::from_deg(value),
        }
    }

    /// Reads what a person types into it: with any unit that fits, or a bare number in the unit beside the box.
    pub fn parse(self, text: &str) -> Option<f64> {
        if let Ok(bare) = text.trim().replace(',', ".").parse::<f64>() {
            return bare.is_finite().then_some(bare);
        }
        match self {
            Self::Radius | Self::Height => text.parse::<Length>().ok().map(Length::m),
            Self::ReturnSpeed | Self::WindSpeed => text.parse::<Speed>().ok().map(Speed::mps),
            Self::WindFrom => text.parse::<Bearing>().ok().map(Bearing::deg),
        }
    }
}
