//! The wind group of a report and the sector it varies in.

use super::{MetarWind, Reader, number};
use crate::units::{Bearing, Speed};

/// Units of a wind: the letters, the unit's name here, and the speed that `P` stands in front of, with what it means.
///
/// "When the wind speed is 100 knots or more (50 m/s or 200 km/h) [...] reported as P99KT (P49MPS or P199KMH)": WMO CBS-XII,
/// amendment to FM 15, 15.5.6.
const UNITS: [(&str, &str, u32, f64); 3] =
    [("KT", "kt", 99, 100.0), ("MPS", "m/s", 49, 50.0), ("KMH", "km/h", 199, 200.0)];

/// Fastest wind that the code provides for, m/s: 199 kt, of the note in the same place.
const FASTEST_MPS: f64 = 199.0 * 1852.0 / 3600.0;

/// A direction as written.
enum Direction {
    Missing,
    Variable,
    From(u32),
}

/// A speed as written.
#[derive(Clone, Copy)]
struct Written {
    value: f64,
    or_more: bool,
}

impl Reader {
    /// Takes a wind group; whether it was meant as one.
    pub(super) fn wind(&mut self, group: &str) -> bool {
        let Some((body, &(_, unit, above, least))) =
            UNITS.iter().find_map(|unit| group.strip_suffix(unit.0).map(|body| (body, unit)))
        else {
            return false;
        };
        if !body.is_empty() && !body.starts_with(|first: char| first.is_ascii_digit() || "/V".contains(first)) {
            return false;
        }
        if let Some(first) = self.wind_group.replace(group.into()) {
            let problem = format!("a second wind group; {first} came before it");
            self.fault(group, problem, "Keep the one that is meant");
            return true;
        }
        let Some((direction, speeds)) = body.split_at_checked(3).filter(|(_, speeds)| !speeds.is_empty()) else {
            self.fault(
                group,
                "too short for a wind",
                "A wind has a direction in three digits, a speed and a unit: 27012KT",
            );
            return true;
        };
        let (mean, gust) = match speeds.split_once('G') {
            Some((mean, gust)) => (mean, Some(gust)),
            None => (speeds, None),
        };
        let direction = self.direction(group, direction);
        let (mean, gust) =
            (self.speed(group, mean, above, least), gust.map(|gust| self.speed(group, gust, above, least)));
        let (Some(direction), Some(mean), Some(gust)) =
            (direction, mean, gust.map_or(Some(None), |gust| gust.map(Some)))
        else {
            return true;
        };
        let Some(mean) = mean else {
            self.note(group, "the station gives no wind speed");
            return true;
        };
        self.set_wind(group, unit, &direction, mean, gust.flatten());
        true
    }

    fn set_wind(&mut self, group: &str, unit: &str, direction: &Direction, mean: Written, gust: Option<Written>) {
        let mps = |written: Written| format!("{} {unit}", written.value).parse::<Speed>().map_or(0.0, Speed::mps);
        let (mean_mps, gust_mps) = (mps(mean), gust.map(mps));
        let before = self.faults.len();
        if let Direction::From(0) = direction
            && mean_mps > 0.0
        {
            self.fault(group, "a wind from 000", "Write 360 for north; 000 stands for a calm only, as in 00000KT");
        }
        if let Some(gust) = gust.filter(|gust| gust.value < mean.value) {
            let problem = format!("the gust, {} {unit}, is below the mean, {} {unit}", gust.value, mean.value);
            self.fault(group, problem, "After G stands the speed in the gusts, not what they add");
        }
        if mean_mps.max(gust_mps.unwrap_or(0.0)) > FASTEST_MPS {
            let problem = "faster than any wind that the code provides for";
            self.fault(group, problem, "Compare it with where the report came from");
        }
        if self.faults.len() > before {
            return;
        }
        let from_deg = match direction {
            Direction::From(deg) if mean_mps > 0.0 => Some(f64::from(*deg)),
            _ => None,
        };
        let variable = matches!(direction, Direction::Variable);
        let from = match (from_deg, mean_mps > 0.0) {
            (_, false) => "calm".into(),
            (Some(deg), _) => format!("wind from {deg:.0} deg true ({})", Bearing::from_deg(deg).point()),
            (None, _) if variable => "wind from all round, no one direction".into(),
            (None, _) => "wind, its direction missing".into(),
        };
        let said = |written: Written, mps: f64| {
            let more = if written.or_more { " or more" } else { "" };
            let converted = if unit == "m/s" { String::new() } else { format!(" ({mps:.1} m/s)") };
            format!("{} {unit}{more}{converted}", written.value)
        };
        let gusts = match (gust, gust_mps) {
            (Some(gust), Some(mps)) => format!(", {} in gusts", said(gust, mps)),
            _ => ", no gust given".into(),
        };
        self.note(group, format!("{from}, mean {}{gusts}", said(mean, mean_mps)));
        self.metar.wind = Some(MetarWind { from_deg, mean_mps, gust_mps, sector_deg: None, variable });
    }

