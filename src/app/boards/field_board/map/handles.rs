//! What corners, ends and points are taken hold of by, with the pointer or the keyboard.

use std::collections::BTreeSet;

use bevy_egui::egui::{
    CursorIcon, EventFilter, Id, Key, Painter, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
    WidgetType, vec2,
};
use glam::DVec2;

use super::{aim, ask};
use crate::app::look::lens::Lens;
use crate::app::map::places::{MapPlace, faced, symbol};
use crate::app::session::field_board::{Chosen, FieldCommand, Part};
use crate::app::session::{AppCommand, View};
use crate::field::facing;

/// Half the side of a handle that has the room for it, and of one that hardly has, points.
const REACH: (f32, f32) = (16.0, 6.0);
/// Corners of rings that are not chosen have handles as long as no more than this are on the screen.
const MOST: usize = 160;
/// Corners of one ring nearer to each other than this share a handle until one zooms in, points.
const APART: f32 = 14.0;
/// Edges longer than this have a handle in the middle, points.
const ROOM_FOR_MIDDLE: f32 = 52.0;

/// What a handle holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum GripKind {
    /// A corner of a ring or an end of a line.
    Corner,
    /// A point with a sign of its own.
    Point,
    /// The middle of the edge after a corner: a new corner.
    Middle,
}

/// A handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Handle {
    pub(super) part: Part,
    pub(super) corner: usize,
    pub(super) at: Pos2,
    pub(super) grip: GripKind,
    reach: f32,
}

/// Every handle on the screen.
pub(super) fn list(ui: &Ui, lens: &Lens, view: &View<'_>) -> Vec<Handle> {
    let file = view.session.draft.file();
    let chosen = view.session.field_board.chosen;
    let room = lens.rect.expand(4.0);
    let mut handles = Vec::new();
    let mut others = Vec::new();
    for part in Part::all(file) {
        let points: Vec<Pos2> = part.points(file).into_iter().map(|at| lens.screen(at)).collect();
        let handle = |corner: usize, at: Pos2, grip: GripKind| Handle { part, corner, at, grip, reach: REACH.0 };
        let is_chosen = chosen.is_some_and(|chosen| chosen.part == part);
        if part.is_ring(file) {
            let corner = chosen.filter(|_| is_chosen).and_then(|chosen| chosen.corner);
            let kept = apart(&points, corner).into_iter().filter(|&at| room.contains(points[at]));
            let corners = kept.map(|at| handle(at, points[at], GripKind::Corner));
            if is_chosen {
                handles.extend(corners);
                handles.extend((0..points.len()).filter_map(|at| {
                    let (from, to) = (points[at], points[(at + 1) % points.len()]);
                    let middle = handle(at, from.lerp(to, 0.5), GripKind::Middle);
                    // The edge grows short while a corner is pulled out of it.
                    let held = ui.ctx().is_being_dragged(id(&middle));
                    (held || from.distance(to) > ROOM_FOR_MIDDLE && room.contains(middle.at)).then_some(middle)
                }));
            } else {
                others.extend(corners);
            }
        } else {
            let line = matches!(part, Part::FlightLine | Part::Runway);
            let grip = if line { GripKind::Corner } else { GripKind::Point };
            let off = if goes_with_home(part, view) { vec2(30.0, -24.0) } else { Vec2::ZERO };
            let seen = points.into_iter().map(|at| at + off).enumerate().filter(|(_, at)| room.contains(*at));
            handles.extend(seen.map(|(at, point)| handle(at, point, grip)));
        }
    }
    if others.len() <= MOST {
        handles.extend(others);
    }
    give_room(&mut handles);
    handles
}

/// Whether a part is the centre without a place of its own.
pub(super) fn goes_with_home(part: Part, view: &View<'_>) -> bool {
    part == Part::Centre && view.session.draft.field().is_some_and(|field| field.centre_m.is_none())
}

/// Corners that stand apart on the screen, the chosen one always.
fn apart(points: &[Pos2], chosen: Option<usize>) -> Vec<usize> {
    #[allow(clippy::cast_possible_truncation, reason = "cells of the screen")]
    let cell = |at: Pos2| ((at.x / APART) as i32, (at.y / APART) as i32);
    let mut taken = BTreeSet::new();
    let first = chosen.into_iter().chain(0..points.len()).filter(|&at| at < points.len());
    let mut kept: Vec<usize> = first.filter(|&at| taken.insert(cell(points[at]))).collect();
    kept.sort_unstable();
    kept.dedup();
    kept
}

