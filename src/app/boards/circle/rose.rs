//! The wind limit from every direction as a rose: how far a slice reaches is how much wind the circle holds from there.

use bevy_egui::egui::{
    Align2, Color32, EventFilter, FontId, Id, Key, Modifiers, Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui,
    WidgetInfo, WidgetType, vec2,
};

use crate::app::look::chart::{LETTERS, focus_ring, letters, mixed, width};
use crate::app::look::pens::pen_line;
use crate::app::look::theme::{Pen, bold};
use crate::app::session::View;
use crate::draw::Scale;
use crate::study::wind_limit::{Direction, WindLimitStudy};
use crate::units::Bearing;
use crate::words::Measure;

/// Room about the rose for its letters, points.
const ROOM: f32 = 24.0;
/// The plan as entered, without errors, and today's wind.
const ALONE: &[f32] = &[8.0, 3.0, 2.0, 3.0];
const TODAY: &[f32] = &[4.0, 3.0];

/// Polar axes on the screen.
struct Rose {
    middle: Pos2,
    radius: f32,
    scale: Scale,
}

impl Rose {
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    fn along(&self, deg: f64, points: f32) -> Pos2 {
        let way = Bearing::from_deg(deg).unit();
        self.middle + vec2(way.x as f32, -way.y as f32) * points
    }

    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    fn reach(&self, value: f64) -> f32 {
        self.radius * self.scale.share(value).clamp(0.0, 1.0) as f32
    }

    fn at(&self, deg: f64, value: f64) -> Pos2 {
        self.along(deg, self.reach(value))
    }

    fn slice(&self, deg: f64, wide_deg: f64, value: f64) -> Vec<Pos2> {
        let rim = [-0.5, -0.25, 0.0, 0.25, 0.5].map(|part| self.at(deg + part * wide_deg, value));
        std::iter::once(self.middle).chain(rim).collect()
    }
}

/// Draws it and returns the direction looked at: under the pointer, or chosen with the arrows; none where neither is.
/// Pressed, it turns the wind there.
pub(super) fn show(
    ui: &mut Ui,
    view: &View<'_>,
    study: &WindLimitStudy,
    size: f32,
    turn_to: &mut Option<f64>,
) -> Option<usize> {
    let (rect, response) = ui.allocate_exact_size(vec2(size, size), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, "rose of wind limits"));
    let shown = |mps: f64| view.units().first(Measure::Wind, mps);
    let flown = view.session.flown.as_ref()?;
    let today = flown.scenario.wind_at_circle()[0];
    // A direction that was not flown to its end would make all others small: its slice reaches the rim.
    let ended = study.directions.iter().filter(|found| found.fails_mps.is_some());
    let reached = ended.flat_map(|found| [found.wind_limit_mps, found.plan_mps]).flatten();
    let scale = Scale::over(reached.chain([0.0, today]).map(shown), 4);
    let rose = Rose { middle: rect.center(), radius: size / 2.0 - ROOM, scale };
    let looked = looked_at(ui, study, &rose, &response);
    draw(ui.painter(), view, study, &rose, looked);
    wind_of_today(ui.painter(), view, &rose, (flown.scenario.file.wind.from, shown(today)));
    focus_ring(ui, view.palette, &response, rect);
    let pressed = response.clicked() || (response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter)));
    if let Some(direction) = looked.filter(|_| pressed).and_then(|index| study.directions.get(index)) {
        *turn_to = Some(direction.from_deg);
    }
    looked
}

fn looked_at(ui: &Ui, study: &WindLimitStudy, rose: &Rose, response: &Response) -> Option<usize> {
    let count = study.directions.len();
    if count == 0 {
        return None;
    }
    let id = Id::new("direction of the rose");
    if let Some(at) = response.hover_pos() {
        let way = at - rose.middle;
        let from = f64::from(way.x).atan2(f64::from(-way.y)).to_degrees();
        let away = |index: &usize| {
            let turned = (study.directions[*index].from_deg - from).rem_euclid(360.0);
            turned.min(360.0 - turned)
        };
        return (0..count).min_by(|a, b| away(a).total_cmp(&away(b)));
    }
    if !response.has_focus() {
        return None;
    }
    let arrows = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    let mut index: usize = ui.data(|data| data.get_temp(id)).unwrap_or(study.worst.unwrap_or(0)).min(count - 1);
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::ArrowRight)) {
        index = (index + 1) % count;
    }
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::ArrowLeft)) {
        index = (index + count - 1) % count;
    }
    ui.data_mut(|data| data.insert_temp(id, index));
    Some(index)
}

