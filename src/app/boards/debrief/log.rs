//! The logs that were read, with what had to be repaired, and the recoveries in them; and what could not be read.

use bevy_egui::egui::{Button, CollapsingHeader, RichText, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, DebriefCommand, View};

/// Shows them.
pub(super) fn list(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let debrief = &view.session.debrief;
    for (number, log) in debrief.told().enumerate() {
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new(debrief.name(number)).family(bold()));
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
            if ui.button("close").clicked() {
                out.push(AppCommand::Debrief(DebriefCommand::Forget(number)));
            }
        });
        if !log.log.repairs.is_empty() {
            let head = match log.log.repairs.len() {
                1 => "one thing was repaired or taken for granted".into(),
                many => format!("{many} things were repaired or taken for granted"),
            };
            let head = CollapsingHeader::new(RichText::new(head).color(view.palette.soft));
            // Two logs may have been repaired alike.
            head.id_salt(("repairs", number)).show(ui, |ui| {
                for repair in &log.log.repairs {
                    ui.label(RichText::new(repair.to_string()).size(14.0));
                }
            });
        }
    }
}

/// What could not be read, each with the reason.
pub(super) fn refused(ui: &mut Ui, view: &View<'_>) {
    for (path, why) in &view.session.debrief.refused {
        let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
        ui.label(RichText::new(format!("{name} can't be read")).family(bold()));
        ui.label(RichText::new(why).size(14.0));
    }
}
