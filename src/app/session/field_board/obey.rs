//! How a session obeys the Field board.

use glam::DVec2;

use super::edit::{self, written};
use super::{Chosen, FieldCommand, Kind, Part, PictureCommand, Pin, Tool};
use crate::app::session::{Change, Session};
use crate::geometry::TangentPlane;
use crate::run::ScenarioFile;

impl Session {
    pub(in crate::app) fn field_board_obeys(&mut self, command: FieldCommand) {
        let file = self.draft.file();
        match command {
            FieldCommand::Tool(tool) => self.take(tool),
            FieldCommand::Choose(chosen) => self.field_board.chosen = chosen,
            FieldCommand::Snap(snap) => self.field_board.snap = snap,
            FieldCommand::AddCorner(at) => self.add_corner(at),
            FieldCommand::DropCorner => self.drop_corner(),
            FieldCommand::Finish => self.finish(),
            FieldCommand::Cancel => self.cancel(),
            FieldCommand::MoveCorner { part, corner, to } => {
                let mut change = edit::move_corner(file, part, corner, to);
                if self.field_board.fresh == Some((part, corner))
                    && let Some(change) = &mut change
                {
                    change.what = edit::added(file, part, corner);
                }
                self.field_edit(change);
            }
            FieldCommand::MovePart { part, to } => self.field_edit(edit::move_part(file, part, to)),
            FieldCommand::InsertCorner { part, after, at } => {
                let change = edit::insert_corner(file, part, after, at);
                if change.is_some() {
                    let corner = Some(after + 1);
                    self.field_board.chosen = Some(Chosen { part, corner });
                    self.field_board.fresh = Some((part, after + 1));
                }
                self.field_edit(change);
            }
            FieldCommand::LetGo => {
                self.field_board.fresh = None;
                self.draft.settle();
            }
            FieldCommand::DeleteCorner => match self.field_board.chosen {
                Some(Chosen { part, corner: Some(corner) }) => self.delete(edit::delete_corner(file, part, corner)),
                Some(Chosen { part, corner: None }) => self.delete(edit::delete_part(file, part)),
                None => {}
            },
            FieldCommand::DeletePart => {
                if let Some(chosen) = self.field_board.chosen {
                    self.delete(edit::delete_part(file, chosen.part));
                }
            }
            FieldCommand::Picture(command) => self.picture_obeys(command),
            FieldCommand::Checklist(open) => self.field_board.checklist = Some(open),
        }
    }

    fn field_edit(&mut self, change: Option<Change>) {
        if let Some(change) = change {
            self.edit(change);
        }
    }

    /// Carries out a deletion as a step of its own, and chooses what is left of it.
    fn delete(&mut self, change: Option<Change>) {
        let Some(change) = change else { return };
        let chosen = self.field_board.chosen;
        let count = |session: &Self| chosen.map_or(0, |chosen| chosen.part.points(session.draft.file()).len());
        let before = count(self);
        self.draft.settle();
        self.edit(change);
        self.draft.settle();
        let left = count(self);
        // The same number may by now be another part: only a ring that lost one corner is the one it was.
        self.field_board.chosen =
            chosen.filter(|_| left > 0 && left + 1 == before).and_then(|Chosen { part, corner }| {
                let corner = corner?.min(left - 1);
                Some(Chosen { part, corner: Some(corner) })
            });
    }

    fn take(&mut self, tool: Tool) {
        let field_board = &mut self.field_board;
        field_board.drawing.clear();
        field_board.measured.clear();
        field_board.tool = tool;
        if tool == Tool::PlacePicture {
            field_board.pins.clear();
        }
    }

    fn add_corner(&mut self, at: DVec2) {
        if !at.is_finite() {
            return;
        }
        let at = DVec2::from_array(written(at));
        match self.field_board.tool {
            Tool::Choose => {}
            Tool::Measure => push(&mut self.field_board.measured, at),
            Tool::Draw(kind) => {
                push(&mut self.field_board.drawing, at);
                if kind.most() == Some(self.field_board.drawing.len()) {
                    self.finish();
                }
            }
            Tool::PlacePicture => self.pin(at),
        }
    }

