//! A grip on the map: something that can be dragged, or moved with the arrows while it has the keyboard.

use bevy_egui::egui::{
    Align2, Event, EventFilter, FontId, Id, Key, Pos2, Rect, Response, Sense, Stroke, Ui, Vec2, WidgetInfo, WidgetType,
    vec2,
};
use glam::DVec2;

use crate::app::look::labels::plate;
use crate::app::look::lens::Lens;
use crate::app::look::theme::{TEXT, bold};
use crate::app::session::View;

/// Least size of what takes the pointer, points.
pub(super) const SIZE: f32 = 34.0;
/// Ten times as far with the shift key.
const FAR: f64 = 10.0;

/// A grip as it stands this frame.
pub(super) struct Grip {
    pub(super) response: Response,
    id: Id,
}

impl Grip {
    /// A grip at a place of the screen. Its label is what it moves.
    pub(super) fn at(ui: &Ui, at: Pos2, label: &str) -> Self {
        let id = Id::new(("grip", label));
        let response = ui.interact(Rect::from_center_size(at, Vec2::splat(SIZE)), id, Sense::drag());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Slider, true, label));
        Self { response, id }
    }

    /// Whether words are to stand at it.
    pub(super) fn is_used(&self) -> bool {
        self.response.dragged() || self.response.has_focus() || self.response.hovered()
    }

    /// Where the pointer drags a thing that stood at `now` when the drag began, in the units of `now`; none while
    /// nobody drags. What was grabbed beside the middle stays beside it.
    pub(super) fn dragged(&self, ui: &Ui, now: DVec2, place: impl Fn(Pos2) -> DVec2) -> Option<DVec2> {
        let pointer = place(self.response.interact_pointer_pos()?);
        if self.response.drag_started() {
            ui.data_mut(|data| data.insert_temp(self.id, now - pointer));
            return None;
        }
        let moved = self.response.drag_delta() != Vec2::ZERO;
        let beside: DVec2 = ui.data(|data| data.get_temp(self.id)).unwrap_or_default();
        (self.response.dragged() && moved).then(|| pointer + beside)
    }

    /// How the arrows move it: x to the right, y up; none where none is pressed or it has not the keyboard.
    pub(super) fn arrows(&self, ui: &Ui) -> Option<DVec2> {
        if !self.response.has_focus() {
            return None;
        }
        let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(self.id, filter));
        let mut moved = DVec2::ZERO;
        ui.input(|input| {
            for event in &input.events {
                if let Event::Key { key, pressed: true, modifiers, .. } = event {
                    moved += way(*key) * if modifiers.shift { FAR } else { 1.0 };
                }
            }
        });
        (moved != DVec2::ZERO).then_some(moved)
    }

    /// Whether a drag has just come to an end, or the keyboard has gone elsewhere.
    pub(super) fn let_go(&self) -> bool {
        self.response.drag_stopped() || self.response.lost_focus()
    }

    /// The ring that shows that it can be taken, heavier while it is.
    pub(super) fn ring(&self, ui: &Ui, view: &View<'_>, at: Pos2, radius: f32) {
        let palette = view.palette;
        let strong = self.is_used();
        let width = if strong { 3.5 } else { 2.0 };
        ui.painter().circle_stroke(at, radius, Stroke::new(width + 3.0, palette.paper));
        ui.painter().circle_stroke(at, radius, Stroke::new(width, palette.focus));
    }
}

const fn way(key: Key) -> DVec2 {
    match key {
        Key::ArrowLeft => DVec2::NEG_X,
        Key::ArrowRight => DVec2::X,
        Key::ArrowUp => DVec2::Y,
        Key::ArrowDown => DVec2::NEG_Y,
        _ => DVec2::ZERO,
    }
}

/// Words beside a grip, on a ground of their own and inside the map.
pub(super) fn say(ui: &Ui, view: &View<'_>, lens: &Lens, at: Pos2, words: &str) {
    let painter = ui.painter_at(lens.rect);
    let galley = painter.layout_no_wrap(words.to_owned(), FontId::new(TEXT, bold()), view.palette.ink);
    let size = galley.size() + vec2(12.0, 6.0);
    let mut rect = Align2::LEFT_BOTTOM.anchor_size(at + vec2(20.0, -14.0), size);
    let room = lens.rect.shrink(4.0);
    let right = (rect.right() - room.right()).max(0.0);
    let low = (room.top() - rect.top()).max(0.0);
    rect = rect.translate(vec2(-right, low));
    plate(&painter, view.palette, rect);
    painter.rect_stroke(rect, 3.0, Stroke::new(2.0, view.palette.focus), bevy_egui::egui::StrokeKind::Inside);
    painter.galley(rect.min + vec2(6.0, 3.0), galley, view.palette.ink);
}