fn draw(painter: &Painter, view: &View<'_>, study: &WindLimitStudy, rose: &Rose, looked: Option<usize>) {
    let palette = view.palette;
    let shown = |mps: f64| view.units().first(Measure::Wind, mps);
    painter.circle_filled(rose.middle, rose.radius, palette.paper);
    // A first look, the plan as entered, without errors, is grey: no trial has said anything yet.
    let judged = study.ask.trials > 0;
    let held = mixed(if judged { palette.mean().colour } else { palette.soft }, palette.paper, 0.35);
    let wide = 360.0 / f64::from(study.ask.directions.max(1)) * 0.86;
    for (index, direction) in study.directions.iter().enumerate() {
        let reach = direction.wind_limit_mps.map_or(0.0, |mps| shown(mps).min(rose.scale.to));
        let worst = judged && study.worst == Some(index);
        let fill = if worst { palette.hatch[0] } else { held };
        let edge = if looked == Some(index) { Stroke::new(2.5, palette.focus) } else { Stroke::new(1.0, palette.ink) };
        painter.add(Shape::convex_polygon(rose.slice(direction.from_deg, wide, reach), fill, edge));
        undecided(painter, view, rose, direction, wide);
    }
    for value in rose.scale.ticks().into_iter().filter(|value| *value > 0.0) {
        painter.circle_stroke(rose.middle, rose.reach(value), Stroke::new(1.0, palette.rule));
    }
    painter.circle_stroke(rose.middle, rose.radius, Stroke::new(1.2, palette.ink));
    for (deg, point) in [(0.0, "N"), (90.0, "E"), (180.0, "S"), (270.0, "W")] {
        let font = FontId::new(15.0, bold());
        painter.text(rose.along(deg, rose.radius + 13.0), Align2::CENTER_CENTER, point, font, palette.ink);
    }
    if judged {
        without_errors(painter, view, study, rose);
    }
    scale_words(painter, view, rose);
    if let Some(worst) = study.worst.filter(|_| judged).and_then(|index| study.directions.get(index)) {
        // A pointer from the rim, so that the worst is found without its colour.
        let [tip, left, right] = [(0.0, -13.0), (-4.5, 0.0), (4.5, 0.0)]
            .map(|(turn, out)| rose.along(worst.from_deg + turn, rose.radius + out));
        painter.add(Shape::convex_polygon(vec![tip, left, right], palette.ink, Stroke::NONE));
    }
}

/// Winds that trials leave undecided, beyond what holds: spokes in a dashed frame, never empty and never full.
fn undecided(painter: &Painter, view: &View<'_>, rose: &Rose, found: &Direction, wide: f64) {
    let Some([_, high]) = found.undecided_mps else { return };
    let shown = |mps: f64| view.units().first(Measure::Wind, mps).min(rose.scale.to);
    let (from, to) = (shown(found.wind_limit_mps.unwrap_or(0.0)), shown(high));
    let pen = Pen { colour: view.palette.soft, width: 1.5, dash: &[] };
    for part in [-0.4, -0.2, 0.0, 0.2, 0.4] {
        let deg = found.from_deg + part * wide;
        pen_line(painter, &[rose.at(deg, from), rose.at(deg, to)], pen);
    }
    let rim = [-0.5, -0.25, 0.0, 0.25, 0.5].map(|part| rose.at(found.from_deg + part * wide, to));
    pen_line(painter, &rim, Pen { dash: TODAY, ..pen });
}

fn scale_words(painter: &Painter, view: &View<'_>, rose: &Rose) {
    for value in rose.scale.ticks().into_iter().filter(|value| *value > 0.0) {
        let at = rose.at(20.0, value);
        let words = rose.scale.tick(value);
        let ground = Rect::from_center_size(at, vec2(width(painter, &words) + 4.0, LETTERS));
        painter.rect_filled(ground, 2.0, translucent(view.palette.paper));
        letters(painter, view.palette, at, Align2::CENTER_CENTER, &words);
    }
}

fn translucent(colour: Color32) -> Color32 {
    Color32::from_rgba_unmultiplied(colour.r(), colour.g(), colour.b(), 190)
}

/// Today's strength as a dashed ring, and an arrow that flies with the wind and begins on it.
fn wind_of_today(painter: &Painter, view: &View<'_>, rose: &Rose, (from, strength): (Bearing, f64)) {
    let palette = view.palette;
    let ring = |value: f64| -> Vec<Pos2> { (0..=120).map(|step| rose.at(f64::from(step) * 3.0, value)).collect() };
    pen_line(painter, &ring(strength), Pen { colour: palette.ink, width: 2.0, dash: TODAY });
    let long = rose.reach(strength).clamp(12.0, 26.0);
    let (tail, tip) = (rose.at(from.deg(), strength), rose.along(from.deg(), rose.reach(strength) - long));
    let way = (tip - tail) / long;
    let side = way.rot90();
    for (width, colour) in [(7.0, palette.paper), (3.0, palette.ink)] {
        painter.line_segment([tail, tip - way * 4.0], Stroke::new(width, colour));
    }
    let head = vec![tip, tip - way * 11.0 + side * 6.0, tip - way * 11.0 - side * 6.0];
    painter.add(Shape::convex_polygon(head, palette.ink, Stroke::new(1.0, palette.paper)));
}

/// The wind limits of the plan without errors as a dashed ring from direction to direction, with a gap where there is
/// none.
fn without_errors(painter: &Painter, view: &View<'_>, study: &WindLimitStudy, rose: &Rose) {
    let palette = view.palette;
    let pen = Pen { colour: palette.ink, width: 2.0, dash: ALONE };
    let shown = |mps: f64| view.units().first(Measure::Wind, mps).min(rose.scale.to);
    let place = |found: &Direction| Some(rose.at(found.from_deg, shown(found.plan_mps?)));
    let next = study.directions.iter().cycle().skip(1);
    for (one, next) in study.directions.iter().zip(next) {
        if let (Some(from), Some(to)) = (place(one), place(next)) {
            pen_line(painter, &[from, to], pen);
        }
    }
    for at in study.directions.iter().filter_map(place) {
        let corners = [(0.0, -3.5), (3.5, 0.0), (0.0, 3.5), (-3.5, 0.0)].map(|(x, y)| at + vec2(x, y));
        painter.add(Shape::convex_polygon(corners.to_vec(), palette.paper, Stroke::new(1.2, palette.ink)));
    }
}
