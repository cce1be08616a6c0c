//! Which question a person is at: the boards of the window and their keys.

use bevy_egui::egui::Key;

/// A board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Board {
    /// Draw and edit the field, the points, the jet sheet and the wind.
    Survey,
    /// Which circle holds, here, today.
    #[default]
    Circle,
    /// From where a loss is recovered.
    Losses,
}

impl Board {
    /// All of them, from the left.
    pub const ALL: [Self; 3] = [Self::Survey, Self::Circle, Self::Losses];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Survey => "Survey",
            Self::Circle => "Circle",
            Self::Losses => "Losses",
        }
    }

    /// What a person does there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Survey => "draw the field, enter jet and wind",
            Self::Circle => "which circle holds today",
            Self::Losses => "from where a loss is recovered",
        }
    }

    /// The key that shows it.
    pub const fn key(self) -> Key {
        match self {
            Self::Survey => Key::F2,
            Self::Circle => Key::F3,
            Self::Losses => Key::F4,
        }
    }
}