/// No handle reaches over the nearest other one.
fn give_room(handles: &mut [Handle]) {
    for index in 0..handles.len() {
        let at = handles[index].at;
        let others = handles.iter().enumerate().filter(|(other, _)| *other != index);
        let nearest = others.map(|(_, other)| other.at.distance(at)).fold(f32::INFINITY, f32::min);
        handles[index].reach = (nearest / 2.0).clamp(REACH.1, REACH.0);
    }
}

fn id(handle: &Handle) -> Id {
    Id::new(("handle", handle.part, handle.corner, handle.grip == GripKind::Middle))
}

/// Takes what is done with a handle; returns whether it is being moved.
pub(super) fn show(ui: &Ui, lens: &Lens, view: &View<'_>, handle: &Handle, out: &mut Vec<AppCommand>) -> bool {
    let Handle { part, corner, at, grip, reach } = *handle;
    let file = view.session.draft.file();
    let middle = grip == GripKind::Middle;
    let sense = if middle { Sense::CLICK | Sense::DRAG } else { Sense::click_and_drag() };
    let rect = Rect::from_center_size(at, Vec2::splat(reach * 2.0));
    let response = ui.interact(rect, id(handle), sense).on_hover_cursor(CursorIcon::Move);
    let name = part.corner_name(file, corner);
    let label = if middle { format!("new corner after {name}") } else { name };
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, label.clone()));
    if middle {
        pull_out(ui, lens, view, handle, &response, out);
    } else {
        let chosen = Some(Chosen { part, corner: Some(corner) });
        let taken = response.clicked() || response.drag_started() || response.gained_focus();
        if taken && view.session.field_board.chosen != chosen {
            ask(out, FieldCommand::Choose(chosen));
        }
        if response.clicked() {
            response.request_focus();
        }
        if response.dragged()
            && let Some(pointer) = response.interact_pointer_pos()
        {
            let (to, _) = aim::aimed_at(ui, lens, view, pointer, Some((part, Some(corner))));
            ask(out, FieldCommand::MoveCorner { part, corner, to });
        }
        if let Some(by) = nudge(ui, view, &response)
            && let Some(&from) = part.points(file).get(corner)
        {
            ask(out, FieldCommand::MoveCorner { part, corner, to: from + by });
        }
    }
    if response.drag_stopped() || response.lost_focus() {
        ask(out, FieldCommand::LetGo);
    }
    draw(ui, lens, view, handle, response.hovered() || response.dragged());
    if response.has_focus() {
        let ring = Rect::from_center_size(at, Vec2::splat(26.0));
        ui.painter_at(lens.rect).rect_stroke(ring, 4.0, (3.0, view.palette.focus), StrokeKind::Middle);
    }
    response.dragged()
}

/// A corner is pulled out of the middle of an edge.
fn pull_out(ui: &Ui, lens: &Lens, view: &View<'_>, handle: &Handle, response: &Response, out: &mut Vec<AppCommand>) {
    let Handle { part, corner: after, .. } = *handle;
    let Some(pointer) = response.interact_pointer_pos() else { return };
    let (at, _) = aim::aimed_at(ui, lens, view, pointer, Some((part, Some(after + 1))));
    if response.drag_started() || response.clicked() {
        ask(out, FieldCommand::InsertCorner { part, after, at });
    } else if response.dragged() {
        ask(out, FieldCommand::MoveCorner { part, corner: after + 1, to: at });
    }
    if response.clicked() {
        ask(out, FieldCommand::LetGo);
    }
}

/// How far the arrow keys move what has the keyboard, metres: a step of the grid, ten with the shift key.
pub(super) fn nudge(ui: &Ui, view: &View<'_>, response: &Response) -> Option<DVec2> {
    if !response.has_focus() {
        return None;
    }
    let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    let ways = [
        (Key::ArrowLeft, DVec2::NEG_X),
        (Key::ArrowRight, DVec2::X),
        (Key::ArrowUp, DVec2::Y),
        (Key::ArrowDown, DVec2::NEG_Y),
    ];
    let (way, shift) = ui.input(|input| {
        let way: DVec2 = ways.iter().filter(|(key, _)| input.key_pressed(*key)).map(|(_, way)| *way).sum();
        (way, input.modifiers.shift)
    });
    let step = view.session.field_board.snap.step_m() * if shift { 10.0 } else { 1.0 };
    (way != DVec2::ZERO).then_some(way * step)
}

