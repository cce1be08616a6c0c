//! What the prints tell beside the plan: the hours and until when it holds, what the jet looks like, what stands on the
//! horizon, what stops the flying, whom to call, and who signed.

mod drills;
mod emergency;
mod landmarks;
mod neighbours;
mod rows;
mod signed;

use bevy_egui::egui::Ui;

use super::soft;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::Line;
use crate::app::widgets::help::mark;
use crate::run::{Brief, Hours, ScenarioFile};
use crate::words::help::Topic;
use rows::Rows;

/// Shows the sheet.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    soft(ui, view, "All of this is for the prints. Whatever is left out leaves a line to write on.");
    validity(ui, view, out);
    ui.add_space(8.0);
    hours(ui, view, out);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        ui.heading("To find it by eye");
        mark(ui, Topic::LookCue, out);
    });
    let marks = &view.session.draft.file().brief.jet_marks;
    text(ui, view, out, ("jet marks", marks, "orange tips, dark belly", "/brief/jet_marks"), |brief, text| {
        brief.jet_marks = text;
    });
    landmarks::show(ui, view, out);
    ui.add_space(8.0);
    ui.heading("What stops the flying here");
    soft(ui, view, "Beside what stops it everywhere.");
    STOPS.show(ui, view, out);
    ui.add_space(8.0);
    emergency::show(ui, view, out);
    ui.add_space(4.0);
    drills::show(ui, view, out);
    ui.add_space(8.0);
    neighbours::show(ui, view, out);
    ui.add_space(8.0);
    signed::show(ui, view, out);
}

const STOPS: Rows = Rows {
    one: "stop",
    place: "/brief/stop_also",
    hint: "horses on the bridle path",
    add: "Add a stop",
    get: |brief| &brief.stop_also,
    of: |brief| &mut brief.stop_also,
};

/// One text of the sheet: its name, what stands in it, what stands there while it is empty, and its place.
fn text(
    ui: &mut Ui,
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    (name, shown, hint, place): (&str, &str, &str, &str),
    put: impl FnOnce(&mut Brief, String),
) {
    let found = Line { name, shown, hint, place, topic: None }.show(ui, view, out, entry::words);
    entry::set(view, out, name, found, |file, text| put(&mut file.brief, text));
}

/// Until when the plan holds.
fn validity(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.heading("Until when it holds");
    let file = view.session.draft.file();
    let shown = file.brief.review_by.as_deref().unwrap_or_default();
    let topic = Some(Topic::ReviewDay);
    let line = Line { name: "review day", shown, hint: "2026-09-30", place: "/brief/review_by", topic };
    let found = line.show(ui, view, out, entry::words);
    entry::set(view, out, "review day", found, |file, day| {
        file.brief.review_by = Some(day).filter(|day| !day.is_empty());
    });
    if let Some(expired) = file.expiry(&view.session.today) {
        entry::note(ui, view, &expired);
    }
}

/// From when to when it is flown.
fn hours(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.heading("Hours of the flight");
    let hours = view.session.draft.file().brief.hours.as_ref();
    if let Some(on) = entry::switch(ui, out, "The hours are known", hours.is_some()) {
        let what = if on { "set the hours" } else { "take the hours away" };
        let new = Hours { from: "10:00".into(), to: "12:00".into(), ahead_of_utc: "+00:00".into() };
        entry::change(view, out, what, |file| file.brief.hours = on.then_some(new));
    }
    let Some(hours) = hours else {
        soft(ui, view, "The sun is checked in these hours; all day where they are left out.");
        return;
    };
    let all: [(&str, &str, &str, &str, fn(&mut Hours) -> &mut String); 3] = [
        ("from", &hours.from, "18:30", "/brief/hours/from", |hours| &mut hours.from),
        ("to", &hours.to, "21:00", "/brief/hours/to", |hours| &mut hours.to),
        ("ahead of UTC", &hours.ahead_of_utc, "+01:00", "/brief/hours/ahead_of_utc", |hours| &mut hours.ahead_of_utc),
    ];
    for (index, (name, shown, hint, place, part)) in all.into_iter().enumerate() {
        let topic = (index == 0).then_some(Topic::SunGlare);
        let found = Line { name, shown, hint, place, topic }.show(ui, view, out, entry::words);
        let what = format!("hours: {name}");
        entry::set(view, out, &what, found, |file: &mut ScenarioFile, text| {
            file.brief.hours.iter_mut().for_each(|hours| part(hours).clone_from(&text));
        });
    }
    soft(ui, view, "By the clock on the field on the day of the scenario, which the sheet Field holds.");
}
