//! What a committee is asked for, the answer in short, the map, and who signs.

use glam::DVec2;

use super::Flow;
use super::table::{Cell, digits, text};
use crate::brief::{Plan, SignLine};
use crate::draw::{Frame, Ink, Lettering, Sheet};
use crate::report::prints::paper::alarm_box;
use crate::report::prints::plot::Shown;
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
        for told in self.answers() {
            flow.item("-", &told);
        }
        flow.paragraph(&format!("Failsafe action authorised by: {}.", facts.authority));
        // The signatures stand on the same page where the map still can be read.
        let lines = self.sign_lines();
        let signed = 26.0 + ROW * f64::from(u8::try_from(lines.len()).unwrap_or(u8::MAX));
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
        self.sign_off(flow, lines);
    }

    /// Who signs: those the file names, and a line for everybody whose name is wanted.
    fn sign_off(&self, flow: &mut Flow<'_>, lines: Vec<SignLine<'_>>) {
        flow.part("Signed");
        let columns = [text("as", 40.0), text("name", 52.0), text("signature", 60.0), digits("day", 28.0)];
        let row = |line: SignLine| -> Vec<Cell> {
            vec![line.role.into(), line.name.into(), line.lapsed.into(), line.on.into()]
        };
        let rows: Vec<Vec<Cell>> = lines.into_iter().map(row).collect();
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
}

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
