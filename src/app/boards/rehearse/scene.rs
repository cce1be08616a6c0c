//! What is looked at: the picture in the goggles, what is seen by eye, or the field from above; live, or as it was.

use bevy_egui::egui::{Align2, CursorIcon, FontId, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::above;
use crate::app::look::lens::Lens;
use crate::app::session::sticks::{StickCommand, Way};
use crate::app::session::{AppCommand, Gaze, Going, RehearseCommand, RehearseView, View};
use crate::app::widgets::sight::{Dark, Looking, Scene, direction, forward, stand};
use crate::jet::State;
use crate::rehearsal::{Deed, Rehearsal, Sight, Stage};
use crate::run::Trace;

/// How long a picture snows or stands still before it is dark, seconds.
const GOES_S: f64 = 1.6;
/// Side of the square that the mouse is a stick in, points.
const PAD: f32 = 150.0;

/// What is drawn: a flight, where its jet is, and when that is.
struct Shown<'a> {
    flown: &'a Rehearsal,
    state: State<f64>,
    at_s: f64,
    live: bool,
}

/// Whether the map is what is seen.
pub(super) fn is_from_above(view: &View<'_>) -> bool {
    let rehearse = &view.session.rehearse;
    rehearse.view == RehearseView::Above || (rehearse.flying.is_none() && rehearse.last.is_none())
}

/// Shows it and returns the lens of the map.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let rehearse = &view.session.rehearse;
    let shown = match (&rehearse.flying, &rehearse.last) {
        (Some(flown), _) => {
            let share = view.session.rehearsal_share();
            let at_s = (flown.time_s() + (share - 1.0) * flown.step_s()).max(0.0);
            Some(Shown { state: flown.between(share), flown, at_s, live: true })
        }
        (None, Some(last)) => {
            Some(Shown { state: state_at(&last.flown, last.at_s), flown: &last.flown, at_s: last.at_s, live: false })
        }
        (None, None) => None,
    };
    let Some(shown) = shown else { return above::show(ui, view, None, out) };
    let lens = if rehearse.view == RehearseView::Above {
        let path = (shown.flown.trace(), &shown.state, shown.at_s);
        above::show(ui, view, Some(path), out)
    } else {
        picture(ui, view, &shown, out)
    };
    if shown.live && rehearse.desk.way == Way::Mouse {
        pad(ui, view, &lens, out);
    }
    if let Some(why) = &rehearse.paused {
        let words = format!("{why} Escape goes on.");
        let painter = ui.painter_at(lens.rect);
        let at = lens.rect.center();
        let galley = painter.layout_no_wrap(words, FontId::proportional(22.0), view.palette.ink);
        let room = bevy_egui::egui::Rect::from_center_size(at, galley.size() + vec2(28.0, 18.0));
        painter.rect_filled(room, 6.0, view.palette.paper);
        painter.rect_stroke(room, 6.0, Stroke::new(2.0, view.palette.ink), StrokeKind::Inside);
        painter.galley(room.center() - galley.size() / 2.0, galley, view.palette.ink);
    }
    lens
}

fn picture(ui: &mut Ui, view: &View<'_>, shown: &Shown<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let rehearse = &view.session.rehearse;
    let rect = ui.available_rect_before_wrap();
    let painter = ui.painter_at(rect);
    let scene = Scene { time_s: shown.at_s, ..Scene::of(shown.flown, &shown.state, view.palette, view.units()) };
    let off = shown.flown.stages().at(Stage::GogglesOff).map(|step| shown.flown.trace().time_s(step));
    let goggles_on = rehearse.view == RehearseView::Pilot && off.is_none_or(|off| off > shown.at_s);
    if goggles_on {
        let since = shown.flown.lost_at().map(|step| shown.at_s - shown.flown.trace().time_s(step));
        let dark = since.filter(|since| *since >= 0.0).is_some_and(|since| !shown.flown.had_video(since));
        let frozen = shown.flown.lost_at().map(|step| state_at(shown.flown, shown.flown.trace().time_s(step)));
        let practice = &view.session.settings.practice;
        let going = since.is_some_and(|since| since < GOES_S);
        let dark = match (dark, going, practice.going, &frozen) {
            (false, ..) => Dark::None,
            (true, true, Going::Snow, _) => Dark::Snow { seed: shown.flown.exercise().trial, still: practice.still },
            (true, true, Going::Frozen, Some(state)) => {
                Dark::Frozen { state, at_s: shown.at_s - since.unwrap_or_default() }
            }
            _ => Dark::Black("no picture"),
        };
        forward(&painter, rect, &scene, dark);
        ui.interact(rect, ui.id().with("goggles"), Sense::hover())
            .widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, "the picture in the goggles"));
        return Lens::new(view.session.look, rect);
    }
    let gaze = if shown.live { rehearse.gaze } else { after(shown, rehearse.gaze) };
    let looking =
        Looking { bearing_deg: gaze.bearing_deg, elevation_deg: gaze.elevation_deg, width_deg: gaze.width_deg };
    stand(&painter, rect, &scene, looking);
    let seen = ui.interact(rect, ui.id().with("eye"), Sense::click_and_drag());
    seen.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, "what the pilot sees from the pilot position"));
    if !shown.live {
        return Lens::new(view.session.look, rect);
    }
    let searching = shown.flown.lost_at().is_some() && shown.flown.stages().at(Stage::Found).is_none();
    if searching && seen.hovered() {
        ui.ctx().set_cursor_icon(CursorIcon::PointingHand);
    }
    let mut ask = |command| out.push(AppCommand::Rehearse(command));
    if seen.clicked()
        && let Some(at) = seen.interact_pointer_pos()
    {
        let [bearing_deg, elevation_deg] = direction(rect, looking, at);
        ask(RehearseCommand::Do(Deed::Point { bearing_deg, elevation_deg }));
    }
    let drag = seen.drag_delta();
    let wheel = if seen.hovered() { ui.input(|input| input.smooth_scroll_delta().y) } else { 0.0 };
    if drag != vec2(0.0, 0.0) || wheel != 0.0 {
        let a_point = gaze.width_deg / f64::from(rect.width().max(1.0));
        ask(RehearseCommand::Look(Gaze {
            bearing_deg: gaze.bearing_deg - f64::from(drag.x) * a_point,
            elevation_deg: gaze.elevation_deg + f64::from(drag.y) * a_point,
            width_deg: gaze.width_deg * f64::from(-wheel / 400.0).exp(),
        }));
    }
    Lens::new(view.session.look, rect)
}

