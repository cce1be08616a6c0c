//! What must be read before the first use: shown over everything until a person says so.

use bevy_egui::egui::{Button, Context, Frame, Id, Margin, Modal, RichText, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::words::cautions::FIRST_START;

/// Shows it, unless it has been read.
pub fn show(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    if view.session.settings.notice_read {
        return;
    }
    let frame = Frame::window(&ctx.global_style()).inner_margin(Margin::same(18));
    Modal::new(Id::new("notice")).frame(frame).show(ctx, |ui| {
        ui.set_max_width(560.0);
        ui.heading("Before you rely on this");
        ui.add_space(6.0);
        ui.label(FIRST_START);
        ui.add_space(10.0);
        let read = Button::new(RichText::new("I have read this").family(bold())).min_size(vec2(0.0, TARGET));
        let response = ui.add(read);
        if ui.memory(|memory| memory.focused()).is_none() {
            response.request_focus();
        }
        if response.clicked() {
            out.push(AppCommand::NoticeRead);
        }
    });
}
