//! Which question a person is at: the boards of the window and their keys.

use bevy_egui::egui::Key;

/// A board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Board {
    /// Draw and edit the field, the points, the jet sheet and the wind.
    Field,
    /// Which circle holds, here, today.
    #[default]
    Circle,
    /// From where a loss is recovered.
    Losses,
    /// Fly it, lose it, find it, take over.
    Rehearse,
    /// Tell others, and put it on paper.
    Brief,
    /// What was flown against what was said.
    Debrief,
}

impl Board {
    /// All of them, from the left.
    pub const ALL: [Self; 6] = [Self::Field, Self::Circle, Self::Losses, Self::Rehearse, Self::Brief, Self::Debrief];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Field => "Field",
            Self::Circle => "Circle",
            Self::Losses => "Losses",
            Self::Rehearse => "Rehearse",
            Self::Brief => "Brief",
            Self::Debrief => "Debrief",
        }
    }

    /// What a person does there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Field => "draw the field, enter jet and wind",
            Self::Circle => "which circle holds today",
            Self::Losses => "from where a loss is recovered",
            Self::Rehearse => "fly it, lose it, find it by eye, take over",
            Self::Brief => "tell others, and put it on paper",
            Self::Debrief => "what was flown against what was said",
        }
    }

    /// The key that shows it.
    pub const fn key(self) -> Key {
        match self {
            Self::Field => Key::F2,
            Self::Circle => Key::F3,
            Self::Losses => Key::F4,
            Self::Rehearse => Key::F5,
            Self::Brief => Key::F7,
            Self::Debrief => Key::F8,
        }
    }
}

/// What lies folded away below the map of the circle until somebody asks for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Unfolded {
    /// Which line is which.
    pub legend: bool,
    /// Height against time, with what the jet does at the moment.
    pub heights: bool,
}

/// What is looked at below the answer on the board of the circle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum CircleView {
    /// Which radii are usable, why they end where they end, and what would help where there are none.
    #[default]
    Radii,
    /// The margins of the flight on the screen.
    Margins,
    /// Up to what wind, from where.
    Wind,
    /// The room budget.
    Room,
    /// Bank, load, speed over the ground and stall margin round the lap.
    Lap,
    /// What moves the answer, and how sure it is.
    Doubts,
}

impl CircleView {
    /// All of them, from the left.
    pub const ALL: [Self; 6] = [Self::Radii, Self::Margins, Self::Wind, Self::Room, Self::Lap, Self::Doubts];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Radii => "Usable",
            Self::Margins => "Margins",
            Self::Wind => "Wind",
            Self::Room => "Room",
            Self::Lap => "Lap",
            Self::Doubts => "Doubts",
        }
    }

    /// What is seen there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Radii => {
                "which radii are usable, why they end where they end, and what would help where there are none"
            }
            Self::Margins => "how near this flight comes to what",
            Self::Wind => "up to what wind the circle holds, from every direction",
            Self::Room => "the room budget between circle and limit, and where there is more of it",
            Self::Lap => "bank, load, speed over the ground and stall margin round the lap",
            Self::Doubts => "what moves the answer most, and how sure it is",
        }
    }

    /// The key that shows it: the first letter of its name.
    pub const fn key(self) -> Key {
        match self {
            Self::Radii => Key::U,
            Self::Margins => Key::M,
            Self::Wind => Key::W,
            Self::Room => Key::R,
            Self::Lap => Key::L,
            Self::Doubts => Key::D,
        }
    }
}
