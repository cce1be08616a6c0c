//! Bank, load, speed over the ground and stall margin round the lap, by the bearing of the jet from the centre.

use bevy_egui::egui::{
    Align2, EventFilter, Id, Key, Modifiers, Painter, Pos2, Rect, Response, RichText, Sense, Stroke, Ui, UiBuilder,
    WidgetInfo, WidgetType, pos2, vec2,
};

use crate::app::look::chart::{Axes, focus_ring, letters, line, plate, span};
use crate::app::look::pens::{LIMIT_BAND, pen_line};
use crate::app::look::theme::{Pen, bold};
use crate::app::look::words::number;
use crate::app::session::{AppCommand, Flown, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::is_large;
use crate::margins::Lap;
use crate::run::Trace;
use crate::units::Bearing;
use crate::words::Measure;
use crate::words::help::Topic;

/// Room for digits on the left, points.
const LEFT: f32 = 46.0;
const LINE: f32 = 18.0;
const NEEDED: &[f32] = &[7.0, 4.0];

/// Shows the view.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("Round the lap, by the bearing from the centre").family(bold()));
        mark(ui, Topic::MaximumBank, out);
        mark(ui, Topic::StallMargin, out);
    });
    let Some(flown) = &view.session.flown else { return };
    if !view.session.is_current() {
        ui.label(RichText::new("[of the last field that could be flown]").family(bold()));
    }
    match &flown.lap {
        Some(lap) => charts(ui, view, flown, lap),
        None => {
            ui.label("This flight has no whole lap on the circle, so there is nothing to show round it.");
        }
    }
}

/// One quantity round the lap.
struct Strip<'a> {
    name: String,
    values: Vec<f64>,
    /// A dashed line beside it, by bearing.
    beside: Option<(&'a str, Vec<f64>)>,
    /// A level line with its name.
    level: Option<(f64, String)>,
    pen: Pen,
}

fn strips<'a>(view: &View<'_>, flown: &Flown, lap: &Lap) -> [Strip<'a>; 4] {
    let (palette, units) = (view.palette, view.units());
    let speed = |values: &[f64]| values.iter().map(|mps| units.first(Measure::Speed, *mps)).collect();
    let unit = &units.of(Measure::Speed).first;
    let limit = flown.run.drawn.jet.maximum_bank.to_degrees();
    // A bank that can't be flown at all would make every other small.
    let needed = lap.needed_bank_deg.iter().map(|deg| deg.min(limit * 1.6)).collect();
    [
        Strip {
            name: "bank, \u{b0}".into(),
            values: lap.bank_deg.clone(),
            beside: Some(("needed to hold the circle", needed)),
            level: Some((limit, format!("limit {}\u{b0}", number(limit)))),
            pen: palette.mean(),
        },
        Strip {
            name: "load, times weight".into(),
            values: lap.load.clone(),
            beside: None,
            level: None,
            pen: Pen { colour: palette.ink, width: 2.5, dash: &[] },
        },
        Strip {
            name: format!("over the ground, {unit}"),
            values: speed(&lap.ground_speed_mps),
            beside: Some(("airspeed", speed(&lap.airspeed_mps))),
            level: None,
            pen: Pen { colour: palette.met(), width: 3.0, dash: &[] },
        },
        Strip {
            name: format!("over the least airspeed asked for, {unit}"),
            values: speed(&lap.stall_margin_mps),
            beside: None,
            level: Some((0.0, "stall factor met above".into())),
            pen: Pen { colour: palette.trials().colour, width: 3.0, dash: &[] },
        },
    ]
}

