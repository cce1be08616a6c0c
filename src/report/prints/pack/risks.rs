//! The risk lines: who is hurt by what, what is done about it, and what this plan has to say, with its number.

use super::table::{Cell, text};
use super::{Flow, words};
use crate::brief::Plan;
use crate::ledger::{Ledger, Limit, MarginUnit, Outcome, Row, Verdict};
use crate::run::Review;
use crate::words::{capital, counted, leaving, left, margin, number};

impl Plan<'_> {
    pub(super) fn pack_risks(&self, flow: &mut Flow<'_>) {
        flow.section("Risks");
        let told = [
            self.risk_to_people(),
            self.risk_to_animals(),
            self.risk_of_leaving(),
            self.risk_of_sun(),
            self.risk_of_no_hand_back(),
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
        let patch = |ledger: &Ledger| {
            let near =
                ledger.rows.iter().filter(|row| matches!(row.limit, Limit::Patch(_)) && row.unit == MarginUnit::Metres);
            near.min_by(|a, b| a.margin.total_cmp(&b.margin))
                .map(|row| format!("{} {} m", row.name, leaving(row.margin, row.standoff, row.limit)))
        };
        let near = match (patch(&self.ledger), patch(&self.gust)) {
            (Some(mean), Some(gust)) => format!("Nearest in the mean wind: {mean}; in the gusts: {gust}."),
            _ => "No patch that nobody may enter is in force on the day.".into(),
        };
        format!("{near} {}", self.of_cases(|limit| matches!(limit, Limit::Patch(_))))
    }

    /// In how many drawn cases one of those limits was breached, whatever else came of them.
    fn of_cases(&self, limits: fn(Limit) -> bool) -> String {
        let alone = self.studies.alone.and_then(|study| Some((study, &study.points.first()?.cases)));
        let Some((study, tally)) = alone else { return "Drawn cases: none flown.".into() };
        let those = study.limits.iter().zip(&tally.limits).filter(|(info, _)| limits(info.limit));
        // One case may breach several: the limit breached most often says how many at least.
        match those.max_by_key(|(_, tally)| tally.breached) {
            Some((info, most)) => {
                let cases = counted(most.breached, tally.cases, study.ask.confidence);
                format!("{} breached in {cases} drawn cases.", capital(&info.name))
            }
            None => String::new(),
        }
    }

    fn risk_to_animals(&self) -> String {
        let over: Vec<String> = self
            .ledger
            .rows
            .iter()
            .filter(|row| row.verdict == Verdict::Counted && row.margin > 0.0)
            .map(|row| format!("{} {}", row.name, margin(row)))
            .collect();
        let over = if over.is_empty() {
            "No seconds over ground to avoid in the plan as written.".into()
        } else {
            format!("In the plan as written: {}.", over.join("; "))
        };
        let cells = self.studies.losses.map_or_else(
            || "Other places of the loss: not worked out for this print.".into(),
            |study| {
                let entered = study.cells.iter().filter(|cell| cell.worst == Outcome::EnteredPatch).count();
                format!(
                    "Lost elsewhere: some flight, drawn cases and all headings counted, enters ground it may not from {entered} of {} cells.",
                    study.cells.len()
                )
            },
        );
        format!("{over} {cells}")
    }

    fn risk_of_leaving(&self) -> String {
        let facts = self.facts();
        let far = facts.outermost.map_or_else(
            || "It flies no whole lap.".into(),
            |far| format!("Outermost {far} from the hub in the mean wind."),
        );
        let ceiling = match facts.ceilings {
            Some(ceilings) => match (ceilings.aloft_mps, ceilings.hand_mps) {
                (Some(most), Some([low, _])) => {
                    format!("Ceiling from {}: {most:.1} m/s at the circle, {low:.1} m/s in the hand.", ceilings.from)
                }
                _ => format!("From {} no wind meets the margins.", ceilings.from),
            },
            None => "Wind ceiling: not worked out for this print.".into(),
        };
        format!("{far} {ceiling} {}", self.of_cases(|limit| matches!(limit, Limit::Outline | Limit::FlightLine)))
    }

    fn risk_of_sun(&self) -> String {
        let hours = self.scenario.file.brief.hours.as_ref();
        let hours = hours.map_or_else(|| "no hours named".into(), |hours| format!("{} to {}", hours.from, hours.to));
        format!("Hours: {hours}. {}", self.facts().sun)
    }

    fn risk_of_no_hand_back(&self) -> String {
        let (limits, facts) = (&self.scenario.file.limits, self.facts());
        let laps = facts.laps.map_or_else(
            || "No lap is flown.".into(),
            |laps| format!("{laps} laps in hand, {} asked for.", number(limits.laps_in_hand)),
        );
        let lap = facts.lap.map_or_else(String::new, |lap| format!(" One lap takes {lap}."));
        format!(
            "{laps}{lap} Taking over is reckoned with {} (spread {}).",
            limits.hand_back.value, limits.hand_back.spread
        )
    }

    fn risk_of_height(&self) -> String {
        let told =
            |ledger: &Ledger| ledger.rows.iter().find(|row| row.limit == Limit::Ceiling).map(|row: &Row| left(row));
        match (told(&self.ledger), told(&self.gust)) {
            (Some(mean), Some(gust)) => format!(
                "To the ceiling, in the mean wind: {mean}; in the gusts: {gust}. {}",
                self.of_cases(|limit| matches!(limit, Limit::Ceiling | Limit::Ground))
            ),
            _ => "No ceiling is set in the file.".into(),
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
        let seasonal = field.map_or(0, |field| field.patches.iter().filter(|patch| !patch.months.is_empty()).count());
        let figures = &self.ledger.figures;
        format!(
            "Fire kit: {kit}. Patches with months: {seasonal}. It may come down {:.0} m on in a fall, {:.0} m in a glide.",
            figures.fall_footprint_m, figures.glide_footprint_m
        )
    }

    fn risk_of_trespass(&self) -> String {
        let owner = self.scenario.file.brief.emergency.landowner.trim();
        let owner = if owner.is_empty() { "not named in the file" } else { owner };
        format!(
            "Landowner: {owner}. In the wind at circle height it drifts {:.0} m a minute.",
            60.0 * self.ledger.figures.wind_at_circle_mps[0]
        )
    }

    fn risk_of_age(&self) -> String {
        let hash = self.scenario.hash();
        let day = match (&self.scenario.file.brief.review_by, self.review()) {
            (Some(by), Review::Expired) => format!("EXPIRED {by}"),
            (Some(by), _) => format!("To be looked at again by {by}"),
            (None, _) => "No review day is set".into(),
        };
        format!("{day}. Any change changes the hash, here {hash}.")
    }
}
