//! A small box for a place typed in. A figure typed anywhere while a tool is in hand goes there.

use bevy_egui::egui::{Event, Id, Key, RichText, TextEdit, Ui};

use crate::app::session::field_board::{FieldCommand, Tool, typed};
use crate::app::session::{AppCommand, View};

/// Name of the box for places.
fn box_id() -> Id {
    Id::new("place to be typed")
}

/// Shows the box and takes what is typed.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let field_board = &view.session.field_board;
    let id = box_id();
    let mut text = ui.data(|data| data.get_temp::<String>(id)).unwrap_or_default();
    let begun = begun(ui, view);
    let label = ui.label("place: east north, or 50 m at 045");
    ui.spacing_mut().text_edit_width = ui.available_width();
    if let Some(figures) = &begun {
        text.push_str(figures);
    }
    let response = ui.add(TextEdit::singleline(&mut text).id(id).hint_text("120 \u{2212}35").margin(8.0));
    let response = response.labelled_by(label.id);
    if begun.is_some() {
        response.request_focus();
        put_cursor_at_end(ui, &text);
    }
    let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if entered && text.trim().is_empty() {
        out.push(AppCommand::Field(FieldCommand::Finish));
    } else if entered {
        let from = field_board.placed().last().copied();
        if let Ok(place) = typed::place(&text, from, view.units()) {
            out.push(AppCommand::Field(FieldCommand::AddCorner(place)));
            text.clear();
        }
        // The next place is typed straight after this one.
        response.request_focus();
    }
    if !text.trim().is_empty() {
        let from = field_board.placed().last().copied();
        let said = match typed::place(&text, from, view.units()) {
            Ok(place) => crate::app::session::field_board::figures::place(view.units(), place),
            Err(why) => why,
        };
        ui.label(RichText::new(said).color(view.palette.soft));
    }
    ui.data_mut(|data| data.insert_temp(id, text));
}

/// What has been typed while no box had the keyboard, where it begins a number.
fn begun(ui: &Ui, view: &View<'_>) -> Option<String> {
    let waiting = view.session.field_board.tool != Tool::Choose && view.session.settings.notice_read;
    if !waiting || ui.ctx().text_edit_focused() {
        return None;
    }
    ui.input(|input| {
        let typed = input.events.iter().filter_map(|event| match event {
            Event::Text(text) => Some(text.as_str()),
            _ => None,
        });
        let typed: String = typed.collect();
        typed.starts_with(|first: char| first.is_ascii_digit()).then_some(typed)
    })
}

fn put_cursor_at_end(ui: &Ui, text: &str) {
    use bevy_egui::egui::text::{CCursor, CCursorRange};
    use bevy_egui::egui::text_edit::TextEditState;
    let mut state = TextEditState::load(ui.ctx(), box_id()).unwrap_or_default();
    state.cursor.set_char_range(Some(CCursorRange::one(CCursor::new(text.chars().count()))));
    state.store(ui.ctx(), box_id());
}
