//! Where a person is with drawing the field: the tool in hand and what is chosen.

use super::Session;

/// The state of the survey.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Survey {}

/// What is asked of the survey.
#[derive(Debug, Clone, PartialEq)]
pub enum SurveyCommand {}

impl Session {
    pub(super) fn survey_obeys(&mut self, command: SurveyCommand) {
        match command {}
    }
}
