//! How sure the answer is: what was varied and how, what was not, the errors of the sum, and what it holds for.

use super::inputs::origin;
use super::sensitivity::apart;
use super::table::{Cell, text};
use super::{Flow, words};
use crate::brief::Plan;
use crate::brief::items::{Item, Kept, items};
use crate::margins::{MarginUnit, Verdict};
use crate::run::schema;
use crate::study::stats::{percent, reach};
use crate::wind::{INTENSITY, Profile};
use crate::words::{margin, way};

/// An input: what it is, how it is drawn, and the key in the file whose origin counts.
type Drawn = (&'static str, String, &'static str);

impl Plan<'_> {
    pub(super) fn pack_uncertainty(&self, flow: &mut Flow<'_>) {
        flow.section("How sure the answer is");
        let file = serde_json::to_value(self.scenario.file.whole()).unwrap_or_default();
        let schema = schema();
        let entries: Vec<Item> = ["jet", "recovery", "limits"]
            .iter()
            .flat_map(|section| items(&file, &schema, section))
            .filter(|item| item.spread.is_some())
            .collect();
        let (varied, fixed): (Vec<_>, Vec<_>) = entries.into_iter().partition(has_spread);
        flow.part("Varied in every trial");
        let columns = [text("input", 70.0), text("drawn from", 84.0), text("where it came from", 30.0)];
        let all: Vec<Item> = ["wind", "recovery"].iter().flat_map(|section| items(&file, &schema, section)).collect();
        let told = |(what, how, key): Drawn| {
            let kept = all.iter().find(|item| item.key == key).map_or(Kept::Written, |item| item.kept);
            vec![what.into(), how.into(), origin(kept)]
        };
        let mut rows: Vec<Vec<Cell>> = self.drawn_air().into_iter().map(told).collect();
        rows.extend(varied.iter().map(drawn));
        rows.extend(self.drawn_senses().into_iter().map(told));
        flow.table(&columns, &rows);
        flow.part("Not varied");
        let names: Vec<String> = fixed.iter().map(|item| small(&item.label)).collect();
        let names = if names.is_empty() {
            String::new()
        } else {
            format!(" Of the numbers with an origin, those without a spread: {}.", names.join("; "))
        };
        flow.paragraph(&format!(
            "The field and its survey, the place, height, speed and heading of the loss, the charge at that moment, the \
             circle as commanded, the law that steers, the limits.{names}"
        ));
        flow.part("Uncertainty statement");
        self.uncertainty_statement(flow);
        for told in [words::VALID, words::NOT_VALID, words::VERIFIED] {
            flow.paragraph(told);
        }
    }

    /// How the wind is drawn: what, how, and the key whose origin counts.
    fn drawn_air(&self) -> Vec<Drawn> {
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
    fn drawn_senses(&self) -> Vec<Drawn> {
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

    fn uncertainty_statement(&self, flow: &mut Flow<'_>) {
        flow.paragraph(words::NUMERICAL);
        let point = self.studies.own_circle.and_then(|study| Some((study, study.points.first()?)));
        let Some((study, point)) = point else {
            flow.paragraph(&words::not_made(
                "Sampling interval, and the distances that half and 95 % of the trials stay within",
            ));
            self.model_form(flow);
            return;
        };
        let confidence = percent(study.ask.confidence);
        flow.paragraph(&format!(
            "Sampling: N = {} trials; shares have Wilson's interval at {confidence}, which stands beside every count.",
            point.trials.trials
        ));
        self.model_form(flow);
        let [_, half, most] = reach(&point.trials.furthest_m);
        let half = half
            .map_or_else(|| "none, as half of the trials fly no whole lap".into(), |metres| format!("{metres:.0} m"));
        let most = most.map_or_else(
            || "none, as over 5 % of the trials fly no whole lap".into(),
            |metres| format!("{metres:.0} m"),
        );
        let limit = self.limiting();
        flow.paragraph(&format!(
            "Result for the plan's circle: furthest distance from the centre, median {half}; 95 % of the trials within: {most}. What limits it: {limit}."
        ));
    }

    fn model_form(&self, flow: &mut Flow<'_>) {
        let told = match self.studies.radius.and_then(apart) {
            Some([least, most]) => format!(
                "Form of the model: the laws that steer put the furthest distance from the centre of {} between {least:.0} and {most:.0} m, \
                 {:.0} m apart, in the mean wind.",
                self.studies.radius.map_or_else(String::new, |study| way(study.looked_at.0, study.looked_at.1)),
                most.round() - least.round()
            ),
            None => words::not_made("Form of the model, by the spread of the laws that steer"),
        };
        flow.paragraph(&told);
    }

    /// What is missed most often in the trials, else what the plan comes nearest to.
    fn limiting(&self) -> String {
        let own_circle = self.studies.own_circle.and_then(|study| Some((study, &study.points.first()?.trials)));
        if let Some((study, tally)) = own_circle {
            let missed =
                study.limits.iter().zip(&tally.limits).max_by_key(|(_, limit)| (limit.crossed, limit.inside_buffer));
            if let Some((info, limit)) = missed.filter(|(_, limit)| limit.crossed + limit.inside_buffer > 0) {
                return format!(
                    "{}, missed in {} of {} trials",
                    info.name,
                    limit.crossed + limit.inside_buffer,
                    tally.trials
                );
            }
        }
        let near =
            self.margins.rows.iter().filter(|row| row.unit == MarginUnit::Metres && row.verdict != Verdict::Counted);
        let nearest = near.min_by(|a, b| (a.margin - a.buffer).total_cmp(&(b.margin - b.buffer)));
        nearest.map_or_else(|| "nothing measured in metres".into(), |row| format!("{}, {}", row.name, margin(row)))
    }
}

/// Whether anything but the value itself is drawn.
fn has_spread(item: &Item) -> bool {
    let number = item.spread.as_deref().and_then(|spread| spread.split_whitespace().next()?.parse::<f64>().ok());
    number.is_some_and(|number| number > 0.0)
}

fn drawn(item: &Item) -> Vec<Cell> {
    let (value, spread) = (&item.value, item.spread.clone().unwrap_or_default());
    let how = match item.key.as_str() {
        "failsafe delay" => format!("even about {value}, spread {spread}; never below nothing"),
        "take_over" => format!("log-normal, mean {value}, spread {spread}"),
        _ => format!("normal about {value}, spread {spread}, cut at three spreads"),
    };
    vec![item.label.as_str().into(), how.into(), origin(item.kept)]
}

/// A label in the middle of a sentence.
fn small(label: &str) -> String {
    let mut letters = label.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
