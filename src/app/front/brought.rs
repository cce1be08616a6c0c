//! The bar that says what was brought back after the program ended without a word.

use bevy_egui::egui::{Button, RichText, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Brought, FileCommand, View};

/// Shows it.
pub fn show(ui: &mut Ui, _view: &View<'_>, brought: &Brought, out: &mut Vec<AppCommand>) {
    let Brought { name, when, shown } = brought;
    ui.horizontal(|ui| {
        let text = if *shown {
            format!("Brought back unsaved changes of {name} from {when}.")
        } else {
            format!("Unsaved changes of {name} from {when} are waiting.")
        };
        ui.label(RichText::new(text).family(bold()));
        let mut press = |text: &str, hint: &str, command: FileCommand| {
            if ui.add(Button::new(text).min_size(vec2(0.0, TARGET))).on_hover_text(hint).clicked() {
                out.push(AppCommand::File(command));
            }
        };
        if *shown {
            press("Keep", "go on with them; they are in no file until you save", FileCommand::KeepRecovered);
            press("Drop", "back to what was saved; the changes are gone", FileCommand::DropRecovered);
        } else {
            press("Bring them back", "puts them on the screen instead of this file", FileCommand::BringBack);
            press("Later", "they are asked about again at the next start", FileCommand::KeepRecovered);
            press("Drop", "the changes are gone", FileCommand::DropRecovered);
        }
    });
}