fn charts(ui: &mut Ui, view: &View<'_>, flown: &Flown, lap: &Lap) {
    let each = if is_large(ui) { 84.0 } else { 62.0 };
    let strips = strips(view, flown, lap);
    #[allow(clippy::cast_precision_loss, reason = "four strips")]
    let high = strips.len() as f32 * (each + LINE) + LINE;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::click());
    response
        .widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, "bank, load, speed and stall margin by bearing"));
    let painter = ui.painter().clone();
    let mut top = rect.top();
    let mut last = None;
    for strip in &strips {
        letters(&painter, view.palette, pos2(rect.left(), top), Align2::LEFT_TOP, &strip.name);
        if let Some((name, _)) = &strip.beside {
            beside_name(&painter, view, pos2(rect.right() - 8.0, top + LINE / 2.0), name);
        }
        let room =
            Rect::from_min_max(pos2(rect.left() + LEFT, top + LINE), pos2(rect.right() - 8.0, top + LINE + each - 4.0));
        let axes = Axes { rect: room, x: span(0.0, 360.0, 4), y: heights(strip) };
        draw(&painter, view, lap, strip, &axes);
        top += each + LINE;
        last = Some(axes);
    }
    let Some(axes) = last else { return };
    compass(&painter, view, &axes);
    let whole = Rect::from_min_max(pos2(axes.rect.left(), rect.top() + LINE), axes.rect.max);
    let here = bearing_now(view, flown);
    let looked = looked_at(ui, lap, &axes, &response);
    for (deg, width) in here.map(|deg| (deg, 1.5)).into_iter().chain(looked.map(|index| (lap.at_deg[index], 2.5))) {
        painter.vline(axes.x(deg), whole.y_range(), Stroke::new(width, view.palette.focus));
    }
    focus_ring(ui, view.palette, &response, rect);
    reading(ui, view, lap, looked, here);
}

/// The scale that holds everything of a strip.
fn heights(strip: &Strip<'_>) -> crate::draw::Scale {
    let beside = strip.beside.iter().flat_map(|(_, values)| values.iter().copied());
    let all = strip.values.iter().copied().chain(beside).chain(strip.level.iter().map(|(value, _)| *value));
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
    let rim = ((high - low) * 0.12).max(0.05);
    span(low - rim, high + rim, 3)
}

/// The name of a dashed line with a sample of it, at the right.
fn beside_name(painter: &Painter, view: &View<'_>, at: Pos2, name: &str) {
    let pen = Pen { colour: view.palette.ink, width: 2.0, dash: NEEDED };
    let rect = letters(painter, view.palette, at, Align2::RIGHT_CENTER, name);
    line(painter, pos2(rect.left() - 36.0, at.y), pos2(rect.left() - 6.0, at.y), pen);
}

fn draw(painter: &Painter, view: &View<'_>, lap: &Lap, strip: &Strip<'_>, axes: &Axes) {
    let palette = view.palette;
    painter.rect_filled(axes.rect, 0.0, palette.paper);
    saturated(painter, lap, axes);
    for value in axes.y.ticks() {
        painter.hline(axes.rect.x_range(), axes.y(value), Stroke::new(1.0, palette.grid));
        let at = pos2(axes.rect.left() - 5.0, axes.y(value));
        letters(painter, palette, at, Align2::RIGHT_CENTER, &axes.y.tick(value));
    }
    for quarter in [90.0, 180.0, 270.0] {
        painter.vline(axes.x(quarter), axes.rect.y_range(), Stroke::new(1.0, palette.grid));
    }
    painter.rect_stroke(axes.rect, 0.0, Stroke::new(1.0, palette.rule), bevy_egui::egui::StrokeKind::Middle);
    let inside = painter.with_clip_rect(axes.rect.expand(1.0).intersect(painter.clip_rect()));
    let course = |values: &[f64]| -> Vec<Pos2> {
        // The lap ends on the bearing it began on.
        let ends = values.first().map(|first| (360.0, *first));
        let places = lap.at_deg.iter().copied().zip(values.iter().copied()).chain(ends);
        places.map(|(deg, value)| axes.at(deg, value)).collect()
    };
    if let Some((value, name)) = &strip.level {
        inside.hline(axes.rect.x_range(), axes.y(*value), Stroke::new(2.5, palette.hatch[0]));
        let at = pos2(axes.rect.left() + 5.0, axes.y(*value));
        let above = at.y - axes.rect.top() > LINE;
        let align = if above { Align2::LEFT_BOTTOM } else { Align2::LEFT_TOP };
        plate(&inside, palette, at, align, axes.rect, name);
    }
    if let Some((_, values)) = &strip.beside {
        pen_line(&inside, &course(values), Pen { colour: palette.ink, width: 2.0, dash: NEEDED });
    }
    pen_line(&inside, &course(&strip.values), strip.pen);
}

