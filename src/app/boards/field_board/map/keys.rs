//! The keyboard of the Field board: letters for tools, and what is done with corners.

use bevy_egui::egui::{Id, Key, Ui};

use super::ask;
use crate::app::session::field_board::{Chosen, FieldBoard, FieldCommand, Kind, Part, Tool};
use crate::app::session::{AppCommand, View};

/// Turns pressed keys into commands while no box is being typed in.
pub(super) fn show(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let session = view.session;
    if !session.settings.notice_read || session.front.holds() || session.help.is_some() {
        return;
    }
    let left_a_box = just_left_a_box(ui);
    if ui.ctx().text_edit_focused() {
        return;
    }
    let field_board = &view.session.field_board;
    let focused = ui.memory(|memory| memory.focused()).is_some();
    ui.input(|input| {
        if input.modifiers.command || input.modifiers.ctrl || input.modifiers.alt {
            return;
        }
        let pressed = |key| input.key_pressed(key);
        for tool in Tool::ALL.into_iter().filter(|tool| pressed(tool.key())) {
            ask(out, FieldCommand::Tool(tool_taken(field_board, tool)));
        }
        if pressed(Key::Escape) && !left_a_box {
            ask(out, FieldCommand::Cancel);
        }
        if pressed(Key::Backspace) && field_board.tool != Tool::Choose {
            ask(out, FieldCommand::DropCorner);
        }
        // A button that has the keyboard is pressed with Enter.
        if pressed(Key::Enter) && !focused {
            ask(out, FieldCommand::Finish);
        }
        if field_board.tool != Tool::Choose {
            return;
        }
        if pressed(Key::Delete) || pressed(Key::Backspace) {
            ask(out, FieldCommand::DeleteCorner);
        }
        if pressed(Key::Insert) || focused && (pressed(Key::Plus) || pressed(Key::Equals)) {
            out.extend(corner_after(view).map(AppCommand::Field));
            ask(out, FieldCommand::LetGo);
        }
    });
}

/// Whether a box had the keyboard until now: the key that left it asks for nothing else.
fn just_left_a_box(ui: &Ui) -> bool {
    let (id, now) = (Id::new("frame in which a box had the keyboard"), ui.ctx().cumulative_frame_nr());
    let last = ui.data(|data| data.get_temp::<u64>(id));
    if ui.ctx().text_edit_focused() {
        ui.data_mut(|data| data.insert_temp(id, now));
    }
    last.is_some_and(|last| last + 1 >= now)
}

/// The tool of a letter or a button: a hole is cut into the area that is chosen, and otherwise into the boundary.
pub(crate) fn tool_taken(field_board: &FieldBoard, tool: Tool) -> Tool {
    match (tool, field_board.chosen) {
        (Tool::Draw(Kind::BoundaryHole), Some(Chosen { part: Part::Area(index), .. })) => {
            Tool::Draw(Kind::AreaHole(index))
        }
        _ => tool,
    }
}

/// A corner in the middle of the edge after the chosen one.
pub(crate) fn corner_after(view: &View<'_>) -> Option<FieldCommand> {
    let Chosen { part, corner } = view.session.field_board.chosen?;
    let after = corner?;
    let file = view.session.draft.file();
    let points = part.points(file);
    let (from, to) = (*points.get(after)?, points[(after + 1) % points.len()]);
    part.is_ring(file).then_some(FieldCommand::InsertCorner { part, after, at: (from + to) / 2.0 })
}
