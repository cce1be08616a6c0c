//! Where a person is with drawing the field: the tool in hand, what is chosen, the corners placed so far, and the picture
//! under it all.
//!
//! What is done to the field is a pure function of it ([`edit`]); every one of them is one step of undo.

pub mod circuit;
pub mod edit;
pub mod extent;
pub mod figures;
mod here;
mod kind;
mod lenient;
mod obey;
mod part;
mod picture;
mod snap;
pub mod typed;

use glam::DVec2;

pub use here::{Here, as_people_count, here};
pub use kind::{Kind, Tool};
pub use lenient::as_drawn;
pub(super) use obey::still_there;
pub use part::{Chosen, Part};
pub use picture::{GroundPicture, PictureCommand, Pin, open_picture};
pub use snap::{Clung, GRIDS, Snap, SnapAround, on_edge};

use crate::app::look::lens::LensBounds;
use crate::run::ScenarioFile;

/// Ground round a field that has hardly begun, metres.
const BEGINNING: f64 = 200.0;
/// Room for the numbers of the grid round a view of everything, as a share of it.
const ROOM: f64 = 1.08;

/// The state of the Field board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FieldBoard {
    /// The tool in hand.
    pub tool: Tool,
    /// What is chosen.
    pub chosen: Option<Chosen>,
    /// To what places cling.
    pub snap: Snap,
    /// Corners placed so far of what is being drawn, metres.
    pub drawing: Vec<DVec2>,
    /// Points of the tape measure, metres.
    pub measured: Vec<DVec2>,
    /// The picture under the grid.
    pub picture: Option<GroundPicture>,
    /// Known points of the picture, two at most.
    pub pins: Vec<Pin>,
    /// Whether the checklist lies open; it goes by the room there is until somebody has said.
    pub checklist: Option<bool>,
    /// The corner that was put in and is still being moved: both are one step.
    fresh: Option<(Part, usize)>,
}

/// What is asked of the Field board.
#[derive(Debug, Clone, PartialEq)]
pub enum FieldCommand {
    /// Takes a tool in hand.
    Tool(Tool),
    /// Chooses a part or a corner, or nothing.
    Choose(Option<Chosen>),
    /// Changes to what places cling.
    Snap(Snap),
    /// Places a corner with the tool in hand, metres.
    AddCorner(DVec2),
    /// Takes the corner placed last back.
    DropCorner,
    /// What is being drawn is complete.
    Finish,
    /// Gives up what is being drawn, then the tool, then the choice.
    Cancel,
    /// Moves a corner, an end or a point.
    MoveCorner {
        /// Of which part.
        part: Part,
        /// Which of its corners, counted from 0.
        corner: usize,
        /// Where to, metres.
        to: DVec2,
    },
    /// Moves a whole part so that its first corner comes to a place.
    MovePart {
        /// Which.
        part: Part,
        /// Where to, metres.
        to: DVec2,
    },
    /// Puts a new corner into a ring.
    InsertCorner {
        /// Which ring.
        part: Part,
        /// After which of its corners, counted from 0.
        after: usize,
        /// Where, metres.
        at: DVec2,
    },
    /// What was moved has been let go of.
    LetGo,
    /// Deletes the corner that is chosen; without one the part.
    DeleteCorner,
    /// Deletes the part that is chosen.
    DeletePart,
    /// Something with the picture under the grid.
    Picture(PictureCommand),
    /// Unfolds the checklist, or folds it.
    Checklist(bool),
}

impl FieldBoard {
    /// Corners placed with the tool in hand, metres.
    pub fn placed(&self) -> &[DVec2] {
        match self.tool {
            Tool::Draw(_) => &self.drawing,
            Tool::Measure => &self.measured,
            Tool::Choose | Tool::PlacePicture => &[],
        }
    }

    /// Whether an undo is about the corner placed last, not about the last edit.
    pub(super) const fn undoes_a_corner(&self) -> bool {
        matches!(self.tool, Tool::Draw(_)) && !self.drawing.is_empty()
    }

    /// What the tool in hand waits for, in words.
    pub fn asks_for(&self) -> String {
        match self.tool {
            Tool::Choose => {
                "Press a part to choose it. Drag its corners, or the middle of an edge for a new one.".into()
            }
            Tool::Measure => "Press two places or more. Backspace takes one back.".into(),
            Tool::Draw(kind) => kind.asks_for(self.drawing.len()),
            Tool::PlacePicture => match (&self.picture, self.pins.as_slice()) {
                (None, _) => "Import a picture first.".into(),
                (_, []) => "Press a point of the picture that you know, such as the peg.".into(),
                (_, [one]) if one.ground.is_none() => "Now type where it is, or press its place on the grid.".into(),
                (_, [_]) => "Press a second known point of the picture, far from the first.".into(),
                (_, [.., two]) if two.ground.is_none() => "Now type where that is, or press its place.".into(),
                _ => "Placed. Press two other points to place it again.".into(),
            },
        }
    }
}

/// What a view of all of a field shows, flown or not: its parts and the picture.
pub fn bounds(file: &ScenarioFile, field_board: &FieldBoard) -> LensBounds {
    let ground = Part::all(file).into_iter().flat_map(|part| part.points(file));
    let mut bounds = LensBounds::of(ground.chain([DVec2::ZERO]).filter(|at| at.is_finite()));
    bounds.extend(field_board.picture.iter().filter(|picture| picture.placed).flat_map(GroundPicture::corners));
    if file.field.as_ref().is_none_or(|field| field.boundary.ring_m.len() < 3) {
        bounds.extend([DVec2::splat(-BEGINNING), DVec2::splat(BEGINNING)]);
    }
    bounds.grown(ROOM)
}
