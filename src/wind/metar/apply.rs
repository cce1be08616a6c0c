//! A report onto the wind sheet, and what must be said with it.

use super::{Metar, MetarWind};
use crate::units::{Angle, Bearing, Length, Pressure, Speed, Temperature};
use crate::wind::sheet::{mean_floor, mean_spread, usual_from_spread};
use crate::wind::{AirSheet, WindSheet};

/// Height of an aerodrome's wind mast, metres: ICAO Annex 3 asks for wind at 10 m above the runway (value from memory).
const MAST_M: f64 = 10.0;

/// What a report is not: said wherever one is used.
pub fn caution() -> &'static str {
    "This is the wind of another place: a mast of 10 m on an open aerodrome, a mean over some minutes, observed perhaps \
     an hour ago. Hills, trees and the sea make your field's wind another one. Hold a meter up before you fly, and take \
     the larger of the two."
}

impl Metar {
    /// Puts the wind onto a sheet and says in words what was set. Without a wind in the report nothing is.
    pub fn apply(&self, sheet: &mut WindSheet) -> Vec<String> {
        let Some(wind) = &self.wind else { return vec!["nothing: the report has no wind speed".into()] };
        sheet.mean = hundredths(wind.mean_mps);
        sheet.gust = wind.gust_mps.map(hundredths);
        sheet.measured_at = Length::new(MAST_M);
        (sheet.mean_spread, sheet.mean_floor) = (mean_spread(), mean_floor());
        let mut set = vec![format!("mean {:.1}", sheet.mean)];
        // "Exceeding the mean speed by 5 m/s (10 kt)": ICAO Annex 3, attachment C.
        set.push(match wind.gust_mps {
            Some(_) => format!("gust {:.1}", sheet.gust()),
            None => format!(
                "gust {:.1}, 1.5 times the mean: the report gives none, which it need not where gusts stay less than 10 kt \
                 (5 m/s) over the mean",
                sheet.gust()
            ),
        });
        if let Some(deg) = wind.from_deg {
            sheet.from = Bearing::from_deg(deg);
            set.push(format!("from {:.0} deg true", deg));
        } else {
            set.push(format!("from {:.0} deg as it was: the report gives no one direction", sheet.from.deg()));
        }
        let usual = usual_from_spread(sheet.mean, sheet.terrain).rad().to_degrees();
        let (spread, why) = spread(wind, usual);
        sheet.from_spread = (spread > usual).then(|| Angle::new(spread.to_radians()));
        set.push(format!("direction spread {spread:.0} deg, one standard deviation: {why}"));
        set.push(format!("measured at {MAST_M:.0} m, the height of an aerodrome's mast"));
        set.push(format!(
            "spread of the mean {} and {}, as for any measured wind",
            sheet.mean_spread, sheet.mean_floor
        ));
        set
    }

    /// Puts temperature and pressure onto a sheet of the air, as far as the report has them, and says in words what was
    /// set. The field's elevation stays as it is.
    pub fn apply_air(&self, sheet: &mut AirSheet) -> Vec<String> {
        let mut set = Vec::new();
        if let Some(degrees) = self.temperature_c {
            let temperature = Temperature::from_celsius(degrees);
            sheet.temperature = Some(temperature);
            set.push(format!("temperature {temperature:.0}"));
        }
        if let Some(hpa) = self.qnh_hpa {
            let pressure = Pressure::new(100.0 * hpa.round());
            sheet.pressure = Some(pressure);
            set.push(format!("pressure at sea level {pressure:.0}"));
        }
        if set.is_empty() {
            set.push("nothing: the report has neither temperature nor pressure".into());
        } else {
            set.push(format!(
                "density of the air {:.3} kg/m3 at {:.0} above the sea",
                sheet.density(),
                sheet.elevation
            ));
        }
        set
    }
}

/// Spread of the direction, degrees, and why: that of an even chance over the sector, and no less than the usual one.
///
/// An even chance over `w` degrees has a standard deviation of `w / sqrt 12`; all round, 104 degrees. Trials draw the
/// direction from a normal distribution of that spread, so that the direction kept stays a little likelier.
fn spread(wind: &MetarWind, usual: f64) -> (f64, String) {
    let even = |width: f64| width / 12.0_f64.sqrt();
    let least = (usual * 10.0).round() / 10.0;
    match (wind.from_deg, wind.sector_deg) {
        (Some(_), Some([first, second])) => {
            let width = (second - first).rem_euclid(360.0);
            let spread = (even(width) * 10.0).round() / 10.0;
            (
                spread.max(least),
                format!("an even chance over the sector of {width:.0} deg, and no less than {least:.0}"),
            )
        }
        (Some(_), None) => (least, "the usual one, as the report gives no sector".into()),
        (None, _) => ((even(360.0) * 10.0).round() / 10.0, "an even chance all round".into()),
    }
}

/// To a hundredth of a metre a second, so that a sheet can be read.
fn hundredths(mps: f64) -> Speed {
    Speed::new((mps * 100.0).round() / 100.0)
}
