//! The questions that take longer than a flight, and the order in which they are worked out.

use super::{Board, Grade};

/// A question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Which radius.
    Radius,
    /// Where the circle is really flown.
    Envelope,
    /// Up to what wind.
    WindLimit,
    /// From where.
    Losses,
    /// How often the plan's own circle holds.
    OwnCircle,
    /// What would make it hold.
    Remedy,
}

impl Question {
    /// All of them: the verdict, which stands over every board, then that of the board shown.
    pub const fn order(board: Board) -> [Self; 6] {
        match board {
            Board::Field | Board::Circle => {
                [Self::OwnCircle, Self::Radius, Self::Remedy, Self::Envelope, Self::WindLimit, Self::Losses]
            }
            Board::Losses => {
                [Self::OwnCircle, Self::Losses, Self::Radius, Self::Remedy, Self::Envelope, Self::WindLimit]
            }
            Board::Rehearse | Board::Brief | Board::Debrief => {
                [Self::OwnCircle, Self::Remedy, Self::Envelope, Self::WindLimit, Self::Radius, Self::Losses]
            }
        }
    }

    /// Whether there is an answer of a grade: a search for changes has no coarse one.
    pub fn asked(self, grade: Grade) -> bool {
        self != Self::Remedy || grade == Grade::Refined
    }

    /// What is being worked out, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Radius => "which radius",
            Self::Envelope => "where it circles",
            Self::WindLimit => "up to what wind",
            Self::Losses => "from where",
            Self::OwnCircle => "how often it holds",
            Self::Remedy => "what would make it hold",
        }
    }
}
