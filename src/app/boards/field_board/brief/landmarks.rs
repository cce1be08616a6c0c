//! Things on the horizon by which one finds the jet, each with its place.

use bevy_egui::egui::{RichText, Ui};
use glam::DVec2;

use super::rows::{add, remove, take_out};
use super::soft;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, Line};
use crate::run::{Landmark, ScenarioFile};
use crate::words::Measure;

/// How far before the pilot position a new one is put, metres.
const NEW_M: f64 = 500.0;

/// Shows them.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.label(RichText::new("Landmarks on the horizon").family(bold()));
    soft(ui, view, "East and north of the datum. The look cue names the one the circle stands next to.");
    for (index, landmark) in view.session.draft.file().brief.landmarks.iter().enumerate() {
        show_landmark(ui, view, out, index, landmark);
    }
    if add(ui, "Add a landmark") {
        let at_m = ahead(view);
        entry::change(view, out, "add a landmark", |file| {
            file.brief.landmarks.push(Landmark { name: "new landmark".into(), at_m });
        });
        out.push(AppCommand::Settle);
    }
}

/// A place before the pilot position, where one looks; before the datum as long as the field can't be flown.
fn ahead(view: &View<'_>) -> [f64; 2] {
    let at = view.session.flown.as_ref().map_or(DVec2::new(0.0, NEW_M), |flown| {
        let field = &flown.scenario.field;
        field.pilot + NEW_M * field.facing.unit()
    });
    [at.x.round(), at.y.round()]
}

fn show_landmark(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, landmark: &Landmark) {
    let (name, place) = (format!("landmark {}", index + 1), format!("/brief/landmarks/{index}"));
    let (name_place, at_place) = (format!("{place}/name"), format!("{place}/at_m"));
    let line = Line { name: &name, shown: &landmark.name, hint: "church spire", place: &name_place, topic: None };
    let put = |file: &mut ScenarioFile, change: &dyn Fn(&mut Landmark)| {
        file.brief.landmarks.get_mut(index).into_iter().for_each(change);
    };
    let words = ui
        .horizontal(|ui| {
            let cell = line.cell(ui, view, out, ui.available_width() - TARGET - 26.0, entry::words);
            if remove(ui, &name) {
                entry::change(view, out, format!("take {name} out"), |file| take_out(&mut file.brief.landmarks, index));
                out.push(AppCommand::Settle);
            }
            cell
        })
        .inner;
    words.below(ui, view);
    entry::set(view, out, &name, words.found(), |file, text| put(file, &|old| old.name.clone_from(&text)));
    let names = ["east", "north"].map(|way| format!("{name} {way}"));
    let places = [0, 1].map(|axis| format!("{at_place}/{axis}"));
    let cells = ui
        .horizontal(|ui| {
            [0, 1].map(|axis| {
                let at = Entry::new(&names[axis], Measure::Distance, landmark.at_m[axis], &places[axis]);
                let cell = at.cell(ui, view, out);
                ui.label(["east", "north"][axis]);
                cell
            })
        })
        .inner;
    for (axis, cell) in cells.iter().enumerate() {
        cell.below(ui, view);
        let what = format!("place of {name}");
        entry::set(view, out, &what, cell.found(), |file, metres| put(file, &|old| old.at_m[axis] = metres));
    }
    entry::faults(ui, view, &at_place);
    ui.add_space(4.0);
}
