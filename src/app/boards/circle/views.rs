//! The views below the answer, each with a button and a key.

use bevy_egui::egui::{Button, Modifiers, RichText, ScrollArea, Ui, vec2};

use super::{doubts, lap, remedies, room, say, wind};
use crate::app::boards::circle::figures;
use crate::app::look::chart::{LETTERS, width};
use crate::app::look::theme::{GAP, TARGET, bold};
use crate::app::session::{AppCommand, CircleView, View};
use crate::app::widgets::room::follow_focus;
use crate::app::widgets::{margins, radius, standing};

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

/// Shows a button for every view, each as wide as its name asks for.
pub(super) fn buttons(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let chosen = view.session.circle;
    let wide = CircleView::ALL.map(|one| width(ui.painter(), one.name()));
    #[allow(clippy::cast_precision_loss, reason = "a handful of buttons")]
    let spare = (ui.available_width() - wide.iter().sum::<f32>()) / CircleView::ALL.len() as f32;
    ui.horizontal(|ui| {
        (ui.spacing_mut().item_spacing.x, ui.spacing_mut().button_padding.x) = (0.0, 0.0);
        for (one, wide) in CircleView::ALL.into_iter().zip(wide) {
            let button = Button::new(RichText::new(one.name()).size(LETTERS).family(bold())).selected(chosen == one);
            let hint = format!("{} (key {})", one.hint(), one.key().name());
            if ui.add(button.min_size(vec2(wide + spare, TARGET))).on_hover_text(hint).clicked() {
                out.push(AppCommand::Circle(one));
            }
        }
    });
}

/// Shows the view chosen, so high.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, high: f32, out: &mut Vec<AppCommand>) {
    let chosen = view.session.circle;
    let scroll = ScrollArea::vertical().id_salt(chosen.name()).max_height(high).min_scrolled_height(high);
    scroll.auto_shrink([false, false]).show(ui, |ui| {
        contents(ui, view, chosen, out);
        follow_focus(ui);
    });
}

fn contents(ui: &mut Ui, view: &View<'_>, chosen: CircleView, out: &mut Vec<AppCommand>) {
    match chosen {
        CircleView::Radii => {
            let answer = view.session.answers.radius.as_ref();
            if let Some(answer) = answer {
                standing::note(ui, view, answer, answer.found.partial);
            }
            ui.scope(|ui| radius::show(ui, view, out));
            if let Some(answer) = answer {
                standing::pale(ui, view, answer, |ui, study| {
                    say::show(ui, view, study, out);
                    ui.add_space(GAP);
                    remedies::show(ui, view, study, out);
                });
            }
        }
        CircleView::Margins => {
            ui.scope(|ui| margins::show(ui, view, out));
            figures::show(ui, view, out);
        }
        CircleView::Wind => wind::show(ui, view, out),
        CircleView::Room => room::show(ui, view, out),
        CircleView::Lap => lap::show(ui, view, out),
        CircleView::Doubts => doubts::show(ui, view, out),
    }
}
