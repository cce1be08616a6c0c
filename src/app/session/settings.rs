//! What a person has chosen for good: the look, the units, the size of the text, and the files used last.

use std::collections::BTreeMap;
use std::path::PathBuf;

use serde::{Deserialize, Serialize};

use super::Practice;
use super::sticks::StickMap;
use crate::app::look::theme::{SCALES, Theme};
use crate::log::Columns;
use crate::words::{Measure, Units};

/// Files that are remembered.
const MOST_RECENT: usize = 8;

/// The choices, as they are kept from one start to the next.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Light or dark.
    pub theme: Theme,
    /// Whether what comes before the first use has been read.
    pub notice_read: bool,
    /// How large everything is drawn.
    pub scale: f32,
    /// Units a measure.
    pub units: Units,
    /// Whether one of the doors at the first start has been taken, or the tour been seen.
    pub tour_seen: bool,
    /// Files opened or saved, the last first.
    pub recent: Vec<PathBuf>,
    /// What is kept of rehearsing.
    pub practice: Practice,
    /// What the columns of tables hold, by their headers.
    pub columns: BTreeMap<String, Columns>,
    /// What the axes of each device mean.
    pub sticks: BTreeMap<String, StickMap>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: Theme::default(),
            notice_read: false,
            scale: 1.0,
            units: Units::default(),
            tour_seen: false,
            recent: Vec::new(),
            practice: Practice::default(),
            columns: BTreeMap::new(),
            sticks: BTreeMap::new(),
        }
    }
}

impl Settings {
    /// The next larger or smaller scale.
    pub fn scaled(&self, larger: bool) -> f32 {
        let next = |scale: &&f32| if larger { **scale > self.scale } else { **scale < self.scale };
        let found = if larger { SCALES.iter().find(next) } else { SCALES.iter().rev().find(next) };
        found.copied().unwrap_or(self.scale)
    }

    /// The same, with what no version can mean put back to its default.
    #[must_use]
    pub fn corrected(mut self) -> Self {
        let [least, .., most] = SCALES;
        if !(least..=most).contains(&self.scale) {
            self.scale = 1.0;
        }
        for measure in Measure::ALL {
            let (pair, known) = (self.units.of_mut(measure), measure.choices());
            if !known.contains(&pair.first.as_str()) {
                pair.first.clone_from(&Units::default().of(measure).first);
            }
            if !known.contains(&pair.second.as_str()) {
                pair.second.clear();
            }
        }
        self.recent.truncate(MOST_RECENT);
        self.practice.tries_s.retain(|try_s| try_s.is_finite() && *try_s > 0.0);
        self
    }

    /// Puts a file in front of those used last.
    pub fn remember(&mut self, path: PathBuf) {
        self.recent.retain(|known| *known != path);
        self.recent.insert(0, path);
        self.recent.truncate(MOST_RECENT);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_go_up_and_down_and_stop_at_the_ends() {
        let mut settings = Settings::default();
        settings.scale = settings.scaled(true);
        assert_eq!(settings.scale, 1.15);
        settings.scale = settings.scaled(false);
        assert_eq!(settings.scale, 1.0);
        settings.scale = 1.75;
        assert_eq!(settings.scaled(true), 1.75);
    }

    #[test]
    fn a_file_used_again_comes_to_the_front_once() {
        let mut settings = Settings::default();
        for name in ["a", "b", "a"] {
            settings.remember(name.into());
        }
        assert_eq!(settings.recent, ["a", "b"].map(PathBuf::from));
        for index in 0..20 {
            settings.remember(index.to_string().into());
        }
        assert_eq!(settings.recent.len(), MOST_RECENT);
    }

    #[test]
    fn what_no_version_can_mean_is_put_back() {
        let mut settings = Settings { scale: f32::NAN, ..Settings::default() };
        settings.units.wind = crate::words::Pair { first: "furlong".into(), second: "kg".into() };
        let corrected = settings.corrected();
        assert_eq!((corrected.scale, corrected.units.wind.first.as_str()), (1.0, "m/s"));
        assert!(corrected.units.wind.second.is_empty());
    }

    #[test]
    fn settings_of_another_version_are_read_as_far_as_they_fit() {
        let read: Settings = serde_json::from_str(r#"{"theme":"Dark","of_the_future":3}"#).unwrap();
        assert_eq!(read, Settings { theme: Theme::Dark, ..Settings::default() });
    }
}
