//! Which numbers of a scenario do logs know better, and what is the scenario with them?

mod laws;

use super::estimate::{ENDS, deviation, mean, pooled};
use super::{Estimate, Learned, PowerLaw, Steering, Told};
use crate::jet::{Entry, Origin};
use crate::recovery::{Gain, Guidance};
use crate::run::ScenarioFile;
use crate::units::{Angle, Length, Power, Quantity, Speed, Time};
use crate::wind::Profile;

/// A log knows a measured number better where its spread is less than this share of that written (judgement).
const BETTER: f64 = 0.7;
/// And contradicts it where they are so many spreads of their difference apart.
const CONTRADICTED: f64 = 2.0;

/// The growth of the wind with height differs from hour to hour by so much of its power at least (judgement).
const GROWTH_FLOOR: f64 = 0.05;
/// Half the width of a range in which all is alike, in its standard deviations: the root of three (closed form).
const HALF_RANGE: f64 = 1.732;
/// Logs that are named in a note; of more, how many they are.
const NAMED: usize = 3;

/// What one log says.
#[derive(Debug, Clone)]
pub struct Evidence<'a> {
    /// The log, by its name and day.
    pub source: String,
    /// The numbers of the sheet, by each recovery in it.
    pub learned: Vec<&'a Learned>,
    /// What steered each.
    pub steering: Vec<&'a Steering>,
    /// How the wind grew with height.
    pub growth: Option<&'a PowerLaw>,
}

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
    /// Lowest and highest power by which the wind grows with height.
    WindGrowth([f64; 2]),
    /// Laws that are ruled out; law and gain of the plan as entered.
    Laws(Vec<Guidance>, Guidance, Gain),
}

/// One correction of a scenario by logs.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// The number, as people call it.
    pub what: String,
    /// What is written.
    pub before: String,
    /// What the logs say.
    pub after: String,
    /// What goes into the notes.
    pub note: String,
    /// What it does.
    pub change: Change,
}