/// The part of the lap at the maximum bank, with rungs as on the map.
fn saturated(painter: &Painter, lap: &Lap, axes: &Axes) {
    let step = 360.0 / lap.at_deg.len().max(1) as f64;
    for (deg, _) in lap.at_deg.iter().zip(&lap.saturated).filter(|(_, at_limit)| **at_limit) {
        let [from, to] = [axes.x((deg - step / 2.0).max(0.0)), axes.x((deg + step / 2.0).min(360.0))];
        let band = Rect::from_x_y_ranges(from..=to, axes.rect.y_range());
        painter.rect_filled(band, 0.0, LIMIT_BAND.gamma_multiply(0.75));
        let foot = pos2(axes.x(*deg), axes.rect.bottom());
        painter.line_segment([foot, foot - vec2(0.0, 6.0)], Stroke::new(1.2, bevy_egui::egui::Color32::BLACK));
    }
}

fn compass(painter: &Painter, view: &View<'_>, axes: &Axes) {
    let points = [
        (0.0, "N"),
        (45.0, "NE"),
        (90.0, "E"),
        (135.0, "SE"),
        (180.0, "S"),
        (225.0, "SW"),
        (270.0, "W"),
        (315.0, "NW"),
        (360.0, "N"),
    ];
    for (deg, point) in points {
        let at = pos2(axes.x(deg), axes.rect.bottom() + 2.0);
        letters(painter, view.palette, at, Align2::CENTER_TOP, point);
    }
}

/// The bearing of the jet at the play head.
fn bearing_now(view: &View<'_>, flown: &Flown) -> Option<f64> {
    let trace: &Trace = &flown.run.trace;
    let away = (!trace.is_empty()).then(|| trace.point_between(flown.sample_at(view.session.playhead.at_s)))?;
    Some(Bearing::of(away - flown.scenario.field.centre).deg())
}

/// The bearing under the pointer, or walked to with the arrows.
fn looked_at(ui: &Ui, lap: &Lap, axes: &Axes, response: &Response) -> Option<usize> {
    let count = lap.at_deg.len();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a number of the list")]
    let index_of = |deg: f64| (deg / 360.0 * count as f64).round() as usize % count.max(1);
    if let Some(at) = response.hover_pos() {
        return Some(index_of(axes.value_at(at)));
    }
    if response.clicked() {
        response.request_focus();
    }
    if !response.has_focus() {
        return None;
    }
    let arrows = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    let id = Id::new("bearing of the lap");
    let mut index: usize = ui.data(|data| data.get_temp(id)).unwrap_or(0).min(count.saturating_sub(1));
    for (key, step) in [(Key::ArrowRight, 1), (Key::ArrowLeft, count.saturating_sub(1))] {
        if ui.input_mut(|input| input.consume_key(Modifiers::NONE, key)) {
            index = (index + step) % count.max(1);
        }
    }
    ui.data_mut(|data| data.insert_temp(id, index));
    Some(index)
}

/// The numbers at the bearing looked at; the worst of the lap where none is.
fn reading(ui: &mut Ui, view: &View<'_>, lap: &Lap, looked: Option<usize>, here: Option<f64>) {
    let speed = |mps: f64| view.units().short(Measure::Speed, mps);
    let words = match looked {
        Some(index) => {
            let deg = lap.at_deg[index];
            format!(
                "{} {deg:.0}\u{b0}: bank {} of {}\u{b0} needed, load {:.2}, {} over the ground, {} over the least airspeed, {} out.",
                Bearing::from_deg(deg).point(),
                number(lap.bank_deg[index]),
                number(lap.needed_bank_deg[index]),
                lap.load[index],
                speed(lap.ground_speed_mps[index]),
                speed(lap.stall_margin_mps[index]),
                view.metres(lap.distance_m[index])
            )
        }
        None => {
            let least = |values: &[f64]| values.iter().copied().fold(f64::INFINITY, f64::min);
            let most = |values: &[f64]| values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            let at_limit = lap.saturated.iter().filter(|is| **is).count();
            format!(
                "Load up to {:.2}, {} to {} over the ground, at least {} over the least airspeed, at the maximum bank on {at_limit} of {} bearings.{}",
                most(&lap.load),
                number(view.units().first(Measure::Speed, least(&lap.ground_speed_mps))),
                speed(most(&lap.ground_speed_mps)),
                speed(least(&lap.stall_margin_mps)),
                lap.at_deg.len(),
                here.map_or_else(String::new, |_| " The thin line is where the jet is now.".into())
            )
        }
    };
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 3.0 * LINE), Sense::hover());
    ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| ui.label(words));
}