    fn drop_corner(&mut self) {
        match self.field_board.tool {
            Tool::Choose => {}
            Tool::Draw(_) => drop(self.field_board.drawing.pop()),
            Tool::Measure => drop(self.field_board.measured.pop()),
            Tool::PlacePicture => drop(self.field_board.pins.pop()),
        }
    }

    fn finish(&mut self) {
        let Tool::Draw(kind) = self.field_board.tool else { return };
        let Some((change, part)) = edit::add(self.draft.file(), kind, &self.field_board.drawing) else { return };
        self.draft.settle();
        self.edit(change);
        self.draft.settle();
        self.field_board.drawing.clear();
        self.field_board.chosen = Some(Chosen { part, corner: None });
        // Trees and heights come in numbers, everything else one at a time.
        if !matches!(kind, Kind::Tree | Kind::Spot) {
            self.field_board.tool = Tool::Choose;
        }
    }

    fn cancel(&mut self) {
        let field_board = &mut self.field_board;
        let placing = field_board.tool == Tool::PlacePicture && !field_board.pins.is_empty();
        if !field_board.placed().is_empty() || placing {
            field_board.drawing.clear();
            field_board.measured.clear();
            field_board.pins.clear();
        } else if field_board.tool == Tool::Choose {
            field_board.chosen = None;
        } else {
            field_board.tool = Tool::Choose;
        }
    }

    /// A known point of the picture, or the place of the one named last.
    fn pin(&mut self, at: DVec2) {
        let field_board = &mut self.field_board;
        let Some(picture) = &mut field_board.picture else { return };
        match field_board.pins.last_mut() {
            Some(pin) if pin.ground.is_none() => pin.ground = Some(at),
            _ => {
                if field_board.pins.len() > 1 {
                    field_board.pins.clear();
                }
                field_board.pins.push(Pin { pixel: picture.placement.pixel(at), ground: None });
            }
        }
        if let [Pin { pixel: a, ground: Some(m_a) }, Pin { pixel: b, ground: Some(m_b) }] = field_board.pins[..]
            && !picture.place([(a, m_a), (b, m_b)])
        {
            field_board.pins.pop();
        }
    }

    fn picture_obeys(&mut self, command: PictureCommand) {
        let field_board = &mut self.field_board;
        match command {
            PictureCommand::Lay(mut picture) => {
                if let Some(datum) = self.draft.field().map(|field| field.datum) {
                    picture.place_by_file(TangentPlane::new(datum.latitude_deg, datum.longitude_deg));
                }
                field_board.pins.clear();
                field_board.tool = if picture.placed { Tool::Choose } else { Tool::PlacePicture };
                field_board.drawing.clear();
                field_board.picture = Some(*picture);
            }
            PictureCommand::Strength(strength) => {
                if let Some(picture) = &mut field_board.picture {
                    picture.strength = strength.clamp(0.5, 1.0);
                }
            }
            PictureCommand::Again => self.take(Tool::PlacePicture),
            PictureCommand::Remove => {
                field_board.picture = None;
                field_board.pins.clear();
                if field_board.tool == Tool::PlacePicture {
                    field_board.tool = Tool::Choose;
                }
            }
        }
    }
}

/// Adds a corner unless it is the last one again.
fn push(corners: &mut Vec<DVec2>, at: DVec2) {
    if corners.last() != Some(&at) {
        corners.push(at);
    }
}

/// What is chosen, as far as a scenario still has it.
pub(in crate::app) fn still_there(chosen: Chosen, file: &ScenarioFile) -> Option<Chosen> {
    let count = chosen.part.points(file).len();
    let known = Part::all(file).contains(&chosen.part);
    known.then(|| Chosen { corner: chosen.corner.filter(|corner| *corner < count), ..chosen })
}

#[cfg(test)]
mod tests;
