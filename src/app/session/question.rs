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
    Ceiling,
    /// From where.
    Losses,
    /// How often the plan's own circle holds.
    Alone,
}

impl Question {
    /// All of them: the verdict, which stands over every board, then that of the board shown.
    pub const fn order(board: Board) -> [Self; 5] {
        match board {
            Board::Survey | Board::Circle => [Self::Alone, Self::Radius, Self::Envelope, Self::Ceiling, Self::Losses],
            Board::Losses => [Self::Alone, Self::Losses, Self::Radius, Self::Envelope, Self::Ceiling],
            Board::Brief => [Self::Alone, Self::Envelope, Self::Ceiling, Self::Radius, Self::Losses],
        }
    }

    /// What is being worked out, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Radius => "which radius",
            Self::Envelope => "where it circles",
            Self::Ceiling => "up to what wind",
            Self::Losses => "from where",
            Self::Alone => "how often it holds",
        }
    }
}
