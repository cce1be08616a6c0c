//! The map of the board of the circle: the flight with where recoveries are flown, the keep-inside line where it is known,
//! and handles for centre, radius and wind.

mod grip;
mod handles;

use bevy_egui::egui::{Pos2, Response, Sense, Ui};

use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::map::flying::Flying;
use crate::app::map::{envelope, keep_inside, marks, pan, places};
use crate::app::session::{AppCommand, Flown, View};

/// How near to a mark a press counts as on it, points.
const REACH: f32 = 26.0;

/// Paints the map and returns the lens it was painted through.
pub(crate) fn show(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let (session, palette) = (view.session, view.palette);
    let (lens, map) = pan::field(ui, session.look, Sense::empty(), false, out);
    let painter = ui.painter_at(lens.rect);
    let mut labels = Labels::new(lens.rect);
    if let Some(answer) = &session.answers.envelope {
        envelope::under(&painter, &lens, palette, (&answer.found, view.strength(answer)), &mut labels);
    }
    places::keep_centre_clear(&lens, session.draft.field(), &mut labels);
    if let Some(flying) = Flying::of(view) {
        flying.draw(ui, &lens, &mut labels);
    }
    if let Some(answer) = &session.answers.envelope {
        envelope::words(&painter, &lens, palette, &answer.found, &mut labels);
    }
    if let Some(answer) = &session.answers.losses {
        keep_inside::draw(&painter, &lens, palette, (&answer.found, view.strength(answer)), &mut labels);
    }
    choose_mark(view, &lens, &map, out);
    handles::over(ui, &lens, view, out);
    lens
}

/// A press on a mark chooses its row of the margins.
fn choose_mark(view: &View<'_>, lens: &Lens, map: &Response, out: &mut Vec<AppCommand>) {
    if map.clicked()
        && let Some(flown) = &view.session.flown
        && let Some(pointer) = map.interact_pointer_pos()
    {
        out.extend(mark_near(lens, flown, pointer).map(AppCommand::Choose));
    }
}

/// The first of the worst rows whose mark is within reach of the pointer.
fn mark_near(lens: &Lens, flown: &Flown, pointer: Pos2) -> Option<usize> {
    let groups = marks::groups(lens, flown);
    let nearest = groups.into_iter().min_by(|a, b| a.at.distance(pointer).total_cmp(&b.at.distance(pointer)))?;
    let worst = nearest.rows.iter().rev().copied().max_by_key(|&index| flown.margins.rows[index].verdict);
    worst.filter(|_| nearest.at.distance(pointer) < REACH)
}
