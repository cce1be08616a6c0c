//! The panels, and where on the screen each of them is.
//!
//! Every panel is a plain function of (ui, view, commands out) with no other effect, so that it can be tested without a
//! graphics card and repeated within a frame.

pub mod faults;
pub mod figures;
pub mod foot;
pub mod heading;
pub mod height;
pub mod keys;
pub mod ledger;
pub mod legend;
pub mod notice;
pub mod plan;
pub mod replay;

use bevy_egui::egui::{CentralPanel, Context, Frame, LayerId, Margin, Panel, ScrollArea, Ui, UiBuilder};

use super::lens::{Lens, Look};
use super::theme::Palette;
use super::{AppCommand, Session, map};

/// What the panels look at.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// The session.
    pub session: &'a Session,
    /// Colours of its theme.
    pub palette: &'static Palette,
}

impl<'a> View<'a> {
    /// A view of a session.
    pub const fn new(session: &'a Session) -> Self {
        Self { session, palette: session.theme.palette() }
    }
}

/// Shows everything on all of the screen and returns the lens of the map.
pub fn window(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let room = UiBuilder::new().layer_id(LayerId::background()).max_rect(ctx.viewport_rect());
    let lens = show(&mut Ui::new(ctx.clone(), "window".into(), room), view, out);
    notice::show(ctx, view, out);
    lens
}

fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    keys::show(ui, view, out);
    let tight = frame(view, Margin::symmetric(10, 5));
    let roomy = frame(view, Margin::symmetric(10, 8));
    let wide = ui.available_width() > 1700.0;
    Panel::top("heading").frame(tight).resizable(false).show(ui, |ui| heading::show(ui, view, out));
    Panel::bottom("foot").frame(tight).resizable(false).show(ui, |ui| foot::show(ui, view, out));
    if view.session.flown.is_none() {
        let room = CentralPanel::no_frame().frame(roomy).show(ui, |ui| faults::show(ui, view, out));
        return Lens::new(Look::default(), room.response.rect);
    }
    if view.session.warnings_shown {
        Panel::top("warnings").frame(roomy).resizable(false).show(ui, |ui| faults::show(ui, view, out));
    }
    Panel::left("plan").frame(roomy).resizable(false).exact_size(if wide { 300.0 } else { 244.0 }).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| plan::show(ui, view, out));
    });
    Panel::right("answers").frame(roomy).resizable(false).exact_size(490.0).show(ui, |ui| {
        Panel::bottom("figures").frame(Frame::NONE).resizable(false).show_separator_line(false).show(ui, |ui| {
            figures::show(ui, view, out);
        });
        ledger::show(ui, view, out);
    });
    Panel::bottom("replay").frame(roomy).resizable(false).show(ui, |ui| {
        ui.scope(|ui| legend::show(ui, view, out));
        replay::show(ui, view, out);
        height::show(ui, view, out);
    });
    CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
}

fn frame(view: &View<'_>, margin: Margin) -> Frame {
    Frame::new().fill(view.palette.paper).inner_margin(margin)
}
