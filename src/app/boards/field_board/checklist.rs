//! From "new" to "ready to print": what is done and what is open, in one line or unfolded. Pressing a thing opens what
//! does it.

use bevy_egui::egui::{Button, Painter, Pos2, Response, RichText, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::field_board::FieldCommand;
use crate::app::session::{AppCommand, ChecklistLine, View, checklist};
use crate::app::widgets::room::is_large;

/// Room for the mark before a word: so many spaces, and where its middle is from the left of the button, points.
const SPACES: &str = "     ";
const MARK: f32 = 16.0;
/// Lines side by side.
const BESIDE: u8 = 2;

/// Shows it: unfolded where there is room, or where somebody wants it so.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let list = checklist(view.session);
    let open = view.session.field_board.checklist.unwrap_or_else(|| is_large(ui));
    let next = list.lines.iter().find(|line| line.open.is_some());
    let sign = if open { "\u{23f7}" } else { "\u{23f5}" };
    let head = Button::new(RichText::new(format!("{sign} {}", list.told())).family(bold())).truncate();
    let head = ui.add(head.frame(false).min_size(vec2(ui.available_width(), TARGET)));
    head.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, open, format!("checklist: {}", list.told())));
    let hint = next.and_then(|line| line.open).unwrap_or("everything that this plan needs");
    if head.on_hover_text(hint).clicked() {
        out.push(AppCommand::Field(FieldCommand::Checklist(!open)));
    }
    if !open {
        return;
    }
    if let Some(ChecklistLine { task, open: Some(open) }) = next {
        super::soft(ui, view, &format!("{}: {open}.", crate::words::capital(task.name())));
    }
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 2.0);
        let width = (ui.available_width() - 4.0) / f32::from(BESIDE);
        let rows = list.lines.len().div_ceil(usize::from(BESIDE));
        for row in 0..rows {
            ui.horizontal(|ui| {
                for line in list.lines.iter().skip(row).step_by(rows) {
                    if show_line(ui, view, line, width).clicked() {
                        out.extend(line.task.opens(view.session));
                    }
                }
            });
        }
    });
}

/// One thing, with a tick where it is done.
fn show_line(ui: &mut Ui, view: &View<'_>, line: &ChecklistLine, width: f32) -> Response {
    let name = RichText::new(format!("{SPACES}{}", line.task.name()));
    let name = if line.open.is_some() { name.family(bold()) } else { name.color(view.palette.soft) };
    let response = ui.add(Button::new(name).right_text("").frame(false).min_size(vec2(width, TARGET)));
    let said = line.open.map_or_else(|| "done".to_owned(), |open| format!("open: {open}"));
    let label = format!("{}, {said}", line.task.name());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    let at = pos2(response.rect.left() + MARK, response.rect.center().y);
    mark(ui.painter(), at, line.open.is_none(), view);
    response.on_hover_text(said)
}

/// A ring, with a tick in it where something is done.
fn mark(painter: &Painter, at: Pos2, done: bool, view: &View<'_>) {
    let pen = Stroke::new(1.8, if done { view.palette.soft } else { view.palette.ink });
    painter.circle_stroke(at, 7.0, pen);
    if done {
        painter.line_segment([at + vec2(-3.5, 0.0), at + vec2(-1.0, 3.0)], pen);
        painter.line_segment([at + vec2(-1.0, 3.0), at + vec2(4.0, -3.5)], pen);
    }
}
