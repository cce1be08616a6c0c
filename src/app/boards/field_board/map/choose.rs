//! What is there, to be chosen and moved: names, handles, faults, and what a press on the map chooses.

use bevy_egui::egui::{Align2, Pos2, Rect, Response, Shape, Stroke, Ui, Vec2};
use glam::DVec2;

use super::handles::{GripKind, Handle};
use super::tags::Tag;
use super::{REACH, aim, ask, faults, ground, handles, held, readout, tags};
use crate::app::look::labels::{Labels, nearest};
use crate::app::look::lens::Lens;
use crate::app::map::places::{MapPlace, symbol};
use crate::app::session::field_board::{Chosen, FieldCommand, Part, figures, on_edge};
use crate::app::session::{AppCommand, View};
use crate::field::Field;
use crate::geometry::Region;
use crate::run::ScenarioFile;

/// Corners that words keep off; among more of them there is no room for words.
const FEW: usize = 60;

/// Paints what is there while another tool is in hand: nothing of it takes the pointer.
pub(super) fn draw(ui: &Ui, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    let Some(drawn) = ground::drawn(ui.ctx(), lens, view) else { return };
    let handles = handles::list(ui, lens, view);
    let tags = seats(ui, lens, view, &drawn, &handles, labels);
    for handle in handles.iter().filter(|handle| handle.grip != GripKind::Middle) {
        handles::draw(ui, lens, view, handle, false);
    }
    for tag in &tags {
        tags::draw(ui, lens, view, tag);
    }
    faults::show(ui, lens, view, &rects(&tags), false, labels);
}

/// Takes everything that is done with what is there.
pub(super) fn show(
    ui: &Ui,
    lens: &Lens,
    view: &View<'_>,
    map: &Response,
    labels: &mut Labels,
    out: &mut Vec<AppCommand>,
) {
    aim::keep(ui.ctx(), None);
    let Some(drawn) = ground::drawn(ui.ctx(), lens, view) else { return };
    let file = view.session.draft.file();
    let handles = handles::list(ui, lens, view);
    highlight(ui, lens, view);
    let tags = seats(ui, lens, view, &drawn, &handles, labels);
    let mut moving = false;
    // In this order the keyboard walks through them: a part, then its corners.
    for part in Part::all(file) {
        for tag in tags.iter().filter(|tag| tag.part == part) {
            if part.points(file).len() > 1 || part.is_ring(file) {
                moving |= tags::show(ui, lens, view, tag, out);
            } else {
                tags::draw(ui, lens, view, tag);
            }
        }
        // New corners first: where they crowd, the corner itself is on top.
        let of_part = |middle: bool| {
            handles.iter().filter(move |handle| handle.part == part && (handle.grip == GripKind::Middle) == middle)
        };
        for handle in of_part(true).chain(of_part(false)) {
            moving |= handles::show(ui, lens, view, handle, out);
        }
    }
    numbers(ui, lens, view, &handles);
    faults::show(ui, lens, view, &rects(&tags), true, labels);
    moving |= shift_drag(ui, lens, view, map, out);
    if map.clicked()
        && let Some(pointer) = map.interact_pointer_pos()
    {
        let reach = f64::from(REACH) * lens.metres_a_point;
        let part = part_at(file, &drawn.field, lens.ground(pointer), reach);
        ask(out, FieldCommand::Choose(part.map(|part| Chosen { part, corner: None })));
    }
    if moving
        && let (Some(chosen), Some(pointer)) =
            (view.session.field_board.chosen, ui.input(|input| input.pointer.latest_pos()))
    {
        readout(&ui.painter_at(lens.rect), lens, view, pointer, &figures::of_chosen(view.units(), file, chosen));
    }
}

