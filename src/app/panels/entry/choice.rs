//! One of a few, and yes or no: pressed, with a mark that is a shape and not a colour.

use bevy_egui::egui::{Button, RichText, Ui, WidgetInfo, WidgetType, vec2};

use super::edit::press;
use crate::app::AppCommand;
use crate::app::theme::{TARGET, bold};

/// Shows the choices in a row, the present one marked, and returns another one when it is pressed. Each button is named
/// "name: choice" for those who can't see the row.
pub fn choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    out: &mut Vec<AppCommand>,
    name: &str,
    now: T,
    choices: &[(T, &str)],
) -> Option<T> {
    let mut found = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        ui.spacing_mut().button_padding.x = 7.0;
        for &(value, word) in choices {
            if option(ui, name, word, value == now) && value != now {
                press(out);
                found = Some(value);
            }
        }
    });
    found
}

/// The same without marks, for where a sign beside it says the same: the chosen one is bold.
pub(super) fn plain<T: Copy + PartialEq>(
    ui: &mut Ui,
    out: &mut Vec<AppCommand>,
    name: &str,
    now: T,
    choices: &[(T, &str)],
) -> Option<T> {
    let mut found = None;
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.x = 3.0;
        ui.spacing_mut().button_padding.x = 5.0;
        for &(value, word) in choices {
            let text = RichText::new(word);
            let text = if value == now { text.family(bold()) } else { text };
            if named(ui, name, word, text, value == now) && value != now {
                press(out);
                found = Some(value);
            }
        }
    });
    found
}

/// One button of a choice; whether it was pressed. The chosen one is bold with a filled mark before its word.
pub(super) fn option(ui: &mut Ui, name: &str, word: &str, chosen: bool) -> bool {
    let text = if chosen {
        RichText::new(format!("\u{25cf} {word}")).family(bold())
    } else {
        RichText::new(format!("\u{25cb} {word}"))
    };
    named(ui, name, word, text, chosen)
}

fn named(ui: &mut Ui, name: &str, word: &str, text: RichText, chosen: bool) -> bool {
    let response = ui.add(Button::new(text).selected(chosen).min_size(vec2(0.0, TARGET)));
    let label = format!("{name}: {word}");
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, chosen, &label));
    response.clicked()
}

/// Shows a switch with its words and returns its new state when it is pressed.
pub fn switch(ui: &mut Ui, out: &mut Vec<AppCommand>, words: &str, on: bool) -> Option<bool> {
    let mut now = on;
    let pressed = ui.checkbox(&mut now, words).changed();
    if pressed {
        press(out);
    }
    pressed.then_some(now)
}
