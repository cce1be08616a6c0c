//! The keyboard of the survey: letters for tools, and what is done with corners.

use bevy_egui::egui::{Id, Key, Ui};

use super::ask;
use crate::app::session::survey::{Chosen, Kind, Part, Survey, SurveyCommand, Tool};
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
    let survey = &view.session.survey;
    let focused = ui.memory(|memory| memory.focused()).is_some();
    ui.input(|input| {
        if input.modifiers.command || input.modifiers.ctrl || input.modifiers.alt {
            return;
        }
        let pressed = |key| input.key_pressed(key);
        for tool in Tool::ALL.into_iter().filter(|tool| pressed(tool.key())) {
            ask(out, SurveyCommand::Tool(tool_taken(survey, tool)));
        }
        if pressed(Key::Escape) && !left_a_box {
            ask(out, SurveyCommand::Cancel);
        }
        if pressed(Key::Backspace) && survey.tool != Tool::Choose {
            ask(out, SurveyCommand::DropCorner);
        }
        // A button that has the keyboard is pressed with Enter.
        if pressed(Key::Enter) && !focused {
            ask(out, SurveyCommand::Finish);
        }
        if survey.tool != Tool::Choose {
            return;
        }
        if pressed(Key::Delete) || pressed(Key::Backspace) {
            ask(out, SurveyCommand::DeleteCorner);
        }
        if pressed(Key::Insert) || focused && (pressed(Key::Plus) || pressed(Key::Equals)) {
            out.extend(corner_after(view).map(AppCommand::Survey));
            ask(out, SurveyCommand::LetGo);
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

/// The tool of a letter or a button: a hole is cut into the patch that is chosen, and otherwise into the outline.
pub(crate) fn tool_taken(survey: &Survey, tool: Tool) -> Tool {
    match (tool, survey.chosen) {
        (Tool::Draw(Kind::OutlineHole), Some(Chosen { part: Part::Patch(index), .. })) => {
            Tool::Draw(Kind::PatchHole(index))
        }
        _ => tool,
    }
}

/// A corner in the middle of the edge after the chosen one.
pub(crate) fn corner_after(view: &View<'_>) -> Option<SurveyCommand> {
    let Chosen { part, corner } = view.session.survey.chosen?;
    let after = corner?;
    let file = view.session.draft.file();
    let points = part.points(file);
    let (from, to) = (*points.get(after)?, points[(after + 1) % points.len()]);
    part.is_ring(file).then_some(SurveyCommand::InsertCorner { part, after, at: (from + to) / 2.0 })
}
