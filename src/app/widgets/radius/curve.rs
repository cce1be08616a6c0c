//! Furthest distance from the centre against commanded radius: the U in mean and gust wind, the spread of the trials,
//! and the room.

use bevy_egui::egui::{Align2, Color32, Painter, Pos2, Rect, Stroke, Ui, pos2, vec2};

use crate::app::look::chart::{Axes, letters, line, mixed, plate, pointer, span, spot, width};
use crate::app::look::pens::pen_line;
use crate::app::look::theme::Pen;
use crate::app::session::{Flown, View};
use crate::draw::Scale;
use crate::margins::Score;
use crate::study::radius::holds;
use crate::study::radius::{RadiusPoint, RadiusStudy};
use crate::study::stats::reach;
use crate::words::Measure;

/// From stroke to stroke of the trials' hatch, points.
const STROKES: f32 = 5.0;
const AS_COMMANDED: &[f32] = &[2.0, 4.0];
const KEPT: &[f32] = &[8.0, 5.0];
const LEAST: &[f32] = &[1.5, 4.0];

/// The points of the plan's way round.
fn points<'a>(view: &View<'_>, study: &'a RadiusStudy) -> impl Iterator<Item = &'a RadiusPoint> + Clone {
    let turn = view.session.draft.file().recovery.turn;
    study.points.iter().filter(move |point| point.turn == turn)
}

fn shown(view: &View<'_>, metres: f64) -> f64 {
    view.units().first(Measure::Distance, metres)
}

/// The scale of the distances: the whole U in the mean wind and the room; gust and trials may run out of it.
pub(super) fn heights(view: &View<'_>, study: Option<&RadiusStudy>) -> Scale {
    let Some(study) = study else { return span(0.0, shown(view, 300.0), 5) };
    let mean = points(view, study).filter_map(|point| point.mean.furthest_m);
    let gust = points(view, study).filter_map(|point| point.gust.furthest_m);
    let widest = study.ask.radii_m.last().copied().unwrap_or_default();
    let least = mean.chain([study.free_m.max(0.0) * 1.1, widest]).fold(0.0, f64::max);
    let most = gust.fold(least, f64::max).min(least * 1.35);
    span(0.0, shown(view, most * 1.05), 5)
}

/// Draws the curves and the lines that they are compared with.
pub(super) fn draw(painter: &Painter, view: &View<'_>, study: &RadiusStudy, axes: &Axes) {
    let inside = painter.with_clip_rect(axes.rect.expand(1.0).intersect(painter.clip_rect()));
    let palette = view.palette;
    let far = axes.x.to.min(axes.y.to);
    room(&inside, view, study, axes);
    let ideal = Pen { colour: palette.soft, width: 1.5, dash: AS_COMMANDED };
    line(&inside, axes.at(axes.x.from, axes.x.from), axes.at(far, far), ideal);
    for (least, pen) in study.closed.smallest_m.into_iter().skip(1).zip([palette.mean(), palette.gust()]) {
        let x = shown(view, least);
        let pen = Pen { width: 2.0, dash: LEAST, ..pen };
        line(&inside, axes.at(x, axes.y.from), axes.at(x, axes.y.to), pen);
    }
    trials(&inside, view, study, axes);
    let gust: fn(&RadiusPoint) -> &Score = |point| &point.gust;
    let mean: fn(&RadiusPoint) -> &Score = |point| &point.mean;
    course(&inside, view, study, axes, (gust, true));
    course(&inside, view, study, axes, (mean, false));
    names(&inside, view, study, axes);
}

/// The room that the field leaves: hatched beyond, a heavy line where it ends, a dashed one where the buffer begins.
fn room(painter: &Painter, view: &View<'_>, study: &RadiusStudy, axes: &Axes) {
    let palette = view.palette;
    if study.free_m > 0.0 {
        let y = axes.y(shown(view, study.free_m));
        let beyond = Rect::from_min_max(axes.rect.min, pos2(axes.rect.right(), y.max(axes.rect.top())));
        let ruled = painter.with_clip_rect(beyond.intersect(painter.clip_rect()));
        let mut x = beyond.left() - beyond.height();
        while x < beyond.right() {
            let foot = pos2(x, beyond.bottom());
            ruled.line_segment([foot, foot + vec2(beyond.height(), -beyond.height())], Stroke::new(1.0, palette.rule));
            x += 12.0;
        }
        painter.hline(axes.rect.x_range(), y, Stroke::new(3.0, palette.ink));
    }
    if study.closed.largest_m > 0.0 {
        let y = shown(view, study.closed.largest_m);
        let pen = Pen { colour: palette.ink, width: 2.0, dash: KEPT };
        line(painter, axes.at(axes.x.from, y), axes.at(axes.x.to, y), pen);
    }
}

