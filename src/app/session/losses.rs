//! Where a person is with the map of losses: what it shows, and which cell is chosen.

use glam::DVec2;

use super::{Answer, Session};
use crate::study::losses::{Cell, LossStudy};

/// What the cells of the map say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum LossView {
    /// The worst outcome of the plan as entered.
    #[default]
    Worst,
    /// The share of flights that crossed no limit.
    Share,
    /// That share, and of the chosen cell a sector a heading.
    Heading,
}

impl LossView {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Worst, Self::Share, Self::Heading];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Worst => "worst outcome",
            Self::Share => "share inside",
            Self::Heading => "by heading",
        }
    }

    /// What it shows.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Worst => "the worst that came of the plan as entered, on any heading",
            Self::Share => "how many of the flights crossed no limit",
            Self::Heading => "the same, and of the chosen cell one sector a heading",
        }
    }
}

/// The state of the board.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Losses {
    /// What the cells say.
    pub view: LossView,
    /// A place in the chosen cell, metres: a finer map has other cells there.
    pub chosen: Option<DVec2>,
}

/// What is asked of the board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LossCommand {
    /// Lets the cells say something else.
    View(LossView),
    /// Chooses the cell at a place, or none.
    Choose(Option<DVec2>),
}

impl Session {
    /// What is known of losses elsewhere.
    pub fn loss_answer(&self) -> Option<&Answer<LossStudy>> {
        self.answers.losses.as_ref()
    }

    /// The chosen cell.
    pub fn chosen_cell(&self) -> Option<&Cell> {
        self.loss_answer()?.found.cell_at(self.losses.chosen?)
    }

    pub(super) fn losses_obey(&mut self, command: LossCommand) {
        match command {
            LossCommand::View(view) => self.losses.view = view,
            LossCommand::Choose(chosen) => self.losses.chosen = chosen,
        }
    }
}
