//! A flight on the map with its places and words: what every board that shows one paints alike.

use bevy_egui::egui::{Rect, Ui, vec2};

use super::{circuit, flight, furniture, jet, marks, places};
use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::Palette;
use crate::app::session::{Flown, Playhead, View};
use crate::words::Units;

/// What is painted.
#[derive(Debug, Clone, Copy)]
pub struct Flying<'a> {
    /// The flight.
    pub flown: &'a Flown,
    /// Where its replay is.
    pub playhead: Playhead,
    /// The row of its margins that is chosen.
    pub chosen: Option<usize>,
    /// Colours.
    pub palette: &'a Palette,
    /// Units.
    pub units: &'a Units,
    /// Whether the circuit is drawn with it, and does not lie below it already.
    pub circuit: bool,
    /// Whether the least margins are marked, with the numbers of their rows.
    pub marks: bool,
}

impl<'a> Flying<'a> {
    /// The flight of the plan on the screen, all of it; none where there is none.
    pub fn of(view: &View<'a>) -> Option<Self> {
        let session = view.session;
        let flown = session.flown.as_ref()?;
        let (playhead, chosen, palette, units) = (session.playhead, session.chosen, view.palette, view.units());
        Some(Self { flown, playhead, chosen, palette, units, circuit: true, marks: true })
    }

    /// Paints it.
    pub fn draw(&self, ui: &Ui, lens: &Lens, labels: &mut Labels) {
        let &Self { flown, playhead, chosen, palette, units, .. } = self;
        let painter = ui.painter_at(lens.rect);
        let field = flown.scenario.file.field.as_ref();
        if self.circuit {
            circuit::draw(&painter, lens, field, palette);
        }
        circuit::keep_clear(lens, field, labels);
        for piece in flight::draw(&painter, lens, flown, palette) {
            labels.rather_not(&piece);
        }
        furniture::draw(&painter, lens, (palette, units), flown, labels);
        places::keep_lines_clear(lens, &flown.scenario.field, labels);
        places::draw_symbols(&painter, lens, flown, palette, labels);
        let seats = self.marks.then(|| marks::draw(&painter, lens, palette, (flown, chosen), labels));
        if !playhead.playing
            && let Some(at) = jet::jet_on_screen(lens, flown, playhead.at_s)
        {
            // While it moves, words would jump out of its way without end.
            labels.keep_off(Rect::from_center_size(at, vec2(jet::JET, jet::JET)));
        }
        places::draw_names(&painter, lens, &flown.scenario.field, palette, labels);
        circuit::name(&painter, lens, field, palette, labels);
        if let Some(seats) = seats {
            marks::draw_words(&painter, palette, (flown, chosen), &seats, labels);
        }
        places::draw_words(&painter, lens, flown, palette, labels);
        jet::draw(&painter, lens, flown, playhead.at_s, palette);
    }
}
