//! Up to what wind the plan holds, in a sentence for each who asks.

use super::Facts;
use crate::words::metered;

/// The one wind limit of the field card, as a meter in the hand reads it at 2 m.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CardWind {
    /// From where, such as "any direction" or "S, SW".
    pub(crate) from: String,
    /// Mean wind, m/s: the least of those directions, rounded down to a tenth.
    pub(crate) mean_mps: f64,
    /// Gusts, m/s.
    pub(crate) gust_mps: f64,
    /// From where no wind will do; none where there is no such direction.
    pub(crate) none_from: Option<String>,
}

impl Facts {
    /// The wind limit of the worst direction; of the worst that allows any wind, where some don't. None where none does, or
    /// nobody has worked it out.
    pub(crate) fn wind_for_card(&self) -> Option<CardWind> {
        let found = self.wind_limits.as_ref()?;
        let least = found.hand_by_wind.iter().filter_map(|(_, hand)| *hand).reduce(f64::min)?;
        let names = |some: bool| {
            let named = found.hand_by_wind.iter().filter(move |(_, hand)| hand.is_some() == some);
            named.map(|(name, _)| *name).collect::<Vec<_>>().join(", ")
        };
        let none_from = Some(names(false)).filter(|names| !names.is_empty());
        Some(CardWind {
            from: if none_from.is_some() { names(true) } else { "any direction".into() },
            mean_mps: least,
            gust_mps: metered(least * found.gust_times),
            none_from,
        })
    }

    /// For those who hold the meter.
    pub(crate) fn wind_for_day(&self) -> String {
        let Some(wind) = self.wind_for_card() else {
            return match self.wind_limits {
                Some(_) => "No wind will do, not even a calm.".into(),
                None => "The wind limit is not worked out for this print: that alone is a no.".into(),
            };
        };
        let none = wind.none_from.map_or_else(String::new, |none| format!(" From {none}: no wind at all."));
        format!("At most {:.1} m/s, gusts {:.1} m/s, from {}.{none}", wind.mean_mps, wind.gust_mps, wind.from)
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
