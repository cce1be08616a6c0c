//! How sure the answer is: what was varied and how, what was not, the errors of the sum, and what it holds for.

use super::inputs::origin;
use super::table::{Cell, text};
use super::{Flow, words};
use crate::brief::{Drawn, Plan};

impl Plan<'_> {
    pub(super) fn pack_uncertainty(&self, flow: &mut Flow<'_>) {
        let found = self.uncertainty();
        flow.section("How sure the answer is");
        flow.part("Varied in every trial");
        let columns = [text("input", 70.0), text("drawn from", 84.0), text("where it came from", 30.0)];
        let row = |drawn: &Drawn| -> Vec<Cell> {
            vec![drawn.what.as_str().into(), drawn.how.as_str().into(), origin(drawn.kept)]
        };
        flow.table(&columns, &found.varied.iter().map(row).collect::<Vec<_>>());
        flow.part("Not varied");
        let names = match found.fixed.as_slice() {
            [] => String::new(),
            names => format!(" Of the numbers with an origin, those without a spread: {}.", names.join("; ")),
        };
        let loss = match self.scenario.field.circuit {
            Some(_) => "",
            None => "the place, height, speed and heading of the loss, the charge at that moment, ",
        };
        flow.paragraph(&format!("The field and its survey, {loss}the circle as commanded, the limits.{names}"));
        flow.part("Uncertainty statement");
        let statement = found.statement.iter().map(String::as_str);
        let told = std::iter::once(words::NUMERICAL).chain(statement);
        told.chain([words::VALID, words::NOT_VALID, words::VERIFIED]).for_each(|told| flow.paragraph(told));
    }
}
