//! The card for the screen and for other programs: the same facts in words and in JSON.

use serde_json::{Value, json};

use super::paper::numbered;
use crate::VERSION;
use crate::brief::{DO_NOT_FLY, Plan};
use crate::draw::Section;
use crate::report::json::{Answer, People, Verdict};
use crate::report::layout::listed;
use crate::report::values::tidied;
use crate::run::Review;
use crate::study::radius::RadiusPoint;
use crate::words::cautions;

impl Plan<'_> {
    /// What the card says, a heading and short lines under it.
    pub(super) fn sections(&self) -> Vec<Section> {
        let (facts, file) = (self.facts(), &self.scenario.file);
        let lap = facts.lap.as_ref().map_or_else(
            || "no whole lap is flown".into(),
            |lap| format!("{lap}; {} laps to the reserve", facts.laps.clone().unwrap_or_default()),
        );
        let circle = [
            ("Field", format!("{}, {}; {}", file.name, file.jet.name, facts.valid)),
            ("Losses", facts.losses.clone()),
            ("Wind", facts.wind_for_screen()),
            (
                "Circle",
                format!("{}, {} ({}) above home, {}", facts.radius, facts.height[0], facts.height[1], facts.turn[0]),
            ),
            ("Lap", lap),
            ("Failsafe action", format!("{}; authorised by: {}", facts.failsafe_action, facts.authority)),
            ("Trials", facts.met.clone().map_or_else(|| "none flown".into(), |met| format!("this circle {met}"))),
            ("Look", facts.look.clone().unwrap_or_else(|| "no whole lap to look at".into())),
            ("Clock", facts.clock.clone()),
            ("Take over", facts.take_over.clone()),
            ("Sun", facts.sun.clone()),
        ];
        let losses = self.loss_boxes().map(|told| format!("{}: {}", told.title, numbered(&told.lines).join(" ")));
        let signed = file
            .signed()
            .into_iter()
            .map(|(one, version)| version.mark(&format!("{}, {}, {}", one.name, one.role, one.on)));
        // What stops the plan stands first among the alarms.
        let first = if self.release().stopped() { DO_NOT_FLY } else { "First of all" };
        let answer = self
            .five_lines()
            .iter()
            .flat_map(|five| five.rows().map(|(name, words)| format!("{name}: {words}")))
            .collect();
        let section = |heading: &str, paragraphs: Vec<String>| Section { heading: heading.into(), paragraphs };
        let sections = [
            section(first, facts.alarms.clone()),
            section("The answer", answer),
            section("What stands on it", circle.iter().map(|(name, words)| format!("{name}: {words}")).collect()),
            section("When something is lost", losses.into()),
            section("In every emergency", self.in_any().map(String::from).into()),
            section("Stop flying when", self.stop_list()),
            section("Signed", signed.collect()),
            section("Not as in the file", self.changes.to_vec()),
            section("Warnings about the file", self.warnings.iter().map(ToString::to_string).collect()),
            section("Before you rely on this", cautions::ALL.map(String::from).into()),
        ];
        sections.into_iter().filter(|section| !section.paragraphs.is_empty()).collect()
    }

    /// What the card says, for a screen.
    pub fn in_words(&self) -> String {
        let listed = |section: &Section| listed(&section.heading, &section.paragraphs);
        let sections: Vec<String> = self.sections().iter().map(listed).collect();
        format!("Peewit {VERSION}: the field card\n\n{}\n{}\n", sections.join("\n"), self.stamp())
    }

    /// What the card says, for other programs: SI, the unit in the key.
    pub fn json(&self) -> String {
        let (facts, file, figures) = (self.facts(), &self.scenario.file, &self.margins.figures);
        let plan = &file.recovery;
        let wind_limits = facts.wind_limits.as_ref().map(|found| {
            let by_wind: serde_json::Map<String, Value> =
                found.hand_by_wind.iter().map(|(name, hand)| ((*name).to_owned(), json!(hand))).collect();
            json!({
                "from": found.from, "aloft_mps": found.aloft_mps, "plan_mps": found.plan_mps,
                "hand_at_2m_mps": found.hand_mps, "limit": found.limit, "asked": found.asked,
                "hand_at_2m_by_wind_mps": by_wind,
            })
        });
        let signed: Vec<_> = file
            .signed()
            .into_iter()
            .map(|(one, version)| {
                json!({
                    "name": one.name, "role": one.role, "on": one.on, "for": one.version, "counts": version.counts(),
                })
            })
            .collect();
        let look = self.look.as_ref().map(|look| {
            json!({
                "bearing_deg": look.bearing.deg(), "clock": look.clock, "elevation_deg": look.elevation_deg,
                "slant_m": look.slant_m, "words": facts.look,
            })
        });
        let card = json!({
            "peewit": VERSION,
            "scenario": file.name,
            "hash": self.scenario.hash(),
            "seed": file.seed,
            "date": file.date,
            "printed_on": self.on,
            "review_by": file.brief.review_by,
            "expired": self.review() == Review::Expired,
            "about": facts.losses,
            "do_not_fly": self.release().reasons(),
            "answer": self.five_lines().map(Answer::from),
            "alarms": facts.alarms,
            "radius_m": plan.radius.m(),
            "height_m": plan.height.m(),
            "turn": facts.turn[0],
            "lap_s": figures.lap_s,
            "laps_to_reserve": figures.laps_to_reserve,
            "home_s": figures.home_s,
            "furthest_m": figures.furthest_m,
            "failsafe_action": facts.failsafe_action,
            "plan_hash": file.plan_hash(),
            "authorised_by": plan.authorised_by,
            "authorised_for": plan.authorised_for,
            "authority_counts": file.authority().counts(),
            "signed": signed,
            "trials": self.studies.own_point().map(|(study, RadiusPoint { trials, .. })| json!({
                "flown": trials.trials, "crossed": trials.crossed, "kept": trials.kept, "held": trials.held,
                "verdict": study.plan.as_ref().map(Verdict::from), "confidence": study.ask.confidence, "partial": study.partial,
            })),
            "wind_limit": wind_limits,
            "look": look,
            "take_over": facts.take_over,
            "people": People::from(self.people()),
            "sun": facts.sun,
            "losses": self.loss_boxes().map(|told| json!({ "lost": told.title, "do": told.lines })),
            "in_every_emergency": self.in_any(),
            "stop": self.stop_list(),
            "changes": self.changes,
            "warnings": self.warnings.iter().map(ToString::to_string).collect::<Vec<_>>(),
            "cautions": cautions::ALL,
        });
        format!("{:#}\n", tidied(card))
    }
}