/// What logs know better than a scenario or contradict in it, all of them together.
pub fn corrections(file: &ScenarioFile, all: &[Evidence<'_>]) -> Vec<Correction> {
    let (jet, plan) = (&file.jet, &file.recovery);
    let mut list = Vec::new();
    let mut say = |what: &str, before, after, change, sources: &str| {
        let note = format!("{} measured in {sources}.", crate::units::capital(what));
        list.push(Correction { what: what.into(), before, after, note, change });
    };
    let told = |get: &dyn Fn(&Learned) -> Told| {
        let is_told = |one: &&Evidence<'_>| one.learned.iter().any(|learned| get(learned).is_ok());
        let values: Vec<Estimate> = all.iter().flat_map(|one| &one.learned).filter_map(|one| get(one).ok()).collect();
        Some((pooled(&values)?, listed(all.iter().filter(is_told).map(|one| one.source.as_str()))))
    };
    if let Some((found, by)) = told(&|learned| learned.return_speed)
        && let Some(entry) = better(jet.return_speed, found)
    {
        say("return speed", in_words(jet.return_speed), in_words(entry), Change::ReturnSpeed(entry), &by);
    }
    if let Some((found, by)) = told(&|learned| learned.maximum_bank)
        && let Some(entry) = better(jet.maximum_bank, found)
    {
        say("maximum bank", in_words(jet.maximum_bank), in_words(entry), Change::MaximumBank(entry), &by);
    }
    if let Some((found, by)) = told(&|learned| learned.roll_lag)
        && let Some(entry) = better(jet.roll_lag, found)
    {
        say("roll lag", in_words(jet.roll_lag), in_words(entry), Change::RollLag(entry), &by);
    }
    // The delay differs from loss to loss: a few of them tell its middle, and leave how it differs as it is.
    let delay = file.delay();
    let differs = |one: Estimate| Estimate::within(one.value, one.spread().hypot(delay.spread.s()));
    if let Some((found, by)) = told(&|learned| learned.failsafe_delay.map(differs))
        && (found.value - delay.value.s()).abs() > ENDS * found.spread()
    {
        let entry = Entry { spread: delay.spread, ..entry(Estimate { value: found.value.max(0.0), ..found }) };
        say("delay", in_words(delay), in_words(entry), Change::Delay(entry), &by);
    }
    let power = jet.measured_power();
    if let Some((found, by)) = told(&|learned| learned.return_power)
        && let Some(entry) = power.map_or_else(|| Some(entry(found)), |power| better(power, found))
    {
        let before = power.map_or_else(|| "not written".into(), in_words);
        say("power on the way home", before, in_words(entry), Change::ReturnPower(entry), &by);
    }
    let wander = plan.perception.height_wander;
    // Its interval is a factor to either side, and so are its means.
    let logarithm = |one: Estimate| Estimate { value: one.value.ln(), low: one.low.ln(), high: one.high.ln() };
    if let Some((found, by)) = told(&|learned| learned.height_wander.map(logarithm))
        && !(found.low.exp()..=found.high.exp()).contains(&wander.m())
    {
        let found = rounded(found.value.exp());
        say("height wander", print(wander), print(found), Change::HeightWander(found), &by);
    }
    let grew: Vec<_> = all.iter().filter_map(|one| Some((one.growth?.within(), one.source.as_str()))).collect();
    let (powers, sources): (Vec<Estimate>, Vec<&str>) = grew.into_iter().unzip();
    if let Some((before, after)) = growth(file, &powers) {
        let [before, now] = [before, after].map(|[low, high]| format!("the power {low:.2} to {high:.2}"));
        say("growth of the wind with height", before, now, Change::WindGrowth(after), &listed(sources));
    }
    list.extend(laws::laws(file, all));
    list
}

/// The range of powers as written, and as flown; none where that is no better, or another law of growth is written.
fn growth(file: &ScenarioFile, all: &[Estimate]) -> Option<([f64; 2], [f64; 2])> {
    // The next flight meets another growth: what the flights differ by beyond their errors stays in the range.
    let found = pooled(all)?;
    let errors = mean(&all.iter().map(|one| one.spread().powi(2)).collect::<Vec<_>>())?;
    let apart = deviation(&all.iter().map(|one| one.value).collect::<Vec<_>>())?;
    let differ = (apart.powi(2) - errors).max(0.0).sqrt();
    let spread = found.spread().hypot(differ);
    let written = match file.wind.profile {
        Profile::Power => file.wind.exponents(),
        Profile::Uniform => [0.0; 2],
        Profile::Log => return None,
    };
    let off = (HALF_RANGE * spread).max(GROWTH_FLOOR);
    let middle = found.value.clamp(GROWTH_FLOOR, 1.0 - GROWTH_FLOOR);
    let now = [middle - off, middle + off].map(|end| (end.clamp(0.0, 1.0) * 100.0).round() / 100.0);
    let sharper = now[1] - now[0] < BETTER * (written[1] - written[0]);
    let contradicts = now[0] > written[1] || now[1] < written[0];
    (sharper || contradicts).then_some((written, now))
}

/// Some names, and how many more.
fn listed<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    let names: Vec<&str> = names.into_iter().collect();
    let (named, more) = names.split_at(names.len().min(NAMED));
    let more = if more.is_empty() { String::new() } else { format!(" and {} more", more.len()) };
    named.join(", ") + &more
}

/// What logs make of an entry, where they know it better or contradict it.
fn better<Q: Quantity>(written: Entry<Q>, found: Estimate) -> Option<Entry<Q>> {
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

fn in_words<Q: Quantity>(entry: Entry<Q>) -> String {
    let origin = match entry.origin {
        Origin::Measured => "measured",
        Origin::Estimated => "estimated",
        Origin::Default => "default",
    };
    format!("{} within {}, {origin}", print(entry.value), print(entry.spread))
}

/// A scenario with corrections, each said in its notes.
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
            Change::WindGrowth([low, high]) => {
                file.wind.profile = Profile::Power;
                (file.wind.exponent_low, file.wind.exponent_high) = (Some(*low), Some(*high));
            }
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
