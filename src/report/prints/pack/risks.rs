//! The risk lines: who is hurt by what, what is done about it, and what this plan has to say, with its number.

use super::table::{Cell, text};
use super::{Flow, words};
use crate::brief::Plan;
use crate::margins::{Limit, MarginRow, MarginUnit, Margins, Outcome, Verdict};
use crate::run::Review;
use crate::words::{capital, counted, left, left_of, margin, number};

impl Plan<'_> {
    pub(super) fn pack_risks(&self, flow: &mut Flow<'_>) {
        flow.section("Risks");
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
        let columns = [
            text("hazard", 34.0),
            text("to whom", 18.0),
            text("what is done", 34.0),
            text("what this plan says", 60.0),
            text("likely, how bad", 18.0),
            text("whose, until", 18.0),
        ];
        let rows: Vec<Vec<Cell>> = words::RISKS
            .iter()
            .zip(told)
            .map(|([hazard, who, control], told)| {
                vec![Cell::bold(*hazard), (*who).into(), (*control).into(), told.into(), "".into(), "".into()]
            })
            .collect();
        flow.table(&columns, &rows);
        flow.paragraph(
            "How likely each is and how bad, whether what remains is accepted, and who looks after it until when is for the committee to write.",
        );
    }

    fn risk_to_people(&self) -> String {
        let area = |margins: &Margins| {
            let kept_off = |row: &&MarginRow| {
                matches!(row.limit, Limit::Area(_) | Limit::PilotPosition) && row.unit == MarginUnit::Metres
            };
            let near = margins.rows.iter().filter(kept_off);
            near.min_by(|a, b| a.margin.total_cmp(&b.margin))
                .map(|row| format!("{} {} m", row.name, left_of(row.margin, row.buffer)[0]))
        };
        let near = match (area(&self.margins), area(&self.gust)) {
            (Some(mean), Some(gust)) => format!("Nearest in the mean wind: {mean}; in the gusts: {gust}."),
            _ => "No area that nobody may enter is in force on the day.".into(),
        };
        format!("{near} {}", self.of_trials(|limit| matches!(limit, Limit::Area(_) | Limit::PilotPosition)))
    }

    /// In how many trials one of those limits was crossed, whatever else came of them.
    fn of_trials(&self, limits: fn(Limit) -> bool) -> String {
        let own_circle = self.studies.own_circle.and_then(|study| Some((study, &study.points.first()?.trials)));
        let Some((study, tally)) = own_circle else { return "Trials: none flown.".into() };
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

    fn risk_to_animals(&self) -> String {
        let over: Vec<String> = self
            .margins
            .rows
            .iter()
            .filter(|row| row.verdict == Verdict::Counted && row.margin > 0.0)
            .map(|row| format!("{} {}", row.name, margin(row)))
            .collect();
        let over = if over.is_empty() {
            "No seconds over caution areas in the plan as entered.".into()
        } else {
            format!("In the plan as entered: {}.", over.join("; "))
        };
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
        format!("{over} {cells}")
    }

    fn risk_of_leaving(&self) -> String {
        let facts = self.facts();
        let far = facts.furthest.map_or_else(
            || "It flies no whole lap.".into(),
            |far| format!("Furthest {far} from the centre in the mean wind."),
        );
        let wind_limit = match facts.wind_limits {
            Some(wind_limits) => match (wind_limits.aloft_mps, wind_limits.hand_mps) {
                (Some(most), Some([low, _])) => {
                    format!(
                        "Wind limit from {}: {most:.1} m/s at the circle, {low:.1} m/s hand-held.",
                        wind_limits.from
                    )
                }
                _ => format!("From {} no wind meets the margins.", wind_limits.from),
            },
            None => "Wind limit: not worked out for this print.".into(),
        };
        format!("{far} {wind_limit} {}", self.of_trials(|limit| matches!(limit, Limit::Boundary | Limit::FlightLine)))
    }

    fn risk_of_sun(&self) -> String {
        let hours = self.scenario.file.brief.hours.as_ref();
        let hours = hours.map_or_else(|| "no hours named".into(), |hours| format!("{} to {}", hours.from, hours.to));
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
        let told = |margins: &Margins| {
            margins.rows.iter().find(|row| row.limit == Limit::HeightLimit).map(|row: &MarginRow| left(row))
        };
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
        let owner = self.scenario.file.brief.emergency.landowner.trim();
        let owner = if owner.is_empty() { "not named in the file" } else { owner };
        format!(
            "Landowner: {owner}. In the wind at circle height it drifts {:.0} m a minute.",
            60.0 * self.margins.figures.wind_at_circle_mps[0]
        )
    }

    fn risk_of_age(&self) -> String {
        let hash = self.scenario.hash();
        let day = match (&self.scenario.file.brief.review_by, self.review()) {
            (Some(by), Review::Expired) => format!("EXPIRED {by}"),
            (Some(by), _) => format!("To be checked again by {by}"),
            (None, _) => "No review day is set".into(),
        };
        format!("{day}. Any change changes the hash, here {hash}.")
    }
}
