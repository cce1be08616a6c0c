//! The first ten minutes: a walk over the boards on the demo field, a card at a time.

mod steps;

use std::path::PathBuf;

pub use steps::{STEPS, TourCard};

use super::Session;
use crate::app::look::lens::Lens;
use crate::run::ScenarioFile;

/// Where a person is on the tour.
#[derive(Debug, Clone, Default)]
pub struct Tour {
    /// The step, from 0.
    pub step: usize,
    /// The draft as the tour has made it: nobody's work.
    pub made: Option<ScenarioFile>,
    /// The file that was open before.
    pub before: Option<PathBuf>,
}

/// What is asked of the tour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TourCommand {
    /// The next card.
    Next,
    /// The card before.
    Back,
    /// What the card offers to show: the number of its button.
    Show(usize),
    /// One of the doors at the first start has been taken; the tour stays in the help.
    NotNow,
}

impl Session {
    pub(super) fn tour_obeys(&mut self, command: TourCommand) {
        if command == TourCommand::NotNow {
            self.settings.tour_seen = true;
            return;
        }
        let Some(tour) = &mut self.front.tour else { return };
        match command {
            TourCommand::Next => tour.step = (tour.step + 1).min(STEPS.len() - 1),
            TourCommand::Back => tour.step = tour.step.saturating_sub(1),
            TourCommand::Show(button) => return self.show_on_tour(button),
            TourCommand::NotNow => {}
        }
        let step = &STEPS[tour.step];
        if let Some(board) = step.board {
            self.board = board;
            self.compared = false;
        }
        self.circle = step.view.unwrap_or(self.circle);
    }

    fn show_on_tour(&mut self, button: usize) {
        let Some(tour) = &self.front.tour else { return };
        let Some(shows) = STEPS.get(tour.step).and_then(|step| step.shows.get(button)) else { return };
        let nobodys = !self.is_unsaved();
        let lens = Lens::default();
        for command in (shows.does)(self) {
            self.apply(command, lens);
        }
        self.draft.settle();
        let made = Some(self.draft.file().clone());
        if let Some(tour) = self.front.tour.as_mut().filter(|_| nobodys) {
            tour.made = made;
        }
    }
}
