//! The chart of the radius that the prints have, with the plan's own radius on it: a press sets it.

mod plan;

use bevy_egui::egui::{
    EventFilter, Id, Key, Modifiers, Pos2, Response, RichText, Sense, Ui, UiBuilder, WidgetInfo, WidgetType, vec2,
};
use glam::DVec2;

use crate::app::look::chart::focus_ring;
use crate::app::look::sheet::{Laid, POINTS_A_MM};
use crate::app::look::theme::{PALE, bold};
use crate::app::session::{AppCommand, Knob, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::is_large;
use crate::draw::Frame;
use crate::recovery::Turn;
use crate::report::picture::{PictureUnit, RadiusChart};
use crate::study::radius::{RadiusPoint, RadiusStudy};
use crate::words::Measure;
use crate::words::help::Topic;

/// Room for the word of the plan's pointer, and for a line of words, points.
const LINE: f32 = 18.0;
/// Room for the title above and the reading below, points.
const ROUND: f32 = 70.0;
/// Below this width the reading takes two lines, points.
const NARROW: f32 = 400.0;
/// The least height of the curve alone, points.
const LEAST: f32 = 120.0;

/// Shows ruler, curve and the reading of a radius.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let high = if is_large(ui) { 200.0 } else { LEAST };
    show_in(ui, view, |besides| besides + high, out);
}

/// Shows the same in a room so high.
pub fn show_high(ui: &mut Ui, view: &View<'_>, high: f32, out: &mut Vec<AppCommand>) {
    show_in(ui, view, |besides| (high - ROUND).max(besides + LEAST), out);
}

/// Shows the same, so high as is said to what all but the curve takes.
#[allow(clippy::cast_possible_truncation, reason = "points of the screen need no more than f32")]
fn show_in(ui: &mut Ui, view: &View<'_>, high: impl Fn(f32) -> f32, out: &mut Vec<AppCommand>) {
    let answer = view.session.answers.radius.as_ref();
    title(ui, view, out);
    let plan = &view.session.draft.file().recovery;
    let other = if plan.turn == Turn::Clockwise { Turn::Anticlockwise } else { Turn::Clockwise };
    let turns = [plan.turn, other];
    let chart = RadiusChart {
        study: answer.map(|answer| &*answer.found),
        turns: &turns[..1],
        ruled: if is_large(ui) { &turns } else { &turns[..1] },
        unit: PictureUnit::first(view.units(), Measure::Distance),
        shown_m: Some(plan.radius.m()),
    };
    let mm = |points: f32| f64::from(points / POINTS_A_MM);
    let wide = ui.available_width();
    let key = chart.key_mm(mm(wide)) as f32 * POINTS_A_MM;
    let high = high(LINE + chart.besides_mm() as f32 * POINTS_A_MM + key);
    let (rect, _) = ui.allocate_exact_size(vec2(wide, high), Sense::hover());
    let laid = Laid { rect };
    let (mut sheet, whole) = (laid.sheet(), laid.frame());
    let top = whole.low + DVec2::new(0.0, mm(LINE));
    let foot = whole.high.y - mm(key);
    let axes = chart.draw(&mut sheet, Frame { low: top, high: DVec2::new(whole.high.x, foot) });
    chart.key(&mut sheet, Frame { low: DVec2::new(0.0, foot), high: whole.high });
    let low = DVec2::new(axes.frame.low.x, top.y);
    let active = laid.part(Frame { low, high: axes.frame.high });
    let response = ui.interact(active, Id::new("curve of the circle"), Sense::click_and_drag());
    let words = "furthest distance from the centre by commanded radius";
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Slider, true, words));
    ui.scope(|ui| {
        if answer.is_some_and(|answer| view.is_stale(answer)) {
            ui.multiply_opacity(PALE);
        }
        laid.paint(ui.painter(), view.palette, &sheet);
    });
    plan::draw(ui, view, &laid, &axes, chart.unit, active);
    focus_ring(ui, view.palette, &response, active.expand(2.0));
    let shown_at = |at| axes.x_at(laid.mm(at));
    turn(ui, view, shown_at, &response, out);
    reading(ui, view, chart.study, shown_at, &response);
}

fn title(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let turn = crate::words::turn(view.session.draft.file().recovery.turn);
        ui.label(RichText::new(format!("Which radii hold, {turn}")).family(bold()));
        mark(ui, Topic::UsableRadii, out);
        mark(ui, Topic::UCurve, out);
    });
}

/// Sets the radius where it is pressed or dragged to, and by the arrows while it has the keyboard.
fn turn(ui: &Ui, view: &View<'_>, shown_at: impl Fn(Pos2) -> f64, response: &Response, out: &mut Vec<AppCommand>) {
    let to_si = |shown: f64| view.units().to_si(Measure::Distance, shown);
    if let Some(at) = response.interact_pointer_pos().filter(|_| response.dragged() || response.clicked()) {
        out.push(AppCommand::Turn(Knob::Radius, to_si(shown_at(at).round())));
    }
    if response.drag_stopped() || response.clicked() || response.lost_focus() {
        out.push(AppCommand::Settle);
    }
    if response.clicked() {
        response.request_focus();
    }
    if !response.has_focus() {
        return;
    }
    let arrows = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    let now = view.units().first(Measure::Distance, view.session.draft.file().recovery.radius.m());
    for (key, way) in [(Key::ArrowLeft, -1.0), (Key::ArrowRight, 1.0)] {
        for (held, step) in [(Modifiers::SHIFT, 10.0), (Modifiers::NONE, 1.0)] {
            if ui.input_mut(|input| input.consume_key(held, key)) {
                out.push(AppCommand::Turn(Knob::Radius, to_si((now + way * step).round())));
            }
        }
    }
}

/// What is known of the radius under the pointer; of the plan's where there is none.
fn reading(
    ui: &mut Ui,
    view: &View<'_>,
    study: Option<&RadiusStudy>,
    shown_at: impl Fn(Pos2) -> f64,
    response: &Response,
) {
    let plan = &view.session.draft.file().recovery;
    let hovered = response.hover_pos().map(|at| view.units().to_si(Measure::Distance, shown_at(at)));
    let radius = hovered.unwrap_or(plan.radius.m());
    let points = study.into_iter().flat_map(|study| &study.points).filter(|point| point.turn == plan.turn);
    let nearest = points.min_by(|a, b| (a.radius_m - radius).abs().total_cmp(&(b.radius_m - radius).abs()));
    let words = match (study, nearest) {
        (Some(_), Some(point)) => read(view, point),
        _ => "No radius flown yet.".into(),
    };
    // The room is kept, so that nothing below moves while the pointer does.
    let lines = if ui.available_width() < NARROW { 2.0 } else { 1.0 };
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), lines * LINE), Sense::hover());
    let words = RichText::new(words).size(14.0).color(view.palette.ink);
    ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| ui.label(words));
}

/// In few words, since they stand on a line or two.
fn read(view: &View<'_>, point: &RadiusPoint) -> String {
    let furthest = |metres_out: Option<f64>| metres_out.map_or_else(|| "no lap".into(), |out| view.metres(out));
    let mut words = format!(
        "{}: out to {}, gust {}",
        view.metres(point.radius_m),
        furthest(point.mean.furthest_m),
        furthest(point.gust.furthest_m)
    );
    if let Some(verdict) = point.verdict {
        let (inside, kept, of) = (verdict.crossed.others().count, verdict.kept.count, verdict.trials);
        words += &format!("; {}, inside {inside}, buffers {kept} of {of}", verdict.answer.name());
    }
    words + "."
}