/// Draws a handle as it looks while nobody holds it.
pub(super) fn draw(ui: &Ui, lens: &Lens, view: &View<'_>, handle: &Handle, lit: bool) {
    let painter = ui.painter_at(lens.rect);
    let palette = view.palette;
    let Handle { part, corner, at, grip, .. } = *handle;
    let chosen = view.session.field_board.chosen.filter(|chosen| chosen.part == part);
    let one = chosen.is_some_and(|chosen| chosen.corner == Some(corner)) && grip != GripKind::Middle;
    let ink = Stroke::new(2.0, palette.ink);
    match grip {
        GripKind::Middle => {
            let size = if lit { 8.0 } else { 6.5 };
            painter.circle(at, size, palette.paper, Stroke::new(1.5, palette.focus));
            for arm in [vec2(3.5, 0.0), vec2(0.0, 3.5)] {
                painter.line_segment([at - arm, at + arm], Stroke::new(1.5, palette.focus));
            }
        }
        GripKind::Corner => {
            let size = if one || lit {
                13.0
            } else if chosen.is_some() {
                11.0
            } else {
                6.0
            };
            let fill = if chosen.is_some() { palette.focus } else { palette.paper };
            let stroke = if chosen.is_some() { Stroke::new(2.0, palette.paper) } else { ink };
            painter.rect(Rect::from_center_size(at, Vec2::splat(size)), 1.0, fill, stroke, StrokeKind::Outside);
            if one {
                painter.rect_stroke(Rect::from_center_size(at, Vec2::splat(18.0)), 2.0, ink, StrokeKind::Outside);
            }
        }
        GripKind::Point => {
            if let Some(place) = place_of(part) {
                if goes_with_home(part, view) {
                    painter.line_segment([at, at - vec2(30.0, -24.0)], Stroke::new(1.5, palette.ink));
                }
                if part == Part::Loss {
                    heading(&painter, view, at);
                }
                symbol(&painter, palette, place, at);
                if part == Part::Pilot
                    && let Some(field) = view.session.draft.field()
                {
                    faced(&painter, palette, at, facing(field).0);
                }
            } else if matches!(part, Part::Spot(_)) {
                let arms = [(0.0, -7.0), (6.5, 4.5), (-6.5, 4.5)].map(|(x, y)| at + vec2(x, y)).to_vec();
                painter.add(bevy_egui::egui::Shape::convex_polygon(arms, palette.paper, ink));
                painter.circle_filled(at, 1.8, palette.ink);
            }
            if one || lit {
                painter.circle_stroke(at, 16.0, Stroke::new(if one { 3.0 } else { 1.5 }, palette.focus));
            }
        }
    }
}

/// Which way the nose points when the loss comes.
fn heading(painter: &Painter, view: &View<'_>, at: Pos2) {
    let tip = nose(view, at);
    let way = (tip - at).normalized();
    for (width, colour) in [(5.5, view.palette.paper), (2.5, view.palette.ink)] {
        let stroke = Stroke::new(width, colour);
        painter.line_segment([at, tip], stroke);
        for side in [way.rot90(), -way.rot90()] {
            painter.line_segment([tip, tip - way * 9.0 + side * 6.0], stroke);
        }
    }
}

/// Where the arrow of the loss ends.
pub(super) fn nose(view: &View<'_>, at: Pos2) -> Pos2 {
    let way = view.session.draft.file().loss.heading.unit();
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let way = vec2(way.x as f32, -way.y as f32);
    at + way * 34.0
}

const fn place_of(part: Part) -> Option<MapPlace> {
    match part {
        Part::Pilot => Some(MapPlace::Pilot),
        Part::Home => Some(MapPlace::Home),
        Part::Centre => Some(MapPlace::Centre),
        Part::Loss => Some(MapPlace::Loss),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy_egui::egui::pos2;

    #[test]
    fn crowded_corners_share_a_handle_and_the_chosen_one_has_its_own() {
        let points: Vec<Pos2> = (0..100_u8).map(|at| pos2(f32::from(at), 5.0)).collect();
        assert_eq!(apart(&points, None).len(), 8);
        assert!(apart(&points, Some(33)).contains(&33));
        assert!(apart(&points, Some(500)).len() == 8 && apart(&[], Some(0)).is_empty());
    }

    #[test]
    fn handles_do_not_reach_over_one_another() {
        let handle = |x| Handle { part: Part::Pilot, corner: 0, at: pos2(x, 0.0), grip: GripKind::Point, reach: 0.0 };
        let mut handles = [0.0, 20.0, 300.0, 300.0].map(handle);
        give_room(&mut handles);
        assert_eq!(handles.map(|handle| handle.reach), [10.0, 10.0, 6.0, 6.0]);
    }
}