/// The spread of the trials: upright strokes over the middle 90 % of them, with an edge above and below.
fn trials(painter: &Painter, view: &View<'_>, study: &RadiusStudy, axes: &Axes) {
    let pen = view.palette.trials();
    let reached: Vec<(f64, [f64; 2])> = points(view, study)
        .filter_map(|point| {
            let [low, _, high] = reach(&point.trials.furthest_m);
            // Where too many never flew a whole lap the strip runs out of the chart.
            Some((point.radius_m, [shown(view, low?), high.map_or(4.0 * axes.y.to, |high| shown(view, high))]))
        })
        .collect();
    let edge = |end: usize| -> Vec<Pos2> {
        reached.iter().map(|(radius, ends)| axes.at(shown(view, *radius), ends[end].min(4.0 * axes.y.to))).collect()
    };
    let (low, high) = (edge(0), edge(1));
    for (lows, highs) in low.windows(2).zip(high.windows(2)) {
        let mut x = lows[0].x;
        while x < lows[1].x {
            let share = (x - lows[0].x) / (lows[1].x - lows[0].x);
            let ends = [lows[0].lerp(lows[1], share), highs[0].lerp(highs[1], share)];
            painter.line_segment(ends, Stroke::new(1.0, mixed(pen.colour, view.palette.paper, 0.75)));
            x += STROKES;
        }
    }
    for edge in [low, high] {
        pen_line(painter, &edge, Pen { dash: &[], ..pen });
    }
}

/// One wind: a line through the radii flown, broken where the jet never flew a whole lap; marks full inside the usable
/// radii.
fn course(
    painter: &Painter,
    view: &View<'_>,
    study: &RadiusStudy,
    axes: &Axes,
    (score, gust): (fn(&RadiusPoint) -> &Score, bool),
) {
    let palette = view.palette;
    let pen = if gust { palette.gust() } else { palette.mean() };
    let place = |point: &RadiusPoint| Some(axes.at(shown(view, point.radius_m), shown(view, score(point).furthest_m?)));
    let mut piece = Vec::new();
    for point in points(view, study) {
        match place(point) {
            Some(at) => piece.push(at),
            None => {
                pen_line(painter, &std::mem::take(&mut piece), pen);
                let x = axes.x(shown(view, point.radius_m));
                cross(painter, pos2(x, axes.rect.top() + if gust { 19.0 } else { 8.0 }), pen.colour);
            }
        }
    }
    pen_line(painter, &piece, pen);
    let usable = if gust { &study.usable.gust } else { &study.usable.mean };
    for point in points(view, study) {
        if let Some(at) = place(point) {
            let full = holds(usable, point.radius_m, point.turn);
            spot(painter, at, gust, if full { pen.colour } else { palette.paper }, pen.colour);
        }
    }
}

fn cross(painter: &Painter, at: Pos2, colour: Color32) {
    for arm in [vec2(4.0, 4.0), vec2(4.0, -4.0)] {
        painter.line_segment([at - arm, at + arm], Stroke::new(2.0, colour));
    }
}

/// Names on the level lines, and of the radii where nothing is ever drawn.
fn names(painter: &Painter, view: &View<'_>, study: &RadiusStudy, axes: &Axes) {
    let palette = view.palette;
    let unit = &view.units().of(Measure::Distance).first;
    let foot = axes.rect.right_bottom() - vec2(6.0, 3.0);
    let title = format!("commanded radius, {unit}");
    let title = plate(painter, palette, foot, Align2::RIGHT_BOTTOM, axes.rect, &title);
    // The outer line has its name above it and the inner one below it, so that neither is taken for the other's.
    if study.free_m > 0.0 {
        let to = if study.free_to.is_empty() { "the nearest limit" } else { &study.free_to };
        let name = format!("{} to {to}", view.metres(study.free_m));
        level(painter, view, study, axes, title, (study.free_m, &name, true));
    }
    if study.closed.largest_m > 0.0 {
        let name = format!("{}: buffer kept", view.metres(study.closed.largest_m));
        level(painter, view, study, axes, title, (study.closed.largest_m, &name, false));
    }
}

