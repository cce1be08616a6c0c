//! The views below the curve, each with a button and a key.

use bevy_egui::egui::{Button, Modifiers, RichText, ScrollArea, Ui, vec2};

use super::{doubts, lap, remedies, room, wind};
use crate::app::boards::circle::figures;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, CircleView, View};
use crate::app::widgets::margins;

/// The keys of the views, while no box is being typed in.
pub(super) fn keys(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    if ui.ctx().text_edit_focused() || !view.session.settings.notice_read || view.session.front.holds() {
        return;
    }
    for wanted in CircleView::ALL {
        if ui.input_mut(|input| input.consume_key(Modifiers::NONE, wanted.key())) {
            out.push(AppCommand::Circle(wanted));
        }
    }
}

/// Shows a button for every view.
pub(super) fn buttons(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let chosen = view.session.circle;
    ui.add_space(2.0);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        #[allow(clippy::cast_precision_loss, reason = "a handful of buttons")]
        let count = CircleView::ALL.len() as f32;
        let wide = (ui.available_width() - 4.0 * (count - 1.0)) / count;
        for one in CircleView::ALL {
            let button = Button::new(RichText::new(one.name()).family(bold())).selected(chosen == one);
            let hint = format!("{} (key {})", one.hint(), one.key().name());
            if ui.add(button.min_size(vec2(wide, TARGET))).on_hover_text(hint).clicked() {
                out.push(AppCommand::Circle(one));
            }
        }
    });
    ui.add_space(2.0);
}

/// Shows the view chosen, so high.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, high: f32, out: &mut Vec<AppCommand>) {
    let chosen = view.session.circle;
    let scroll = ScrollArea::vertical().id_salt(chosen.name()).max_height(high).min_scrolled_height(high);
    scroll.auto_shrink([false, false]).show(ui, |ui| match chosen {
        CircleView::Radii => remedies::show(ui, view, out),
        CircleView::Margins => {
            ui.scope(|ui| margins::show(ui, view, out));
            figures::show(ui, view, out);
        }
        CircleView::Wind => wind::show(ui, view, out),
        CircleView::Room => room::show(ui, view, out),
        CircleView::Lap => lap::show(ui, view, out),
        CircleView::Doubts => doubts::show(ui, view, out),
    });
}
