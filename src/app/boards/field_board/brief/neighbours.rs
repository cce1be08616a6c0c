//! What people beside the field, an agent or an insurer ask, and how far off the survey is: the pack prints it.

use bevy_egui::egui::Ui;

use super::{soft, text};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{EntryKind, Optional};
use crate::run::Neighbours;
use crate::units::Length;
use crate::words::Measure;

/// Shows the boxes.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.heading("What neighbours and insurers ask");
    soft(ui, view, "For the pack. What is left out stands there as a question.");
    let brief = &view.session.draft.file().brief;
    let said = &brief.neighbours;
    let all: [(&str, &str, &str, &str, fn(&mut Neighbours) -> &mut String); 4] = [
        ("footpaths", &said.footpaths, "which, and who watches them", "/brief/neighbours/footpaths", |said| {
            &mut said.footpaths
        }),
        ("noise", &said.noise, "how loud, measured where", "/brief/neighbours/noise", |said| &mut said.noise),
        ("complaints", &said.complaints, "whom to ring, what happens then", "/brief/neighbours/complaints", |said| {
            &mut said.complaints
        }),
        ("access", &said.access, "who may come and fetch a jet", "/brief/neighbours/access", |said| &mut said.access),
    ];
    for (name, shown, hint, place, part) in all {
        text(ui, view, out, (name, shown, hint, place), |brief, text| *part(&mut brief.neighbours) = text);
    }
    let survey = Optional {
        name: "survey off by",
        kind: EntryKind::Of(Measure::Distance),
        now: brief.survey_error.map(Length::m),
        hint: "not measured",
        place: "/brief/survey_error",
        topic: None,
    };
    let found = survey.show(ui, view, out);
    entry::set(view, out, "error of the survey", found, |file, m| file.brief.survey_error = m.map(Length::new));
}
