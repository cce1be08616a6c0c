//! The head of a report: which kind, whose, and when.

use super::{NOT_USED, Reader, number};

/// Words that begin a forecast, which says nothing about now.
const FORECASTS: [&str; 2] = ["TAF", "TREND"];

impl Reader {
    /// Reads the head; what is left begins with the wind.
    pub(super) fn head<'a, 'b>(&mut self, groups: &'a [&'b str]) -> &'a [&'b str] {
        let mut left = groups;
        while let [group, rest @ ..] = left {
            match *group {
                "METAR" => self.note(group, "a routine report"),
                "SPECI" => self.note(group, "a special report, made between the routine ones"),
                "COR" => self.note(group, "corrected"),
                "AUTO" => self.note(group, "made by a machine, with nobody looking"),
                "NIL" => self.fault(group, "the station has sent no report", "Take the one before, or another station"),
                forecast if FORECASTS.contains(&forecast) => {
                    self.fault(group, "this is a forecast, not a report", "Paste the METAR or SPECI of the station");
                }
                _ if self.metar.day_hour_minute.is_none() && is_time(group) => self.time(group),
                _ if self.metar.station.is_none() && self.metar.day_hour_minute.is_none() && is_station(group) => {
                    self.note(group, "the aerodrome that reports");
                    self.metar.station = Some((*group).into());
                }
                _ => break,
            }
            left = rest;
        }
        left
    }

    fn time(&mut self, group: &str) {
        let digits = group.trim_end_matches('Z');
        let two = |from: usize| digits.get(from..from + 2).and_then(number);
        let (6, Some(day), Some(hour), Some(minute)) = (digits.len(), two(0), two(2), two(4)) else {
            let way_out = "Write day, hour and minute in two digits each and a Z, such as 281120Z";
            self.fault(group, "the time has not six digits", way_out);
            return;
        };
        if !(1..=31).contains(&day) || hour > 23 || minute > 59 {
            let problem = format!("there is no day {day}, {hour:02}:{minute:02}");
            self.fault(group, problem, "Compare it with where the report came from");
            return;
        }
        self.metar.day_hour_minute = Some([day, hour, minute]);
        self.note(group, format!("observed on day {day} of the month at {hour:02}:{minute:02} UTC"));
    }

    /// What only shows when all groups have been read.
    pub(super) fn together(&mut self, groups: &[&str]) {
        for group in groups.iter().filter(|group| is_period(group)) {
            let problem = "this is the period of a forecast, not the time of a report";
            self.fault(group, problem, "Paste the METAR or SPECI of the station");
        }
        self.sector_fits();
        if self.wind_group.is_some() {
            return;
        }
        let alike = self.metar.groups.iter().find(|(group, words)| words == NOT_USED && looks_like_wind(group));
        let way_out = "A wind is written as 27012KT, 27012G22KT, VRB03KT or 00000KT; MPS and KMH are read as well";
        let (place, problem) = match alike {
            Some((group, _)) => {
                (group.clone(), format!("the report has no wind group; \"{group}\" doesn't read as one"))
            }
            None => (String::new(), "the report has no wind group".into()),
        };
        self.fault(&place, problem, way_out);
    }
}

/// Digits and a Z: meant as a time, right or wrong.
fn is_time(group: &str) -> bool {
    group.strip_suffix('Z').and_then(number).is_some()
}

/// Four letters or digits, the first of them a letter.
fn is_station(group: &str) -> bool {
    let bytes = group.as_bytes();
    bytes.len() == 4 && bytes[0].is_ascii_uppercase() && bytes.iter().all(u8::is_ascii_alphanumeric)
}

/// Two days and hours with a stroke between: `2812/2918`.
fn is_period(group: &str) -> bool {
    group
        .split_once('/')
        .is_some_and(|(from, to)| from.len() == 4 && to.len() == 4 && number(from).is_some() && number(to).is_some())
}

/// Whether somebody may have meant a group as a wind.
fn looks_like_wind(group: &str) -> bool {
    let digits = group.bytes().take_while(u8::is_ascii_digit).count();
    group.ends_with("KT") || group.ends_with("KTS") || group.starts_with("VRB") || digits >= 5
}
