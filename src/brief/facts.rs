//! The facts of a plan that more than one print tells, each worked out and put into short words once.

use super::Plan;
use crate::margins::{MarginRow, Margins, Verdict};
use crate::run::{Authority, Ending, Review};
use crate::study::stats::reach;
use crate::study::verdict::Answer;
use crate::study::wind_limit::{Direction, WindLimitStudy, here};
use crate::units::{Bearing, Speed, decimals};
use crate::words::{self, asks, bearing, height, limit, number, speed};

/// Names of the eight winds of the table.
const WINDS: [&str; 8] = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"];

/// Up to what wind the plan's circle holds.
#[derive(Debug, Clone, PartialEq)]
pub struct WindLimits {
    /// The direction that the plan's wind comes from, such as "180 deg (S)"; the wind limit is that of the nearest one
    /// flown.
    pub from: String,
    /// Wind limit at circle height from there, m/s; none where not even a calm meets the margins.
    pub aloft_mps: Option<f64>,
    /// The same of the plan as entered, without errors, nothing drawn, m/s.
    pub plan_mps: Option<f64>,
    /// What a hand-held meter at 2 m then reads: the low and the high end, m/s. The low end is the one to go by.
    pub hand_mps: Option<[f64; 2]>,
    /// What fails beyond it.
    pub limit: String,
    /// The worst direction with its wind limit, m/s; none where not even a calm meets the margins there.
    pub worst: (String, Option<f64>),
    /// What a hand-held meter may read, by wind, m/s: the least of the directions flown about each; none where no wind
    /// is met there.
    pub hand_by_wind: [(&'static str, Option<f64>); 8],
    /// How many times the mean the gusts are that go with it.
    pub gust_times: f64,
    /// Whether the wind of the scenario is over the wind limit.
    pub over: bool,
    /// What was asked, such as "90 % of up to 1000 trials meet every margin".
    pub asked: String,
}

/// The facts.
#[derive(Debug, Clone, PartialEq)]
pub struct Facts {
    /// Radius, such as "115 m".
    pub radius: String,
    /// Height, such as "70 m", and the same in feet.
    pub height: [String; 2],
    /// Way round, and what that is seen from above.
    pub turn: [&'static str; 2],
    /// Seconds a lap takes; none where no whole lap is flown.
    pub lap: Option<String>,
    /// Laps before the reserve.
    pub laps: Option<String>,
    /// Seconds from the loss to the circle.
    pub home: Option<String>,
    /// Furthest from the centre once settled.
    pub furthest: Option<String>,
    /// From the centre to where nobody else should be, such as "177 m": the furthest flown of both winds and of 95 % of the
    /// trials, and the buffer beside it; none where no lap is flown.
    pub keep_off: Option<String>,
    /// What that is made of, such as "157 m flown and 20 m apart".
    pub apart: String,
    /// What the jet does by itself.
    pub failsafe_action: String,
    /// Who agreed to that.
    pub authority: String,
    /// Until when the plan holds.
    pub valid: String,
    /// What must not be overlooked, the worst first; empty where there is nothing.
    pub alarms: Vec<String>,
    /// Which losses the answers are about.
    pub losses: String,
    /// In how many trials the margins were met; none where none were flown.
    pub met: Option<String>,
    /// Up to what wind; none where that was not studied.
    pub wind_limits: Option<WindLimits>,
    /// Wind of the scenario at circle height, such as "from 180 deg (S), 6.0 m/s (12 kt), 9.0 m/s (17 kt) in gusts".
    pub wind: String,
    /// The look cue in one or two sentences; none where no whole lap is flown.
    pub look: Option<String>,
    /// Where to take over, in one or two sentences.
    pub take_over: String,
    /// How near people it passes, in one sentence.
    pub people: String,
    /// Whether the sun stands in the circle, and from when it is clear.
    pub sun: String,
    /// What twelve o'clock is.
    pub clock: String,
}

impl Plan<'_> {
    /// The facts.
    pub fn facts(&self) -> Facts {
        let (scenario, file) = (self.scenario, &self.scenario.file);
        let (plan, figures) = (&file.recovery, &self.margins.figures);
        let [mean, gust] = figures.wind_at_circle_mps.map(Speed::new);
        let feet = height(plan.height.m());
        let feet = feet.split_once(" (").map_or("", |(_, feet)| feet.trim_end_matches(')')).to_owned();
        let (facing, across) = (scenario.field.facing, scenario.field.facing_from);
        let seconds = |value: f64| format!("{value:.0} s");
        Facts {
            radius: format!("{} m", number(plan.radius.m())),
            height: [format!("{} m", number(plan.height.m())), feet],
            turn: match plan.turn {
                crate::recovery::Turn::Anticlockwise => ["anticlockwise", "turning left"],
                crate::recovery::Turn::Clockwise => ["clockwise", "turning right"],
            },
            lap: figures.lap_s.map(seconds),
            laps: figures.laps_to_reserve.map(|laps| decimals(laps, 1)),
            home: figures.home_s.map(seconds),
            furthest: figures.furthest_m.map(|metres| format!("{metres:.0} m")),
            keep_off: self.keep_off_m().map(|[flown, apart]| format!("{:.0} m", flown.ceil() + apart.ceil())),
            apart: self.keep_off_m().map_or_else(String::new, |[flown, apart]| {
                format!("{:.0} m flown and {:.0} m apart", flown.ceil(), apart.ceil())
            }),
            failsafe_action: words::failsafe_action(plan),
            authority: match file.authority() {
                Authority::Nobody => "NOBODY YET".into(),
                Authority::By(by, version) => version.mark(by),
            },
            valid: match (&file.brief.review_by, self.review()) {
                (Some(by), Review::Expired) => format!("EXPIRED {by}"),
                (Some(by), _) => format!("review by {by}"),
                (None, _) => "no review day set".into(),
            },
            alarms: self.alarms(),
            losses: scenario.losses_told(),
            met: self.met(),
            wind_limits: self.studies.wind_limit.map(|study| self.wind_limits(study)),
            wind: format!("from {}, {}, {} in gusts", bearing(file.wind.from), speed(mean), speed(gust)),
            look: self.look_cue(),
            take_over: self.take_over(),
            people: words::people(&self.people()),
            sun: self.sun(),
            clock: format!("12 o'clock is {across}, towards {}", bearing(facing)),
        }
    }

    fn alarms(&self) -> Vec<String> {
        let (scenario, file) = (self.scenario, &self.scenario.file);
        let mut alarms = self.release().reasons();
        alarms.extend(missed("in the mean wind", &self.margins));
        alarms.extend(missed("in the gusts", &self.gust));
        if let Some((study, found)) =
            self.studies.wind_limit.and_then(|study| Some((study, here(study, file.wind.from)?)))
        {
            let wind = scenario.wind_at_circle()[0];
            match (found.answer(wind), found.wind_limit_mps) {
                (Answer::Yes, _) => {}
                (Answer::No, Some(most)) => alarms.push(format!(
                    "THE WIND IS OVER THE WIND LIMIT: {wind:.1} m/s at circle height, {most:.1} m/s is the most."
                )),
                (Answer::Undecided, Some(most)) => alarms.push(format!(
                    "THE WIND IS OVER WHAT IS KNOWN TO HOLD: {wind:.1} m/s at circle height, {most:.1} m/s is known; beyond \
                     it is undecided."
                )),
                (_, None) if found.undecided_mps.is_some() => {
                    alarms.push("NOT KNOWN TO HOLD IN ANY WIND: undecided even in a calm.".into());
                }
                (_, None) => alarms.push(format!(
                    "HOLDS IN NO WIND, not even in a calm, if {}: {}.",
                    asked(study),
                    limit(study, found)
                )),
            }
        }
        if self.glare.in_hours() == Some(true) {
            alarms.push(format!("IN THE SUN: {}", self.sun_briefly()));
        }
        alarms
    }

    /// How far out it is flown, and how far others keep off that.
    fn keep_off_m(&self) -> Option<[f64; 2]> {
        let flown = [&self.margins, &self.gust].map(|margins| margins.figures.furthest_m);
        let [_, _, most] = self.studies.own_point().map_or([None; 3], |(_, point)| reach(&point.trials.furthest_m));
        let flown = flown.into_iter().chain([most]).flatten().reduce(f64::max).filter(|_| self.lap.is_some())?;
        Some([flown, self.scenario.file.limits.buffer.m()])
    }

    fn met(&self) -> Option<String> {
        let study = self.studies.own_circle?;
        let stopped = if study.partial { ", stopped early" } else { "" };
        let verdict = study.plan?;
        Some(format!("{} of its trials: {}{stopped}", verdict.shares_told(), verdict.answer.name()))
    }

    fn wind_limits(&self, study: &WindLimitStudy) -> WindLimits {
        let file = &self.scenario.file;
        let found = here(study, file.wind.from);
        let worst = study.worst.and_then(|index| study.directions.get(index));
        let told = |deg: f64| bearing(Bearing::from_deg(deg));
        let aloft_mps = found.and_then(|found| found.wind_limit_mps);
        WindLimits {
            from: bearing(file.wind.from),
            aloft_mps,
            plan_mps: found.and_then(|found| found.plan_mps),
            hand_mps: found.and_then(|found| found.at_2m_mps).map(|[low, high]| [words::metered(low), high]),
            limit: found.map_or_else(String::new, |found| limit(study, found).to_owned()),
            worst: worst.map_or_else(|| ("none".into(), None), |worst| (told(worst.from_deg), worst.wind_limit_mps)),
            hand_by_wind: std::array::from_fn(|index| (WINDS[index], by_wind(study, index))),
            gust_times: found
                .and_then(|found| Some(found.gust_mps? / found.wind_limit_mps?))
                .filter(|times| times.is_finite())
                .unwrap_or(1.0),
            over: aloft_mps.is_none_or(|most| self.scenario.wind_at_circle()[0] > most),
            asked: asked(study),
        }
    }
}

/// What is asked of a wind.
fn asked(study: &WindLimitStudy) -> String {
    match study.ask.trials {
        0 => "the plan as entered is to meet every margin".into(),
        trials => format!("of up to {trials} trials {}", asks(&study.demand)),
    }
}

/// The least wind limit hand-held of the directions about one of the eight winds.
fn by_wind(study: &WindLimitStudy, index: usize) -> Option<f64> {
    #[allow(clippy::cast_precision_loss, reason = "below eight")]
    let middle = index as f64 * 45.0;
    let near = |found: &&Direction| {
        let turned = (found.from_deg - middle).rem_euclid(360.0);
        turned.min(360.0 - turned) <= 22.5
    };
    let hands = study.directions.iter().filter(near).map(|found| found.at_2m_mps.map(|[low, _]| words::metered(low)));
    hands.reduce(|least, hand| least.zip(hand).map(|(least, hand)| least.min(hand))).flatten()
}

/// What a flight misses, loudly; none where it meets everything.
fn missed(wind: &str, margins: &Margins) -> Option<String> {
    let named = |verdict: Verdict| {
        let rows = margins.rows.iter().filter(|row| row.verdict == verdict);
        rows.map(|row: &MarginRow| format!("{} {}", row.name, words::margin(row))).collect::<Vec<_>>().join("; ")
    };
    match (margins.verdict(), margins.worst_margin()) {
        (Verdict::Crossed, Verdict::Crossed) => {
            let ended = match margins.ending {
                Ending::Empty | Ending::OutOfTime => format!("; {}", words::ending(margins.ending)),
                Ending::TakenOver | Ending::Landed => String::new(),
            };
            Some(format!("CROSSED {wind}: {}{ended}.", named(Verdict::Crossed)))
        }
        (Verdict::Crossed, _) => Some(format!("CROSSED {wind}: {}.", words::ending(margins.ending))),
        (Verdict::InsideBuffer, _) => Some(format!("NEARER THAN ASKED FOR {wind}: {}.", named(Verdict::InsideBuffer))),
        _ => None,
    }
}
