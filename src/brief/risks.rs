//! The risks: who is hurt by what, what is done about it, and what this plan has to say, with its number.

use super::Plan;
use crate::margins::{Limit, MarginUnit, Margins, Outcome, Verdict};
use crate::words::{capital, counted, left, left_of, margin, number};

/// A risk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Risk {
    /// What may happen.
    pub(crate) hazard: &'static str,
    /// To whom.
    pub(crate) who: &'static str,
    /// What is done about it.
    pub(crate) control: &'static str,
    /// What the plan says to it.
    pub(crate) told: String,
}

/// Who is hurt by what, and what is done about it: hazard, who, control.
const RISKS: [[&str; 3]; 10] = [
    [
        "Control is lost, and the jet comes back over pits or people",
        "members",
        "centre moved; ground that nobody may enter",
    ],
    ["The way home crosses animals", "grazier", "months on the area; a limit to where a flight may be lost"],
    ["The circle leaves the field in wind", "public", "wind limit on the card"],
    ["The jet is lost in the sun", "public, members", "hours left out; spotter"],
    ["Nobody takes it back in time", "members", "drill with a stopwatch; laps to the reserve"],
    ["It circles too high over ground that falls away", "other air users", "a lower circle"],
    [
        "An aircraft with people in it appears",
        "other air users",
        "call to come down at once; the circle is no place to wait",
    ],
    [
        "It burns where it comes down",
        "land, people",
        "fire kit; no flying in the dry months; areas where it would spread",
    ],
    ["Somebody goes after it over land that is not ours", "landowner", "whom to ask stands on the card"],
    ["The plan is out of date", "all", "review day; every change is a new plan"],
];

