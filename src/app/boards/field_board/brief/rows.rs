//! Texts one below the other, each with a button that takes it out, and one that adds another.

use bevy_egui::egui::{Button, RichText, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::Line;
use crate::run::Brief;

/// Which texts, and how they are called.
pub(super) struct Rows {
    /// Name of one of them.
    pub(super) one: &'static str,
    /// Where they are in the scenario's file, as a JSON pointer.
    pub(super) place: &'static str,
    /// What stands in an empty box.
    pub(super) hint: &'static str,
    /// Words of the button that adds one.
    pub(super) add: &'static str,
    /// The texts.
    pub(super) get: fn(&Brief) -> &Vec<String>,
    /// The same to be changed.
    pub(super) of: fn(&mut Brief) -> &mut Vec<String>,
}

impl Rows {
    /// Shows them.
    pub(super) fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
        let texts = (self.get)(&view.session.draft.file().brief);
        for (index, text) in texts.iter().enumerate() {
            self.row(ui, view, out, index, text);
        }
        let of = self.of;
        if add(ui, self.add) {
            entry::change(view, out, format!("add a {}", self.one), |file| of(&mut file.brief).push(String::new()));
            out.push(AppCommand::Settle);
        }
    }

    fn row(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, text: &str) {
        let (name, place) = (format!("{} {}", self.one, index + 1), format!("{}/{index}", self.place));
        let line = Line { name: &name, shown: text, hint: self.hint, place: &place, topic: None };
        let of = self.of;
        let cell = ui
            .horizontal(|ui| {
                let cell = line.cell(ui, view, out, ui.available_width() - TARGET - 26.0, entry::words);
                if remove(ui, &name) {
                    entry::change(view, out, format!("take {name} out"), |file| {
                        take_out(of(&mut file.brief), index);
                    });
                    out.push(AppCommand::Settle);
                }
                cell
            })
            .inner;
        cell.below(ui, view);
        entry::set(view, out, &name, cell.found(), |file, text| {
            of(&mut file.brief).get_mut(index).into_iter().for_each(|old| old.clone_from(&text));
        });
    }
}

/// A button that adds something; whether it was pressed.
pub(super) fn add(ui: &mut Ui, words: &str) -> bool {
    ui.add(Button::new(words).min_size(vec2(0.0, TARGET))).clicked()
}

/// A button that takes something out; whether it was pressed.
pub(super) fn remove(ui: &mut Ui, name: &str) -> bool {
    let button = ui.add(Button::new(RichText::new("\u{2212}").family(bold())).min_size(vec2(TARGET, TARGET)));
    let label = format!("take {name} out");
    button.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    button.on_hover_text(&label).clicked()
}

/// Takes one out, where there is one of that number.
pub(super) fn take_out<T>(all: &mut Vec<T>, index: usize) {
    if index < all.len() {
        all.remove(index);
    }
}
