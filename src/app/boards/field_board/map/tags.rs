//! The names of parts on the map. A name chooses its part, moves it when dragged, and takes the keyboard.

use std::sync::Arc;

use bevy_egui::egui::{
    CursorIcon, FontId, Galley, Id, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, WidgetType,
    vec2,
};

use super::ground::DrawnField;
use super::handles::{goes_with_home, nudge};
use super::{ask, held};
use crate::app::look::labels::{Labels, nearest, plate};
use crate::app::look::lens::Lens;
use crate::app::look::theme::bold;
use crate::app::map::places::area_words;
use crate::app::session::field_board::{Chosen, FieldCommand, Part};
use crate::app::session::{AppCommand, View};
use crate::words::{self, Measure};

/// Longest line of a name, points.
const WIDEST: f32 = 220.0;
/// Room round a name, points.
const MARGIN: Vec2 = Vec2::new(5.0, 2.0);

/// A name with its place.
#[derive(Debug)]
pub(super) struct Tag {
    pub(super) part: Part,
    pub(super) rect: Rect,
    galley: Arc<Galley>,
    /// Where a thread leads that the name had to stand off from.
    anchor: Pos2,
}

/// Finds a place for the name of a part; none where the part is not on the screen.
pub(super) fn seat(
    ui: &Ui,
    lens: &Lens,
    view: &View<'_>,
    drawn: &DrawnField,
    part: Part,
    labels: &mut Labels,
) -> Option<Tag> {
    let points: Vec<Pos2> = part.points(view.session.draft.file()).into_iter().map(|at| lens.screen(at)).collect();
    let extent = Rect::from_points(&points);
    if points.is_empty() || !extent.expand(1.0).intersects(lens.rect) {
        return None;
    }
    let text = said(view, drawn, part);
    let galley = ui.painter().layout(text, FontId::new(14.0, bold()), view.palette.ink, WIDEST);
    let size = galley.size() + MARGIN * 2.0;
    let inside = drawn.anchors.iter().find(|(anchored, _)| *anchored == part).map(|(_, at)| lens.screen(*at));
    let room = lens.rect.shrink(24.0);
    let rect = match inside {
        Some(at) if room.contains(at) => {
            let middle = Rect::from_center_size(at, size);
            if extent.contains_rect(middle) {
                labels.seat(at, size)
            } else {
                labels.place(Rect::from_center_size(at, vec2(18.0, 18.0)), size, 4.0)
            }
        }
        Some(at) => labels.seat(nearest(room.shrink2(size / 2.0), at), size),
        None if points.len() == 1 && !lens.rect.contains(points[0]) => return None,
        None if points.len() == 1 => {
            let off = if goes_with_home(part, view) { vec2(30.0, -24.0) } else { Vec2::ZERO };
            labels.place(Rect::from_center_size(points[0] + off, vec2(20.0, 20.0)), size, 3.0)
        }
        None => {
            let at = highest_edge(&points, part, room);
            labels.place(Rect::from_center_size(at, vec2(4.0, 4.0)), size, 6.0)
        }
    };
    let anchor = match inside {
        Some(at) => at,
        None if points.len() == 1 => rect.center(),
        None => highest_edge(&points, part, room),
    };
    Some(Tag { part, rect, galley, anchor })
}

/// The middle of the edge furthest up on the screen, or as near to it as the screen goes.
fn highest_edge(points: &[Pos2], part: Part, room: Rect) -> Pos2 {
    let open = matches!(part, Part::FlightLine | Part::Runway);
    let count = points.len() - usize::from(open && points.len() > 1);
    let edges = (0..count).map(|at| points[at].lerp(points[(at + 1) % points.len()], 0.3));
    let middle = edges.min_by(|a, b| a.y.total_cmp(&b.y)).unwrap_or(points[0]);
    nearest(room, middle)
}

