//! Which numbers of a scenario does a log know better, and what is the scenario with them?

use super::estimate::ENDS;
use super::{Estimate, LawFound, Learned, Steering};
use crate::jet::{Entry, Origin};
use crate::recovery::{Gain, Guidance};
use crate::run::ScenarioFile;
use crate::units::{Angle, Length, Power, Quantity, Speed, Time};

/// A log knows a measured number better where its spread is less than this share of that written (judgement).
const BETTER: f64 = 0.7;
/// And contradicts it where they are so many spreads of their difference apart.
const CONTRADICTED: f64 = 2.0;

/// Which number, and what it becomes.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// The return speed; what was measured at it is worked out anew.
    ReturnSpeed(Entry<Speed>),
    /// The steepest bank.
    MaximumBank(Entry<Angle>),
    /// The lag of the bank.
    RollLag(Entry<Time>),
    /// The time until something is done about the loss.
    Delay(Entry<Time>),
    /// The power on the way home.
    ReturnPower(Entry<Power>),
    /// The wander of the height.
    HeightWander(Length),
    /// Laws that are ruled out; law and gain of the plan as entered.
    Laws(Vec<Guidance>, Guidance, Gain),
}

/// One correction of a scenario by a log.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// The number, as people call it.
    pub what: String,
    /// What is written.
    pub before: String,
    /// What the log says.
    pub after: String,
    /// What goes into the notes.
    pub note: String,
    /// What it does.
    pub change: Change,
}

/// What a log, by its name and day, knows better than a scenario or contradicts in it.
pub fn corrections(
    file: &ScenarioFile,
    learned: &Learned,
    steering: Option<&Steering>,
    log: &str,
    day: Option<&str>,
) -> Vec<Correction> {
    let (jet, plan) = (&file.jet, &file.recovery);
    let source = day.map_or_else(|| log.to_owned(), |day| format!("{log} on {day}"));
    let measured = |what: &str, before, after, change| {
        let note = format!("{} measured in {source}.", crate::units::capital(what));
        Correction { what: what.into(), before, after, note, change }
    };
    let mut all = Vec::new();
    if let Some(entry) = better(jet.return_speed, learned.return_speed.ok()) {
        all.push(measured("return speed", told(jet.return_speed), told(entry), Change::ReturnSpeed(entry)));
    }
    if let Some(entry) = better(jet.maximum_bank, learned.maximum_bank.ok()) {
        all.push(measured("maximum bank", told(jet.maximum_bank), told(entry), Change::MaximumBank(entry)));
    }
    if let Some(entry) = better(jet.roll_lag, learned.roll_lag.ok()) {
        all.push(measured("roll lag", told(jet.roll_lag), told(entry), Change::RollLag(entry)));
    }
    let delay = file.delay();
    if let Some(entry) = better(delay, learned.failsafe_delay.ok()) {
        // The delay differs from loss to loss: one that lies within what is written says nothing new, and none says how the
        // next ones differ.
        let entry = Entry { spread: if entry.spread < delay.spread { delay.spread } else { entry.spread }, ..entry };
        if (entry.value.s() - delay.value.s()).abs() > ENDS * delay.spread.s() {
            all.push(measured("delay", told(delay), told(entry), Change::Delay(entry)));
        }
    }
    let power = jet.measured_power();
    if let Some(entry) =
        power.map_or_else(|| learned.return_power.ok().map(entry), |power| better(power, learned.return_power.ok()))
    {
        let before = power.map_or_else(|| "not written".into(), told);
        all.push(measured("power on the way home", before, told(entry), Change::ReturnPower(entry)));
    }
    let wander = plan.perception.height_wander;
    if let Ok(found) = learned.height_wander
        && !(found.low..=found.high).contains(&wander.m())
    {
        let found = rounded(found.value);
        all.push(measured("height wander", print(wander), print(found), Change::HeightWander(found)));
    }
    all.extend(steering.and_then(|steering| laws(file, steering, &source)));
    all
}

