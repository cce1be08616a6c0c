//! At what height and speed the jet is lost: the scenario's own loss, to be changed here.

use bevy_egui::egui::{DragValue, Ui, WidgetInfo};

use crate::app::look::theme::boxed;
use crate::app::session::{AppCommand, Change, View};
use crate::run::ScenarioFile;
use crate::units::{Length, Speed};
use crate::words::Measure;

/// Shows both entries on one line.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let loss = &view.session.draft.file().loss;
    ui.horizontal(|ui| {
        entry(ui, view, ("lost at", "height of the loss"), Measure::Height, loss.height.m(), out, |file, metres| {
            file.loss.height = Length::new(metres);
        });
        entry(ui, view, ("and", "speed of the loss"), Measure::Speed, loss.speed.mps(), out, |file, mps| {
            file.loss.speed = Speed::new(mps);
        });
        ui.label("level, on every heading");
    });
}

fn entry(
    ui: &mut Ui,
    view: &View<'_>,
    (before, name): (&str, &str),
    measure: Measure,
    si: f64,
    out: &mut Vec<AppCommand>,
    set: impl FnOnce(&mut ScenarioFile, f64),
) {
    ui.label(before);
    let units = view.units();
    let unit = units.of(measure).first.clone();
    let now = units.first(measure, si);
    let mut value = now;
    let bare = unit.clone();
    let most = units.first(measure, if measure == Measure::Height { 500.0 } else { 100.0 });
    let drag = DragValue::new(&mut value)
        .range(0.0..=most)
        .speed(0.2)
        .max_decimals(1)
        .suffix(format!(" {unit}"))
        .custom_parser(move |text| Some(measure.to(&bare, measure.parse(text, &bare).ok()?)));
    let response = ui
        .scope(|ui| {
            boxed(ui);
            ui.add(drag)
        })
        .inner
        .on_hover_text(name);
    response.widget_info(|| WidgetInfo { label: Some(name.to_owned()), ..WidgetInfo::drag_value(true, value) });
    if response.changed() && value != now {
        let mut file = view.session.draft.file().clone();
        set(&mut file, units.to_si(measure, value));
        out.push(AppCommand::Edit(Box::new(Change { what: format!("set the {name}"), file })));
    }
    if response.drag_stopped() || response.lost_focus() {
        out.push(AppCommand::Settle);
    }
}
