//! Where a person is with the board that tells others: the briefing and the prints.

use super::{Board, Session};
use crate::brief::Live;
use crate::report::Format;
use crate::report::prints::Print;
use crate::run::WindChoice;

/// What is looked at on the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum BriefView {
    /// Step by step, for those who are new to it.
    #[default]
    Briefing,
    /// What goes out on paper.
    Prints,
}

impl BriefView {
    /// Both, from the left.
    pub const ALL: [Self; 2] = [Self::Briefing, Self::Prints];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Briefing => "Briefing",
            Self::Prints => "Prints",
        }
    }

    /// What is done there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Briefing => "told step by step, for those who are new to it",
            Self::Prints => "what goes out on paper",
        }
    }
}

/// The state of the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Briefing {
    /// What is looked at.
    pub view: BriefView,
    /// Number of the step, from 0.
    pub step: usize,
    /// What of that step moves.
    pub live: Live,
    /// The print looked at.
    pub print: Print,
    /// Number of its page, from 0.
    pub page: usize,
    /// Whether a page is shown as wide as there is room, and not whole.
    pub wide: bool,
}

impl Default for Briefing {
    fn default() -> Self {
        Self { view: BriefView::default(), step: 0, live: Live::Picture, print: Print::default(), page: 0, wide: false }
    }
}

/// What is asked of the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BriefCommand {
    /// Shows a view.
    View(BriefView),
    /// Goes to a step, of which this moves.
    Step(usize, Live),
    /// Shows a print, from its first page.
    Print(Print),
    /// Shows a page of it.
    Page(usize),
    /// Shows pages as wide as there is room, or whole.
    Wide(bool),
    /// Makes the program's own checks, or ends the run that goes on.
    Check(bool),
}

/// A print as it is put into a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Paper {
    /// Which.
    pub print: Print,
    /// Written as what.
    pub format: Format,
    /// Number of the page, from 1, where a file has one page.
    pub page: usize,
}

impl Session {
    pub(super) fn brief_obeys(&mut self, command: BriefCommand) {
        match command {
            BriefCommand::View(view) => {
                self.brief.view = view;
                self.enter_step();
            }
            BriefCommand::Step(step, live) => {
                (self.brief.step, self.brief.live) = (step, live);
                self.enter_step();
            }
            BriefCommand::Print(print) => (self.brief.print, self.brief.page) = (print, 0),
            BriefCommand::Page(page) => self.brief.page = page,
            BriefCommand::Wide(wide) => self.brief.wide = wide,
            BriefCommand::Check(true) => self.checks.ask(),
            BriefCommand::Check(false) => self.checks.stop(),
        }
    }

    /// Whether this is what the briefing shows at the moment.
    pub fn briefs(&self, live: Live) -> bool {
        self.board == Board::Brief && self.brief.view == BriefView::Briefing && self.brief.live == live
    }

    /// What a step shows live is the plan as entered, all of it in view, and a flight begins at the loss.
    pub(super) fn enter_step(&mut self) {
        self.playhead.playing = false;
        if !self.briefs(Live::Field) && !self.briefs(Live::Flight) {
            return;
        }
        if (self.trial, self.wind, self.lost) != (0, WindChoice::Mean, None) {
            (self.trial, self.wind, self.lost) = (0, WindChoice::Mean, None);
            self.fly();
            self.fly_kept();
        }
        self.fit();
        self.playhead.at_s = 0.0;
        self.playhead.playing = self.briefs(Live::Flight) && self.is_current();
    }
}
