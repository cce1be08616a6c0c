//! What is being drawn or measured: corners so far, the edge to the pointer, and what a press does.

use bevy_egui::egui::{Align2, Painter, Pos2, Rect, Response, Shape, Stroke, StrokeKind, Ui, vec2};
use glam::DVec2;

use super::{REACH, aim, ask, picture, readout, word};
use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::Palette;
use crate::app::session::field_board::{Clung, FieldCommand, Tool, figures};
use crate::app::session::{AppCommand, View};
use crate::words::Measure;

/// Takes presses on the map and paints what is being drawn.
pub(super) fn show(ui: &Ui, lens: &Lens, view: &View<'_>, map: &Response, out: &mut Vec<AppCommand>) {
    let painter = ui.painter_at(lens.rect);
    let field_board = &view.session.field_board;
    picture::draw_pins(&painter, lens, view);
    let placed = field_board.placed();
    // A finger is gone as soon as it is lifted, and has pressed all the same.
    let pointer = map.hover_pos().or(map.interact_pointer_pos().filter(|_| map.clicked()));
    let first = placed.first().filter(|_| closes(field_board.tool, placed.len())).map(|&at| lens.screen(at));
    let closing = first.zip(pointer).is_some_and(|(first, pointer)| first.distance(pointer) < REACH);
    let (aimed, clung) = match pointer {
        Some(_) if closing => (placed.first().copied(), Clung::Corner),
        // A pixel of the picture has nothing to do with the grid.
        Some(pointer) if wants_pixel(view) => (Some(lens.ground(pointer)), Clung::Free),
        Some(pointer) => {
            let (at, clung) = aim::aimed_at(ui, lens, view, pointer, None);
            (Some(at), clung)
        }
        None => (None, Clung::Free),
    };
    aim::keep(ui.ctx(), aimed);
    corners(&painter, lens, view, aimed);
    if let Some(first) = first {
        painter.circle_stroke(first, REACH, Stroke::new(if closing { 4.0 } else { 2.0 }, view.palette.focus));
    }
    if let Some(at) = aimed {
        let seen = lens.screen(at);
        sight(&painter, seen, clung, view.palette);
        let mut lines = figures::lines(field_board, view.session.draft.file(), view.units(), aimed);
        if closing {
            lines.insert(0, "a press completes it".into());
        } else if !clung.words().is_empty() {
            lines.insert(0, clung.words().into());
        }
        readout(&painter, lens, view, seen, &lines);
    }
    if map.clicked()
        && let Some(at) = aimed
    {
        let again = map.double_clicked()
            && placed.last().zip(pointer).is_some_and(|(&last, at)| lens.screen(last).distance(at) < REACH);
        ask(out, if closing || again { FieldCommand::Finish } else { FieldCommand::AddCorner(at) });
    }
}

/// Whether a press on the first corner completes what is drawn.
const fn closes(tool: Tool, placed: usize) -> bool {
    matches!(tool, Tool::Draw(kind) if kind.is_ring()) && placed > 2
}

/// Whether a pixel of the picture is wanted next, and not a place of the ground.
fn wants_pixel(view: &View<'_>) -> bool {
    let field_board = &view.session.field_board;
    field_board.tool == Tool::PlacePicture && field_board.pins.last().is_none_or(|pin| pin.ground.is_some())
}

/// The corners so far with the lengths of their edges, and the edge to the place aimed at.
fn corners(painter: &Painter, lens: &Lens, view: &View<'_>, aimed: Option<DVec2>) {
    let (palette, field_board) = (view.palette, &view.session.field_board);
    let placed = field_board.placed();
    let seen: Vec<Pos2> = placed.iter().map(|&at| lens.screen(at)).collect();
    for (width, colour) in [(6.0, palette.paper), (3.0, palette.focus)] {
        painter.add(Shape::line(seen.clone(), Stroke::new(width, colour)));
    }
    if let (Some(&from), Some(to)) = (seen.last(), aimed.map(|at| lens.screen(at))) {
        let dash = |from, to| Shape::dashed_line(&[from, to], Stroke::new(3.0, palette.focus), 9.0, 6.0);
        painter.extend(dash(from, to));
        if closes(field_board.tool, placed.len() + 1)
            && let Some(&first) = seen.first()
        {
            painter.extend(Shape::dashed_line(&[to, first], Stroke::new(1.5, palette.focus), 4.0, 5.0));
        }
    }
    for edge in placed.windows(2) {
        let (from, to) = (lens.screen(edge[0]), lens.screen(edge[1]));
        if from.distance(to) > 70.0 {
            let length = view.units().short(Measure::Distance, edge[0].distance(edge[1]));
            word(painter, view, from.lerp(to, 0.5), Align2::CENTER_CENTER, &length);
        }
    }
    for at in seen {
        painter.circle(at, 5.5, palette.paper, Stroke::new(2.5, palette.focus));
    }
}

/// Keeps names off what is being drawn.
pub(super) fn keep_clear(lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    for edge in view.session.field_board.placed().windows(2) {
        let (from, to) = (lens.screen(edge[0]), lens.screen(edge[1]));
        labels.rather_not(&(0..=40_u8).map(|step| from.lerp(to, f32::from(step) / 40.0)).collect::<Vec<_>>());
        labels.keep_off(Rect::from_center_size(from.lerp(to, 0.5), vec2(56.0, 22.0)));
    }
}

/// A cross at the place aimed at, in a square on a corner, in a ring on an edge.
fn sight(painter: &Painter, at: Pos2, clung: Clung, palette: &Palette) {
    for (width, colour) in [(5.0, palette.paper), (2.0, palette.ink)] {
        let stroke = Stroke::new(width, colour);
        for arm in [vec2(9.0, 0.0), vec2(0.0, 9.0)] {
            painter.line_segment([at - arm, at + arm], stroke);
        }
        match clung {
            Clung::Corner => {
                let square = Rect::from_center_size(at, vec2(14.0, 14.0));
                painter.rect_stroke(square, 0.0, stroke, StrokeKind::Middle);
            }
            Clung::Edge => {
                painter.circle_stroke(at, 7.5, stroke);
            }
            Clung::Free | Clung::Angle | Clung::Grid => {}
        }
    }
}
