//! The questions that take longer than a flight, and the order in which they are worked out.

use super::Board;

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
}

impl Question {
    /// All of them: the verdict, which stands over every board, then that of the board shown.
    pub const fn order(board: Board) -> [Self; 5] {
        match board {
            Board::Field | Board::Circle => {
                [Self::OwnCircle, Self::Radius, Self::Envelope, Self::WindLimit, Self::Losses]
            }
            Board::Losses => [Self::OwnCircle, Self::Losses, Self::Radius, Self::Envelope, Self::WindLimit],
            Board::Brief => [Self::OwnCircle, Self::Envelope, Self::WindLimit, Self::Radius, Self::Losses],
        }
    }

    /// What is being worked out, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Radius => "which radius",
            Self::Envelope => "where it circles",
            Self::WindLimit => "up to what wind",
            Self::Losses => "from where",
            Self::OwnCircle => "how often it holds",
        }
    }
}
