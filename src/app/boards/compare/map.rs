//! Two plans side by side: the same ground at the same scale in both, each with its own field, ring, centre and flight.

use bevy_egui::egui::{Align2, FontId, Painter, Rect, Sense, Stroke, StrokeKind, Ui, Vec2, pos2, vec2};

use crate::app::look::labels::{Labels, plate};
use crate::app::look::lens::{Lens, MapView};
use crate::app::look::theme::{Palette, bold};
use crate::app::map::{circuit, flight, furniture, ground, jet, pan, places};
use crate::app::session::{AppCommand, Flown, View};

/// Between the two maps, points.
const GAP: f32 = 8.0;

/// Draws the plan on the left and the kept one on the right, and returns the lens of the left one.
pub(crate) fn show(ui: &mut Ui, view: &View<'_>, [now, kept]: [&Flown; 2], out: &mut Vec<AppCommand>) -> Lens {
    let room = ui.available_rect_before_wrap();
    ui.painter().rect_filled(room, 0.0, view.palette.paper);
    let middle = room.center().x;
    let left = Rect::from_min_max(room.min, pos2(middle - GAP / 2.0, room.bottom()));
    let right = Rect::from_min_max(pos2(middle + GAP / 2.0, room.top()), room.max);
    let look = match view.session.look {
        MapView::Whole(_) => {
            let mut bounds = now.bounds();
            let other = kept.bounds();
            bounds.extend([other.low, other.high]);
            MapView::whole(bounds)
        }
        nearer @ MapView::At { .. } => nearer,
    };
    let lens = Lens::new(look, left);
    for (flown, lens, name) in [(now, lens, "now"), (kept, Lens::new(look, right), "kept")] {
        pan::pan_and_zoom(ui, &lens, (&format!("map of the plan {name}"), Sense::empty()), false, out);
        plan(&ui.painter_at(lens.rect), &lens, view, flown, name);
    }
    lens
}

fn plan(painter: &Painter, lens: &Lens, view: &View<'_>, flown: &Flown, name: &str) {
    let palette = view.palette;
    painter.rect_filled(lens.rect, 0.0, palette.outside);
    painter.add(ground::draw(&flown.scenario.field, palette, lens.metres_a_point).painted(lens, |colour| colour));
    let mut labels = Labels::new(lens.rect);
    title(painter, lens, palette, &mut labels, &format!("{name}: {}", flown.scenario.file.name));
    let field = flown.scenario.file.field.as_ref();
    circuit::draw(painter, lens, field, palette);
    circuit::keep_clear(lens, field, &mut labels);
    for piece in flight::draw(painter, lens, flown, palette) {
        labels.rather_not(&piece);
    }
    furniture::draw(painter, lens, (palette, view.units()), flown, &mut labels);
    if let Some(at) = jet::jet_on_screen(lens, flown, view.session.playhead.at_s) {
        labels.keep_off(Rect::from_center_size(at, Vec2::splat(jet::JET)));
    }
    places::keep_lines_clear(lens, &flown.scenario.field, &mut labels);
    places::draw_symbols(painter, lens, flown, palette, &mut labels);
    places::draw_names(painter, lens, &flown.scenario.field, palette, &mut labels);
    circuit::name(painter, lens, field, palette, &mut labels);
    places::draw_words(painter, lens, flown, palette, &mut labels);
    jet::draw(painter, lens, flown, view.session.playhead.at_s, palette);
    painter.rect_stroke(lens.rect, 0.0, Stroke::new(1.5, palette.rule), StrokeKind::Inside);
}

/// Which of the two it is, in the corner.
fn title(painter: &Painter, lens: &Lens, palette: &Palette, labels: &mut Labels, words: &str) {
    let galley = painter.layout_no_wrap(words.to_owned(), FontId::new(17.0, bold()), palette.ink);
    let at = lens.rect.min + vec2(10.0, 8.0);
    let rect = Align2::LEFT_TOP.anchor_size(at, galley.size()).expand2(vec2(6.0, 2.0));
    plate(painter, palette, rect);
    painter.galley(at, galley, palette.ink);
    labels.keep_off(rect);
}