impl Plan<'_> {
    /// Every risk.
    pub(crate) fn risks(&self) -> Vec<Risk> {
        let told = [
            self.risk_to_people(),
            self.risk_to_animals(),
            self.risk_of_leaving(),
            self.risk_of_sun(),
            self.risk_of_no_take_over(),
            self.risk_of_height(),
            self.risk_to_aircraft(),
            self.risk_of_fire(),
            self.risk_of_trespass(),
            self.risk_of_age(),
        ];
        RISKS.into_iter().zip(told).map(|([hazard, who, control], told)| Risk { hazard, who, control, told }).collect()
    }

    fn risk_to_people(&self) -> String {
        let area = |margins: &Margins| {
            let near = margins.rows.iter().filter(|row| kept_off(row.limit) && row.unit == MarginUnit::Metres);
            near.min_by(|a, b| a.margin.total_cmp(&b.margin))
                .map(|row| format!("{} {} m", row.name, left_of(row.margin, row.buffer)[0]))
        };
        let near = match (area(&self.margins), area(&self.gust)) {
            (Some(mean), Some(gust)) => format!("Nearest in the mean wind: {mean}; in the gusts: {gust}."),
            _ => "No area that nobody may enter is in force on the day.".into(),
        };
        format!("{near} {}", self.of_trials(kept_off))
    }

    /// In how many trials one of those limits was crossed, whatever else came of them.
    fn of_trials(&self, limits: fn(Limit) -> bool) -> String {
        let Some((study, point)) = self.studies.own_point() else { return "Trials: none flown.".into() };
        let tally = &point.trials;
        let those = study.limits.iter().zip(&tally.limits).filter(|(info, _)| limits(info.limit));
        // One trial may cross several: the limit crossed most often says how many at least.
        match those.max_by_key(|(_, tally)| tally.crossed) {
            Some((info, most)) => {
                let trials = counted(most.crossed, tally.trials, study.ask.confidence);
                format!("{} crossed in {trials} trials.", capital(&info.name))
            }
            None => String::new(),
        }
    }

    /// Seconds over caution areas, in the plan as entered.
    pub(super) fn over_caution(&self) -> String {
        let counted = self.margins.rows.iter().filter(|row| row.verdict == Verdict::Counted && row.margin > 0.0);
        let over: Vec<String> = counted.map(|row| format!("{} {}", row.name, margin(row))).collect();
        match over.as_slice() {
            [] => "No seconds over caution areas in the plan as entered.".into(),
            over => format!("In the plan as entered: {}.", over.join("; ")),
        }
    }

    fn risk_to_animals(&self) -> String {
        let cells = self.studies.losses.map_or_else(
            || "Other places of the loss: not worked out for this print.".into(),
            |study| {
                let entered = study.cells.iter().filter(|cell| cell.worst == Outcome::EnteredArea).count();
                format!(
                    "Lost elsewhere: some flight, trials and all headings counted, enters ground it may not from {entered} of {} cells.",
                    study.cells.len()
                )
            },
        );
        format!("{} {cells}", self.over_caution())
    }

    fn risk_of_leaving(&self) -> String {
        let facts = self.facts();
        let far = facts.furthest.as_ref().map_or_else(
            || "It flies no whole lap.".into(),
            |far| format!("Furthest {far} from the centre in the mean wind."),
        );
        let wind_limit = facts.wind_for_committee();
        format!("{far} {wind_limit} {}", self.of_trials(|limit| matches!(limit, Limit::Boundary | Limit::FlightLine)))
    }

    fn risk_of_sun(&self) -> String {
        let hours = self.hours().unwrap_or_else(|| "no hours named".into());
        format!("Hours: {hours}. {}", self.facts().sun)
    }

    fn risk_of_no_take_over(&self) -> String {
        let (limits, facts) = (&self.scenario.file.limits, self.facts());
        let laps = facts.laps.map_or_else(
            || "No lap is flown.".into(),
            |laps| format!("{laps} laps to the reserve, {} asked for.", number(limits.laps_to_reserve)),
        );
        let lap = facts.lap.map_or_else(String::new, |lap| format!(" One lap takes {lap}."));
        format!(
            "{laps}{lap} Taking over is reckoned with {} (spread {}).",
            limits.take_over.value, limits.take_over.spread
        )
    }

    fn risk_of_height(&self) -> String {
        let told = |margins: &Margins| margins.rows.iter().find(|row| row.limit == Limit::HeightLimit).map(left);
        match (told(&self.margins), told(&self.gust)) {
            (Some(mean), Some(gust)) => format!(
                "To the height limit, in the mean wind: {mean}; in the gusts: {gust}. {}",
                self.of_trials(|limit| matches!(limit, Limit::HeightLimit | Limit::Ground))
            ),
            _ => "No height limit is set in the file.".into(),
        }
    }

    fn risk_to_aircraft(&self) -> String {
        let file = &self.scenario.file;
        let sinks = file.jet.return_speed.value.mps() * file.jet.climb_limit.value.rad().sin();
        let height = file.recovery.height.m();
        if sinks > 0.1 {
            format!("From circle height to the ground at the steepest descent: {:.0} s.", height / sinks)
        } else {
            "The jet sheet lets it sink no faster than nothing.".into()
        }
    }

    fn risk_of_fire(&self) -> String {
        let kit = self.scenario.file.brief.emergency.fire_kit.trim();
        let kit = if kit.is_empty() { "not said where" } else { kit };
        let field = self.scenario.file.field.as_ref();
        let seasonal = field.map_or(0, |field| field.areas.iter().filter(|area| !area.months.is_empty()).count());
        let figures = &self.margins.figures;
        format!(
            "Fire kit: {kit}. Areas with months: {seasonal}. It may come down {:.0} m on in a fall, {:.0} m in a glide.",
            figures.fall_footprint_m, figures.glide_footprint_m
        )
    }

    fn risk_of_trespass(&self) -> String {
        format!(
            "Landowner: {}. In the wind at circle height it drifts {:.0} m a minute.",
            self.landowner(),
            self.drift_m_a_minute()
        )
    }

    fn risk_of_age(&self) -> String {
        let hash = self.scenario.hash();
        format!("To be checked again: {}. Any change changes the hash, here {hash}.", self.review_day())
    }
}

/// Whether it is ground that somebody is to be kept off.
const fn kept_off(limit: Limit) -> bool {
    matches!(limit, Limit::Area(_) | Limit::PilotPosition)
}
