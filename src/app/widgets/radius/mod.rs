//! The usable radii on a ruler over the curve of furthest distance from the centre, which share their radii; a press
//! sets the plan's radius.

mod curve;
mod ruler;

use bevy_egui::egui::{
    EventFilter, Id, Key, Modifiers, Rect, Response, RichText, Sense, Ui, UiBuilder, WidgetInfo, WidgetType, pos2, vec2,
};

use crate::app::look::chart::{Axes, focus_ring, span};
use crate::app::look::theme::{PALE, bold};
use crate::app::session::{AppCommand, Knob, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::is_large;
use crate::draw::Scale;
use crate::study::radius::{RadiusAsk, RadiusPoint, RadiusStudy};
use crate::words::Measure;
use crate::words::help::Topic;

/// Room for digits on the left and below, and for a pointer's word above, points.
const LEFT: f32 = 46.0;
const LINE: f32 = 18.0;

/// Room for the title above and the key below, points.
const ROUND: f32 = 120.0;

/// Shows ruler, curve and the reading of a radius.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    show_in(ui, view, if is_large(ui) { 200.0 } else { 120.0 }, out);
}

/// How high the curve alone may be, so that all of it has room.
fn curve_high(view: &View<'_>, ui: &Ui, all: f32) -> f32 {
    let study = view.session.answers.radius.as_ref().map(|answer| &*answer.found);
    let ruler = ruler::height(&ruler::rows(view, study, is_large(ui)));
    (all - ruler - 4.0 * LINE - ROUND).max(120.0)
}

/// Shows the same in a room so high.
pub fn show_high(ui: &mut Ui, view: &View<'_>, high: f32, out: &mut Vec<AppCommand>) {
    show_in(ui, view, curve_high(view, ui, high), out);
}

/// Shows the same with a curve so high.
fn show_in(ui: &mut Ui, view: &View<'_>, curve_high: f32, out: &mut Vec<AppCommand>) {
    let answer = view.session.answers.radius.as_ref();
    let study = answer.map(|answer| &*answer.found);
    title(ui, view, out);
    let rows = ruler::rows(view, study, is_large(ui));
    let high = LINE + ruler::height(&rows) + LINE + curve_high + LINE;
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::hover());
    let left = rect.left() + LEFT;
    let ruled =
        Rect::from_min_size(pos2(left, rect.top() + LINE), vec2(rect.right() - left - 8.0, ruler::height(&rows)));
    let plot = Rect::from_min_max(pos2(left, ruled.bottom() + LINE), pos2(ruled.right(), rect.bottom() - LINE));
    let axes = Axes { rect: plot, x: radii(view, study), y: curve::heights(view, study) };
    let active = Rect::from_min_max(ruled.min, plot.max);
    let response = ui.interact(active, Id::new("curve of the circle"), Sense::click_and_drag());
    let words = "furthest distance from the centre by commanded radius";
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Slider, true, words));
    ui.scope(|ui| {
        if answer.is_some_and(|answer| view.is_stale(answer)) {
            ui.multiply_opacity(PALE);
        }
        axes.draw(ui.painter(), view.palette);
        if let Some(study) = study {
            curve::draw(ui.painter(), view, study, &axes);
            ruler::draw(ui.painter(), view, study, &axes, ruled, &rows);
        }
    });
    curve::draw_plan(ui.painter(), view, &axes, active);
    focus_ring(ui, view.palette, &response, active.expand(2.0));
    turn(ui, view, &axes, &response, out);
    curve::key(ui, view, study);
    reading(ui, view, study, &axes, &response);
}

fn title(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let turn = crate::words::turn(view.session.draft.file().recovery.turn);
        ui.label(RichText::new(format!("Which radii hold, {turn}")).family(bold()));
        mark(ui, Topic::UsableRadii, out);
        mark(ui, Topic::UCurve, out);
    });
}

/// The scale of the radii: those flown, and the plan's.
fn radii(view: &View<'_>, study: Option<&RadiusStudy>) -> Scale {
    let usual = RadiusAsk::usual();
    let ask = study.map_or(&usual, |study| &study.ask);
    let plan = view.session.draft.file().recovery.radius.m();
    let low = ask.radii_m.first().copied().unwrap_or(plan).min(plan);
    let high = ask.radii_m.last().copied().unwrap_or(plan).max(plan);
    let shown = |metres: f64| view.units().first(Measure::Distance, metres);
    span(shown(low - 4.0), shown(high + 4.0), 8)
}

/// Sets the radius where it is pressed or dragged to, and by the arrows while it has the keyboard.
fn turn(ui: &Ui, view: &View<'_>, axes: &Axes, response: &Response, out: &mut Vec<AppCommand>) {
    let to_si = |shown: f64| view.units().to_si(Measure::Distance, shown);
    if let Some(at) = response.interact_pointer_pos().filter(|_| response.dragged() || response.clicked()) {
        out.push(AppCommand::Turn(Knob::Radius, to_si(axes.value_at(at).round())));
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
fn reading(ui: &mut Ui, view: &View<'_>, study: Option<&RadiusStudy>, axes: &Axes, response: &Response) {
    let plan = &view.session.draft.file().recovery;
    let hovered = response.hover_pos().map(|at| view.units().to_si(Measure::Distance, axes.value_at(at)));
    let radius = hovered.unwrap_or(plan.radius.m());
    let points = study.into_iter().flat_map(|study| &study.points).filter(|point| point.turn == plan.turn);
    let nearest = points.min_by(|a, b| (a.radius_m - radius).abs().total_cmp(&(b.radius_m - radius).abs()));
    let words = match (study, nearest) {
        (Some(_), Some(point)) => read(view, point),
        _ => "No radius flown yet.".into(),
    };
    // The room is kept, so that nothing below moves while the pointer does.
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::hover());
    let words = RichText::new(words).size(14.0).color(view.palette.ink);
    ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| ui.label(words));
}

/// In few words, since they stand on one line.
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
