//! A card of the tour, in a corner that leaves free what it speaks of.

use bevy_egui::egui::{
    Align2, Area, Button, Context, Frame, Id, Key, Margin, Modifiers, Order, RichText, Stroke, Ui, vec2,
};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::tour::{STEPS, TourCard, TourCommand};
use crate::app::session::{AppCommand, Board, FileCommand, FrontCommand, View};

/// Width of the words of a card, points.
const WIDTH: f32 = 400.0;
/// Width of what stands beside them where the card is low and wide, points.
const BESIDE: f32 = 260.0;
/// Room over the foot of the window, points.
const FOOT: f32 = 44.0;

/// Shows the card of the step, while the tour goes on.
pub fn show(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let front = &view.session.front;
    if !view.session.settings.notice_read || front.ask.is_some() {
        return;
    }
    let Some(tour) = &front.tour else { return };
    let Some(step) = STEPS.get(tour.step) else { return };
    keys(ctx, view, tour.step, out);
    card(ctx, view, step.board, |ui| show_card(ui, view, tour.step, step, out));
}

/// Next and back, by a key each.
fn keys(ctx: &Context, view: &View<'_>, number: usize, out: &mut Vec<AppCommand>) {
    if ctx.text_edit_focused() || view.session.front.holds() {
        return;
    }
    let pressed = |key| ctx.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::PageDown) && number + 1 < STEPS.len() {
        out.push(ask(TourCommand::Next));
    }
    if pressed(Key::PageUp) {
        out.push(ask(TourCommand::Back));
    }
}

const fn ask(command: TourCommand) -> AppCommand {
    AppCommand::Front(FrontCommand::Tour(command))
}

/// The frame of a card: narrow over the sheets of the Field board, low over the replay elsewhere, so that the map stays
/// free. It can be moved where it is in the way.
fn card(ctx: &Context, view: &View<'_>, board: Option<Board>, inside: impl FnOnce(&mut Ui)) {
    let screen = ctx.viewport_rect();
    let (pivot, at, name) = match board {
        Some(Board::Field) => (Align2::RIGHT_BOTTOM, screen.right_bottom() + vec2(-12.0, -FOOT), "card right"),
        _ => (Align2::LEFT_BOTTOM, screen.left_bottom() + vec2(12.0, -FOOT), "card left"),
    };
    let area = Area::new(Id::new(name)).order(Order::Foreground).pivot(pivot).default_pos(at).movable(true);
    area.constrain(true).show(ctx, |ui| {
        let edge = Stroke::new(2.0, view.palette.focus);
        let frame = Frame::window(ui.style()).stroke(edge).inner_margin(Margin::same(14)).corner_radius(8);
        frame.show(ui, inside);
    });
}

fn show_card(ui: &mut Ui, view: &View<'_>, number: usize, step: &TourCard, out: &mut Vec<AppCommand>) {
    ui.spacing_mut().interact_size.y = 18.0;
    if step.board == Some(Board::Field) {
        ui.set_width(WIDTH);
        words(ui, view, number, step);
        hints(ui, view, step, out);
        ui.separator();
        ways(ui, number, out);
        return;
    }
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            ui.set_width(WIDTH);
            words(ui, view, number, step);
        });
        ui.add_space(14.0);
        ui.vertical(|ui| {
            ui.set_width(BESIDE);
            hints(ui, view, step, out);
            ui.add_space(4.0);
            ways(ui, number, out);
        });
    });
}

fn words(ui: &mut Ui, view: &View<'_>, number: usize, step: &TourCard) {
    ui.label(RichText::new(format!("{} of {}", number + 1, STEPS.len())).color(view.palette.soft).size(14.0));
    ui.label(RichText::new(step.title).family(bold()).size(19.0));
    ui.add_space(2.0);
    for words in step.words {
        ui.label(*words);
        ui.add_space(2.0);
    }
}

/// Where to look, what to try, and what the card can show.
fn hints(ui: &mut Ui, view: &View<'_>, step: &TourCard, out: &mut Vec<AppCommand>) {
    for (head, words) in [("Look at", step.look), ("Try", step.try_it)] {
        if !words.is_empty() {
            ui.label(RichText::new(head).family(bold()).color(view.palette.soft));
            ui.label(words);
        }
    }
    if step.shows.is_empty() {
        return;
    }
    ui.add_space(2.0);
    ui.horizontal_wrapped(|ui| {
        for (button, show) in step.shows.iter().enumerate() {
            let hint = "shows it for you; no file is touched";
            if ui.add(Button::new(show.label).min_size(vec2(0.0, TARGET))).on_hover_text(hint).clicked() {
                out.push(ask(TourCommand::Show(button)));
            }
        }
    });
}

/// On, back, and out.
fn ways(ui: &mut Ui, number: usize, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let button = |text: &str| Button::new(RichText::new(text).family(bold())).min_size(vec2(60.0, TARGET));
        let back = ui.add_enabled(number > 0, button("Back"));
        if back.on_hover_text("key Page up").clicked() {
            out.push(ask(TourCommand::Back));
        }
        let last = number + 1 == STEPS.len();
        if !last && ui.add(button("Next")).on_hover_text("key Page down").clicked() {
            out.push(ask(TourCommand::Next));
        }
        let leave = if last { "Done" } else { "Leave the tour" };
        if ui.add(button(leave)).on_hover_text("Help, Tour brings it back").clicked() {
            out.push(AppCommand::File(FileCommand::EndTour));
        }
    });
}
