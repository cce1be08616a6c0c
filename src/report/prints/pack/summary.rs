//! What a committee is asked for, the answer in short, the map, and who signs.

use glam::DVec2;

use super::Flow;
use super::table::{Cell, digits, text};
use crate::brief::{Answer, Plan, Recovery, StudyReport};
use crate::draw::{Frame, Ink, Lettering, Sheet};
use crate::report::prints::paper::alarm_box;
use crate::report::prints::plot::Shown;
use crate::run::{Signature, Version, WindChoice};
use crate::words::{self, bearing, height, place, speed};

/// Greatest height of the map with its strip, mm.
const MAP: f64 = 112.0;
/// Least height of it, mm.
const LEAST_MAP: f64 = 72.0;
/// Height of its key, mm.
const KEY: f64 = 10.5;
/// Height of a row to sign in, mm.
const ROW: f64 = 8.5;

impl Plan<'_> {
    pub(super) fn pack_summary(&self, flow: &mut Flow<'_>) {
        let (file, facts) = (&self.scenario.file, self.facts());
        flow.section("What is asked for, and the answer");
        alarms(flow, &facts.alarms);
        let loss = &file.loss;
        flow.paragraph(&format!(
            "Asked for: leave to fly the jet \"{}\" here by its video, with this plan for {} lost: {}. Circle of {} about \
             {}, {} ({}) above home, {} ({}). The loss reckoned with: at {}, {} above home, flying {} towards {}.",
            file.jet.name,
            words::loss(loss.kind),
            facts.failsafe_action,
            facts.radius,
            place(self.scenario.field.centre),
            facts.height[0],
            facts.height[1],
            facts.turn[0],
            facts.turn[1],
            place(loss.at_m.into()),
            height(loss.height.m()),
            speed(loss.speed),
            bearing(loss.heading),
        ));
        for told in self.all_answers() {
            flow.item("-", &told);
        }
        flow.paragraph(&format!("Failsafe action authorised by: {}.", facts.authority));
        // The signatures stand on the same page where the map still can be read.
        let signed = 26.0 + ROW * (4.0 + f64::from(u8::try_from(self.further().len()).unwrap_or(u8::MAX)));
        let mut free = flow.left() - KEY - signed;
        if free < LEAST_MAP {
            free = flow.left() - KEY;
        }
        let tall = if free < LEAST_MAP { MAP } else { free.min(MAP) };
        flow.picture(tall + KEY, |sheet, room| {
            let map = Frame { low: room.low, high: DVec2::new(room.high.x, room.low.y + tall) };
            let left_out = self.map(sheet, map, Shown::ALL);
            let key = Frame { low: DVec2::new(room.low.x, map.high.y), high: room.high };
            self.key(sheet, key, Shown::ALL, left_out);
        });
        self.sign_off(flow);
    }

    /// The answers of every flight and study there is, each in a sentence or two.
    fn all_answers(&self) -> Vec<String> {
        let flown = [(WindChoice::Mean, &self.margins), (WindChoice::Gust, &self.gust)].map(|(wind, margins)| {
            let (warnings, changes) = (self.warnings, self.changes);
            Recovery { scenario: self.scenario, run: &self.run, wind, margins, trials: None, warnings, changes }
                .headline()
        });
        let studies = &self.studies;
        let radius = studies.radius.map(|study| ("Which circle", Answer::Radius(study)));
        let wind_limit = studies.wind_limit.map(|study| ("Up to what wind", Answer::WindLimit(study)));
        let losses = studies.losses.map(|study| ("From where", Answer::Losses(study)));
        let studied = [radius, wind_limit, losses].into_iter().flatten().map(|(name, answer)| {
            let (warnings, changes) = (self.warnings, self.changes);
            let report = StudyReport { scenario: self.scenario, answer, warnings, changes };
            format!("{name}: {}", report.headline())
        });
        let met = self.facts().met.map(|met| format!("The circle of the plan {met}."));
        let missing = [
            (studies.own_circle.is_none(), "The circle of the plan in trials"),
            (studies.radius.is_none(), "Which circle"),
            (studies.wind_limit.is_none(), "Up to what wind"),
            (studies.losses.is_none(), "From where a loss is recovered"),
        ];
        let missing = missing.into_iter().filter(|(missing, _)| *missing).map(|(_, what)| super::words::not_made(what));
        [self.scenario.losses_told()].into_iter().chain(flown).chain(met).chain(studied).chain(missing).collect()
    }

    /// Who signs: those the file names, and a line for everybody whose name is wanted.
    fn sign_off(&self, flow: &mut Flow<'_>) {
        flow.part("Signed");
        let columns = [text("as", 40.0), text("name", 52.0), text("signature", 60.0), digits("day", 28.0)];
        let lapsed = |one: &Signature| {
            let found = self.scenario.file.signed().into_iter().find(|(other, _)| std::ptr::eq(*other, one));
            found.map_or_else(String::new, |(one, version)| match version {
                Version::Another => format!("{}: {}", version.words(), one.version),
                _ => version.words().into(),
            })
        };
        let told = |one: &Signature| -> Vec<Cell> {
            vec![one.role.trim().into(), one.name.as_str().into(), lapsed(one).into(), one.on.as_str().into()]
        };
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        for (role, found) in ROLES.iter().zip(self.wanted()) {
            rows.push(found.map_or_else(|| vec![role.0.into(), "".into(), "".into(), "".into()], told));
        }
        rows.extend(self.further().into_iter().map(told));
        flow.tall_table(&columns, &rows, ROW);
        flow.lettered(
            &format!(
                "A name in print comes from the file and counts for this version of the plan, {}; the signature is written \
                 by hand. Who signs has read the whole pack and may set any limit lower.",
                self.scenario.file.plan_hash()
            ),
            Lettering::new(2.8).ink(Ink::SOFT),
        );
    }

    /// Who of the file signed this version in each of the roles that are wanted.
    fn wanted(&self) -> [Option<&Signature>; 4] {
        let counting: Vec<_> =
            self.scenario.file.signed().into_iter().filter(|(_, version)| version.counts()).collect();
        ROLES.map(|(_, words)| {
            let fits = |one: &Signature| words.iter().any(|word| one.role.to_lowercase().contains(word));
            counting.iter().map(|(one, _)| *one).find(|one| fits(one))
        })
    }

    /// Who of the file signed besides.
    fn further(&self) -> Vec<&Signature> {
        let wanted = self.wanted();
        let besides = |one: &&Signature| !wanted.iter().flatten().any(|other| std::ptr::eq(*other, *one));
        self.scenario.file.brief.signed.iter().filter(besides).collect()
    }
}

/// Whose signatures are wanted, and words of the role by which they are found in the file.
const ROLES: [(&str, &[&str]); 4] = [
    ("author", &["author", "pilot"]),
    ("second person", &["second", "spotter", "checker"]),
    ("committee", &["committee", "secretary", "chair"]),
    ("landowner", &["landowner", "owner", "farmer", "grazier", "tenant"]),
];

/// What must not be overlooked, in a box as tall as its words.
fn alarms(flow: &mut Flow<'_>, alarms: &[String]) {
    let (sizes, width) = ([3.6, 2.6], flow.room.size().x);
    let tried = alarm_box(&mut Sheet::new(1.0, 1.0, "", ""), DVec2::ZERO, width, alarms, sizes, 60.0);
    if let Some(tall) = tried {
        flow.picture(tall, |sheet, frame| {
            alarm_box(sheet, frame.low, width, alarms, sizes, 60.0);
        });
    }
}
