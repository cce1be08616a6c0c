//! The boards, a folder each with its panels and its map. All that the rest of the window asks of one goes through
//! [`Panels`], so that a new board is a folder and a line in [`of`].

pub mod brief;
pub mod circle;
pub mod compare;
pub mod debrief;
pub mod field_board;
pub mod losses;
pub mod rehearse;

use bevy_egui::egui::Ui;

use crate::app::look::lens::Lens;
use crate::app::session::{AppCommand, Board, View};

/// What a board shows and which keys are its own.
pub trait Panels {
    /// Lays the board out and returns the lens of its map.
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens;

    /// Whether it has a map at the moment that can be moved and scaled.
    fn has_map(&self, _view: &View<'_>) -> bool {
        true
    }

    /// Whether the keys of the map work where nothing can be flown.
    fn works_unflown(&self) -> bool {
        false
    }

    /// Whether plus is a key of its own while something on it has the keyboard.
    fn keeps_plus(&self, _view: &View<'_>) -> bool {
        false
    }

    /// Whether the arrows are keys of its own.
    fn keeps_arrows(&self) -> bool {
        false
    }

    /// Whether somebody flies, and has the keys of the board to themselves.
    fn flies(&self, _view: &View<'_>) -> bool {
        false
    }

    /// Whether the plan is compared with the kept one from here.
    fn compares(&self) -> bool {
        false
    }
}

/// The panels of a board.
pub fn of(board: Board) -> &'static dyn Panels {
    match board {
        Board::Field => &field_board::FieldPanels,
        Board::Circle => &circle::CirclePanels,
        Board::Losses => &losses::LossPanels,
        Board::Rehearse => &rehearse::RehearsePanels,
        Board::Brief => &brief::BriefPanels,
        Board::Debrief => &debrief::DebriefPanels,
    }
}

/// Shows the board that is open, or the two plans side by side, and returns the lens of the map.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    if view.session.compared {
        return compare::show(ui, view, out);
    }
    losses::banner::show(ui, view, out);
    of(view.session.board).show(ui, view, out)
}
