//! One of a few, and yes or no: pressed, with a mark that is a shape and not a colour.

use bevy_egui::egui::{Button, Response, RichText, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::edit::press;
use crate::app::look::theme::{TARGET, bold, boxed};
use crate::app::session::AppCommand;

/// Shows the choices in a row, the present one marked, and returns another one when it is pressed. Each button is named
/// "name: choice" for those who can't see the row.
pub fn choice<T: Copy + PartialEq>(
    ui: &mut Ui,
    out: &mut Vec<AppCommand>,
    name: &str,
    now: T,
    choices: &[(T, &str)],
) -> Option<T> {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        ui.spacing_mut().button_padding.x = 7.0;
        pressed(ui, out, now, choices, |ui, word, chosen| marked(ui, word, &format!("{name}: {word}"), chosen, 0.0))
    })
    .inner
}

/// The buttons of a choice, and another one when it is pressed.
fn pressed<T: Copy + PartialEq>(
    ui: &mut Ui,
    out: &mut Vec<AppCommand>,
    now: T,
    choices: &[(T, &str)],
    button: impl Fn(&mut Ui, &str, bool) -> Response,
) -> Option<T> {
    let mut found = None;
    for &(value, word) in choices {
        if button(ui, word, value == now).clicked() && value != now {
            press(out);
            found = Some(value);
        }
    }
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
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        ui.spacing_mut().button_padding.x = 4.0;
        pressed(ui, out, now, choices, |ui, word, chosen| {
            let text = RichText::new(word);
            let text = if chosen { text.family(bold()) } else { text };
            named(ui, Button::new(text), &format!("{name}: {word}"), chosen, 0.0)
        })
    })
    .inner
}

/// Room for the mark before a word: so many spaces, and where its middle is from the left of the button, points.
const SPACES: &str = "     ";
const MARK: f32 = 14.0;

/// A button that is one of several: a ring before its words is filled where it is the chosen one. `label` names it for those who can't see the others.
pub fn marked(ui: &mut Ui, words: &str, label: &str, chosen: bool, width: f32) -> Response {
    let text = RichText::new(format!("{SPACES}{words}"));
    let text = if chosen { text.family(bold()) } else { text };
    let response = named(ui, Button::new(text), label, chosen, width);
    let centre = pos2(response.rect.left() + MARK, response.rect.center().y);
    let ink = ui.visuals().widgets.inactive.fg_stroke.color;
    ui.painter().circle_stroke(centre, 5.5, Stroke::new(1.5, ink));
    if chosen {
        ui.painter().circle_filled(centre, 3.5, ink);
    }
    response
}

fn named(ui: &mut Ui, button: Button<'_>, label: &str, chosen: bool, width: f32) -> Response {
    let enabled = ui.is_enabled();
    let response = ui.add(button.selected(chosen).min_size(vec2(width, TARGET)));
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, enabled, chosen, label));
    response
}

/// Shows a switch with its words and returns its new state when it is pressed.
pub fn switch(ui: &mut Ui, out: &mut Vec<AppCommand>, words: &str, on: bool) -> Option<bool> {
    let mut now = on;
    let box_ = |ui: &mut Ui| {
        boxed(ui);
        ui.checkbox(&mut now, words)
    };
    let pressed = ui.scope(box_).inner.changed();
    if pressed {
        press(out);
    }
    pressed.then_some(now)
}