/// Laws that the log rules out beside those that are; a law that it finds is ruled out no more.
fn laws(file: &ScenarioFile, steering: &Steering, source: &str) -> Option<Correction> {
    let plan = &file.recovery;
    let by_log = steering.ruled_out();
    let found = match steering.law() {
        LawFound::Found(law) => Some(law),
        LawFound::CantTell(_) => None,
    };
    let is_out = |law: &Guidance| by_log.contains(law) || plan.laws_ruled_out.contains(law) && found != Some(*law);
    let out: Vec<Guidance> = Guidance::ALL.into_iter().filter(is_out).collect();
    // Where log and sheet between them leave nothing, the log alone speaks.
    let out = if out.len() == Guidance::ALL.len() { by_log } else { out };
    let same = out.len() == plan.laws_ruled_out.len() && out.iter().all(|law| plan.laws_ruled_out.contains(law));
    let best = steering.candidates.iter().find(|one| !out.contains(&one.guidance));
    let (law, gain) = match best {
        Some(best) if out.contains(&plan.guidance) => (best.guidance, best.gain),
        _ => (plan.guidance, plan.gain),
    };
    (!same).then(|| Correction {
        what: "laws ruled out".into(),
        before: listed(&plan.laws_ruled_out),
        after: listed(&out),
        note: format!("Laws ruled out by {source}: {}.", listed(&out)),
        change: Change::Laws(out, law, gain),
    })
}

fn listed(laws: &[Guidance]) -> String {
    let name = |law: &Guidance| match law {
        Guidance::FieldOfDirections => "field of directions",
        Guidance::LookAhead => "look-ahead",
        Guidance::NoseOnTheCentre => "nose on the centre",
    };
    if laws.is_empty() { "none".into() } else { laws.iter().map(name).collect::<Vec<_>>().join(", ") }
}

/// What a log makes of an entry, where it knows it better or contradicts it.
fn better<Q: Quantity>(written: Entry<Q>, found: Option<Estimate>) -> Option<Entry<Q>> {
    let found = found?;
    let (spread, off) = (found.spread(), (found.value - written.value.si()).abs());
    let sharper = spread < BETTER * written.spread.si();
    let contradicts = off > CONTRADICTED * spread.hypot(written.spread.si());
    let unchecked = written.origin != Origin::Measured && spread < written.spread.si();
    (sharper || contradicts || unchecked).then(|| entry(found))
}

fn entry<Q: Quantity>(found: Estimate) -> Entry<Q> {
    Entry { value: rounded(found.value), spread: rounded(found.spread()), origin: Origin::Measured }
}

/// With three figures in the unit that it is printed in: more than a flight tells.
fn rounded<Q: Quantity>(si: f64) -> Q {
    let unit = Q::UNITS.first().map_or(1.0, |unit| unit.si);
    let figures: f64 = format!("{:.2e}", si / unit).parse().unwrap_or(si / unit);
    Q::from_si(figures * unit)
}

fn print<Q: Quantity>(value: Q) -> String {
    rounded::<Q>(value.si()).to_string()
}

fn told<Q: Quantity>(entry: Entry<Q>) -> String {
    let origin = match entry.origin {
        Origin::Measured => "measured",
        Origin::Estimated => "estimated",
        Origin::Default => "default",
    };
    format!("{} within {}, {origin}", print(entry.value), print(entry.spread))
}

/// A scenario with corrections, each said in its notes. How the wind grows with height stays.
pub fn corrected(file: &ScenarioFile, corrections: &[Correction]) -> ScenarioFile {
    let mut file = file.clone();
    for Correction { change, note, .. } in corrections {
        match change {
            Change::ReturnSpeed(entry) => {
                file.jet = file.jet.returning_at(entry.value, file.air.density());
                file.jet.return_speed = *entry;
            }
            Change::MaximumBank(entry) => file.jet.maximum_bank = *entry,
            Change::RollLag(entry) => file.jet.roll_lag = *entry,
            Change::Delay(entry) => *file.delay_mut() = *entry,
            Change::ReturnPower(entry) => (file.jet.return_power, file.jet.flight_time) = (Some(*entry), None),
            Change::HeightWander(wander) => file.recovery.perception.height_wander = *wander,
            Change::Laws(out, law, gain) => {
                file.recovery.laws_ruled_out.clone_from(out);
                (file.recovery.guidance, file.recovery.gain) = (*law, *gain);
            }
        }
        file.notes.push(note.clone());
    }
    file
}

#[cfg(test)]
mod tests;
