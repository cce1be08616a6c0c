//! A reading of the wind today, held against the plan without touching it.

use super::{Grade, Session};
use crate::study::verdict::Answer;
use crate::study::wind_limit::Direction;
use crate::units::{Bearing, Length, Speed};
use crate::wind::WindSheet;

/// What a meter or a forecast says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindToday {
    /// Mean where it was measured.
    pub mean: Speed,
    /// Strongest there; 1.5 times the mean where nobody says.
    pub gust: Option<Speed>,
    /// Where it blows from, true.
    pub from: Bearing,
    /// Height over the ground at which it was measured.
    pub measured_at: Length,
}

/// What is asked of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TodayCommand {
    /// Sets the mean.
    Mean(Speed),
    /// Sets the gusts, or leaves them out.
    Gust(Option<Speed>),
    /// Sets where it blows from.
    From(Bearing),
    /// Says where it was measured.
    MeasuredAt(Length),
    /// Forgets the reading.
    Forget,
}

/// What the plan's wind limit says of a wind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// Nothing: it is not worked out for this plan.
    NotWorkedOut,
    /// At its strongest the wind is under the limit from there.
    Under,
    /// At its weakest the wind is over the limit from there.
    Over,
    /// The limit doesn't tell.
    Between,
}

impl WindToday {
    /// The plan's wind, to be typed over.
    pub const fn of(wind: &WindSheet) -> Self {
        Self { mean: wind.mean, gust: wind.gust, from: wind.from, measured_at: wind.measured_at }
    }

    /// A wind like the plan's with this reading in the place of the plan's.
    #[must_use]
    pub const fn on(&self, wind: &WindSheet) -> WindSheet {
        WindSheet { mean: self.mean, gust: self.gust, from: self.from, measured_at: self.measured_at, ..*wind }
    }
}

impl Session {
    /// The reading; that of the plan until one is typed.
    pub fn wind_reading(&self) -> WindToday {
        self.wind_today.unwrap_or_else(|| WindToday::of(&self.draft.file().wind))
    }

    pub(super) fn today_obeys(&mut self, command: TodayCommand) {
        let mut reading = self.wind_reading();
        match command {
            TodayCommand::Mean(mean) => reading.mean = mean,
            TodayCommand::Gust(gust) => reading.gust = gust,
            TodayCommand::From(from) => reading.from = from,
            TodayCommand::MeasuredAt(height) => reading.measured_at = height,
            TodayCommand::Forget => return self.wind_today = None,
        }
        self.wind_today = Some(reading);
    }

