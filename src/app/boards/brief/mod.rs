//! Telling others: the briefing step by step, large enough to be read across a table, and the prints with the way to
//! paper.

mod banner;
mod briefing;
mod checks;
mod live;
mod map;
mod page;
mod prints;
mod save;
mod steps;

use bevy_egui::egui::{Align, Button, CentralPanel, Layout, Panel, RichText, Ui, Vec2, vec2};

use crate::app::boards::Panels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Board, BriefCommand, BriefView, Doing, View};
use crate::app::widgets::progress;
use crate::app::widgets::room::{ROOMY, frame};
use crate::brief::Live;

/// Height of the bar at the head of the board, points.
const HEAD: f32 = 52.0;
/// Size of the title in it, points.
const TITLE: f32 = 26.0;

/// The board.
#[derive(Debug)]
pub struct BriefPanels;

impl Panels for BriefPanels {
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
        if !view.session.is_current() {
            head(ui, view, out, "Brief", |_, _| ());
            return cannot(ui, view, out);
        }
        match view.session.brief.view {
            BriefView::Briefing => briefing::show(ui, view, out),
            BriefView::Prints => prints::show(ui, view, out),
        }
    }

    fn has_map(&self, view: &View<'_>) -> bool {
        view.session.briefs(Live::Field) || view.session.briefs(Live::Flight)
    }

    /// They turn steps and pages.
    fn keeps_arrows(&self) -> bool {
        true
    }
}

/// The bar at the head: which view, the title, and from the right what else there is to press.
fn head(
    ui: &mut Ui,
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    title: &str,
    right: impl FnOnce(&mut Ui, &mut Vec<AppCommand>),
) {
    Panel::top("brief head").frame(frame(view, ROOMY)).resizable(false).exact_size(HEAD).show(ui, |ui| {
        ui.horizontal_centered(|ui| {
            for one in BriefView::ALL {
                let word = RichText::new(one.name()).family(bold());
                let chosen = view.session.brief.view == one;
                let button = Button::new(word).selected(chosen).min_size(vec2(86.0, TARGET));
                if ui.add(button).on_hover_text(one.hint()).clicked() && !chosen {
                    out.push(AppCommand::Brief(BriefCommand::View(one)));
                }
            }
            ui.add_space(10.0);
            ui.label(RichText::new(title).family(bold()).size(TITLE));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| right(ui, out));
        });
    });
    banner::show(ui, view, out);
}

/// A draft that can't be flown has nothing to tell.
fn cannot(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let room = CentralPanel::no_frame().frame(frame(view, ROOMY)).show(ui, |ui| {
        ui.add_space(20.0);
        ui.label(RichText::new("As it stands this plan can't be flown.").family(bold()).size(20.0));
        let words = match view.session.draft.errors().count() {
            0 => "There is nothing to brief or to print until the field is drawn.".to_owned(),
            1 => "There is nothing to brief or to print until the error in it is fixed.".to_owned(),
            errors => format!("There is nothing to brief or to print until the {errors} errors in it are fixed."),
        };
        ui.label(RichText::new(words).size(18.0));
        ui.add_space(10.0);
        let button = Button::new(RichText::new("Go to the Field board").family(bold()).size(18.0));
        if ui.add(button.min_size(vec2(180.0, 40.0))).clicked() {
            out.push(AppCommand::Board(Board::Field));
        }
    });
    Lens::new(view.session.look, room.response.rect)
}

/// A room of the screen in dots, no larger than a picture may be.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a few thousand at most"
)]
fn dots(ui: &Ui, room: Vec2) -> [u32; 2] {
    let most = ui.input(|input| input.max_texture_side) as f32;
    let scale = ui.ctx().pixels_per_point();
    [room.x, room.y].map(|points| (points * scale).floor().clamp(1.0, most) as u32)
}

/// How far working it out is, unless it has not begun.
fn going_on(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    if view.session.doing != Doing::Resting {
        progress::show(ui, view, out);
    }
}

/// Whether keys may turn pages and steps: nothing stands in front, and nobody types.
fn listens(ui: &Ui, view: &View<'_>) -> bool {
    let front = &view.session.front;
    view.session.settings.notice_read && !front.holds() && front.tour.is_none() && !ui.ctx().text_edit_focused()
}

/// How far the keys turn: Page down and Page up, as the remote of a presenter sends them, and the arrows where nothing
/// has the keyboard.
fn turned(ui: &Ui, view: &View<'_>) -> Option<bool> {
    use bevy_egui::egui::{Key, Modifiers};
    if !listens(ui, view) {
        return None;
    }
    let free = ui.memory(|memory| memory.focused()).is_none();
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    [(Key::PageDown, Key::ArrowRight, true), (Key::PageUp, Key::ArrowLeft, false)]
        .into_iter()
        .find_map(|(page, arrow, forth)| (pressed(page) || (free && pressed(arrow))).then_some(forth))
}
