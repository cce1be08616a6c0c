//! The menu of files.

use bevy_egui::egui::{Button, RichText, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, FileCommand, View};
use crate::run;

/// Width of the menu, points.
const WIDTH: f32 = 320.0;

/// Shows its button, and what is under it.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.menu_button(RichText::new("File").family(bold()), |ui| {
        ui.set_width(WIDTH);
        let usable = view.session.refused.is_none();
        item(ui, out, true, "New", "Ctrl+N", FileCommand::New);
        item(ui, out, true, "Open\u{2026}", "Ctrl+O", FileCommand::Open);
        item(ui, out, usable, "Save", "Ctrl+S", FileCommand::Save);
        item(ui, out, usable, "Save as\u{2026}", "Ctrl+Shift+S", FileCommand::SaveAs);
        item(ui, out, usable, "Import\u{2026}", "Ctrl+I", FileCommand::Import);
        samples(ui, out);
        item(ui, out, true, "Quit", "Ctrl+Q", FileCommand::Quit);
        if view.session.settings.recent.is_empty() {
            return;
        }
        ui.separator();
        ui.label(RichText::new("used last").color(view.palette.soft));
        for path in &view.session.settings.recent {
            let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
            let button = Button::new(name.as_ref()).truncate().min_size(vec2(WIDTH, TARGET));
            if ui.add_sized(vec2(WIDTH, TARGET), button).on_hover_text(path.display().to_string()).clicked() {
                out.push(AppCommand::File(FileCommand::OpenThis(path.clone())));
                ui.close();
            }
        }
    });
}

fn item(ui: &mut Ui, out: &mut Vec<AppCommand>, enabled: bool, text: &str, key: &str, command: FileCommand) {
    let button = Button::new(text).shortcut_text(key).min_size(vec2(WIDTH, TARGET));
    let button = ui.add_enabled(enabled, button);
    button.widget_info(|| WidgetInfo::labeled(WidgetType::Button, enabled, text));
    if button.clicked() {
        out.push(AppCommand::File(command));
        ui.close();
    }
}

/// The fields that come with the program, each with what it teaches.
fn samples(ui: &mut Ui, out: &mut Vec<AppCommand>) {
    ui.spacing_mut().interact_size.y = TARGET;
    ui.menu_button("Sample fields", |ui| {
        for sample in run::samples() {
            let button = ui.add(Button::new(sample.name).min_size(vec2(WIDTH / 2.0, TARGET)));
            if button.on_hover_ui(|ui| _ = ui.label(sample.about())).clicked() {
                out.push(AppCommand::File(FileCommand::Sample(sample)));
                ui.close();
            }
        }
    });
}