/// In the replay the eye is on the jet.
fn after(shown: &Shown<'_>, gaze: Gaze) -> Gaze {
    let eyes = crate::margins::eyes(shown.flown.scenario());
    let sight = Sight::of(eyes, glam::DVec3::new(shown.state.x, shown.state.y, shown.state.height));
    Gaze { bearing_deg: sight.bearing.deg(), elevation_deg: sight.elevation_deg, ..gaze }
}

/// The square in which the mouse is a stick: its middle is the stick's middle.
fn pad(ui: &Ui, view: &View<'_>, lens: &Lens, out: &mut Vec<AppCommand>) {
    let corner = lens.rect.left_bottom() + vec2(14.0, -14.0);
    let room = bevy_egui::egui::Rect::from_min_max(pos2(corner.x, corner.y - PAD), pos2(corner.x + PAD, corner.y));
    let painter = ui.painter_at(lens.rect);
    painter.rect_filled(room, 4.0, view.palette.paper.gamma_multiply(0.7));
    painter.rect_stroke(room, 4.0, Stroke::new(1.5, view.palette.ink), StrokeKind::Inside);
    painter.line_segment([room.center_top(), room.center_bottom()], Stroke::new(1.0, view.palette.soft));
    painter.line_segment([room.left_center(), room.right_center()], Stroke::new(1.0, view.palette.soft));
    let sticks = view.session.rehearse.desk.now();
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let knob = room.center() + vec2(sticks.roll_share as f32, sticks.pitch_share as f32) * PAD / 2.0;
    painter.circle_filled(knob, 6.0, view.palette.ink);
    let font = FontId::proportional(13.0);
    painter.text(room.center_top() + vec2(0.0, 4.0), Align2::CENTER_TOP, "nose down", font.clone(), view.palette.ink);
    painter.text(room.center_bottom() - vec2(0.0, 4.0), Align2::CENTER_BOTTOM, "nose up", font, view.palette.ink);
    let at = ui.input(|input| input.pointer.hover_pos()).filter(|at| room.expand(PAD / 2.0).contains(*at));
    let mouse = at.map(|at| {
        let off = (at - room.center()) / (PAD / 2.0);
        [f64::from(off.x).clamp(-1.0, 1.0), f64::from(off.y).clamp(-1.0, 1.0)]
    });
    out.push(AppCommand::Rehearse(RehearseCommand::Sticks(StickCommand::Mouse(mouse))));
}

/// Where the jet was at a moment of a flight.
pub(super) fn state_at(flown: &Rehearsal, at_s: f64) -> State<f64> {
    let trace = flown.trace();
    if trace.is_empty() {
        return *flown.state();
    }
    let at = at_s / trace.step_s;
    let part = |list: &[f64]| Trace::between(list, at);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the trace")]
    let index = (at.max(0.0) as usize).min(trace.len().saturating_sub(2));
    let next = (index + 1).min(trace.len() - 1);
    let rises = (trace.height_m[next] - trace.height_m[index]) / trace.step_s;
    let airspeed = part(&trace.airspeed_mps);
    let place = trace.point_between(at);
    State {
        x: place.x,
        y: place.y,
        height: part(&trace.height_m),
        airspeed,
        nose_x: part(&trace.nose_x),
        nose_y: part(&trace.nose_y),
        climb: (rises / airspeed.max(1.0)).clamp(-1.0, 1.0).asin(),
        bank: part(&trace.bank_rad),
        energy: part(&trace.energy_j),
        ..*flown.state()
    }
}
