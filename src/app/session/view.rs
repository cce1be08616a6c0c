//! What panels and map look at: a session, and the colours of its theme.

use super::{Answer, Session};
use crate::app::look::theme::{PALE, Palette};
use crate::recovery::Turn;
use crate::words::{Measure, Units};

/// What the panels look at.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// The session.
    pub session: &'a Session,
    /// Colours of its theme.
    pub palette: &'static Palette,
}

impl<'a> View<'a> {
    /// A view of a session.
    pub const fn new(session: &'a Session) -> Self {
        Self { session, palette: session.settings.theme.palette() }
    }

    /// Whether an answer is of an earlier plan than the one on the screen.
    pub fn is_stale<T>(&self, answer: &Answer<T>) -> bool {
        answer.edition != self.session.edition || !self.session.is_current()
    }

    /// How strong an answer is drawn: pale where it is of an earlier plan.
    pub fn strength<T>(&self, answer: &Answer<T>) -> f32 {
        if self.is_stale(answer) { PALE } else { 1.0 }
    }

    /// A length along the ground in the person's unit.
    pub fn metres(&self, metres: f64) -> String {
        self.units().short(Measure::Distance, metres)
    }

    /// A circle in words.
    pub fn circle(&self, radius_m: f64, turn: Turn) -> String {
        format!("{} {}", self.metres(radius_m), crate::words::turn(turn))
    }

    /// Units that the person has chosen.
    pub const fn units(&self) -> &'a Units {
        &self.session.settings.units
    }
}
