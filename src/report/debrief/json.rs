//! A debrief for other programs: SI, units in the keys.

use serde_json::{Map, Value, json};

use super::{DebriefReport, LogDebrief};
use crate::debrief::{CircleFigures, Debriefed, LawFound, Learned, Told, WindFit};
use crate::report::json::{amounts, written};
use crate::units::Bearing;
use crate::words::{cautions, debrief as words, gain};
use crate::{Result, VERSION};

/// The whole report.
pub(super) fn debrief(about: &DebriefReport<'_>) -> Result<String> {
    let (file, tally) = (&about.scenario.file, about.tally());
    written(&json!({
        "report": "debrief",
        "peewit_version": VERSION,
        "scenario": file.name,
        "scenario_hash": about.scenario.hash(),
        "seed": file.seed,
        "standing": words::standing(&tally),
        "envelope_share": crate::debrief::HELD_SHARE,
        "recoveries_inside": tally.held.count,
        "recoveries_compared": tally.held.of,
        "share_inside_low": tally.within.low,
        "share_inside_high": tally.within.high,
        "corrections": about.corrections().iter().map(|one| {
            json!({ "what": one.what, "before": one.before, "after": one.after })
        }).collect::<Vec<_>>(),
        "logs": about.logs.iter().map(|log| one_log(about, log)).collect::<Vec<_>>(),
        "cautions": cautions::ALL,
    }))
}

fn one_log(about: &DebriefReport<'_>, log: &LogDebrief) -> Value {
    json!({
        "name": log.log.name,
        "day": log.log.day,
        "fixes": log.log.track.time_s().len(),
        "repairs": log.log.repairs.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "recoveries": log.recoveries.iter().map(|one| recovery(about, log, one)).collect::<Vec<_>>(),
        "wind_by_height": log.heights.winds.iter().map(wind).collect::<Vec<_>>(),
        "wind_growth": log.heights.law.as_ref().map(|law| json!({
            "exponent": law.exponent,
            "exponent_low": law.exponent_within.low,
            "exponent_high": law.exponent_within.high,
            "at_10_m_mps": law.at_ten_mps,
        })),
    })
}

fn recovery(about: &DebriefReport<'_>, log: &LogDebrief, one: &Debriefed) -> Value {
    let time = log.log.track.time_s();
    let at = |sample: usize| time[sample.min(time.len() - 1)];
    let marks = &one.marks;
    let margins = one.margins.rows.iter().map(|row| {
        let mut told = json!({ "limit": row.name, "verdict": row.verdict.name(), "at_s": row.at_s });
        if let Some(told) = told.as_object_mut() {
            told.extend(amounts(row.unit, row.verdict, [row.margin, row.buffer]));
        }
        told
    });
    json!({
        "lost_at_s": at(marks.lost),
        "heading_home_at_s": marks.turned_home.map(at),
        "joining_at_s": marks.joined.map(at),
        "circle_from_s": marks.circling.as_ref().map(|range| at(range.start)),
        "circle_to_s": marks.circling.as_ref().map(|range| at(range.end - 1)),
        "landed_at_s": marks.landed.map(at),
        "wind": one.wind.as_ref().ok().map(wind),
        "wind_refused": one.wind.as_ref().err().map(ToString::to_string),
        "laps": one.laps.iter().map(|(_, fit)| fit.as_ref().ok().map(wind)).collect::<Vec<_>>(),
        "steering": one.steering.as_ref().ok().map(|steering| json!({
            "law": match steering.law() {
                LawFound::Found(guidance) => Some(guidance.name()),
                LawFound::CantTell(_) => None,
            },
            "candidates": steering.candidates.iter().map(|one| json!({
                "law": one.guidance.name(), "gain": gain(one.gain), "misfit_m": one.misfit_m,
            })).collect::<Vec<_>>(),
        })),
        "predicted": one.predicted.as_ref().map(|predicted| figures(about, &predicted.figures)),
        "flown": figures(about, &one.flown),
        "inside_the_envelope": one.predicted.as_ref().and_then(|predicted| predicted.holds),
        "learned": one.learned.as_ref().map(learned),
        "margins": margins.collect::<Vec<_>>(),
    })
}

/// Null where it can't be told.
fn learned(learned: &Learned) -> Value {
    let told = |told: &Told, key: &str, times: f64| {
        told.as_ref().ok().map(|found| {
            let all = [("", found.value), ("_low", found.low), ("_high", found.high)];
            all.map(|(end, value)| (format!("{key}{end}"), Value::from(value * times)))
                .into_iter()
                .collect::<Map<_, _>>()
        })
    };
    json!({
        "speed_held": told(&learned.return_speed, "mps", 1.0),
        "maximum_bank": told(&learned.maximum_bank, "deg", 1_f64.to_degrees()),
        "roll_lag": told(&learned.roll_lag, "s", 1.0),
        "circle_height": told(&learned.circle_height, "m", 1.0),
        "height_wander": told(&learned.height_wander, "m", 1.0),
        "failsafe_delay": told(&learned.failsafe_delay, "s", 1.0),
        "power": told(&learned.return_power, "w", 1.0),
        "radius": told(&learned.radius, "m", 1.0),
    })
}

fn wind(fit: &WindFit) -> Value {
    json!({
        "from_deg": Bearing::of(-fit.wind).deg(),
        "from_within_deg": fit.from_within_deg,
        "speed_mps": fit.wind.length(),
        "speed_low_mps": fit.speed_within.low,
        "speed_high_mps": fit.speed_within.high,
        "airspeed_mps": fit.airspeed_mps,
        "airspeed_low_mps": fit.airspeed_within.low,
        "airspeed_high_mps": fit.airspeed_within.high,
        "gust_deviation_mps": fit.gust.deviation_mps,
        "turned_deg": fit.turned_deg,
        "residual_mps": fit.residual_mps,
        "samples": fit.samples,
        "height_m": fit.height_m,
    })
}

fn figures(about: &DebriefReport<'_>, figures: &CircleFigures) -> Value {
    json!({
        "centre_m": figures.centre.filter(|_| about.places).map(|at| at.to_array()),
        "radius_m": figures.radius_m,
        "furthest_m": figures.furthest_m,
        "overshoot_m": figures.overshoot_m,
        "height_m": figures.height_m,
        "height_spread_m": figures.height_spread_m,
        "lap_s": figures.lap_s,
        "bank_deg": figures.bank_rad.map(f64::to_degrees),
        "home_s": figures.home_s,
        "power_w": figures.power_w,
    })
}
