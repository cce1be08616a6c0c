//! Every number that the answer rests on, each with its spread and where it came from; and the rules with who checked them.

use serde_json::Value;

use super::Flow;
use super::table::{Cell, Sign, digits, text};
use crate::brief::Plan;
use crate::brief::items::{Item, Kept, items};
use crate::draw::{Ink, Lettering};
use crate::run::schema;

/// Sections of the file: key, title.
const SECTIONS: [(&str, &str); 5] = [
    ("jet", "Jet"),
    ("wind", "Wind"),
    ("loss", "Loss"),
    ("recovery", "Plan for the loss, and what the autopilot knows"),
    ("limits", "Limits"),
];

impl Plan<'_> {
    pub(super) fn pack_inputs(&self, flow: &mut Flow<'_>) {
        let file = serde_json::to_value(self.scenario.file.whole()).unwrap_or_default();
        let schema = schema();
        let found = SECTIONS.map(|(key, title)| (title, items(&file, &schema, key)));
        flow.section("Inputs");
        let count = |kept: Kept| found.iter().flat_map(|(_, items)| items).filter(|item| item.kept == kept).count();
        flow.paragraph(&format!(
            "Of the entries below {} were measured, {} estimated, and {} are the tool's own defaults that nobody has \
             checked; {} were decided or read off the day. A spread is one standard deviation.",
            count(Kept::Measured),
            count(Kept::Estimated),
            count(Kept::Default),
            count(Kept::Written),
        ));
        for (title, items) in &found {
            flow.part(title);
            listed(flow, items);
        }
        flow.part("File");
        let more: Vec<Item> =
            ["name", "date", "seed", "peewit"].iter().flat_map(|key| items(&file, &schema, key)).collect();
        listed(flow, &more);
        self.rule_table(flow);
        self.field_tables(flow);
        self.told_besides(flow, &file, &schema);
    }

    fn rule_table(&self, flow: &mut Flow<'_>) {
        flow.part("Rules, and who compared them with the text in force");
        let rules = &self.scenario.file.rules;
        if rules.is_empty() {
            flow.paragraph("None are written in the file. That does not mean that there are none.");
            return;
        }
        let columns =
            [text("rule", 34.0), text("is said to ask for", 54.0), text("source", 56.0), text("checked", 38.0)];
        let rows: Vec<Vec<Cell>> = rules
            .iter()
            .map(|rule| {
                let checked = match &rule.checked_on {
                    Some(on) if rule.is_checked() => Cell::from(format!("{}, {on}", rule.checked_by)),
                    _ => {
                        let half = [rule.checked_by.as_str(), rule.checked_on.as_deref().unwrap_or_default()].join(" ");
                        Cell::bold(format!("NOT CHECKED {half}").trim())
                    }
                };
                let source = if rule.source.trim().is_empty() { "no source named" } else { &rule.source };
                vec![rule.label.as_str().into(), rule.value.as_str().into(), source.into(), checked]
            })
            .collect();
        flow.table(&columns, &rows);
    }

    /// What the file says besides, what is odd about it, and what was asked for otherwise.
    fn told_besides(&self, flow: &mut Flow<'_>, file: &Value, schema: &Value) {
        let brief = items(file, schema, "brief");
        if !brief.is_empty() {
            flow.part("For the prints");
            let row = |item: &Item| vec![item.label.as_str().into(), item.value.as_str().into()];
            flow.table(&[text("what", 80.0), text("as entered", 102.0)], &brief.iter().map(row).collect::<Vec<_>>());
        }
        let parts = [
            ("Notes in the file", self.scenario.file.notes.clone()),
            ("Odd about the file", self.warnings.iter().map(ToString::to_string).collect()),
            ("Not as in the file", self.changes.to_vec()),
        ];
        for (title, told) in parts.into_iter().filter(|(_, told)| !told.is_empty()) {
            flow.part(title);
            told.iter().for_each(|words| flow.item("-", words));
        }
    }
}

/// A section as a table, with what the signs mean under it.
fn listed(flow: &mut Flow<'_>, items: &[Item]) {
    let columns =
        [text("what", 100.0), digits("value", 38.0), digits("spread", 20.0), text("where it came from", 30.0)];
    let rows: Vec<Vec<Cell>> = items.iter().map(row).collect();
    if !rows.is_empty() {
        flow.table(&columns, &rows);
    }
}

fn row(item: &Item) -> Vec<Cell> {
    let spread = item.spread.clone().unwrap_or_else(|| "-".into());
    vec![item.label.as_str().into(), item.value.as_str().into(), spread.into(), origin(item.kept)]
}

/// Where a number came from, by a sign and a word.
pub(super) fn origin(kept: Kept) -> Cell {
    match kept {
        Kept::Measured => Cell::signed(Sign::Full, "measured"),
        Kept::Estimated => Cell::signed(Sign::Half, "estimated"),
        Kept::Default => Cell::signed(Sign::Open, "DEFAULT"),
        Kept::Written => Cell::signed(Sign::Dot, "as entered"),
    }
}

/// Words that explain a table.
pub(super) fn explained(flow: &mut Flow<'_>, words: &str) {
    flow.lettered(words, Lettering::new(2.8).ink(Ink::SOFT));
}
