//! What does a pasted weather report (METAR or SPECI) of an aerodrome say about the wind, and what of it was understood?
//!
//! The code form is WMO FM 15 / FM 16 (Manual on Codes, WMO-No. 306, volume I.1), that of ICAO Annex 3. Only what a
//! flight of a model needs is read; every other group is listed as not used here and is never a fault.

mod air;
mod apply;
mod head;
mod sight;
mod wind;

#[cfg(test)]
mod tests;

pub use apply::caution;

use crate::error::Fault;

/// Longest text taken for a report, characters.
const LONGEST: usize = 2000;

/// Words after which a report speaks of the future or of the station itself.
const END: [&str; 4] = ["TEMPO", "BECMG", "NOSIG", "RMK"];

/// What was said of a group that this tool has no use for.
const NOT_USED: &str = "not used here";

/// The wind of a report.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MetarWind {
    /// Direction it blows from, degrees true; none in a calm, where it varies all round, and where it is missing.
    pub from_deg: Option<f64>,
    /// Mean speed, m/s: over ten minutes, in some countries over two.
    pub mean_mps: f64,
    /// Speed in the gusts, m/s; a report gives one only where it is well above the mean.
    pub gust_mps: Option<f64>,
    /// Extreme directions, degrees true, clockwise from the first to the second.
    pub sector_deg: Option<[f64; 2]>,
    /// Whether the direction is given as variable.
    pub variable: bool,
}

/// A report, as far as it is of use here.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Metar {
    /// The four letters of the aerodrome; none where the text begins without them.
    pub station: Option<String>,
    /// Day of the month, hour and minute, UTC.
    pub day_hour_minute: Option<[u32; 3]>,
    /// The wind; none where the station gives slashes for it.
    pub wind: Option<MetarWind>,
    /// Visibility, metres: the least given; 10 km stands for that and all beyond.
    pub visibility_m: Option<f64>,
    /// Temperature, degrees Celsius.
    pub temperature_c: Option<f64>,
    /// Dew point, degrees Celsius.
    pub dew_point_c: Option<f64>,
    /// Pressure reduced to sea level, hPa.
    pub qnh_hpa: Option<f64>,
    /// Every group in its order, with what was understood of it in plain words.
    pub groups: Vec<(String, String)>,
}

impl Metar {
    /// Reads a report as a person pastes it: on one line or several, in capitals or not.
    ///
    /// # Errors
    ///
    /// Every reason why it can't be used, each with the group it lies in as its place.
    pub fn read(text: &str) -> Result<Self, Vec<Fault>> {
        if text.chars().count() > LONGEST {
            let problem = format!("the text is longer than {LONGEST} characters");
            return Err(vec![Fault::error("", problem, "Paste one report alone")]);
        }
        let upper = text.to_uppercase();
        let (report, after) = upper.split_once('=').unwrap_or((&upper, ""));
        let mut reader = Reader::default();
        reader.report(&report.split_whitespace().collect::<Vec<_>>());
        let after = after.split_whitespace().collect::<Vec<_>>().join(" ");
        if !after.is_empty() {
            reader.note(&after, "not used here: it stands after the end of the report");
        }
        if reader.faults.is_empty() { Ok(reader.metar) } else { Err(reader.faults) }
    }
}

/// What has been read so far.
#[derive(Debug, Default)]
struct Reader {
    metar: Metar,
    faults: Vec<Fault>,
    /// The group the wind was in.
    wind_group: Option<String>,
}

impl Reader {
    fn fault(&mut self, group: &str, problem: impl Into<String>, way_out: impl Into<String>) {
        self.faults.push(Fault::error(group, problem, way_out));
    }

    fn note(&mut self, group: &str, words: impl Into<String>) {
        self.metar.groups.push((group.into(), words.into()));
    }

    fn report(&mut self, groups: &[&str]) {
        let mut left = self.head(groups);
        while let [group, rest @ ..] = left {
            if END.contains(group) {
                self.note(&left.join(" "), "not used here: what comes after is no observation of the wind of now");
                break;
            }
            // A visibility of whole miles and a fraction is two groups.
            if let [whole, fraction, rest @ ..] = left
                && sight::whole_and_fraction(whole, fraction)
            {
                self.miles(&format!("{whole} {fraction}"));
                left = rest;
                continue;
            }
            if !(self.wind(group) || self.sector(group) || self.sight(group) || self.air(group)) {
                self.note(group, NOT_USED);
            }
            left = rest;
        }
        self.together(groups);
    }
}

/// The number that some digits make; none where anything else is among them, or nothing.
fn number(digits: &str) -> Option<u32> {
    let plain = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| digits.parse().ok()).flatten()
}
