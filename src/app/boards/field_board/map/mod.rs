//! The map of the Field board: the field as it is written, its handles, lengths and faults.

mod aim;
mod choose;
mod drawing;
mod faults;
mod grid;
mod ground;
mod handles;
mod held;
mod keys;
mod picture;
mod tags;

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Response, Sense, Ui, vec2};

pub(crate) use aim::aimed;
pub(crate) use keys::{corner_after, tool_taken};

use crate::app::look::labels::{Labels, plate};
use crate::app::look::lens::{CORNER, Lens};
use crate::app::look::theme::TEXT;
use crate::app::map::{circuit, furniture, pan};
use crate::app::session::field_board::{FieldCommand, Kind, Part, Tool};
use crate::app::session::{AppCommand, View};

/// How near counts as on it, points.
const REACH: f32 = 11.0;

/// Paints the map and returns the lens it was painted through.
pub(crate) fn show(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let held = holds_the_map(ui, view);
    let (lens, map) = pan::field(ui, view.session.look, Sense::empty(), held, out);
    let mut labels = Labels::new(lens.rect);
    under(&ui.painter_at(lens.rect), &lens, view, &mut labels);
    over(ui, &lens, view, &map, out);
    lens
}

/// Draws the ground, and nothing of the flight.
fn under(painter: &Painter, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    painter.rect_filled(lens.rect, 0.0, view.palette.outside);
    picture::draw(painter, lens, view);
    ground::draw(painter, lens, view);
    grid::draw(painter, lens, view.palette);
    circuit::draw(painter, lens, view.session.draft.field(), view.palette);
    let sheet = &view.session.draft.file().wind;
    furniture::draw_still(painter, lens, (view.palette, view.units()), sheet, labels);
}

/// Draws what can be taken hold of, takes what is done with it, and what is done with the map where nothing lies.
fn over(ui: &Ui, lens: &Lens, view: &View<'_>, map: &Response, out: &mut Vec<AppCommand>) {
    let mut labels = Labels::new(lens.rect.shrink(grid::RULER));
    let corner = lens.rect.right_top() + vec2(-CORNER.x - 6.0, 6.0);
    labels.keep_off(Rect::from_min_size(corner, furniture::STILL));
    if view.session.field_board.tool == Tool::Choose {
        choose::show(ui, lens, view, map, &mut labels, out);
    } else {
        drawing::keep_clear(lens, view, &mut labels);
        choose::draw(ui, lens, view, &mut labels);
        drawing::show(ui, lens, view, map, out);
    }
    if view.session.field_board.placed().is_empty() && Part::Boundary.points(view.session.draft.file()).is_empty() {
        beginning(ui, lens, view);
    }
    keys::show(ui, view, out);
}

/// What to do first on a field that has no boundary yet.
fn beginning(ui: &Ui, lens: &Lens, view: &View<'_>) {
    let text = match view.session.field_board.tool {
        Tool::Draw(Kind::Boundary) => "Press the corners of the boundary in order, or type them: 120 \u{2212}35",
        _ => "This field has no boundary yet: take Boundary (key O) and press its corners in order",
    };
    word(&ui.painter_at(lens.rect), view, lens.rect.center_bottom() - vec2(0.0, 60.0), Align2::CENTER_CENTER, text);
}

/// Whether a drag on the map moves what is chosen, and not the map.
fn holds_the_map(ui: &Ui, view: &View<'_>) -> bool {
    let field_board = &view.session.field_board;
    let shift = ui.input(|input| input.modifiers.shift);
    field_board.tool == Tool::Choose && (held::is_held(ui) || shift && field_board.chosen.is_some())
}

fn ask(out: &mut Vec<AppCommand>, command: FieldCommand) {
    out.push(AppCommand::Field(command));
}

/// Writes lines on a plate beside a place, inside the map.
fn readout(painter: &Painter, lens: &Lens, view: &View<'_>, at: Pos2, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    let galley = painter.layout_no_wrap(lines.join("\n"), FontId::proportional(TEXT), view.palette.ink);
    let size = galley.size() + vec2(12.0, 8.0);
    let room = lens.rect.shrink(6.0);
    let side = |low: f32, high: f32, at: f32, size: f32| {
        if at + 20.0 + size > high { (at - 20.0 - size).max(low) } else { at + 20.0 }
    };
    let corner =
        Pos2::new(side(room.left(), room.right(), at.x, size.x), side(room.top(), room.bottom(), at.y, size.y));
    let rect = Rect::from_min_size(corner, size);
    plate(painter, view.palette, rect);
    painter.rect_stroke(rect, 3.0, (1.0, view.palette.rule), bevy_egui::egui::StrokeKind::Inside);
    painter.galley(rect.min + vec2(6.0, 4.0), galley, view.palette.ink);
}

/// A few words with a plate under them.
fn word(painter: &Painter, view: &View<'_>, at: Pos2, align: Align2, text: &str) {
    let galley = painter.layout(text.to_owned(), FontId::proportional(TEXT), view.palette.ink, 460.0);
    let rect = align.anchor_size(at, galley.size()).expand2(vec2(3.0, 0.0));
    plate(painter, view.palette, rect);
    painter.galley(rect.min + vec2(3.0, 0.0), galley, view.palette.ink);
}
