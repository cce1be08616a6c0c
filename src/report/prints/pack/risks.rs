//! The table of the risks.

use super::Flow;
use super::table::{Cell, text};
use crate::brief::{Plan, Risk};

impl Plan<'_> {
    pub(super) fn pack_risks(&self, flow: &mut Flow<'_>) {
        flow.section("Risks");
        let columns = [
            text("hazard", 34.0),
            text("to whom", 18.0),
            text("what is done", 34.0),
            text("what this plan says", 60.0),
            text("likely, how bad", 18.0),
            text("whose, until", 18.0),
        ];
        let row = |risk: Risk| {
            let said = [Cell::bold(risk.hazard), risk.who.into(), risk.control.into(), risk.told.into()];
            said.into_iter().chain([Cell::default(), Cell::default()]).collect()
        };
        flow.table(&columns, &self.risks().into_iter().map(row).collect::<Vec<_>>());
        flow.paragraph(
            "How likely each is and how bad, whether what remains is accepted, and who looks after it until when is for the committee to write.",
        );
    }
}
