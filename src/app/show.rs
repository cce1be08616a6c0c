//! One egui pass: dresses the context, shows every panel, and keeps what they asked for until the next frame.

use bevy::prelude::*;
use bevy_egui::{EguiContexts, egui};

use super::brief::Shelf;
use super::lens::{Lens, Look};
use super::panels::{self, View};
use super::{AppCommand, FileCommand, Session, Theme, theme};

/// What the last pass showed and what was asked for in it.
#[derive(Debug, Resource)]
pub struct Shown {
    /// The lens that the map was painted through.
    pub lens: Lens,
    /// All of the screen, points.
    pub screen: egui::Rect,
    /// Whether there has been a picture yet.
    pub any: bool,
    /// What was asked for, in order.
    pub commands: Vec<AppCommand>,
    /// What was asked for with files and not done yet.
    pub files: Vec<FileCommand>,
}

impl Default for Shown {
    fn default() -> Self {
        let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(1366.0, 768.0));
        Self { lens: Lens::new(Look::default(), screen), screen, any: false, commands: Vec::new(), files: Vec::new() }
    }
}

/// Shows the window. egui may repeat a pass within a frame, so nothing but `shown` is changed, and that from scratch.
pub(super) fn show(
    mut contexts: EguiContexts,
    session: Res<Session>,
    mut shown: ResMut<Shown>,
    mut dressed: Local<Option<Theme>>,
    shelf: Option<Res<Shelf>>,
) -> Result {
    let ctx = contexts.ctx_mut()?.clone();
    if let Some(shelf) = shelf {
        shelf.put_up(&ctx);
    }
    shown.commands.clear();
    if *dressed != Some(session.settings.theme) {
        theme::apply(&ctx, session.settings.theme);
        *dressed = Some(session.settings.theme);
    }
    if !theme::fonts_ready(&ctx) {
        return Ok(());
    }
    theme::scale(&ctx, session.settings.scale);
    shown.screen = ctx.viewport_rect();
    shown.lens = panels::window(&ctx, &View::new(&session), &mut shown.commands);
    shown.any = true;
    if !shown.commands.is_empty() {
        ctx.request_repaint();
    }
    Ok(())
}