/// Finds a place for every name, off the signs of points.
fn seats(
    ui: &Ui,
    lens: &Lens,
    view: &View<'_>,
    drawn: &ground::DrawnField,
    handles: &[Handle],
    labels: &mut Labels,
) -> Vec<Tag> {
    let datum = lens.screen(DVec2::ZERO);
    symbol(&ui.painter_at(lens.rect), view.palette, MapPlace::Datum, datum);
    for at in handles.iter().filter(|handle| handle.grip == GripKind::Point).map(|handle| handle.at).chain([datum]) {
        labels.keep_off(Rect::from_center_size(at, Vec2::splat(20.0)));
    }
    let corners: Vec<_> = handles.iter().filter(|handle| handle.grip == GripKind::Corner).collect();
    for handle in corners.iter().filter(|_| corners.len() <= FEW) {
        labels.keep_off(Rect::from_center_size(handle.at, Vec2::splat(10.0)));
    }
    for loss in handles.iter().filter(|handle| handle.part == Part::Loss) {
        labels.keep_off(Rect::from_two_pos(loss.at, handles::nose(view, loss.at)).expand(5.0));
    }
    for part in Part::all(view.session.draft.file()) {
        let points: Vec<Pos2> = part.points(view.session.draft.file()).into_iter().map(|at| lens.screen(at)).collect();
        if let [from, to] = points[..] {
            labels.rather_not(&(0..=60_u8).map(|step| from.lerp(to, f32::from(step) / 60.0)).collect::<Vec<_>>());
        }
    }
    if lens.rect.contains(datum) {
        labels.write(&ui.painter_at(lens.rect), view.palette, datum, 11.0, "datum");
    }
    let parts = Part::all(view.session.draft.file()).into_iter();
    parts.filter_map(|part| tags::seat(ui, lens, view, drawn, part, labels)).collect()
}

fn rects(tags: &[Tag]) -> Vec<(Part, Rect)> {
    tags.iter().map(|tag| (tag.part, tag.rect)).collect()
}

/// The edges of what is chosen.
fn highlight(ui: &Ui, lens: &Lens, view: &View<'_>) {
    let Some(Chosen { part, .. }) = view.session.field_board.chosen else { return };
    let file = view.session.draft.file();
    let points: Vec<Pos2> = part.points(file).into_iter().map(|at| lens.screen(at)).collect();
    if points.len() < 2 {
        return;
    }
    let stroke = |width, colour| Stroke::new(width, colour);
    for stroke in [stroke(7.0, view.palette.paper), stroke(4.0, view.palette.focus)] {
        let points = points.clone();
        let shape = if part.is_ring(file) { Shape::closed_line(points, stroke) } else { Shape::line(points, stroke) };
        ui.painter_at(lens.rect).add(shape);
    }
}

/// The numbers of the corners of the ring that is chosen, outside it.
fn numbers(ui: &Ui, lens: &Lens, view: &View<'_>, handles: &[Handle]) {
    let file = view.session.draft.file();
    let Some(Chosen { part, .. }) = view.session.field_board.chosen.filter(|chosen| chosen.part.is_ring(file)) else {
        return;
    };
    let points: Vec<Pos2> = part.points(file).into_iter().map(|at| lens.screen(at)).collect();
    let count = points.len();
    let corners: Vec<&Handle> =
        handles.iter().filter(|handle| handle.part == part && handle.grip == GripKind::Corner && count > 2).collect();
    if corners.len() > 40 {
        return;
    }
    let ring = Region::new(&points.iter().map(|&at| plane(at)).collect::<Vec<_>>(), &[]);
    for handle in corners {
        let (before, after) = (points[(handle.corner + count - 1) % count], points[(handle.corner + 1) % count]);
        let into = (before - handle.at).normalized() + (after - handle.at).normalized();
        let mut out = if into.length() > 0.1 { -into.normalized() } else { (after - before).normalized().rot90() };
        // At a dent the way out is the other way.
        if ring.contains(plane(handle.at + out * 6.0)) {
            out = -out;
        }
        let at = nearest(lens.rect.shrink(16.0), handle.at + out * 19.0);
        let text = (handle.corner + 1).to_string();
        super::word(&ui.painter_at(lens.rect), view, at, Align2::CENTER_CENTER, &text);
    }
}

