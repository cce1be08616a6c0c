//! A sheet to start from: a jet that was kept, or the numbers of a class of jet, scaled to this jet's mass.

use bevy_egui::egui::{Button, Response, RichText, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::boards::field_board::{more, soft};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, FileCommand, View};
use crate::app::widgets::entry;
use crate::jet::JetSheet;
use crate::run::{AirframeClass, airframe_classes};
use crate::words::Measure;

/// Room for the button beside a jet, points.
const BESIDE: f32 = 84.0;

/// Shows the jets that were kept and the classes; one press takes one over.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    mine(ui, view, out);
    more(ui, "classes of jet", "Typical values by size", |ui| {
        soft(ui, view, "Invented numbers, scaled to the mass entered. They replace all but name and mass.");
        for class in airframe_classes() {
            let jet = of_class(class, &view.session.draft.file().jet);
            let width = ui.available_width();
            let row = row(ui, view, "typical values", class.name, &jet, width);
            if row.on_hover_text(class.about).clicked() {
                take(view, out, format!("start from the jet class {}", class.name), |now| of_class(class, now));
            }
        }
    });
}

/// The jets that were kept, and the way to keep this one.
fn mine(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let (jets, now) = (&view.session.jets, &view.session.draft.file().jet);
    if !jets.kept.is_empty() {
        ui.label(RichText::new("My jets").family(bold()));
    }
    for jet in &jets.kept {
        ui.horizontal(|ui| {
            let width = ui.available_width() - BESIDE - 8.0;
            let hint = "takes every number of it over; undo brings the present ones back";
            if row(ui, view, "my jet", &jet.name, jet, width).on_hover_text(hint).clicked() {
                take(view, out, format!("take over my jet {}", jet.name), |_| jet.clone());
            }
            let remove = ui.add(Button::new("Remove").min_size(vec2(BESIDE, TARGET)));
            remove.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, format!("remove my jet {}", jet.name)));
            if remove.on_hover_text("off the list; no field changes").clicked() {
                out.push(AppCommand::File(FileCommand::DropJet(jet.name.clone())));
            }
        });
    }
    ui.horizontal_wrapped(|ui| {
        let same = jets.kept.iter().find(|jet| jet.name == now.name);
        let words = if same.is_some() { "Keep it as it is now" } else { "Keep this jet" };
        let button = ui.add_enabled(same != Some(now), Button::new(words).min_size(vec2(0.0, TARGET)));
        let hint = "under its name, for every field; an earlier one of that name is replaced";
        if button.on_hover_text(hint).on_disabled_hover_text("it is kept as it is").clicked() {
            out.push(AppCommand::File(FileCommand::KeepJet));
        }
        if let Some(jet) = &jets.dropped
            && ui.add(Button::new(format!("Bring {} back", jet.name)).min_size(vec2(0.0, TARGET))).clicked()
        {
            out.push(AppCommand::File(FileCommand::BringJetBack));
        }
    });
}

/// A jet to press, with what it weighs and how fast it returns.
fn row(ui: &mut Ui, view: &View<'_>, what: &str, name: &str, jet: &JetSheet, width: f32) -> Response {
    let chosen = *jet == view.session.draft.file().jet;
    let units = view.units();
    let mass = units.short(Measure::Mass, jet.mass.value.kg());
    let speed = units.short(Measure::Speed, jet.return_speed.value.mps());
    let about = RichText::new(format!("{mass}, returns at {speed}")).color(view.palette.soft);
    let button = Button::new(name).right_text(about).selected(chosen).truncate().min_size(vec2(width, TARGET));
    let response = ui.add_sized(vec2(width, TARGET), button);
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, chosen, format!("{what}: {name}")));
    response
}

/// The jet as one of a class with its mass.
fn of_class(class: &AirframeClass, jet: &JetSheet) -> JetSheet {
    JetSheet { name: jet.name.clone(), mass: jet.mass, ..class.sheet(jet.mass.value) }
}

/// One step of undo.
fn take(view: &View<'_>, out: &mut Vec<AppCommand>, what: String, new: impl FnOnce(&JetSheet) -> JetSheet) {
    out.push(AppCommand::Settle);
    entry::change(view, out, what, |file| file.jet = new(&file.jet));
    out.push(AppCommand::Settle);
}
