//! The four points that are easily taken for one another, a row each: datum, pilot, home and centre.

use bevy_egui::egui::{Button, Label, RichText, Ui, WidgetInfo, WidgetType, vec2};
use glam::DVec2;

use super::place::{self, BOX};
use crate::app::boards::field_board::{compass, soft};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::field_board::{Chosen, FieldCommand, Part, edit};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{EntryKind, Optional};
use crate::app::widgets::help::mark;
use crate::field::{FieldFile, facing};
use crate::units::Bearing;
use crate::words::help::Topic;

/// Room for the name of a point, points.
const NAME: f32 = 84.0;

/// Shows the rows.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(field) = view.session.draft.field() else { return };
    ui.heading("Four points, not one");
    heads(ui, view);
    datum(ui, view, out);
    for (part, topic) in [(Part::Pilot, Topic::Pilot), (Part::Home, Topic::Home)] {
        let Some(&at) = part.points(view.session.draft.file()).first() else { continue };
        place::row(ui, view, out, (part, 0, at), |ui, out| name(ui, view, part, out), |ui, out| mark(ui, topic, out));
        place::label(ui, view, at);
        if part == Part::Pilot {
            faces(ui, view, out, field);
        }
    }
    let at_home = field.centre_m.is_none();
    if at_home {
        ui.horizontal(|ui| {
            name(ui, view, Part::Centre, out);
            let room = 2.0 * BOX + 32.0;
            ui.add_sized(vec2(room, TARGET), Label::new("at home, and goes with it"));
            mark(ui, Topic::Centre, out);
        });
    } else if let Some(&at) = Part::Centre.points(view.session.draft.file()).first() {
        place::row(
            ui,
            view,
            out,
            (Part::Centre, 0, at),
            |ui, out| name(ui, view, Part::Centre, out),
            |ui, out| mark(ui, Topic::Centre, out),
        );
        place::label(ui, view, at);
    }
    if let Some(on) = entry::switch(ui, out, "centre at home", at_home) {
        if on {
            entry::edited(view, out, |file| edit::delete_part(file, Part::Centre));
        } else {
            entry::change(view, out, "give the centre a place of its own", |file| {
                if let Some(field) = &mut file.field {
                    field.centre_m = Some(field.home_m);
                }
            });
        }
    }
}

fn heads(ui: &mut Ui, view: &View<'_>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 18.0;
        for (word, room) in [("", NAME), ("east of datum", BOX), ("north of it", BOX)] {
            let label = RichText::new(word).size(14.0).color(view.palette.soft);
            ui.allocate_ui(vec2(room, 18.0), |ui| {
                ui.set_min_width(room);
                ui.label(label);
            });
        }
    });
}

fn datum(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.add_sized(vec2(NAME, TARGET), Label::new(RichText::new("datum").family(bold())));
        let room = 2.0 * BOX + 32.0;
        ui.add_sized(vec2(room, TARGET), Label::new("0, 0: where the metres begin"));
        mark(ui, Topic::Datum, out);
    });
    place::label(ui, view, DVec2::ZERO);
}

/// Which way people look from the pilot position: the twelve of every clock in words and prints.
fn faces(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, field: &FieldFile) {
    let (shown, from) = facing(field);
    let now = field.facing.map(Bearing::deg);
    let hint = EntryKind::Bearing.show(view.units(), shown.deg().round());
    let people = Optional {
        name: "people look",
        kind: EntryKind::Bearing,
        now,
        hint: &hint,
        place: "/field/facing",
        topic: None,
    };
    let found = people.show(ui, view, out);
    entry::set(view, out, "way people look", found, |file, deg| {
        if let Some(field) = &mut file.field {
            field.facing = deg.map(Bearing::from_deg);
        }
    });
    compass(ui, view, shown.deg());
    let left_out = if now.is_some() { " Emptied, it goes by the flight line or the runway." } else { "" };
    soft(ui, view, &format!("12 o'clock: {from}.{left_out}"));
}

/// The name of a point, pressed to choose it on the map.
fn name(ui: &mut Ui, view: &View<'_>, part: Part, out: &mut Vec<AppCommand>) {
    let chosen = view.session.field_board.chosen.is_some_and(|chosen| chosen.part == part);
    let name = part.name(view.session.draft.file());
    let word = name.strip_prefix("the ").unwrap_or(&name);
    let button = Button::new(RichText::new(word).family(bold())).selected(chosen).min_size(vec2(NAME, TARGET));
    let response = ui.add(button);
    let label = format!("choose {name}");
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, chosen, &label));
    if response.clicked() {
        let wanted = (!chosen).then_some(Chosen { part, corner: None });
        out.push(AppCommand::Field(FieldCommand::Choose(wanted)));
    }
}
