//! The keyboard: what each key asks for while no box is being typed in.

use bevy_egui::egui::{Key, Modifiers, Ui};
use glam::DVec2;

use super::heading::ZOOM_STEP;
use super::help;
use crate::app::boards;
use crate::app::look::lens::MapView;
use crate::app::look::theme;
use crate::app::session::{AppCommand, Board, FileCommand, Settings, View};

/// Seconds that an arrow key moves the play head by; ten times as much with the control key.
const NUDGE_S: f64 = 0.5;
/// Share of the view that an arrow key with the shift key moves over the ground.
const PAN_POINTS: f64 = 60.0;

/// Turns pressed keys into commands.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    if !view.session.settings.notice_read || view.session.is_at_the_doors() {
        return;
    }
    help::keys(ui.ctx(), view, out);
    if view.session.front.ask.is_some() {
        return;
    }
    scale(ui, view, out);
    if ui.ctx().text_edit_focused() || view.session.front.holds() {
        return;
    }
    commands(ui, out);
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::F6)) {
        out.push(AppCommand::Compare(!view.session.compared));
    }
    let board = boards::of(view.session.board);
    if board.flies(view) {
        return;
    }
    // A button or slider that has the keyboard keeps space and arrows for itself.
    let focused = ui.memory(|memory| memory.focused()).is_some();
    ui.input(|input| {
        let pressed = |key| input.key_pressed(key);
        if pressed(Key::T) {
            out.push(AppCommand::SwapTheme);
        }
        if view.session.flown.is_none() && !board.works_unflown() {
            return;
        }
        let handle = focused && board.keeps_plus(view);
        if pressed(Key::F) {
            out.push(AppCommand::Fit);
        }
        if !handle && (pressed(Key::Plus) || pressed(Key::Equals)) {
            out.push(AppCommand::Zoom { factor: 1.0 / ZOOM_STEP, about: None });
        }
        if pressed(Key::Minus) {
            out.push(AppCommand::Zoom { factor: ZOOM_STEP, about: None });
        }
        if focused {
            return;
        }
        if pressed(Key::Space) {
            out.push(AppCommand::PlayOrPause);
        }
        let arrows = [
            (Key::ArrowLeft, DVec2::NEG_X),
            (Key::ArrowRight, DVec2::X),
            (Key::ArrowUp, DVec2::Y),
            (Key::ArrowDown, DVec2::NEG_Y),
        ];
        for (_, way) in arrows.into_iter().filter(|(key, _)| pressed(*key)) {
            out.extend(arrow(view, input.modifiers, way));
        }
        if pressed(Key::Home) {
            out.push(AppCommand::Scrub(0.0));
        }
        if pressed(Key::End) {
            out.push(AppCommand::Scrub(f64::INFINITY));
        }
    });
}

/// Keys that work wherever the keyboard is, short of a box being typed in.
fn commands(ui: &Ui, out: &mut Vec<AppCommand>) {
    let press = |key: Key, modifiers: Modifiers| ui.input_mut(|input| input.consume_key(modifiers, key));
    for board in Board::ALL {
        if press(board.key(), Modifiers::NONE) {
            out.push(AppCommand::Board(board));
        }
    }
    let with_shift = Modifiers::COMMAND | Modifiers::SHIFT;
    for (key, modifiers, command) in [
        (Key::Z, with_shift, AppCommand::Redo),
        (Key::Z, Modifiers::COMMAND, AppCommand::Undo),
        (Key::Y, Modifiers::COMMAND, AppCommand::Redo),
        (Key::S, with_shift, AppCommand::File(FileCommand::SaveAs)),
        (Key::S, Modifiers::COMMAND, AppCommand::File(FileCommand::Save)),
        (Key::O, Modifiers::COMMAND, AppCommand::File(FileCommand::Open)),
        (Key::N, Modifiers::COMMAND, AppCommand::File(FileCommand::New)),
        (Key::I, Modifiers::COMMAND, AppCommand::File(FileCommand::Import)),
        (Key::Q, Modifiers::COMMAND, AppCommand::File(FileCommand::Quit)),
    ] {
        if press(key, modifiers) {
            out.push(command);
        }
    }
}

/// Everything larger, smaller, or as usual.
fn scale(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let press = |key: Key| ui.input_mut(|input| input.consume_key(Modifiers::COMMAND, key));
    let now = &view.session.settings;
    let scale = if press(Key::Plus) || press(Key::Equals) {
        now.scaled(true).min(theme::most_scale(ui.ctx()).max(now.scale))
    } else if press(Key::Minus) {
        now.scaled(false)
    } else if press(Key::Num0) {
        1.0
    } else {
        return;
    };
    out.push(AppCommand::Settings(Box::new(Settings { scale, ..now.clone() })));
}

/// An arrow alone moves the play head, with the shift key the view.
fn arrow(view: &View<'_>, held: Modifiers, way: DVec2) -> Option<AppCommand> {
    if held.shift {
        let metres_a_point = match view.session.look {
            MapView::At { metres_a_point, .. } => metres_a_point,
            MapView::Whole(bounds) => (bounds.high - bounds.low).max_element() / 500.0,
        };
        return Some(AppCommand::Pan(way * PAN_POINTS * metres_a_point));
    }
    if boards::of(view.session.board).keeps_arrows() {
        return None;
    }
    let step = if held.ctrl { NUDGE_S * 10.0 } else { NUDGE_S };
    (way.x != 0.0).then_some(AppCommand::Nudge(way.x * step))
}
