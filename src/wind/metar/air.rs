//! Temperature, dew point and pressure of a report: shown to the person, as signs that the right report was pasted.

use super::{Reader, number};

/// One inch of mercury, hPa (conventional: 29.92 in are the 1013.2 hPa of the standard atmosphere).
const INCH_HPA: f64 = 33.863_886;
/// Lowest and highest pressure at sea level that is believed, hPa: a little beyond the records.
const PRESSURES: std::ops::RangeInclusive<f64> = 850.0..=1100.0;
/// Highest temperature that is believed, degrees Celsius.
const HOTTEST: f64 = 60.0;
/// Lowest.
const COLDEST: f64 = -90.0;

impl Reader {
    /// Takes a group of temperature or pressure; whether it was meant as one.
    pub(super) fn air(&mut self, group: &str) -> bool {
        self.temperatures(group) || self.pressure(group)
    }

    fn temperatures(&mut self, group: &str) -> bool {
        let Some((warm, dew)) = group.split_once('/') else { return false };
        let (Some(warm), Some(dew)) = (celsius(warm), if dew.is_empty() { Some(None) } else { celsius(dew) }) else {
            return false;
        };
        let before = self.faults.len();
        for degrees in [warm, dew].into_iter().flatten().filter(|degrees| !(COLDEST..=HOTTEST).contains(degrees)) {
            self.fault(group, format!("{degrees:.0} degrees Celsius"), "Compare it with where the report came from");
        }
        if let (Some(warm), Some(dew)) = (warm, dew)
            && dew > warm
        {
            let problem = format!("the dew point, {dew:.0}, is above the temperature, {warm:.0}");
            self.fault(group, problem, "Temperature comes first; compare it with where the report came from");
        }
        if self.faults.len() == before {
            let said =
                |degrees: Option<f64>| degrees.map_or_else(|| "missing".into(), |degrees| format!("{degrees:.0} C"));
            self.note(group, format!("temperature {}, dew point {}", said(warm), said(dew)));
            (self.metar.temperature_c, self.metar.dew_point_c) = (warm, dew);
        }
        true
    }

    fn pressure(&mut self, group: &str) -> bool {
        let Some((kind, digits)) = group.split_at_checked(1).filter(|(kind, _)| ["Q", "A"].contains(kind)) else {
            return false;
        };
        if digits == "////" {
            self.note(group, "the station gives no pressure");
            return true;
        }
        let Some(value) = number(digits).filter(|_| digits.len() == 4).map(f64::from) else { return false };
        let hpa = if kind == "A" { value / 100.0 * INCH_HPA } else { value };
        if !PRESSURES.contains(&hpa) {
            let problem = format!("a pressure of {hpa:.0} hPa at sea level");
            self.fault(group, problem, "After Q stand whole hPa, after A hundredths of an inch of mercury");
            return true;
        }
        let inches = if kind == "A" { format!("{:.2} inches of mercury, ", value / 100.0) } else { String::new() };
        self.note(group, format!("pressure at sea level {inches}{hpa:.0} hPa"));
        // Where both stand, the one in hPa was not converted.
        if kind == "Q" || self.metar.qnh_hpa.is_none() {
            self.metar.qnh_hpa = Some(hpa);
        }
        true
    }
}

/// Whole degrees in two digits, `M` for below nothing; the inner option is none where slashes stand for them.
fn celsius(text: &str) -> Option<Option<f64>> {
    if text == "//" {
        return Some(None);
    }
    let (sign, digits) = text.strip_prefix('M').map_or((1.0, text), |digits| (-1.0, digits));
    number(digits).filter(|_| digits.len() == 2).map(|degrees| Some(sign * f64::from(degrees) + 0.0))
}
