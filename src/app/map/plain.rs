//! The field with its circle from above, and a path that is not the plan's own flight: what somebody flew.

use bevy_egui::egui::{Painter, Ui};

use super::{circuit, flight, furniture, places};
use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::session::{Flown, View};

/// Paints it; `path` paints over the ground and under names and furniture.
pub fn draw(ui: &Ui, view: &View<'_>, lens: &Lens, flown: &Flown, path: impl FnOnce(&Painter, &mut Labels)) {
    let (painter, palette) = (ui.painter_at(lens.rect), view.palette);
    let mut labels = Labels::new(lens.rect);
    let (field, file) = (&flown.scenario.field, flown.scenario.file.field.as_ref());
    circuit::draw(&painter, lens, file, palette);
    circuit::keep_clear(lens, file, &mut labels);
    flight::ring(&painter, lens, flown, palette);
    path(&painter, &mut labels);
    furniture::draw(&painter, lens, (palette, view.units()), flown, &mut labels);
    places::keep_lines_clear(lens, field, &mut labels);
    places::draw_symbols(&painter, lens, flown, palette, &mut labels);
    places::draw_names(&painter, lens, field, palette, &mut labels);
    circuit::name(&painter, lens, file, palette, &mut labels);
    places::draw_words(&painter, lens, flown, palette, &mut labels);
}
