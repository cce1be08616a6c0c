//! The plan in full, and what every flight and study of it came to.

use super::Flow;
use crate::brief::Plan;
use crate::words::{self, bearing, height, place, speed};

impl Plan<'_> {
    pub(super) fn pack_answers(&self, flow: &mut Flow<'_>) {
        flow.section("The plan, and every answer");
        let loss = &self.scenario.file.loss;
        flow.paragraph(&format!(
            "{} The loss reckoned with as entered: {}, at {}, {} above home, flying {} towards {}.",
            self.asked_for(),
            words::loss(loss.kind),
            place(loss.at_m.into()),
            height(loss.height.m()),
            speed(loss.speed),
            bearing(loss.heading),
        ));
        for told in self.answers() {
            flow.item("-", &told);
        }
        if let Some(another) = self.another_circle() {
            flow.paragraph(&another);
        }
        flow.paragraph(&format!("Failsafe action authorised by: {}.", self.facts().authority));
    }
}
