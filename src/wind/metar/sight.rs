//! How far one sees, as a report gives it.

use super::{Reader, number};
use crate::units::{Length, Quantity as _};

/// What "10 km or more" is taken for, metres.
const FAR_M: f64 = 10_000.0;
/// Eight points of the compass that may stand after a visibility, and the letters for no direction at all.
const TOWARDS: [&str; 10] = ["", "NDV", "N", "NE", "E", "SE", "S", "SW", "W", "NW"];

/// Whether two groups make one visibility, such as `1 1/2SM`.
pub(super) fn whole_and_fraction(whole: &str, fraction: &str) -> bool {
    whole.len() == 1 && number(whole).is_some() && fraction.ends_with("SM") && fraction.contains('/')
}

impl Reader {
    /// Takes a group of visibility; whether it was meant as one.
    pub(super) fn sight(&mut self, group: &str) -> bool {
        if group == "CAVOK" {
            self.seen(FAR_M);
            self.note(group, "visibility 10 km or more, no cloud and no weather that matters to aircraft");
            return true;
        }
        if group == "////" || group == "////SM" {
            self.note(group, "the station gives no visibility");
            return true;
        }
        if group.ends_with("SM")
            && !group.starts_with(|first: char| first.is_ascii_alphabetic() && !"MP".contains(first))
        {
            self.miles(group);
            return true;
        }
        let Some((metres, towards)) = group.split_at_checked(4) else { return false };
        let Some(metres) = number(metres).filter(|_| TOWARDS.contains(&towards)) else { return false };
        let metres = f64::from(metres);
        let direction =
            if towards.is_empty() || towards == "NDV" { String::new() } else { format!(" towards {towards}") };
        if metres == 9999.0 {
            self.seen(FAR_M);
            self.note(group, format!("visibility 10 km or more{direction}"));
        } else {
            self.seen(metres);
            self.note(group, format!("visibility {metres:.0} m{direction}"));
        }
        true
    }

    /// Takes a visibility in statute miles: `10SM`, `1/2SM`, `1 1/2SM`, `M1/4SM` for less and `P6SM` for more.
    pub(super) fn miles(&mut self, group: &str) {
        let text = group.trim_end_matches("SM");
        let (bound, text) = match text.split_at_checked(1) {
            Some(("M", rest)) => ("less than ", rest),
            Some(("P", rest)) => ("more than ", rest),
            _ => ("", text),
        };
        let miles = match text.split_once(' ') {
            Some((whole, part)) => number(whole).zip(fraction(part)).map(|(whole, part)| f64::from(whole) + part),
            None if text.contains('/') => fraction(text),
            None => number(text).filter(|&miles| miles < 100).map(f64::from),
        };
        let Some(miles) = miles else {
            let way_out = "Miles are written as 10SM, 1/2SM or, with a space, 1 1/2SM";
            self.fault(group, format!("\"{text}\" is no number of miles"), way_out);
            return;
        };
        let metres = format!("{miles} mi").parse::<Length>().map_or(0.0, Length::si);
        self.seen(metres);
        self.note(group, format!("visibility {bound}{miles} statute miles ({metres:.0} m)"));
    }

    /// Keeps the least of what one sees.
    fn seen(&mut self, metres: f64) {
        let least = self.metar.visibility_m.map_or(metres, |least| least.min(metres));
        self.metar.visibility_m = Some(least);
    }
}

/// A part of a mile: halves, quarters, eighths or sixteenths, less than one.
fn fraction(text: &str) -> Option<f64> {
    let (above, below) = text.split_once('/')?;
    let (above, below) = (number(above)?, number(below)?);
    (above > 0 && above < below && [2, 4, 8, 16].contains(&below)).then(|| f64::from(above) / f64::from(below))
}
