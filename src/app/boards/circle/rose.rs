//! The rose of wind limits of the prints, to be looked at direction by direction: the pointer or the arrows choose one, a
//! press turns the wind there.

use bevy_egui::egui::{
    EventFilter, Id, Key, Modifiers, Pos2, Response, Sense, Shape, Stroke, Ui, Vec2, WidgetInfo, WidgetType,
};

use crate::app::look::chart::focus_ring;
use crate::app::look::sheet::Laid;
use crate::app::session::View;
use crate::report::picture::{PictureUnit, wind_rose, wind_slice};
use crate::study::wind_limit::WindLimitStudy;
use crate::words::Measure;

/// Draws it and returns the direction looked at: under the pointer, or chosen with the arrows; none where neither is.
/// Pressed, it turns the wind there.
pub(super) fn show(
    ui: &mut Ui,
    view: &View<'_>,
    study: &WindLimitStudy,
    size: f32,
    turn_to: &mut Option<f64>,
) -> Option<usize> {
    let (rect, response) = ui.allocate_exact_size(Vec2::splat(size), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, "rose of wind limits"));
    let flown = view.session.flown.as_ref()?;
    let (laid, unit) = (Laid { rect }, PictureUnit::first(view.units(), Measure::Wind));
    let mut sheet = laid.sheet();
    let polar = wind_rose(&mut sheet, laid.frame(), &flown.scenario, study, unit);
    laid.paint(ui.painter(), view.palette, &sheet);
    let looked = looked_at(ui, study, laid.at(polar.middle), &response);
    if let Some(direction) = looked.and_then(|index| study.directions.get(index)) {
        let edge = wind_slice(&polar, study, direction, unit).into_iter().map(|corner| laid.at(corner));
        ui.painter().add(Shape::closed_line(edge.collect(), Stroke::new(2.5, view.palette.focus)));
    }
    focus_ring(ui, view.palette, &response, rect);
    let pressed = response.clicked() || (response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter)));
    if let Some(direction) = looked.filter(|_| pressed).and_then(|index| study.directions.get(index)) {
        *turn_to = Some(direction.from_deg);
    }
    looked
}

fn looked_at(ui: &Ui, study: &WindLimitStudy, middle: Pos2, response: &Response) -> Option<usize> {
    let count = study.directions.len();
    if count == 0 {
        return None;
    }
    let id = Id::new("direction of the rose");
    if let Some(at) = response.hover_pos() {
        let way = at - middle;
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
