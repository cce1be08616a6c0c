//! Where on the ground the pointer aims, with what it clings to.

use bevy_egui::egui::{Context, Id, Pos2, Ui};
use glam::DVec2;

use super::REACH;
use crate::app::look::lens::Lens;
use crate::app::session::View;
use crate::app::session::field_board::{Clung, Part, Snap, SnapAround};

fn id() -> Id {
    Id::new("aim of the Field board")
}

/// The place that the tool in hand aims at, metres; for whoever reads figures out beside the map.
pub(crate) fn aimed(ctx: &Context) -> Option<DVec2> {
    ctx.data(|data| data.get_temp::<Option<DVec2>>(id())).flatten()
}

/// Keeps it for the panels.
pub(super) fn keep(ctx: &Context, at: Option<DVec2>) {
    ctx.data_mut(|data| data.insert_temp(id(), at));
}

/// Where a place of the screen comes to lie on the ground. With the Alt key it clings to nothing.
pub(super) fn aimed_at(
    ui: &Ui,
    lens: &Lens,
    view: &View<'_>,
    pointer: Pos2,
    moving: Option<(Part, Option<usize>)>,
) -> (DVec2, Clung) {
    cling(ui, lens, view, lens.ground(pointer), moving)
}

/// Where a place of the ground comes to lie.
pub(super) fn cling(
    ui: &Ui,
    lens: &Lens,
    view: &View<'_>,
    ground: DVec2,
    moving: Option<(Part, Option<usize>)>,
) -> (DVec2, Clung) {
    let field_board = &view.session.field_board;
    let free = Snap { grid_m: None, corners: false, edges: false, angles: false };
    let snap = if ui.input(|input| input.modifiers.alt) { free } else { field_board.snap };
    let around = SnapAround {
        file: view.session.draft.file(),
        before: field_board.placed(),
        moving,
        reach_m: f64::from(REACH) * lens.metres_a_point,
    };
    snap.place(ground, &around)
}
