//! What a debrief says, in words: the wind as flown, what steers it, what was predicted beside what was flown.

use crate::debrief::{
    ByHeight, Candidate, CircleFigures, Correction, Debriefed, HELD_SHARE, LEAST_RECOVERIES, LEAST_SPAN_M, LawFound,
    Learned, Standing, Steering, Tally, Told, WindFit,
};
use crate::recovery::Guidance;
use crate::units::Bearing;
use crate::words::{Measure, Units, bearing, gain};

/// The wind and the airspeed that a ground track tells, with their intervals.
pub fn wind(fit: &WindFit, units: &Units) -> String {
    let from = Bearing::of(-fit.wind);
    let to = |mps: f64| units.short(Measure::Wind, mps);
    format!(
        "wind from {}, {} (95 % interval {} to {}, within {:.0}\u{b0}), gusts {} about it ({} to {}), airspeed {} ({} to {})",
        bearing(from),
        to(fit.wind.length()),
        to(fit.speed_within.low),
        to(fit.speed_within.high),
        fit.from_within_deg,
        to(fit.gust.deviation_mps),
        to(fit.gust.within.low),
        to(fit.gust.within.high),
        units.short(Measure::Speed, fit.airspeed_mps),
        units.short(Measure::Speed, fit.airspeed_within.low),
        units.short(Measure::Speed, fit.airspeed_within.high),
    )
}

/// Heights that are told one by one; of more, so many from the lowest to the highest.
const TOLD: usize = 10;

/// The wind at each height that whole turns were flown at, and how it grows from the one to the other.
pub fn by_height(found: &ByHeight, units: &Units) -> Vec<String> {
    let growth = match (&found.law, found.winds.len()) {
        (_, 0) => return Vec::new(),
        (Some(law), levels) => format!(
            "it grows as height to the power {:.2} (95 % interval {:.2} to {:.2}), from turns at {levels} heights",
            law.exponent, law.exponent_within.low, law.exponent_within.high
        ),
        (None, _) => format!(
            "how it grows can't be told: that takes turns some {LEAST_SPAN_M:.0} m of height apart, in wind enough to see it"
        ),
    };
    let step = found.winds.len().div_ceil(TOLD);
    let turns = found.winds.iter().step_by(step.max(1));
    let to = |mps: f64| units.short(Measure::Wind, mps);
    let turn = |fit: &WindFit| {
        let [height, speed, low, high, gusts] = [
            units.short(Measure::Height, fit.height_m),
            to(fit.wind.length()),
            to(fit.speed_within.low),
            to(fit.speed_within.high),
            to(fit.gust.deviation_mps),
        ];
        format!(
            "at {height}: from {}, {speed} ({low} to {high}), gusts {gusts} about it",
            bearing(Bearing::of(-fit.wind))
        )
    };
    std::iter::once(growth).chain(turns.map(turn)).collect()
}

/// What steers it.
pub fn steers(steering: &Steering) -> String {
    match steering.law() {
        LawFound::Found(guidance) => format!("it is steered by {}; the others fit worse", guidance.name()),
        LawFound::CantTell(laws) => {
            let names: Vec<_> = laws.into_iter().map(Guidance::name).collect();
            format!("it can't be told what steers it: {} fit alike", names.join(", "))
        }
    }
}

/// How well a law fits.
pub fn candidate(one: &Candidate, units: &Units) -> String {
    format!("{}, {}: {} off", one.guidance.name(), gain(one.gain), units.short(Measure::Distance, one.misfit_m))
}

/// One line of what was predicted beside what was flown.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedLine {
    /// What.
    pub name: &'static str,
    /// As predicted; empty where it was not.
    pub predicted: String,
    /// As flown; empty where the log does not tell.
    pub flown: String,
    /// How far off that is; empty where one of them is missing.
    pub off: String,
}

