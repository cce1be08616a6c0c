//! What stands round and in front of the boards: heading, menu, keys, help, questions, the doors at the first start,
//! the tour. Which board is open is asked of [`boards`] alone.
//!
//! Every panel is a plain function of (ui, view, commands out) with no other effect, so that it can be tested without a
//! graphics card and repeated within a frame.

pub mod ask;
pub mod brought;
pub mod doors;
pub mod faults;
pub mod foot;
pub mod heading;
pub mod help;
pub mod intake;
pub mod keys;
pub mod menu;
pub mod notice;
pub mod settings;
pub mod tour;

use bevy_egui::egui::{CentralPanel, Context, LayerId, Margin, Panel, Ui, UiBuilder};

use crate::app::boards;
use crate::app::look::lens::{Lens, MapView};
use crate::app::look::theme::unboxed;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::room::{ROOMY, frame};
use crate::app::widgets::verdict;

/// Shows everything on all of the screen and returns the lens of the map.
pub fn window(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let room = UiBuilder::new().layer_id(LayerId::background()).max_rect(ctx.viewport_rect());
    let mut ui = Ui::new(ctx.clone(), "window".into(), room);
    unboxed(&mut ui);
    let lens = show(&mut ui, view, out);
    doors::show(ctx, view, out);
    tour::show(ctx, view, out);
    help::show(ctx, view, out);
    settings::show(ctx, view, out);
    ask::show(ctx, view, out);
    notice::show(ctx, view, out);
    lens
}

fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    keys::show(ui, view, out);
    let tight = frame(view, Margin::symmetric(10, 5));
    Panel::top("heading").frame(tight).resizable(false).show(ui, |ui| heading::show(ui, view, out));
    Panel::bottom("foot").frame(tight).resizable(false).show(ui, |ui| foot::show(ui, view, out));
    if let Some(brought) = &view.session.front.brought {
        let bar = Panel::top("brought").frame(tight.fill(view.palette.chosen)).resizable(false);
        bar.show(ui, |ui| brought::show(ui, view, brought, out));
    }
    if view.session.refused.is_some() {
        let room = CentralPanel::no_frame().frame(frame(view, ROOMY)).show(ui, |ui| faults::show(ui, view, out));
        return Lens::new(MapView::default(), room.response.rect);
    }
    let strip = Panel::top("verdict").frame(frame(view, Margin::symmetric(10, 2))).resizable(false);
    strip.show(ui, |ui| verdict::show(ui, view));
    if view.session.warnings_shown {
        let warnings = Panel::top("warnings").frame(frame(view, ROOMY)).resizable(false);
        warnings.show(ui, |ui| faults::show(ui, view, out));
    }
    boards::show(ui, view, out)
}
