//! What the columns of the table that was read last hold: guessed, shown, corrected, and remembered for every file with the
//! same header.

use bevy_egui::egui::{Button, ComboBox, Grid, ScrollArea, Ui, vec2};

use crate::app::look::theme::TARGET;
use crate::app::session::{AppCommand, DebriefCommand, FileCommand, View};
use crate::log::Role;

/// Shows them; nothing where what was read is no table.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some((path, columns)) = &view.session.debrief.columns else { return };
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    ui.collapsing(format!("Columns of {name}"), |ui| {
        ui.label("What each column holds is guessed from its head. Correct it, and read the file again with that.");
        let mut next = columns.clone();
        ScrollArea::vertical().max_height(220.0).id_salt("columns").show(ui, |ui| {
            Grid::new("columns").num_columns(3).striped(true).spacing(vec2(8.0, 4.0)).show(ui, |ui| {
                for (index, column) in next.columns.iter_mut().enumerate() {
                    ui.label(&column.header);
                    ComboBox::from_id_salt(("role", index)).selected_text(column.role.name()).show_ui(ui, |ui| {
                        for role in Role::ALL {
                            if ui.selectable_value(&mut column.role, role, role.name()).changed() {
                                column.unit =
                                    role.units().first().map_or_else(String::new, |unit| unit.name.to_owned());
                            }
                        }
                    });
                    let units = column.role.units();
                    if units.is_empty() {
                        ui.label("");
                    } else {
                        ComboBox::from_id_salt(("unit", index)).selected_text(column.unit.clone()).show_ui(ui, |ui| {
                            for unit in units {
                                ui.selectable_value(&mut column.unit, unit.name.to_owned(), unit.name);
                            }
                        });
                    }
                    ui.end_row();
                }
            });
        });
        if next != *columns {
            out.push(AppCommand::Debrief(DebriefCommand::Columns(path.clone(), Box::new(next))));
        }
        if ui.add(Button::new("Read it again with these").min_size(vec2(180.0, TARGET))).clicked() {
            out.push(AppCommand::File(FileCommand::ReadAgain));
        }
    });
}