/// What was predicted beside what was flown.
pub fn compared(one: &Debriefed, units: &Units) -> Vec<ComparedLine> {
    let none = CircleFigures::default();
    let (predicted, flown) = (one.predicted.as_ref().map_or(&none, |predicted| &predicted.figures), &one.flown);
    let told = |measure: Measure| move |value: f64| units.short(measure, value);
    let seconds = |value: f64| format!("{value:.1} s");
    let degrees = |value: f64| format!("{:.0}\u{b0}", value.to_degrees());
    let watts = |value: f64| format!("{value:.0} W");
    let line = |name: &'static str, get: &dyn Fn(&CircleFigures) -> Option<f64>, print: &dyn Fn(f64) -> String| {
        let (said, was) = (get(predicted), get(flown));
        let off = said.zip(was).map(|(said, was)| (was - said, print((was - said).abs())));
        ComparedLine {
            name,
            predicted: said.map_or_else(String::new, print),
            flown: was.map_or_else(String::new, print),
            off: off
                .map_or_else(String::new, |(by, words)| format!("{}{words}", if by < 0.0 { "\u{2212}" } else { "+" })),
        }
    };
    let away = predicted.centre.zip(flown.centre).map(|(said, was)| said.distance(was));
    let mut lines = vec![
        line("radius flown", &|figures| figures.radius_m, &told(Measure::Distance)),
        line("furthest from the centre", &|figures| figures.furthest_m, &told(Measure::Distance)),
        line("overshoot of the join", &|figures| figures.overshoot_m, &told(Measure::Distance)),
        line("height held", &|figures| figures.height_m, &told(Measure::Height)),
        line("wander of that", &|figures| figures.height_spread_m, &told(Measure::Height)),
        line("time of a lap", &|figures| figures.lap_s, &seconds),
        line("steepest bank", &|figures| figures.bank_rad, &degrees),
        line("from the loss to the circle", &|figures| figures.home_s, &seconds),
        line("power on the circle", &|figures| figures.power_w, &watts),
    ];
    lines.insert(
        0,
        ComparedLine {
            name: "middle of the circle",
            predicted: String::new(),
            flown: String::new(),
            off: away.map_or_else(String::new, told(Measure::Distance)),
        },
    );
    lines.retain(|line| !(line.predicted.is_empty() && line.flown.is_empty() && line.off.is_empty()));
    lines
}

/// What a flight says of one number of the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnedLine {
    /// The number.
    pub name: &'static str,
    /// What was flown, with its interval; or why that can't be told.
    pub told: Result<String, &'static str>,
}

/// What a flight says of the numbers of the sheet.
pub fn learned(learned: &Learned, units: &Units) -> Vec<LearnedLine> {
    let line = |name, told: Told, print: &dyn Fn(f64) -> String| LearnedLine {
        name,
        told: told.map(|found| {
            format!("{} (95 % interval {} to {})", print(found.value), print(found.low), print(found.high))
        }),
    };
    let to = |measure: Measure| move |value: f64| units.short(measure, value);
    let seconds = |value: f64| format!("{:.2} s", value.max(0.0));
    let degrees = |value: f64| format!("{:.1}\u{b0}", value.to_degrees());
    vec![
        line("speed held", learned.return_speed, &to(Measure::Speed)),
        line("maximum bank", learned.maximum_bank, &degrees),
        line("roll lag", learned.roll_lag, &seconds),
        line("height held", learned.circle_height, &to(Measure::Height)),
        line("wander of the height", learned.height_wander, &to(Measure::Height)),
        line("failsafe delay", learned.failsafe_delay, &seconds),
        line("power on the circle", learned.return_power, &|value| format!("{value:.0} W")),
        line("radius flown", learned.radius, &to(Measure::Distance)),
    ]
}

/// What logs would correct in the sheet, before and after.
pub fn correction(one: &Correction) -> String {
    format!("{}: {} in the sheet; {} by what was flown", one.what, one.before, one.after)
}

/// Whether the ring of 90 % held the flight.
pub fn held(one: &Debriefed) -> &'static str {
    match one.predicted.as_ref().and_then(|predicted| predicted.holds) {
        Some(true) => "The flight lies inside the ring that holds 90 % of what is predicted.",
        Some(false) => "The flight leaves the ring that holds 90 % of what is predicted.",
        None => "There is no ring to hold it against.",
    }
}

/// What may be said of the model after all of them.
pub fn standing(tally: &Tally) -> String {
    let counted = format!(
        "{} of {} recoveries lay inside the ring that should hold {:.0} % (95 % interval {:.0} to {:.0} %)",
        tally.held.count,
        tally.held.of,
        HELD_SHARE * 100.0,
        tally.within.low * 100.0,
        tally.within.high * 100.0
    );
    match tally.standing() {
        Standing::NotValidated if tally.held.of == 0 => "Verified, not validated: no recovery was compared yet.".into(),
        Standing::NotValidated => {
            format!("Verified, not validated: {counted}. From {LEAST_RECOVERIES} on it says something.")
        }
        Standing::NotContradicted => format!("Not contradicted by what was flown: {counted}."),
        Standing::Contradicted => format!("CONTRADICTED by what was flown: {counted}. Do not rely on the ring here."),
    }
}
