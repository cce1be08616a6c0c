//! The map as a panel: what is painted over the ground, and what pointing, dragging and turning the wheel ask for.

use bevy_egui::egui::{Id, Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui, WidgetInfo, WidgetType, vec2};
use glam::DVec2;

use super::labels::Labels;
use super::{circle, circuit, flight, furniture, losses, marks, places, survey};
use crate::app::lens::Lens;
use crate::app::panels::View;
use crate::app::theme::Palette;
use crate::app::{AppCommand, Board, Flown};
use crate::brief::Live;
use crate::run::Trace;

/// How near to a mark a press counts as on it, points.
const REACH: f32 = 26.0;

/// Size of the jet with the clearing round it, points.
pub(super) const JET: f32 = 44.0;

/// Paints the flight and all words, and returns the lens they were painted through.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let lens = Lens::new(view.session.look, ui.available_rect_before_wrap());
    let painter = ui.painter_at(lens.rect);
    let mut labels = Labels::new(lens.rect);
    let held = view.session.board == Board::Survey && survey::holds_the_map(ui, view);
    // Where cells are chosen with the arrow keys the map takes the keyboard.
    let keyboard = if view.session.board == Board::Losses { Sense::FOCUSABLE } else { Sense::empty() };
    let map = pan_and_zoom(ui, &lens, ("map of the field", keyboard), held, out);
    match view.session.board {
        Board::Survey => {
            survey::under(&painter, &lens, view, &mut labels);
            survey::over(ui, &lens, view, &map, out);
        }
        Board::Circle => {
            circle::under(&painter, &lens, view, &mut labels);
            flight(ui, view, &lens, &mut labels);
            circle::words(&painter, &lens, view, &mut labels);
            choose_mark(view, &lens, &map, out);
            circle::over(ui, &lens, view, &map, out);
        }
        Board::Losses => {
            losses::under(&painter, &lens, view, &mut labels);
            flight(ui, view, &lens, &mut labels);
            losses::names(&painter, &lens, view, &mut labels);
            losses::over(ui, &lens, view, &map, out);
        }
        // Nothing here moves by accident while people look on.
        Board::Brief => {
            let cases = view.session.briefs(Live::Field);
            if cases {
                circle::under(&painter, &lens, view, &mut labels);
            }
            flight(ui, view, &lens, &mut labels);
            if cases {
                circle::words(&painter, &lens, view, &mut labels);
            }
        }
    }
    lens
}

/// Paints the flight with its words.
fn flight(ui: &Ui, view: &View<'_>, lens: &Lens, labels: &mut Labels) {
    let Some(flown) = &view.session.flown else { return };
    let painter = ui.painter_at(lens.rect);
    let palette = view.palette;
    let field = flown.scenario.file.field.as_ref();
    // There it lies on the cells, under the other lines.
    if view.session.board != Board::Losses || view.session.loss_answer().is_none() {
        circuit::draw(&painter, lens, field, palette);
    }
    circuit::keep_clear(lens, field, labels);
    for piece in flight::draw(&painter, lens, flown, palette) {
        labels.rather_not(&piece);
    }
    furniture::draw(&painter, lens, view, flown, labels);
    places::keep_lines_clear(lens, &flown.scenario.field, labels);
    places::draw_symbols(&painter, lens, flown, palette, labels);
    // Its numbers are those of a ledger that is not on the screen of a briefing.
    let seats = (view.session.board != Board::Brief).then(|| marks::draw(&painter, lens, view, flown, labels));
    if !view.session.playhead.playing
        && let Some(at) = jet_at(lens, flown, view.session.playhead.at_s)
    {
        // While it moves, words would jump out of its way without end.
        labels.keep_off(Rect::from_center_size(at, vec2(JET, JET)));
    }
    places::draw_names(&painter, lens, &flown.scenario.field, palette, labels);
    circuit::name(&painter, lens, field, palette, labels);
    if let Some(seats) = seats {
        marks::draw_words(&painter, view, flown, &seats, labels);
    }
    places::draw_words(&painter, lens, flown, palette, labels);
    jet(&painter, lens, flown, view.session.playhead.at_s, palette);
}

/// Moves and scales the view as the pointer asks, and returns how the pointer stands to the map. What is put on the map
/// after this, such as a handle, has the pointer first. A map that is `held` is not moved.
pub(super) fn pan_and_zoom(
    ui: &Ui,
    lens: &Lens,
    (label, more): (&str, Sense),
    held: bool,
    out: &mut Vec<AppCommand>,
) -> Response {
    let response = ui.interact(lens.rect, Id::new(label), Sense::CLICK | Sense::DRAG | more);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, label));
    let drag = response.drag_delta();
    if drag != vec2(0.0, 0.0) && !held {
        out.push(AppCommand::Pan(DVec2::new(f64::from(-drag.x), f64::from(drag.y)) * lens.metres_a_point));
    }
    if let Some(pointer) = response.hover_pos() {
        let (wheel, pinch) = ui.input(|input| (input.smooth_scroll_delta().y, input.zoom_delta()));
        let factor = f64::from((-wheel / 240.0).exp() / pinch);
        if (factor - 1.0).abs() > 1e-6 {
            out.push(AppCommand::Zoom { factor, about: Some(lens.ground(pointer)) });
        }
    }
    response
}

/// A press on a mark chooses its row of the ledger.
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
    let worst = nearest.rows.iter().rev().copied().max_by_key(|&index| flown.ledger.rows[index].verdict);
    worst.filter(|_| nearest.at.distance(pointer) < REACH)
}

/// Where the jet is on the screen.
pub(super) fn jet_at(lens: &Lens, flown: &Flown, at_s: f64) -> Option<Pos2> {
    let trace = &flown.run.trace;
    (!trace.is_empty()).then(|| lens.screen(trace.point_between(flown.sample_at(at_s))))
}

/// The jet at the play head, seen from above, nose first.
pub(super) fn jet(painter: &Painter, lens: &Lens, flown: &Flown, at_s: f64, palette: &Palette) {
    let Some(at) = jet_at(lens, flown, at_s) else { return };
    let trace = &flown.run.trace;
    let sample = flown.sample_at(at_s);
    let nose = DVec2::new(Trace::between(&trace.nose_x, sample), Trace::between(&trace.nose_y, sample));
    let nose = nose.try_normalize().unwrap_or(DVec2::Y);
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let (ahead, right) = (vec2(nose.x as f32, -nose.y as f32), vec2(nose.y as f32, nose.x as f32));
    let part =
        |points: &[(f32, f32)]| -> Vec<Pos2> { points.iter().map(|&(x, y)| at + right * x + ahead * y).collect() };
    // A swept wing and a body; each is without dents, as the painter wants.
    let wing_left = part(&[(0.0, 5.0), (-15.0, -9.0), (-15.0, -13.0), (0.0, -6.0)]);
    let wing_right = part(&[(0.0, 5.0), (15.0, -9.0), (15.0, -13.0), (0.0, -6.0)]);
    let body = part(&[(0.0, 19.0), (3.2, 8.0), (3.2, -14.0), (-3.2, -14.0), (-3.2, 8.0)]);
    let tail = part(&[(0.0, -9.0), (7.0, -17.0), (-7.0, -17.0)]);
    painter.circle_filled(at, JET / 2.0, palette.paper.gamma_multiply(0.55));
    for shape in [wing_left, wing_right, tail, body] {
        painter.add(Shape::convex_polygon(shape, palette.ink, Stroke::new(1.0, palette.paper)));
    }
}