    fn direction(&mut self, group: &str, text: &str) -> Option<Direction> {
        match text {
            "///" => Some(Direction::Missing),
            "VRB" => Some(Direction::Variable),
            _ => self.bearing(group, text).map(Direction::From),
        }
    }

    /// A direction in three digits, whole tens of degrees.
    fn bearing(&mut self, group: &str, text: &str) -> Option<u32> {
        let Some(deg) = number(text).filter(|_| text.len() == 3) else {
            let problem = format!("\"{text}\" is no direction");
            self.fault(group, problem, "A direction has three digits, as 090 for east, or is VRB");
            return None;
        };
        if deg > 360 {
            self.fault(group, format!("a wind from {deg}"), "Directions go up to 360, which is north");
            return None;
        }
        // "Direction in three figures rounded off to the nearest 10 degrees": ICAO Annex 3, attachment C.
        if deg % 10 != 0 {
            let way_out = "A report gives whole tens of degrees; compare it with where it came from";
            self.fault(group, format!("a wind from {deg}, which is no multiple of ten"), way_out);
            return None;
        }
        Some(deg)
    }

    /// A speed; the inner option is none where slashes stand for it, the outer where it can't be read.
    fn speed(&mut self, group: &str, text: &str, above: u32, least: f64) -> Option<Option<Written>> {
        if text == "//" {
            return Some(None);
        }
        if let Some(digits) = text.strip_prefix('P') {
            if number(digits) == Some(above) {
                return Some(Some(Written { value: least, or_more: true }));
            }
            let problem = format!("\"{text}\": P stands in front of {above} alone, for more than can be written");
            self.fault(group, problem, "Compare it with where the report came from");
            return None;
        }
        let Some(value) = number(text).filter(|_| (2..=3).contains(&text.len())) else {
            let way_out = "Speeds have two digits, or three from 100 on, and a G stands before the gust: 27012G22KT";
            self.fault(group, format!("\"{text}\" is no speed"), way_out);
            return None;
        };
        Some(Some(Written { value: f64::from(value), or_more: false }))
    }

    /// Takes the group of the extreme directions; whether it was meant as one.
    pub(super) fn sector(&mut self, group: &str) -> bool {
        let Some((first, second)) = group.split_once('V') else { return false };
        let digits = |text: &str| text.len() >= 2 && number(text).is_some();
        if !(digits(first) && digits(second)) {
            return false;
        }
        let ends = [first, second].map(|text| self.bearing(group, text));
        let [Some(first), Some(second)] = ends.map(|end| end.map(f64::from)) else { return true };
        let width = (second - first).rem_euclid(360.0);
        // "60 degrees or more but less than 180": WMO FM 15, 15.5.3.
        if width == 0.0 || width >= 180.0 {
            let problem = format!("from {first:.0} clockwise to {second:.0} is {width:.0} deg");
            let way_out =
                "The sector is given clockwise and is less than 180 deg wide; exchange the two, or leave it out";
            self.fault(group, problem, way_out);
            return true;
        }
        self.note(
            group,
            format!("the direction varied from {first:.0} clockwise to {second:.0} deg, {width:.0} deg wide"),
        );
        if let Some(wind) = &mut self.metar.wind {
            wind.sector_deg = Some([first, second]);
        }
        true
    }

    /// Whether the direction lies in the sector.
    pub(super) fn sector_fits(&mut self) {
        let Some(MetarWind { from_deg: Some(from), sector_deg: Some([first, second]), .. }) = self.metar.wind else {
            return;
        };
        let turn = |to: f64| (to - first).rem_euclid(360.0);
        if turn(from) > turn(second) {
            let group = self.wind_group.clone().unwrap_or_default();
            let problem = format!("the wind from {from:.0} lies outside the sector from {first:.0} to {second:.0}");
            self.fault(&group, problem, "Compare both groups with where the report came from");
        }
    }
}
