//! What every command does to a session.

use super::field_board::{FieldCommand, Part};
use super::{AppCommand, Board, Change, Doing, FieldSheet, Flown, Playhead, RehearseCommand, Session};
use crate::app::look::lens::Lens;

impl Session {
    /// Obeys one command. `seen` is the view that the person had when asking.
    pub fn apply(&mut self, command: AppCommand, seen: Lens) {
        if self.refused.is_some() && !command.needs_no_draft() {
            return;
        }
        let end_s = self.flown.as_ref().map_or(0.0, Flown::end_s);
        let playhead = &mut self.playhead;
        match command {
            AppCommand::Board(board) => {
                let before = std::mem::replace(&mut self.board, board);
                if before != board {
                    self.rehearse_obeys(RehearseCommand::Pause(true));
                }
                self.compared = false;
                if before != board && [before, board].contains(&Board::Brief) {
                    self.enter_step();
                }
            }
            AppCommand::Sheet(sheet) => self.sheet = sheet,
            AppCommand::Circle(circle) => self.circle = circle,
            AppCommand::Unfold(unfolded) => self.unfolded = unfolded,
            AppCommand::Turn(knob, value) => {
                let mut file = self.draft.file().clone();
                knob.set(self.draft.saved(), &mut file, value);
                self.edit(Change { what: format!("turn the {}", knob.name()), file });
            }
            AppCommand::Restore => {
                let file = self.draft.saved().clone();
                self.edit(Change { what: "go back to the saved numbers".into(), file });
                self.draft.settle();
            }
            AppCommand::Edit(change) => self.edit(*change),
            AppCommand::Settle => self.draft.settle(),
            AppCommand::Undo if self.field_board.undoes_a_corner() => self.field_board_obeys(FieldCommand::DropCorner),
            AppCommand::Undo => {
                let scenario = self.draft.undo();
                self.edited(scenario);
            }
            AppCommand::Redo => {
                let scenario = self.draft.redo();
                self.edited(scenario);
            }
            AppCommand::Trial(trial) => {
                self.trial = trial;
                self.lost = None;
                self.fly();
                self.fly_kept();
            }
            AppCommand::Wind(wind) => {
                self.wind = wind;
                self.lost = None;
                self.fly();
                self.fly_kept();
            }
            AppCommand::Lost(lost) => {
                // A draft with faults has no flight, so none from elsewhere.
                self.lost = lost.filter(|_| self.is_current());
                self.playhead = Playhead { at_s: 0.0, playing: false, ..self.playhead };
                self.fly();
            }
            AppCommand::PlayOrPause => {
                playhead.playing = !playhead.playing && end_s > 0.0;
                // Playing from the very end starts again.
                if playhead.playing && playhead.at_s >= end_s {
                    playhead.at_s = 0.0;
                }
            }
            AppCommand::Scrub(at_s) => playhead.at_s = at_s.max(0.0).min(end_s),
            AppCommand::Nudge(by_s) => playhead.at_s = (playhead.at_s + by_s).max(0.0).min(end_s),
            AppCommand::Speed(speed) => playhead.speed = speed,
            AppCommand::Choose(index) => {
                if let Some(row) = self.flown.as_ref().and_then(|flown| flown.margins.rows.get(index)) {
                    playhead.at_s = row.at_s.max(0.0).min(end_s);
                    playhead.playing = false;
                    self.chosen = Some(index);
                }
            }
            AppCommand::Fit => self.fit(),
            AppCommand::Zoom { factor, about } => self.look = seen.zoomed(factor, about),
            AppCommand::Pan(by) => self.look = seen.panned(by),
            AppCommand::SwapTheme => self.settings.theme = self.settings.theme.other(),
            AppCommand::NoticeRead => self.settings.notice_read = true,
            AppCommand::ShowWarnings(shown) => self.warnings_shown = shown,
            AppCommand::Settings(settings) => self.settings = *settings,
            AppCommand::Help(topic) => {
                self.help = topic;
                self.front.page = None;
            }
            AppCommand::Front(command) => self.front_obeys(command),
            AppCommand::Keep(keep) => self.keep(keep),
            AppCommand::Swap => self.swap(),
            AppCommand::Compare(compared) => self.compare(compared),
            AppCommand::Refine(go_on) => self.doing = if go_on { Doing::Resting } else { Doing::Stopped },
            AppCommand::Field(command) => {
                if let FieldCommand::Choose(Some(chosen)) = &command {
                    self.sheet = if chosen.part == Part::Loss { FieldSheet::Loss } else { FieldSheet::Field };
                }
                self.field_board_obeys(command);
            }
            AppCommand::Today(command) => self.today_obeys(command),
            AppCommand::Losses(command) => self.losses_obey(command),
            AppCommand::Rehearse(command) => self.rehearse_obeys(command),
            AppCommand::Debrief(command) => self.debrief_obeys(command),
            AppCommand::Brief(command) => self.brief_obeys(command),
            AppCommand::File(_) => {}
        }
    }
}
