//! The logs that were read, with what had to be repaired, and the recoveries in them.

use bevy_egui::egui::{Button, RichText, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, DebriefCommand, View};

/// Shows them.
pub(super) fn list(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let debrief = &view.session.debrief;
    for (number, log) in debrief.logs.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new(&log.log.name).family(bold()));
            if let Some(day) = &log.log.day {
                ui.label(day);
            }
            for which in 0..log.recoveries.len() {
                let chosen = debrief.chosen == Some((number, which));
                let button =
                    Button::new(format!("recovery {}", which + 1)).selected(chosen).min_size(vec2(0.0, TARGET));
                if ui.add(button).clicked() {
                    out.push(AppCommand::Debrief(DebriefCommand::Choose(number, which)));
                }
            }
            if log.recoveries.is_empty() {
                ui.label("no recovery in it: nowhere three quarters of a lap on the circle");
            }
            if ui.button("put away").clicked() {
                out.push(AppCommand::Debrief(DebriefCommand::Forget(number)));
            }
        });
        if !log.log.repairs.is_empty() {
            let head = format!("{} things were repaired or taken for granted", log.log.repairs.len());
            ui.collapsing(RichText::new(head).color(view.palette.soft), |ui| {
                for repair in &log.log.repairs {
                    ui.label(RichText::new(repair.to_string()).size(14.0));
                }
            });
        }
    }
}