/// What stands there.
fn said(view: &View<'_>, drawn: &DrawnField, part: Part) -> String {
    let file = view.session.draft.file();
    let field = file.field.as_ref();
    match part {
        Part::Boundary => "boundary".into(),
        Part::BoundaryHole(_) => "hole: not ours".into(),
        Part::AreaHole(..) => "hole".into(),
        Part::Area(index) => drawn.field.areas.get(index).map(area_words).unwrap_or_default(),
        Part::Obstacle(index) => {
            let height = field.and_then(|field| field.obstacles.get(index)).map_or(0.0, |tall| tall.height.m());
            format!("{}, {} high", part.name(file), view.units().short(Measure::Height, height))
        }
        Part::FlightLine => "flight line".into(),
        Part::Runway => "runway".into(),
        Part::Circuit => "circuit".into(),
        Part::Pilot => "pilot".into(),
        Part::Home => "home".into(),
        Part::Centre if goes_with_home(part, view) => "centre, at home".into(),
        Part::Centre => "centre".into(),
        Part::Loss => format!("{} lost", words::loss(file.loss.kind)),
        Part::Spot(index) => {
            let height = field.and_then(|field| field.ground.get(index)).map_or(0.0, |spot| spot.height.m());
            format!("ground {}", view.units().short(Measure::Height, height))
        }
    }
}

/// Paints a name.
pub(super) fn draw(ui: &Ui, lens: &Lens, view: &View<'_>, tag: &Tag) {
    let painter = ui.painter_at(lens.rect);
    let nearest = nearest(tag.rect, tag.anchor);
    if nearest.distance(tag.anchor) > 14.0 {
        painter.line_segment([tag.anchor, nearest], Stroke::new(1.0, view.palette.ink));
    }
    plate(&painter, view.palette, tag.rect);
    painter.galley(tag.rect.min + MARGIN, Arc::clone(&tag.galley), view.palette.ink);
    if view.session.field_board.chosen.is_some_and(|chosen| chosen.part == tag.part) {
        painter.rect_stroke(tag.rect, 3.0, (2.0, view.palette.focus), StrokeKind::Outside);
    }
}

/// Takes what is done with the name of a ring or a line; returns whether the part is being moved by it.
pub(super) fn show(ui: &Ui, lens: &Lens, view: &View<'_>, tag: &Tag, out: &mut Vec<AppCommand>) -> bool {
    let part = tag.part;
    let file = view.session.draft.file();
    let room = tag.rect.expand2(vec2(2.0, ((32.0 - tag.rect.height()) / 2.0).max(0.0)));
    let response = ui.interact(room, Id::new(("name of a part", part)), Sense::click_and_drag());
    let response = response.on_hover_cursor(CursorIcon::Move);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, part.name(file)));
    let chosen = Some(Chosen { part, corner: None });
    let taken = response.clicked() || response.drag_started() || response.gained_focus();
    if taken && view.session.field_board.chosen != chosen {
        ask(out, FieldCommand::Choose(chosen));
    }
    if response.clicked() {
        response.request_focus();
    }
    let moving = drag(ui, lens, view, part, &response, out);
    if let Some(by) = nudge(ui, view, &response)
        && let Some(&from) = part.points(file).first()
    {
        ask(out, FieldCommand::MovePart { part, to: from + by });
    }
    if response.lost_focus() {
        ask(out, FieldCommand::LetGo);
    }
    draw(ui, lens, view, tag);
    if response.has_focus() {
        let painter = ui.painter_at(lens.rect);
        painter.rect_stroke(tag.rect.expand(3.0), 4.0, (3.0, view.palette.focus), StrokeKind::Outside);
    }
    moving
}

/// A drag of a name, or of the map with what is chosen in hand, moves the whole part.
pub(super) fn drag(
    ui: &Ui,
    lens: &Lens,
    view: &View<'_>,
    part: Part,
    response: &Response,
    out: &mut Vec<AppCommand>,
) -> bool {
    let first = part.points(view.session.draft.file()).first().copied();
    if let (true, Some(pointer), Some(first)) = (response.drag_started(), response.interact_pointer_pos(), first) {
        held::hold(ui, Some(first - lens.ground(pointer)));
    }
    if let (true, Some(pointer), Some(off)) = (response.dragged(), response.interact_pointer_pos(), held::held(ui)) {
        let (to, _) = super::aim::cling(ui, lens, view, lens.ground(pointer) + off, Some((part, None)));
        ask(out, FieldCommand::MovePart { part, to });
        return true;
    }
    if response.drag_stopped() {
        held::hold(ui, None);
        ask(out, FieldCommand::LetGo);
    }
    false
}
