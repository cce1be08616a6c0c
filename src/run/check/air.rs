//! Which numbers of the wind and the air make no sense.

use super::Checks;
use crate::units::{Angle, Length, Pressure, Ratio, Speed, Temperature};
use crate::wind::{AirSheet, Profile, WindSheet};

impl Checks {
    pub(super) fn wind(&mut self, wind: &WindSheet) {
        self.within::<Speed>("/wind/mean", wind.mean, 0.0, 60.0);
        match wind.gust {
            Some(gust) => {
                self.within::<Speed>("/wind/gust", gust, 0.0, 90.0);
                if gust < wind.mean {
                    let problem = format!("the gust, {gust}, is below the mean, {}", wind.mean);
                    let way_out = "Write the speed in the gusts, not what they add; at least the mean";
                    self.error("/wind/gust", problem, way_out);
                }
            }
            None => {
                let problem = format!("nobody reported a gust: taken as 1.5 times the mean, {:.1}", wind.gust());
                self.warn("/wind/gust", problem, "Write the strongest that a meter or an aerodrome shows");
            }
        }
        self.within::<Length>("/wind/measured_at", wind.measured_at, 0.1, 3000.0);
        let [low, high] = wind.exponents();
        self.plain("/wind/exponent_low", low, 0.0, 1.0);
        self.plain("/wind/exponent_high", high, 0.0, 1.0);
        if low > high {
            let problem = format!("the lowest exponent, {low}, is above the highest, {high}");
            let way_out = if wind.exponent_low.is_some() && wind.exponent_high.is_some() {
                "Exchange the two"
            } else {
                "Write both, or neither: the other one is that of the terrain"
            };
            let place = if wind.exponent_low.is_some() { "/wind/exponent_low" } else { "/wind/exponent_high" };
            self.error(place, problem, way_out);
        }
        if let Some(roughness) = wind.roughness {
            self.within::<Length>("/wind/roughness", roughness, 0.00001, 5.0);
        }
        if wind.profile == Profile::Log && wind.measured_at.m() <= wind.roughnesses_m()[1] {
            let problem = "the log law has no meaning at or below the roughness length";
            self.error("/wind/measured_at", problem, "Write a height well above the roughness");
        }
        if let Some(convection) = wind.convection {
            self.within::<Speed>("/wind/convection", convection, 0.0, 5.0);
        }
        self.within::<Ratio>("/wind/mean_spread", wind.mean_spread, 0.0, 1.0);
        self.within::<Speed>("/wind/mean_floor", wind.mean_floor, 0.0, 10.0);
        self.within::<Angle>("/wind/from_spread", wind.from_spread(), 0.0, std::f64::consts::PI);
    }

    pub(super) fn air(&mut self, air: &AirSheet) {
        self.within::<Length>("/air/elevation", air.elevation, -450.0, 6000.0);
        if let Some(temperature) = air.temperature {
            self.within::<Temperature>("/air/temperature", temperature, 213.15, 333.15);
        }
        if let Some(pressure) = air.pressure {
            // A little beyond the records at sea level; what a barometer shows high up lies below.
            self.within::<Pressure>("/air/pressure", pressure, 85_000.0, 110_000.0);
        }
    }
}
