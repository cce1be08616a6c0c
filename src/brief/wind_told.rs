//! Up to what wind the plan holds, in a sentence for each who asks.

use super::Facts;

impl Facts {
    /// For those who read a wall.
    pub(crate) fn wind_for_wall(&self) -> String {
        match self.wind_limits.as_ref().map(|found| (found.hand_mps, found)) {
            Some((Some([low, _]), found)) => {
                format!("Up to {low:.1} m/s on a hand-held meter, wind from {}.", found.from)
            }
            Some((None, found)) => {
                format!("Holds in no wind from {}, not even in a calm. What is missed: {}.", found.from, found.limit)
            }
            None => "Up to what wind: not worked out for this print.".into(),
        }
    }

    /// For those who hold the meter.
    pub(crate) fn wind_for_day(&self) -> String {
        let Some(found) = &self.wind_limits else {
            return "The most is not worked out for this print: that alone is a no.".into();
        };
        match (found.hand_mps, found.aloft_mps) {
            (Some([low, _]), Some(aloft)) => {
                format!("The most is {low:.1} m/s hand-held, from {}; {aloft:.1} m/s at circle height.", found.from)
            }
            _ => format!("From {} no wind will do, not even a calm.", found.from),
        }
    }

    /// For those who decide.
    pub(crate) fn wind_for_committee(&self) -> String {
        let Some(found) = &self.wind_limits else { return "Wind limit: not worked out for this print.".into() };
        match (found.aloft_mps, found.hand_mps) {
            (Some(most), Some([low, _])) => {
                format!("Wind limit from {}: {most:.1} m/s at the circle, {low:.1} m/s hand-held.", found.from)
            }
            _ => format!("From {} no wind meets the margins.", found.from),
        }
    }

    /// For those who read the card on a screen.
    pub(crate) fn wind_for_screen(&self) -> String {
        let Some(found) = &self.wind_limits else { return "up to what wind: not worked out".into() };
        match (found.hand_mps, found.aloft_mps) {
            (Some([low, high]), Some(most)) => format!(
                "from {} up to {most:.1} m/s at circle height: {low:.1} m/s on a hand-held meter at 2 m (other air: up to \
                 {high:.1} m/s)",
                found.from
            ),
            _ => format!("from {}: do not fly this plan in any wind; {} fails", found.from, found.limit),
        }
    }
}