    /// What the wind limit of the plan on the screen says of the reading. Its growth with height is not known, so it is
    /// under only where the most that it may grow to is, and over only where the least is.
    pub fn wind_stands(&self) -> Stands {
        let file = self.draft.file();
        let known = self.answers.wind_limit.as_ref().filter(|known| {
            self.is_current() && known.edition == self.edition && known.grade == Grade::Refined && !known.found.partial
        });
        let Some(study) = known.map(|known| &known.found).filter(|study| study.ask.trials > 0) else {
            return Stands::NotWorkedOut;
        };
        let reading = self.wind_reading();
        let [low, _, high] = reading.on(&file.wind).aloft_range(file.recovery.height.m());
        // Between two directions that were flown both have to say it.
        let apart = 360.0 / f64::from(study.ask.directions.max(1));
        let near = |found: &&Direction| {
            let turned = (found.from_deg - reading.from.deg()).rem_euclid(360.0);
            turned.min(360.0 - turned) < apart
        };
        let beside: Vec<&Direction> = study.directions.iter().filter(near).collect();
        let all = |says: &dyn Fn(&Direction) -> bool| !beside.is_empty() && beside.iter().all(|found| says(found));
        let gusts_flown = |found: &Direction| found.gust_mps.is_some_and(|most| high[1] <= most);
        if all(&|found| found.answer(high[0]) == Answer::Yes && gusts_flown(found)) {
            Stands::Under
        } else if all(&|found| found.answer(low[0]) == Answer::No) {
            Stands::Over
        } else {
            Stands::Between
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::app::session::{Answer as Known, Session};
    use crate::brief::fixture;
    use crate::run::Scenario;

    /// The tight strip with wind limits from every tenth degree: 6.5 m/s and 3 m/s more or less towards north and south.
    fn session() -> Session {
        let scenario = Scenario::tight_strip();
        let found = Arc::new(fixture::wind_limit(&scenario));
        let mut session = Session::new(scenario, Vec::new(), None);
        session.answers.wind_limit = Some(Known { found, edition: session.edition, grade: Grade::Refined });
        session
    }

    /// At the height of the circle, where nothing is left to grow.
    fn reading(session: &Session, mean: f64, gust: f64, from_deg: f64) -> WindToday {
        let circle = session.draft.file().recovery.height;
        let (mean, gust) = (Speed::new(mean), Some(Speed::new(gust)));
        WindToday { mean, gust, from: Bearing::from_deg(from_deg), measured_at: circle }
    }

    #[track_caller]
    fn check(mean: f64, gust: f64, from_deg: f64, expected: Stands) {
        let mut session = session();
        session.wind_today = Some(reading(&session, mean, gust, from_deg));
        assert_eq!(session.wind_stands(), expected, "{mean}, {gust} from {from_deg}");
    }

    #[test]
    fn a_wind_is_under_or_over_only_where_every_direction_beside_it_says_so() {
        // By hand: 6.5 - 3 = 3.5 m/s from the south, gusts 5.25; it fails from 4.0.
        check(3.4, 5.0, 180.0, Stands::Under);
        check(3.4, 5.3, 180.0, Stands::Between);
        check(4.1, 5.0, 180.0, Stands::Over);
        // From 265 degrees: 6.5 + 3 cos 260 = 5.98 and 6.5 + 3 cos 270 = 6.5, failing from 6.48 and 7.0.
        check(5.9, 8.0, 265.0, Stands::Under);
        check(6.2, 8.0, 265.0, Stands::Between);
        check(7.1, 9.0, 265.0, Stands::Over);
        // Across north, from 355 degrees: 6.5 + 3 cos 350 = 9.45 and the 22 m/s of north itself.
        check(9.4, 14.0, 355.0, Stands::Under);
        check(12.0, 14.0, 355.0, Stands::Between);
    }

    #[test]
    fn the_growth_with_height_counts_at_its_worst() {
        let mut session = session();
        let hand = Length::new(2.0);
        // 70 m over 2 m is 35 times: 35^0.14 = 1.645 and 35^0.20 = 2.036 (closed form of the power law). From the south
        // 1.7 m/s grow to 2.8 to 3.46 m/s, 1.9 m/s to 3.1 to 3.87, 2.5 m/s to 4.1 to 5.1.
        for (mean, expected) in [(1.7, Stands::Under), (1.9, Stands::Between), (2.5, Stands::Over)] {
            session.wind_today = Some(WindToday { measured_at: hand, ..reading(&session, mean, mean, 180.0) });
            assert_eq!(session.wind_stands(), expected, "{mean}");
        }
    }

    #[test]
    fn nothing_is_said_from_a_first_look_or_of_another_plan() {
        let mut session = session();
        session.wind_today = Some(reading(&session, 1.0, 1.0, 180.0));
        session.answers.wind_limit.iter_mut().for_each(|known| known.grade = Grade::Coarse);
        assert_eq!(session.wind_stands(), Stands::NotWorkedOut);
        session.answers.wind_limit.iter_mut().for_each(|known| known.grade = Grade::Refined);
        assert_eq!(session.wind_stands(), Stands::Under);
        session.edition += 1;
        assert_eq!(session.wind_stands(), Stands::NotWorkedOut);
    }
}