/// Names a level line above or below it, where the curves and the axis's title are furthest away.
fn level(
    painter: &Painter,
    view: &View<'_>,
    study: &RadiusStudy,
    axes: &Axes,
    title: Rect,
    (value, name, above): (f64, &str, bool),
) {
    let size = vec2(width(painter, name) + 8.0, 18.0);
    let y = axes.y(shown(view, value));
    let marks: Vec<Pos2> = points(view, study)
        .flat_map(|point| [&point.mean, &point.gust].map(|score| (point.radius_m, score.furthest_m)))
        .filter_map(|(radius, furthest)| Some(axes.at(shown(view, radius), shown(view, furthest?))))
        .chain((0..=6_u8).map(|part| title.left_top().lerp(title.right_top(), f32::from(part) / 6.0)))
        .collect();
    let top = if above { y - size.y - 2.0 } else { y + 2.0 };
    let places = (0..=8_u8).map(|part| {
        let left = axes.rect.left() + 4.0 + (axes.rect.width() - size.x - 8.0) * f32::from(8 - part) / 8.0;
        let rect = Rect::from_min_size(pos2(left, top), size);
        (marks.iter().map(|at| rect.distance_to_pos(*at)).fold(f32::INFINITY, f32::min), rect)
    });
    // The first of equals is the one furthest to the right.
    let best = places.reduce(|best, next| if next.0 > best.0 + 2.0 { next } else { best });
    if let Some((_, rect)) = best {
        plate(painter, view.palette, rect.center(), Align2::CENTER_CENTER, axes.rect, name);
    }
}

/// The plan's radius through ruler and curve, and how far out the flight on the screen goes.
pub(super) fn draw_plan(painter: &Painter, view: &View<'_>, axes: &Axes, room: Rect) {
    let palette = view.palette;
    let radius = view.session.draft.file().recovery.radius.m();
    let x = axes.x(shown(view, radius));
    painter.line_segment([pos2(x, room.top() - 4.0), pos2(x, axes.rect.bottom())], Stroke::new(2.5, palette.focus));
    pointer(painter, pos2(x, room.top()), true, palette.focus, palette.ink);
    let words = format!("plan: {}", view.metres(radius));
    let fits = x + 12.0 + width(painter, &words) < room.right();
    let (away, align) = if fits { (11.0, Align2::LEFT_BOTTOM) } else { (-11.0, Align2::RIGHT_BOTTOM) };
    plate(painter, palette, pos2(x + away, room.top() - 1.0), align, room, &words);
    let furthest = |flown: &Flown| flown.margins.figures.furthest_m;
    if let Some(out) = view.session.flown.as_ref().and_then(furthest) {
        let at = axes.at(shown(view, radius), shown(view, out));
        if axes.rect.contains(at) {
            painter.circle(at, 6.5, palette.focus, Stroke::new(2.5, palette.paper));
            painter.circle_stroke(at, 7.5, Stroke::new(1.5, palette.ink));
        }
    }
}

/// What the signs mean.
pub(super) fn key(ui: &mut Ui, view: &View<'_>, study: Option<&RadiusStudy>) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), bevy_egui::egui::Sense::hover());
    let (painter, palette) = (ui.painter(), view.palette);
    let mut x = rect.left();
    let y = rect.center().y;
    let mut tell = |sign: &dyn Fn(Pos2, Pos2), words: &str| {
        let (from, to) = (pos2(x, y), pos2(x + 24.0, y));
        sign(from, to);
        x = letters(painter, palette, to + vec2(4.0, 0.0), Align2::LEFT_CENTER, words).right() + 8.0;
    };
    let wind = |pen: Pen, gust: bool| {
        move |from: Pos2, to: Pos2| {
            line(painter, from, to, pen);
            spot(painter, from.lerp(to, 0.5), gust, pen.colour, pen.colour);
        }
    };
    tell(&wind(palette.mean(), false), "mean");
    tell(&wind(palette.gust(), true), "gust");
    let trials = study.map_or(0, |study| study.ask.trials);
    if trials > 0 {
        let pen = palette.trials();
        let strip = |from: Pos2, to: Pos2| {
            let rect = Rect::from_two_pos(from - vec2(0.0, 6.0), to + vec2(0.0, 6.0));
            let mut x = rect.left();
            while x <= rect.right() {
                painter.vline(x, rect.y_range(), Stroke::new(1.0, pen.colour));
                x += STROKES;
            }
            for y in [rect.top(), rect.bottom()] {
                painter.hline(rect.x_range(), y, Stroke::new(pen.width, pen.colour));
            }
        };
        tell(&strip, &format!("90 % of {trials} trials"));
    }
    let ideal = Pen { colour: palette.soft, width: 1.5, dash: AS_COMMANDED };
    tell(&|from, to| line(painter, from, to, ideal), "ideal");
    let least = Pen { width: 2.0, dash: LEAST, ..palette.mean() };
    let upright = |from: Pos2, to: Pos2| {
        let middle = from.lerp(to, 0.5);
        line(painter, middle - vec2(0.0, 8.0), middle + vec2(0.0, 8.0), least);
    };
    tell(&upright, "maximum bank");
}
