//! What the wind amounts to at the height of the circle: a band between the least and the most it may grow to.

use bevy_egui::egui::{
    Align2, FontId, Frame, Margin, Pos2, Rect, RichText, Sense, Shape, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2,
};

use crate::app::look::theme::{TEXT, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::run::ScenarioFile;
use crate::words::help::Topic;
use crate::words::{Measure, Units};

/// Height of the picture, points.
const TALL: f32 = 150.0;
/// Steps of a curve.
const STEPS: u8 = 40;

/// "6.7 to 8.4 m/s (13.0 to 16.3 kt)"; one number where the two are the same.
pub(super) fn span(units: &Units, [low, high]: [f64; 2]) -> String {
    let (from, to) = (units.short(Measure::Wind, low), units.short(Measure::Wind, high));
    let (second_from, second_to) = (units.second(Measure::Wind, low), units.second(Measure::Wind, high));
    let join = |from: &str, to: &str| {
        if from == to { to.to_owned() } else { format!("{} to {to}", from.split(' ').next().unwrap_or(from)) }
    };
    let first = join(&from, &to);
    if second_to.is_empty() { first } else { format!("{first} ({})", join(&second_from, &second_to)) }
}

/// Shows words and picture.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let (file, units) = (view.session.draft.file(), view.units());
    let (wind, circle) = (&file.wind, file.recovery.height.m());
    let [low, _, high] = wind.aloft_range(circle);
    let (mean, gust) = ([low[0], high[0]], [low[1], high[1]]);
    let frame = Frame::new().fill(view.palette.stripe).stroke(Stroke::new(1.0, view.palette.rule)).corner_radius(4);
    frame.inner_margin(Margin::symmetric(9, 6)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.horizontal(|ui| {
            let title = format!("At the circle, {} up", units.text(Measure::Height, circle));
            ui.label(RichText::new(title).family(bold()));
            mark(ui, Topic::WindAtHeight, out);
        });
        if mean.iter().chain(&gust).all(|speed| speed.is_finite()) {
            ui.label(RichText::new(format!("mean {}", span(units, mean))).family(bold()).size(17.0));
            ui.label(format!("in gusts {}", span(units, gust)));
            picture(ui, view, file);
        } else {
            ui.label("not with these numbers");
        }
    });
}

fn picture(ui: &mut Ui, view: &View<'_>, file: &ScenarioFile) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), TALL), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, "wind against height"));
    let (wind, units, palette) = (&file.wind, view.units(), view.palette);
    let (circle, measured) = (file.recovery.height.m(), wind.measured_at.m());
    let top = (circle.max(measured) * 1.25).max(20.0);
    let mean = wind.mean.mps();
    let range = |height: f64| {
        let [low, _, high] = wind.growth(height);
        [mean * low, mean * high]
    };
    let fastest = (range(top)[1] * 1.08).max(1.0);
    let plot = Rect::from_min_max(rect.min + vec2(8.0, 4.0), rect.max - vec2(8.0, 22.0));
    let at = |speed: f64, height: f64| -> Pos2 {
        let across = (speed / fastest) as f32;
        let up = (height / top) as f32;
        pos2(plot.left() + across * plot.width(), plot.bottom() - up * plot.height())
    };
    let painter = ui.painter();
    let heights: Vec<f64> = (0..=STEPS).map(|step| top * (0.01 + 0.99 * f64::from(step) / f64::from(STEPS))).collect();
    let curve = |side: usize| -> Vec<Pos2> { heights.iter().map(|&height| at(range(height)[side], height)).collect() };
    let (low, high) = (curve(0), curve(1));
    for (low, high) in low.windows(2).zip(high.windows(2)) {
        let corners = vec![low[0], high[0], high[1], low[1]];
        painter.add(Shape::convex_polygon(corners, palette.chosen, Stroke::NONE));
    }
    for line in [low, high] {
        painter.add(Shape::line(line, Stroke::new(2.0, palette.focus)));
    }
    painter.line_segment([plot.left_bottom(), plot.right_bottom()], Stroke::new(2.0, palette.ink));
    let step = units.to_si(Measure::Wind, tick(units.first(Measure::Wind, fastest)));
    for count in 0..=10u8 {
        let speed = step * f64::from(count);
        if speed > fastest {
            break;
        }
        let foot = at(speed, 0.0);
        painter.line_segment([foot, foot + vec2(0.0, 4.0)], Stroke::new(1.5, palette.ink));
        let number = format!("{:.0}", units.first(Measure::Wind, speed));
        let text = if count == 0 { format!("0 {}", units.of(Measure::Wind).first) } else { number };
        let align = if count == 0 { Align2::LEFT_TOP } else { Align2::CENTER_TOP };
        painter.text(foot + vec2(0.0, 4.0), align, text, FontId::proportional(14.0), palette.soft);
    }
    let level = [at(0.0, circle), at(fastest, circle)];
    painter.extend(Shape::dashed_line(&level, Stroke::new(1.5, palette.ink), 5.0, 5.0));
    let words = format!("circle {}", units.short(Measure::Height, circle));
    let font = FontId::proportional(TEXT);
    painter.text(level[0] + vec2(2.0, -1.0), Align2::LEFT_BOTTOM, words, font.clone(), palette.ink);
    let [low, high] = range(circle);
    for speed in [low, high] {
        painter.circle_filled(at(speed, circle), 4.0, palette.ink);
    }
    let here = at(mean, measured);
    painter.circle(here, 5.5, palette.paper, Stroke::new(2.5, palette.ink));
    if (here.y - level[0].y).abs() > 22.0 {
        let words = format!("measured: {}", units.short(Measure::Wind, mean));
        let (align, by) = if here.x > plot.center().x {
            (Align2::RIGHT_CENTER, vec2(-10.0, -10.0))
        } else {
            (Align2::LEFT_CENTER, vec2(10.0, -10.0))
        };
        painter.text(here + by, align, words, font, palette.ink);
    }
}

/// A round step for a scale that reaches this far: four to ten of them.
fn tick(reach: f64) -> f64 {
    [1.0, 2.0, 5.0, 10.0, 20.0].into_iter().find(|step| reach / step <= 10.0).unwrap_or(50.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;
    use crate::units::{Length, Speed};

    #[test]
    fn a_hand_meter_is_lifted_to_the_circle_with_its_range() {
        let mut wind = Scenario::tight_strip().file.wind;
        (wind.mean, wind.measured_at) = (Speed::new(4.0), Length::new(2.0));
        // job.md 0.3 and 12 row 9: 4 m/s hand-held is about 7 to 8 m/s at 80 m; 1.7 to 2.1 times. Closed form of the
        // power law: 40^0.14 = 1.676 and 40^0.20 = 2.091.
        let [[low, _], _, [high, _]] = wind.aloft_range(80.0);
        approx::assert_abs_diff_eq!(low, 4.0 * 40.0_f64.powf(0.14), epsilon = 1e-9);
        approx::assert_abs_diff_eq!(high, 4.0 * 40.0_f64.powf(0.20), epsilon = 1e-9);
        assert_eq!(span(&Units::default(), [low, high]), "6.7 to 8.4 m/s (13.0 to 16.3 kt)");
        assert_eq!(span(&Units::default(), [4.0, 4.0]), "4.0 m/s (7.8 kt)");
    }
}
