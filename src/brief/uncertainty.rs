//! How sure the answer is: what was varied and how, what was not, and what that makes of the answer.

use super::Plan;
use super::items::{Item, Kept, items};
use super::room::laws_apart_m;
use crate::run::schema;
use crate::study::stats::{percent, reach};
use crate::wind::{INTENSITY, Profile};
use crate::words::{not_made, way};

/// What every trial draws anew.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Drawn {
    /// What it is.
    pub(crate) what: String,
    /// From what it is drawn.
    pub(crate) how: String,
    /// Where the number came from.
    pub(crate) kept: Kept,
}

/// How sure the answer is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Uncertainty {
    /// What was varied.
    pub(crate) varied: Vec<Drawn>,
    /// Numbers with an origin that were not.
    pub(crate) fixed: Vec<String>,
    /// What the trials and the laws make of the answer, a paragraph each.
    pub(crate) statement: Vec<String>,
}

/// What it is, how it is drawn, and the key in the file whose origin counts.
type Source = (&'static str, String, &'static str);

impl Plan<'_> {
    /// How sure the answer is.
    pub(crate) fn uncertainty(&self) -> Uncertainty {
        let file = serde_json::to_value(self.scenario.file.whole()).unwrap_or_default();
        let schema = schema();
        let listed = |sections: &[&str]| -> Vec<Item> {
            sections.iter().flat_map(|section| items(&file, &schema, section)).collect()
        };
        let entries = listed(&["jet", "recovery", "limits"]).into_iter().filter(|item| item.spread.is_some());
        let (spread, fixed): (Vec<_>, Vec<_>) = entries.partition(has_spread);
        let all = listed(&["wind", "recovery"]);
        let drawn = |(what, how, key): Source| {
            let kept = all.iter().find(|item| item.key == key).map_or(Kept::Written, |item| item.kept);
            Drawn { what: what.into(), how, kept }
        };
        let air = self.drawn_air().into_iter().map(drawn);
        let loss = self.scenario.field.circuit.as_ref().map(|_| Drawn {
            what: "Place, heading, height, speed and charge of the loss".into(),
            how: self.scenario.losses_told(),
            kept: Kept::Written,
        });
        Uncertainty {
            varied: air
                .chain(loss)
                .chain(spread.iter().map(entry))
                .chain(self.drawn_senses().into_iter().map(drawn))
                .collect(),
            fixed: fixed.iter().map(|item| small(&item.label)).collect(),
            statement: self.uncertainty_statement(),
        }
    }

    /// How the wind is drawn: what, how, and the key whose origin counts.
    fn drawn_air(&self) -> Vec<Source> {
        let wind = &self.scenario.file.wind;
        let (mean, from) =
            (format!("{}, spread {} of it and {}", wind.mean, wind.mean_spread, wind.mean_floor), wind.from);
        let ([low, high], [smooth, rough]) = (wind.exponents(), wind.roughnesses_m());
        let grows = match wind.profile {
            Profile::Power => Some((format!("even, exponent from {low} to {high}"), "exponent_low")),
            Profile::Log => Some((format!("even in the logarithm, roughness from {smooth} to {rough} m"), "roughness")),
            Profile::Uniform => None,
        };
        let gusts = if wind.turbulence {
            let [low, high] = INTENSITY.map(percent);
            let assumed = if wind.gust_is_assumed() { ", which nobody reported," } else { "" };
            format!(
                "Dryden forms by height and wind, drawn anew all along each flight; at least as strong as gusts of \
                 {:.1}{assumed} ask for, and as {low} to {high} of the mean wind at the circle, even between them",
                wind.gust()
            )
        } else {
            "none: switched off in the file".into()
        };
        let direction = format!("normal about {from}, spread {:.1}", wind.from_spread());
        let mut rows = vec![
            ("Mean wind", format!("normal about {mean}; cut at nothing"), "mean_spread"),
            ("Direction of the wind", direction, "from_spread"),
            ("Turbulence", gusts, "turbulence"),
        ];
        rows.extend(grows.map(|(grows, key)| ("Growth of the wind with height", grows, key)));
        rows
    }

    /// How what the autopilot knows is drawn.
    fn drawn_senses(&self) -> Vec<Source> {
        let senses = &self.scenario.file.recovery.perception;
        let height = format!("{}, and a drift even between {} down and up", senses.height_error, senses.height_drift);
        let wander = format!("spread {}, over {}", senses.height_wander, senses.height_wander_over);
        let airspeed = format!("normal, spread {} of the dynamic pressure", senses.static_error);
        let noise = format!("{} and {} each way, all along each flight", senses.position_noise, senses.velocity_noise);
        vec![
            ("Home as captured", format!("normal, spread {} each way", senses.home_spread()), "home_error"),
            ("Height reference", format!("normal, spread {height}"), "height_error"),
            ("Height as held", format!("slow wander, {wander}"), "height_wander"),
            ("Height read at speed", airspeed, "static_error"),
            ("Guidance law and gain", "each that no log has ruled out as likely as the others".into(), "guidance"),
            ("Position and speed over the ground, as perceived", format!("noise, spread {noise}"), "position_noise"),
        ]
    }

    fn uncertainty_statement(&self) -> Vec<String> {
        let Some((study, point)) = self.studies.own_point() else {
            let unknown = "Sampling interval, and the distances that half and 95 % of the trials stay within";
            return vec![not_made(unknown), self.model_form()];
        };
        let [_, half, most] = reach(&point.trials.furthest_m);
        let told = |reach: Option<f64>, lapless: &str| {
            reach.map_or_else(
                || format!("none, as {lapless} of the trials fly no whole lap"),
                |metres| format!("{metres:.0} m"),
            )
        };
        vec![
            format!(
                "Sampling: N = {} trials; shares have Wilson's interval at {}, which stands beside every count.",
                point.trials.trials,
                percent(study.ask.confidence)
            ),
            self.model_form(),
            format!(
                "Result for the plan's circle: furthest distance from the centre, median {}; 95 % of the trials within: {}.{}",
                told(half, "half"),
                told(most, "over 5 %"),
                self.five_lines().map_or_else(String::new, |five| format!(" What limits it: {}", five.limited_by))
            ),
        ]
    }

    fn model_form(&self) -> String {
        match self.studies.radius.and_then(|study| Some((study, laws_apart_m(study)?))) {
            Some((study, [least, most])) => format!(
                "Form of the model: the laws that steer put the furthest distance from the centre of {} between {least:.0} and \
                 {most:.0} m, {:.0} m apart, in the mean wind.",
                way(study.looked_at.0, study.looked_at.1),
                most.round() - least.round()
            ),
            None => not_made("Form of the model, by the spread of the laws that steer"),
        }
    }
}

/// Whether anything but the value itself is drawn.
fn has_spread(item: &Item) -> bool {
    let number = item.spread.as_deref().and_then(|spread| spread.split_whitespace().next()?.parse::<f64>().ok());
    number.is_some_and(|number| number > 0.0)
}

fn entry(item: &Item) -> Drawn {
    let (value, spread) = (&item.value, item.spread.clone().unwrap_or_default());
    let how = match item.key.as_str() {
        "failsafe delay" => format!("even about {value}, spread {spread}; never below nothing"),
        "take_over" => format!("log-normal, mean {value}, spread {spread}"),
        _ => format!("normal about {value}, spread {spread}, cut at three spreads"),
    };
    Drawn { what: item.label.clone(), how, kept: item.kept }
}

/// A label in the middle of a sentence.
fn small(label: &str) -> String {
    let mut letters = label.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