fn plane(at: Pos2) -> DVec2 {
    DVec2::new(f64::from(at.x), f64::from(at.y))
}

/// A drag with the shift key inside what is chosen moves it.
fn shift_drag(ui: &Ui, lens: &Lens, view: &View<'_>, map: &Response, out: &mut Vec<AppCommand>) -> bool {
    let Some(Chosen { part, .. }) = view.session.field_board.chosen else { return false };
    let shift = ui.input(|input| input.modifiers.shift);
    if map.drag_started() && !shift {
        return false;
    }
    (shift || held::is_held(ui)) && tags::drag(ui, lens, view, part, map, out)
}

/// The part that lies at a place, the topmost of several.
fn part_at(file: &ScenarioFile, field: &Field, at: DVec2, reach: f64) -> Option<Part> {
    let on = |region: &Region, reach: f64| !region.edges().is_empty() && region.signed_distance(at) >= -reach;
    if let Some(index) = field.obstacles.iter().rposition(|tall| on(&tall.region, reach)) {
        return Some(Part::Obstacle(index));
    }
    let near = |ends: [DVec2; 2], reach: f64| on_edge(at, ends).distance(at) <= reach;
    if field.flight_line_ends.is_some_and(|ends| near(ends, reach)) {
        return Some(Part::FlightLine);
    }
    let flown = Part::Circuit.points(file);
    let mut next = flown.iter().cycle().skip(1);
    if flown.iter().any(|&from| next.next().is_some_and(|&to| near([from, to], reach))) {
        return Some(Part::Circuit);
    }
    for (index, area) in field.areas.iter().enumerate().rev() {
        if let Some(hole) = hole_at(&area.region, at) {
            return Some(Part::AreaHole(index, hole));
        }
        if on(&area.region, reach / 2.0) {
            return Some(Part::Area(index));
        }
    }
    if field.runway.is_some_and(|strip| near([strip.from, strip.to], reach.max(strip.width_m / 2.0))) {
        return Some(Part::Runway);
    }
    if let Some(hole) = hole_at(&field.boundary, at) {
        return Some(Part::BoundaryHole(hole));
    }
    let edge = !field.boundary.edges().is_empty() && field.boundary.nearest(at).distance <= reach;
    edge.then_some(Part::Boundary)
}

fn hole_at(region: &Region, at: DVec2) -> Option<usize> {
    region.rings().iter().skip(1).position(|hole| Region::new(hole, &[]).contains(at))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::session::field_board::as_drawn;
    use crate::run::Scenario;

    #[track_caller]
    fn check(at: (f64, f64), expected: Option<Part>) {
        let mut file = Scenario::tight_strip().file;
        // Two sides of 60 m and one across the middle of the field.
        let corners = vec![[100.0, 20.0], [160.0, 20.0], [160.0, 80.0]];
        let speeds = [20.0, 30.0].map(crate::units::Speed::new);
        file.field.as_mut().unwrap().circuit = Some(crate::field::CircuitFile::of_line(corners, speeds));
        let field = as_drawn(&file).unwrap();
        assert_eq!(part_at(&file, &field, DVec2::new(at.0, at.1), 5.0), expected, "{at:?}");
    }

    #[test]
    fn a_press_chooses_what_lies_there() {
        check((-100.0, 150.0), Some(Part::Area(0)));
        check((0.0, -30.0), Some(Part::Area(1)));
        check((224.0, -224.0), Some(Part::Obstacle(0)));
        check((30.0, 4.0), Some(Part::Runway));
        check((258.0, 0.0), Some(Part::Boundary));
        check((130.0, 22.0), Some(Part::Circuit));
        check((130.0, 50.0), Some(Part::Circuit));
        check((150.0, 40.0), None);
        check((120.0, -120.0), None);
        check((900.0, 0.0), None);
    }
}
