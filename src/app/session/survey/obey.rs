//! How a session obeys the survey.

use glam::DVec2;

use super::edit::{self, written};
use super::{Chosen, Kind, Part, PictureCommand, Pin, SurveyCommand, Tool};
use crate::app::session::{Change, Session};
use crate::geometry::TangentPlane;
use crate::run::ScenarioFile;

impl Session {
    pub(in crate::app) fn survey_obeys(&mut self, command: SurveyCommand) {
        let file = self.draft.file();
        match command {
            SurveyCommand::Tool(tool) => self.take(tool),
            SurveyCommand::Choose(chosen) => self.survey.chosen = chosen,
            SurveyCommand::Snap(snap) => self.survey.snap = snap,
            SurveyCommand::AddCorner(at) => self.add_corner(at),
            SurveyCommand::DropCorner => self.drop_corner(),
            SurveyCommand::Finish => self.finish(),
            SurveyCommand::Cancel => self.cancel(),
            SurveyCommand::MoveCorner { part, corner, to } => {
                let mut change = edit::move_corner(file, part, corner, to);
                if self.survey.fresh == Some((part, corner))
                    && let Some(change) = &mut change
                {
                    change.what = edit::added(file, part, corner);
                }
                self.survey_edit(change);
            }
            SurveyCommand::MovePart { part, to } => self.survey_edit(edit::move_part(file, part, to)),
            SurveyCommand::InsertCorner { part, after, at } => {
                let change = edit::insert_corner(file, part, after, at);
                if change.is_some() {
                    let corner = Some(after + 1);
                    self.survey.chosen = Some(Chosen { part, corner });
                    self.survey.fresh = Some((part, after + 1));
                }
                self.survey_edit(change);
            }
            SurveyCommand::LetGo => {
                self.survey.fresh = None;
                self.draft.settle();
            }
            SurveyCommand::DeleteCorner => match self.survey.chosen {
                Some(Chosen { part, corner: Some(corner) }) => self.delete(edit::delete_corner(file, part, corner)),
                Some(Chosen { part, corner: None }) => self.delete(edit::delete_part(file, part)),
                None => {}
            },
            SurveyCommand::DeletePart => {
                if let Some(chosen) = self.survey.chosen {
                    self.delete(edit::delete_part(file, chosen.part));
                }
            }
            SurveyCommand::Picture(command) => self.picture_obeys(command),
        }
    }

    fn survey_edit(&mut self, change: Option<Change>) {
        if let Some(change) = change {
            self.edit(change);
        }
    }

    /// Carries out a deletion as a step of its own, and chooses what is left of it.
    fn delete(&mut self, change: Option<Change>) {
        let Some(change) = change else { return };
        let chosen = self.survey.chosen;
        let count = |session: &Self| chosen.map_or(0, |chosen| chosen.part.points(session.draft.file()).len());
        let before = count(self);
        self.draft.settle();
        self.edit(change);
        self.draft.settle();
        let left = count(self);
        // The same number may by now be another part: only a ring that lost one corner is the one it was.
        self.survey.chosen = chosen.filter(|_| left > 0 && left + 1 == before).and_then(|Chosen { part, corner }| {
            let corner = corner?.min(left - 1);
            Some(Chosen { part, corner: Some(corner) })
        });
    }

    fn take(&mut self, tool: Tool) {
        let survey = &mut self.survey;
        survey.drawing.clear();
        survey.measured.clear();
        survey.tool = tool;
        if tool == Tool::PlacePicture {
            survey.pins.clear();
        }
    }

    fn add_corner(&mut self, at: DVec2) {
        if !at.is_finite() {
            return;
        }
        let at = DVec2::from_array(written(at));
        match self.survey.tool {
            Tool::Choose => {}
            Tool::Measure => push(&mut self.survey.measured, at),
            Tool::Draw(kind) => {
                push(&mut self.survey.drawing, at);
                if kind.most() == Some(self.survey.drawing.len()) {
                    self.finish();
                }
            }
            Tool::PlacePicture => self.pin(at),
        }
    }

    fn drop_corner(&mut self) {
        match self.survey.tool {
            Tool::Choose => {}
            Tool::Draw(_) => drop(self.survey.drawing.pop()),
            Tool::Measure => drop(self.survey.measured.pop()),
            Tool::PlacePicture => drop(self.survey.pins.pop()),
        }
    }

    fn finish(&mut self) {
        let Tool::Draw(kind) = self.survey.tool else { return };
        let Some((change, part)) = edit::add(self.draft.file(), kind, &self.survey.drawing) else { return };
        self.draft.settle();
        self.edit(change);
        self.draft.settle();
        self.survey.drawing.clear();
        self.survey.chosen = Some(Chosen { part, corner: None });
        // Trees and heights come in numbers, everything else one at a time.
        if !matches!(kind, Kind::Tree | Kind::Spot) {
            self.survey.tool = Tool::Choose;
        }
    }

    fn cancel(&mut self) {
        let survey = &mut self.survey;
        let placing = survey.tool == Tool::PlacePicture && !survey.pins.is_empty();
        if !survey.placed().is_empty() || placing {
            survey.drawing.clear();
            survey.measured.clear();
            survey.pins.clear();
        } else if survey.tool == Tool::Choose {
            survey.chosen = None;
        } else {
            survey.tool = Tool::Choose;
        }
    }

    /// A known point of the picture, or the place of the one named last.
    fn pin(&mut self, at: DVec2) {
        let survey = &mut self.survey;
        let Some(picture) = &mut survey.picture else { return };
        match survey.pins.last_mut() {
            Some(pin) if pin.ground.is_none() => pin.ground = Some(at),
            _ => {
                if survey.pins.len() > 1 {
                    survey.pins.clear();
                }
                survey.pins.push(Pin { pixel: picture.placement.pixel(at), ground: None });
            }
        }
        if let [Pin { pixel: a, ground: Some(m_a) }, Pin { pixel: b, ground: Some(m_b) }] = survey.pins[..]
            && !picture.place([(a, m_a), (b, m_b)])
        {
            survey.pins.pop();
        }
    }

    fn picture_obeys(&mut self, command: PictureCommand) {
        let survey = &mut self.survey;
        match command {
            PictureCommand::Lay(mut picture) => {
                if let Some(datum) = self.draft.field().map(|field| field.datum) {
                    picture.place_by_file(TangentPlane::new(datum.latitude_deg, datum.longitude_deg));
                }
                survey.pins.clear();
                survey.tool = if picture.placed { Tool::Choose } else { Tool::PlacePicture };
                survey.drawing.clear();
                survey.picture = Some(*picture);
            }
            PictureCommand::Strength(strength) => {
                if let Some(picture) = &mut survey.picture {
                    picture.strength = strength.clamp(0.5, 1.0);
                }
            }
            PictureCommand::Again => self.take(Tool::PlacePicture),
            PictureCommand::PutAway => {
                survey.picture = None;
                survey.pins.clear();
                if survey.tool == Tool::PlacePicture {
                    survey.tool = Tool::Choose;
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
