//! The map of the board of the losses: the cells, the keep-inside line, the two lines in closed form, and what pointing at
//! a cell tells and pressing it asks for.

mod cells;
mod lines;
mod look;
mod point;
mod rose;
mod told;

use bevy_egui::egui::{Mesh, Painter, Rect, Response, Sense, Shape, Stroke, StrokeKind, Ui, Vec2, vec2};

use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::Palette;
use crate::app::map::flying::Flying;
use crate::app::map::{circuit, ground, pan};
use crate::app::session::{AppCommand, LossView, View};
use crate::margins::Outcome;
use crate::study::losses::{Cell, LossStudy};
use cells::CellSheet;
pub(crate) use cells::swatch;
pub(crate) use lines::{NO_RETURN, TURN_BACK, pen};
pub(crate) use look::{CellStyle, ShareStep, outcome_look};
pub(crate) use point::press;
pub(crate) use told::{at_place, heading, home};

/// Largest and smallest half of the mark of a cell where a trial came to something worse, points.
const MARK: (f32, f32) = (1.6, 5.0);

/// Paints the map and returns the lens it was painted through. Cells are chosen with the arrow keys while it has the
/// keyboard.
pub(crate) fn show(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let (lens, map) = pan::field(ui, view.session.look, Sense::FOCUSABLE, false, out);
    let painter = ui.painter_at(lens.rect);
    let mut labels = Labels::new(lens.rect);
    under(&painter, &lens, view);
    if let Some(flying) = Flying::of(view) {
        // The circuit lies on the cells, under the other lines.
        let circuit = view.session.loss_answer().is_none();
        Flying { circuit, ..flying }.draw(ui, &lens, &mut labels);
    }
    if let Some(answer) = view.session.loss_answer() {
        lines::names(&painter, &lens, &answer.found, view.palette, &mut labels);
    }
    over(ui, &lens, view, &map, out);
    lens
}

/// Draws what lies under the path. Cells cover the ground, so where the jet is flown lies on them, under the other lines.
fn under(painter: &Painter, lens: &Lens, view: &View<'_>) {
    let (Some(flown), Some(answer)) = (&view.session.flown, view.session.loss_answer()) else { return };
    let (study, palette) = (&*answer.found, view.palette);
    match view.session.losses.view {
        LossView::Worst => {
            let looks = Outcome::ALL.map(|outcome| outcome_look(outcome, palette));
            CellSheet::new(lens, study, &looks, |cell| Some(cell.plan_worst as usize)).draw(painter, palette.ink);
            marks(painter, lens, study, palette);
        }
        LossView::Share | LossView::Heading => {
            let looks = ShareStep::ALL.map(|step| step.look(palette));
            CellSheet::new(lens, study, &looks, |cell| Some(step(cell)? as usize)).draw(painter, palette.ink);
        }
    }
    painter
        .add(ground::draw_limits(&flown.scenario.field, palette, lens.metres_a_point).painted(lens, |colour| colour));
    circuit::draw(painter, lens, flown.scenario.file.field.as_ref(), palette);
    lines::draw(painter, lens, study, palette);
    if let Some(cell) = view.session.chosen_cell() {
        frame(painter, square(lens, study, cell), palette);
    }
}

/// Draws what lies over everything, and takes what is done with the map.
fn over(ui: &Ui, lens: &Lens, view: &View<'_>, map: &Response, out: &mut Vec<AppCommand>) {
    point::keyboard(ui, view, map, out);
    let Some(answer) = view.session.loss_answer() else { return };
    let study = &*answer.found;
    if view.session.losses.view == LossView::Heading
        && let Some(cell) = view.session.chosen_cell()
    {
        rose::draw(&ui.painter_at(lens.rect), lens, cell, view.palette);
    }
    point::pointer(lens, view, study, map, out);
    if map.has_focus() {
        let stroke = Stroke::new(3.0, view.palette.focus);
        ui.painter_at(lens.rect).rect_stroke(lens.rect, 0.0, stroke, StrokeKind::Inside);
    }
}

/// The step of a cell's share. The plan as entered, without errors, says nothing about the others.
pub(crate) fn step(cell: &Cell) -> Option<ShareStep> {
    if cell.checked_closely() { ShareStep::of(cell.count.inside()) } else { Some(ShareStep::Unknown) }
}

fn square(lens: &Lens, study: &LossStudy, cell: &Cell) -> Rect {
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let side = (study.cell_m / lens.metres_a_point) as f32;
    Rect::from_center_size(lens.screen(cell.middle), Vec2::splat(side))
}

fn frame(painter: &Painter, square: Rect, palette: &Palette) {
    painter.rect_stroke(square, 0.0, Stroke::new(7.0, palette.paper), StrokeKind::Outside);
    painter.rect_stroke(square.expand(1.5), 0.0, Stroke::new(4.0, palette.focus), StrokeKind::Outside);
}

/// A mark where a trial came to something worse than the plan as entered.
fn marks(painter: &Painter, lens: &Lens, study: &LossStudy, palette: &Palette) {
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let half = ((study.cell_m / lens.metres_a_point) as f32 * 0.2).clamp(MARK.0, MARK.1);
    let mut mesh = Mesh::default();
    let worse = study.cells.iter().filter(|cell| cell.worst < cell.plan_worst);
    for at in worse.map(|cell| lens.screen(cell.middle)).filter(|&at| lens.rect.contains(at)) {
        diamond(&mut mesh, Rect::from_center_size(at, Vec2::splat(2.0 * half)), palette);
    }
    painter.add(Shape::mesh(mesh));
}

/// That mark.
pub(crate) fn diamond(mesh: &mut Mesh, room: Rect, palette: &Palette) {
    let half = room.width() / 2.0;
    for (half, colour) in [(half + 1.1, palette.ink), (half, palette.paper)] {
        let first = u32::try_from(mesh.vertices.len()).unwrap_or_default();
        for (x, y) in [(0.0, -half), (half, 0.0), (0.0, half), (-half, 0.0)] {
            mesh.colored_vertex(room.center() + vec2(x, y), colour);
        }
        mesh.add_triangle(first, first + 1, first + 2);
        mesh.add_triangle(first, first + 2, first + 3);
    }
}
