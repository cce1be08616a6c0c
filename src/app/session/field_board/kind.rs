//! The tools of the Field board, and what each can draw.

use bevy_egui::egui::Key;

/// What can be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// The boundary; it takes the place of the one before.
    Boundary,
    /// Land inside the boundary that is not ours.
    BoundaryHole,
    /// Ground with a rule.
    Area,
    /// Ground inside an area that its rule leaves out.
    AreaHole(usize),
    /// Something tall with an edge: a wood, a building.
    Obstacle,
    /// Something tall at a point: a tree, a mast.
    Tree,
    /// The flight line; it takes the place of the one before.
    FlightLine,
    /// The runway; it takes the place of the one before.
    Runway,
    /// Where the jet is flown: a closed line, or the edge of an area; it takes the place of the one before.
    Circuit,
    /// A spot height of the ground.
    Spot,
}

/// A tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Tool {
    /// Choose and move what is there.
    #[default]
    Choose,
    /// Draw.
    Draw(Kind),
    /// A tape measure.
    Measure,
    /// Say where the picture lies.
    PlacePicture,
}

impl Kind {
    /// All that are drawn without something else being chosen.
    pub const ALL: [Self; 9] = [
        Self::Boundary,
        Self::BoundaryHole,
        Self::Area,
        Self::Obstacle,
        Self::Tree,
        Self::FlightLine,
        Self::Runway,
        Self::Circuit,
        Self::Spot,
    ];

    /// Whether it is a ring.
    pub const fn is_ring(self) -> bool {
        self.most().is_none()
    }

    /// Fewest corners.
    pub const fn fewest(self) -> usize {
        match self.most() {
            Some(most) => most,
            None => 3,
        }
    }

    /// Most corners, where there is a limit; with the last it is complete.
    pub const fn most(self) -> Option<usize> {
        match self {
            Self::Tree | Self::Spot => Some(1),
            Self::FlightLine | Self::Runway => Some(2),
            _ => None,
        }
    }

    /// What to do next, with so many corners placed.
    pub(super) fn asks_for(self, placed: usize) -> String {
        match (self.most(), placed) {
            (Some(1), _) => "Press where it is, again and again for more. Escape ends it.".into(),
            (Some(_), 0) => "Press where it begins.".into(),
            (Some(_), _) => "Press where it ends.".into(),
            (None, 0..3) => format!("Press its corners in order; {} more at least.", 3 - placed),
            (None, _) => "Enter, a double press or a press on the first corner completes it.".into(),
        }
    }
}

impl Tool {
    /// All of them, in order.
    pub const ALL: [Self; 12] = [
        Self::Choose,
        Self::Draw(Kind::Boundary),
        Self::Draw(Kind::BoundaryHole),
        Self::Draw(Kind::Area),
        Self::Draw(Kind::Obstacle),
        Self::Draw(Kind::Tree),
        Self::Draw(Kind::FlightLine),
        Self::Draw(Kind::Runway),
        Self::Draw(Kind::Circuit),
        Self::Draw(Kind::Spot),
        Self::Measure,
        Self::PlacePicture,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Choose => "Choose",
            Self::Draw(Kind::Boundary) => "Boundary",
            Self::Draw(Kind::BoundaryHole | Kind::AreaHole(_)) => "Hole",
            Self::Draw(Kind::Area) => "Area",
            Self::Draw(Kind::Obstacle) => "Obstacle",
            Self::Draw(Kind::Tree) => "Tree",
            Self::Draw(Kind::FlightLine) => "Line",
            Self::Draw(Kind::Runway) => "Runway",
            Self::Draw(Kind::Circuit) => "Circuit",
            Self::Draw(Kind::Spot) => "Height",
            Self::Measure => "Measure",
            Self::PlacePicture => "Picture",
        }
    }

    /// What it is for.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Choose => "choose a part and move it",
            Self::Draw(Kind::Boundary) => "draw the land whose overflight is allowed",
            Self::Draw(Kind::BoundaryHole) => "draw land inside the boundary that is not ours",
            Self::Draw(Kind::AreaHole(_)) => "draw ground inside the chosen area that its rule leaves out",
            Self::Draw(Kind::Area) => "draw ground with a rule, such as a paddock",
            Self::Draw(Kind::Obstacle) => "draw a wood, a hedge or a building",
            Self::Draw(Kind::Tree) => "set a single tree or mast",
            Self::Draw(Kind::FlightLine) => "draw the flight line that the jet stays in front of",
            Self::Draw(Kind::Runway) => "draw the runway along its middle",
            Self::Draw(Kind::Circuit) => "draw the way round that is flown: trials lose the jet on it",
            Self::Draw(Kind::Spot) => "set a spot height of the ground",
            Self::Measure => "measure lengths and bearings",
            Self::PlacePicture => "say where the picture under the grid lies",
        }
    }

    /// The letter that takes it in hand.
    pub const fn key(self) -> Key {
        match self {
            Self::Choose => Key::C,
            Self::Draw(Kind::Boundary) => Key::O,
            Self::Draw(Kind::BoundaryHole | Kind::AreaHole(_)) => Key::H,
            Self::Draw(Kind::Area) => Key::P,
            Self::Draw(Kind::Obstacle) => Key::B,
            Self::Draw(Kind::Tree) => Key::E,
            Self::Draw(Kind::FlightLine) => Key::L,
            Self::Draw(Kind::Runway) => Key::R,
            Self::Draw(Kind::Circuit) => Key::U,
            Self::Draw(Kind::Spot) => Key::G,
            Self::Measure => Key::M,
            Self::PlacePicture => Key::I,
        }
    }

    /// Whether places can be typed for it.
    pub const fn takes_places(self) -> bool {
        !matches!(self, Self::Choose)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_tool_has_a_letter_of_its_own_that_nothing_else_has() {
        for (at, tool) in Tool::ALL.iter().enumerate() {
            assert!(Tool::ALL[..at].iter().all(|other| other.key() != tool.key()), "{}", tool.name());
            assert!(![Key::T, Key::F].contains(&tool.key()), "{} clashes with the window's own keys", tool.name());
        }
    }
}
