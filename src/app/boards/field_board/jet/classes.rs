//! A sheet to start from: the numbers of a class of jet, scaled to this jet's mass.

use bevy_egui::egui::{Button, Id, RichText, Ui, vec2};

use crate::app::boards::field_board::soft;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::jet::JetSheet;
use crate::run::airframe_classes;
use crate::words::Measure;

/// Numbers to start from: the first press says what they are, the second sets them.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let id = Id::new("jet to start from");
    let now = ui.data(|data| data.get_temp::<Option<usize>>(id)).unwrap_or_default();
    let choices: Vec<_> =
        airframe_classes().iter().enumerate().map(|(index, class)| (Some(index), class.name)).collect();
    ui.label("Start from a class of jet");
    let chosen = entry::choice(ui, out, "class of jet", now, &choices).unwrap_or(now);
    ui.data_mut(|data| data.insert_temp(id, chosen));
    let Some(class) = chosen.and_then(|index| airframe_classes().get(index)) else { return };
    let jet = &view.session.draft.file().jet;
    let new = |jet: &JetSheet| JetSheet { name: jet.name.clone(), mass: jet.mass, ..class.sheet(jet.mass.value) };
    if new(jet) == *jet {
        soft(ui, view, "These are in place. Enter whatever you know better.");
        return;
    }
    let told = view.units().short(Measure::Mass, jet.mass.value.kg());
    soft(
        ui,
        view,
        &format!("Invented numbers: {}, scaled to {told}. They replace all but name and mass.", class.about),
    );
    let words = RichText::new(format!("Start from {}", class.name)).family(bold());
    if ui.add(Button::new(words).min_size(vec2(0.0, TARGET))).clicked() {
        let what = format!("start from the jet class {}", class.name);
        entry::change(view, out, what, |file| file.jet = new(&file.jet));
        out.push(AppCommand::Settle);
    }
}
