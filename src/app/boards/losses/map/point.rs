//! Pointing at a cell, pressing it, and moving from cell to cell with the keyboard.

use bevy_egui::egui::{EventFilter, Key, PointerButton, Response, Tooltip, Ui};
use glam::DVec2;

use super::told;
use crate::app::look::lens::Lens;
use crate::app::session::{AppCommand, LossCommand, View};
use crate::study::losses::{Cell, LossStudy};

/// Flies the worst trial of a cell from the loss on.
pub(crate) fn press(cell: &Cell, out: &mut Vec<AppCommand>) {
    out.push(AppCommand::Losses(LossCommand::Choose(Some(cell.middle))));
    out.push(AppCommand::Lost(Some(cell.replay)));
    out.push(AppCommand::PlayOrPause);
}

/// Tells about the cell under the pointer, and flies the one that is pressed.
pub(super) fn pointer(lens: &Lens, view: &View<'_>, study: &LossStudy, map: &Response, out: &mut Vec<AppCommand>) {
    if let Some(cell) = map.hover_pos().and_then(|pointer| study.cell_at(lens.ground(pointer)))
        && !map.dragged()
    {
        let tip = Tooltip::for_widget(map).at_pointer().gap(14.0).width(360.0);
        tip.show(|ui| told::show(ui, cell, study.ask.confidence, view.units()));
    }
    // A press of the space bar or the return key counts as a click as well: those mean something else here.
    if map.clicked_by(PointerButton::Primary) {
        map.request_focus();
        let cell = map.interact_pointer_pos().and_then(|pointer| study.cell_at(lens.ground(pointer)));
        if let Some(cell) = cell {
            press(cell, out);
        }
    }
}

/// While the map has the keyboard arrows choose a cell, return flies it; escape goes back to the plan's own loss.
pub(super) fn keyboard(ui: &Ui, view: &View<'_>, map: &Response, out: &mut Vec<AppCommand>) {
    let session = view.session;
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    if session.lost.is_some() && session.help.is_none() && !ui.ctx().text_edit_focused() && pressed(Key::Escape) {
        out.push(AppCommand::Lost(None));
    }
    if !map.has_focus() {
        return;
    }
    let own = EventFilter { horizontal_arrows: true, vertical_arrows: true, escape: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(map.id, own));
    if pressed(Key::Space) {
        out.push(AppCommand::PlayOrPause);
    }
    let Some(answer) = session.loss_answer() else { return };
    let study = &*answer.found;
    let arrows = [
        (Key::ArrowLeft, DVec2::NEG_X),
        (Key::ArrowRight, DVec2::X),
        (Key::ArrowUp, DVec2::Y),
        (Key::ArrowDown, DVec2::NEG_Y),
    ];
    for (_, way) in arrows.into_iter().filter(|(key, _)| pressed(*key)) {
        let next = match session.chosen_cell() {
            Some(cell) => beside(study, cell, way),
            None => nearest(study, own_loss(view)),
        };
        out.extend(next.map(|cell| AppCommand::Losses(LossCommand::Choose(Some(cell.middle)))));
    }
    if pressed(Key::Enter)
        && let Some(cell) = session.chosen_cell()
    {
        press(cell, out);
    }
}

fn own_loss(view: &View<'_>) -> DVec2 {
    DVec2::from(view.session.draft.file().loss.at_m)
}

fn nearest(study: &LossStudy, to: DVec2) -> Option<&Cell> {
    study.cells.iter().min_by(|a, b| a.middle.distance(to).total_cmp(&b.middle.distance(to)))
}

/// The next cell in a direction, over a gap where there is one.
fn beside<'a>(study: &'a LossStudy, from: &Cell, way: DVec2) -> Option<&'a Cell> {
    let ahead = |cell: &&Cell| {
        let away = cell.middle - from.middle;
        away.dot(way) > 0.5 * study.cell_m && away.perp_dot(way).abs() < 0.5 * study.cell_m
    };
    let far = |cell: &Cell| (cell.middle - from.middle).dot(way);
    study.cells.iter().filter(ahead).min_by(|a, b| far(a).total_cmp(&far(b)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;
    use crate::study::losses::{LossAsk, first};
    use crate::study::work::Work;

    #[test]
    fn arrows_go_from_cell_to_cell_and_over_gaps() {
        let scenario = Scenario::tight_strip();
        let ask = LossAsk { cells: 13, headings: 1, ..LossAsk::usual(&scenario) };
        let study = first(&scenario, &ask, &Work::default());
        // Cells of 40 m; the paddock from (-180, 95) to (60, 200) is a gap.
        let cell = study.cell_at(DVec2::new(-200.0, 120.0)).unwrap();
        let over = beside(&study, cell, DVec2::X).unwrap();
        assert!(over.at[1] == cell.at[1] && over.middle.x > 60.0, "{:?}", over.middle);
        let next = beside(&study, cell, DVec2::NEG_Y).unwrap();
        assert_eq!(next.at, [cell.at[0], cell.at[1] - 1]);
        assert_eq!(beside(&study, next, DVec2::Y).unwrap().at, cell.at);
        let edge = study.cells.iter().filter(|other| other.at[1] == cell.at[1]).map(|other| other.at[0]).min();
        assert!(edge != Some(cell.at[0]) || beside(&study, cell, DVec2::NEG_X).is_none());
        assert_eq!(nearest(&study, cell.middle).unwrap().at, cell.at);
    }
}
