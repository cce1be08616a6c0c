//! The map of the briefing, where nothing moves by accident while people look on: the flight alone, or with the trials
//! that come home.

use bevy_egui::egui::{Sense, Ui};

use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::map::flying::Flying;
use crate::app::map::{envelope, keep_inside, pan, places};
use crate::app::session::{AppCommand, View};
use crate::brief::Live;

/// Paints the map and returns the lens it was painted through.
pub(crate) fn show(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let (session, palette) = (view.session, view.palette);
    let (lens, _) = pan::field(ui, session.look, Sense::empty(), false, out);
    let painter = ui.painter_at(lens.rect);
    let mut labels = Labels::new(lens.rect);
    let trials = session.briefs(Live::Field);
    let rings = session.answers.envelope.as_ref().filter(|_| trials);
    if let Some(answer) = rings {
        envelope::under(&painter, &lens, palette, (&answer.found, view.strength(answer)), &mut labels);
    }
    if trials {
        places::keep_centre_clear(&lens, session.draft.field(), &mut labels);
    }
    if let Some(flying) = Flying::of(view) {
        // The numbers of marks are those of the table of margins, which is not on the screen of a briefing.
        Flying { marks: false, ..flying }.draw(ui, &lens, &mut labels);
    }
    if let Some(answer) = rings {
        envelope::words(&painter, &lens, palette, &answer.found, &mut labels);
    }
    if let Some(answer) = session.answers.losses.as_ref().filter(|_| trials) {
        keep_inside::draw(&painter, &lens, palette, (&answer.found, view.strength(answer)), &mut labels);
    }
    lens
}
