//! Height against time, with the commanded height and the height limit. A press moves the play head.

use bevy_egui::egui::{Align2, FontId, Id, Painter, Pos2, Sense, Ui, vec2};
use egui_plot::{
    GridInput, HLine, Line, LineStyle, Plot, PlotPoint, PlotPoints, PlotTransform, VLine, uniform_grid_spacer,
};
use glam::DVec2;

use crate::app::look::pens::pen_line;
use crate::app::look::theme::Palette;
use crate::app::map::flight::stretches;
use crate::app::session::{AppCommand, Flown, View};
use crate::run::HeightAbove;

/// Points that the line of the height limit is drawn through.
const HEIGHT_LIMIT_POINTS: usize = 240;

/// Shows the plot.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    let palette = view.palette;
    let height_limit = height_limit(flown);
    let highest =
        flown.run.trace.height_m.iter().chain(height_limit.iter().map(|[_, y]| y)).copied().fold(10.0, f64::max);
    let commanded = flown.scenario.file.recovery.height.m();
    let room = if ui.ctx().viewport_rect().height() > 900.0 { 190.0 } else { 118.0 };
    // The plot leaves numbers out that stand closer than this.
    let columns = f64::from(ui.available_width() / 100.0);
    let plot = Plot::new("height against time")
        .id(Id::new("height against time"))
        .height(room)
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .show_crosshair(false)
        .sense(Sense::CLICK | Sense::DRAG)
        .set_margin_fraction(vec2(0.0, 0.0))
        .grid_color(palette.grid)
        .default_x_bounds(0.0, flown.end_s().max(1.0))
        .default_y_bounds(0.0, highest.max(commanded) * 1.3)
        .x_grid_spacer(uniform_grid_spacer(move |input| steps(input, columns)))
        .y_grid_spacer(uniform_grid_spacer(|input| steps(input, 3.0)))
        .x_axis_formatter(|mark, shown| {
            // A number at the very end would be cut in half.
            if mark.value < shown.end() * 0.97 { format!("{:.0} s", mark.value) } else { String::new() }
        })
        .y_axis_formatter(|mark, _| if mark.value > 0.0 { format!("{:.0} m", mark.value) } else { String::new() })
        .reset();
    let response = plot.show(ui, |plot| {
        plot.line(
            Line::new("height limit", PlotPoints::from(height_limit.clone()))
                .color(palette.hatch[0])
                .width(2.5)
                .allow_hover(false),
        );
        plot.hline(
            HLine::new("commanded height", commanded)
                .color(palette.soft)
                .width(1.5)
                .style(LineStyle::Dashed { length: 5.0 })
                .allow_hover(false),
        );
        plot.vline(
            VLine::new("play head", view.session.playhead.at_s).color(palette.ink).width(2.0).allow_hover(false),
        );
    });
    let painter = ui.painter_at(response.response.rect);
    profile(&painter, &response.transform, flown, palette);
    captions(&painter, &response.transform, palette, commanded, height_limit.first());
    if let Some(pointer) = response.response.interact_pointer_pos()
        && (response.response.clicked() || response.response.dragged())
    {
        out.push(AppCommand::Scrub(response.transform.value_from_position(pointer).x));
    }
}

/// One round step between lines of the grid, so that about `count` of them fit.
fn steps(input: GridInput, count: f64) -> [f64; 3] {
    let rough = (input.bounds.1 - input.bounds.0).abs().max(1e-3) / count;
    let power = 10_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|times| times * power).into_iter().find(|step| *step >= rough);
    [step.unwrap_or(rough); 3]
}

/// The path in the pens of its stretches.
fn profile(painter: &Painter, plot: &PlotTransform, flown: &Flown, palette: &Palette) {
    let trace = &flown.run.trace;
    for (stretch, range) in stretches(trace) {
        let mut line: Vec<Pos2> = Vec::new();
        let last = (range.end + 1).min(trace.len());
        for index in range.start..last {
            let at = plot.position_from_point(&PlotPoint::new(trace.time_s(index), trace.height_m[index]));
            if index + 1 == last || line.last().is_none_or(|before| before.distance(at) >= 1.0) {
                line.push(at);
            }
        }
        pen_line(painter, &line, palette.pen(stretch));
    }
}

fn captions(
    painter: &Painter,
    plot: &PlotTransform,
    palette: &Palette,
    commanded: f64,
    height_limit: Option<&[f64; 2]>,
) {
    // The height limit is named above its line and the circle below its own, so that the two never meet.
    let caption = |height: f64, text: String, align: Align2| {
        let at = plot.position_from_point(&PlotPoint::new(0.0, height));
        let off = if align == Align2::LEFT_BOTTOM { -3.0 } else { 5.0 };
        painter.text(at + vec2(6.0, off), align, text, FontId::proportional(14.0), palette.ink);
    };
    caption(commanded, format!("commanded {commanded:.0} m"), Align2::LEFT_TOP);
    if let Some([_, height]) = height_limit {
        caption(*height, format!("height limit {height:.0} m"), Align2::LEFT_BOTTOM);
    }
}

/// The height limit over home's ground along the path; empty where there is none.
fn height_limit(flown: &Flown) -> Vec<[f64; 2]> {
    let Some(height_limit) = flown.scenario.file.limits.height_limit else { return Vec::new() };
    let field = &flown.scenario.field;
    let home = field.ground.height_m(field.home);
    let trace = &flown.run.trace;
    let over = |at: DVec2| match height_limit.above {
        HeightAbove::Home => height_limit.height.m(),
        HeightAbove::Ground => height_limit.height.m() + field.ground.height_m(at) - home,
    };
    let stride = (trace.len() / HEIGHT_LIMIT_POINTS).max(1);
    let mut line: Vec<[f64; 2]> =
        (0..trace.len()).step_by(stride).map(|index| [trace.time_s(index), over(trace.point(index))]).collect();
    if let Some(last) = trace.len().checked_sub(1) {
        line.push([trace.time_s(last), over(trace.point(last))]);
    }
    line
}
