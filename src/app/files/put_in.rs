//! Shapes of somebody else's file, as they are put into the field.

use crate::app::look::lens::Lens;
use crate::app::session::{AppCommand, Ask, Board, Change, Intake, Session, new_field};
use crate::error::Fault;
use crate::field::FieldFile;
use crate::field::import::place;

/// Puts the shapes that have a role into the field, or the whole field of the file in its place, as one edit.
pub(super) fn put_in(session: &mut Session, whole: bool) {
    let Some(Ask::Import(mut intake)) = session.front.ask.take() else { return };
    let mut file = session.draft.file().clone();
    let name = intake.name.clone();
    let what = match (whole, intake.whole.take()) {
        (true, Some(field)) => {
            file.field = Some(*field);
            format!("take the field of {name}")
        }
        (_, field) => {
            intake.whole = field;
            let mut field = file.field.take().or_else(|| new_field().field);
            let faults = field.as_mut().map(|field| put(field, &intake)).unwrap_or_default();
            if !faults.is_empty() {
                intake.faults.splice(0..0, faults);
                session.front.ask = Some(Ask::Import(intake));
                return;
            }
            file.field = field;
            let many = intake.chosen();
            format!("put in {many} {} of {name}", if many == 1 { "shape" } else { "shapes" })
        }
    };
    session.draft.settle();
    session.edit(Change { what, file });
    session.draft.settle();
    session.board = Board::Field;
    session.apply(AppCommand::Fit, Lens::default());
}

fn put(field: &mut FieldFile, intake: &Intake) -> Vec<Fault> {
    if intake.fresh {
        field.datum = intake.datum;
    }
    let takes = intake.takes.iter().filter_map(|take| Some((&take.shape, take.role?)));
    takes.filter_map(|(shape, role)| place(field, shape, role).err()).collect()
}
