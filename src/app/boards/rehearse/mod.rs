//! Rehearsing the loss: an exercise, a flight in somebody's hands, the drill, and how it went.

mod above;
mod class;
mod drill;
mod exercise;
mod keys;
mod result;
mod scene;
pub mod spotter;
mod sticks;
mod stopwatch;

use bevy_egui::egui::{Button, CentralPanel, Panel, RichText, ScrollArea, Ui, vec2};

use crate::app::boards::Panels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, RehearseCommand, RehearseSheet, RehearseView, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::{ROOMY, frame};
use crate::words::help::Topic;

/// Width of the panel beside the view, points.
const SIDE: f32 = 430.0;

/// The board.
#[derive(Debug)]
pub struct RehearsePanels;

impl Panels for RehearsePanels {
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
        keys::show(ui, view, out);
        Panel::right("rehearse").frame(frame(view, ROOMY)).resizable(false).exact_size(SIDE).show(ui, |ui| {
            ScrollArea::vertical().show(ui, |ui| side(ui, view, out));
        });
        Panel::bottom("said").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| said(ui, view, out));
        CentralPanel::no_frame().show(ui, |ui| scene::show(ui, view, out)).inner
    }

    fn has_map(&self, view: &View<'_>) -> bool {
        scene::is_from_above(view)
    }

    fn keeps_arrows(&self) -> bool {
        true
    }

    fn flies(&self, view: &View<'_>) -> bool {
        view.session.rehearse.flying.is_some() || view.session.rehearse.stopwatch.runs()
    }
}

/// What lies beside the view: the drill of a flight, how the last one went, or what is chosen for the next.
fn side(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let rehearse = &view.session.rehearse;
    if let Some(flown) = &rehearse.flying {
        return drill::show(ui, view, flown, out);
    }
    if let Some(last) = &rehearse.last {
        return result::show(ui, view, last, out);
    }
    ui.horizontal(|ui| {
        for sheet in RehearseSheet::ALL {
            let word = RichText::new(sheet.name()).family(bold());
            let chosen = rehearse.sheet == sheet;
            if ui.add(Button::new(word).selected(chosen).min_size(vec2(70.0, TARGET))).clicked() && !chosen {
                out.push(AppCommand::Rehearse(RehearseCommand::Sheet(sheet)));
            }
        }
        mark(ui, Topic::Rehearsal, out);
    });
    ui.add_space(6.0);
    match rehearse.sheet {
        RehearseSheet::Exercise => exercise::show(ui, view, out),
        RehearseSheet::Sticks => {
            let mut asked = Vec::new();
            sticks::show(ui, &rehearse.desk, view.palette, &mut asked);
            out.extend(asked.into_iter().map(|command| AppCommand::Rehearse(RehearseCommand::Sticks(command))));
        }
        RehearseSheet::Stopwatch => stopwatch::show(ui, view, out),
        RehearseSheet::Class => class::show(ui, view, out),
    }
}

/// The line below the view: which view, and what was said last.
fn said(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let rehearse = &view.session.rehearse;
    ui.horizontal(|ui| {
        for one in RehearseView::ALL {
            let chosen = rehearse.view == one;
            let button = Button::new(one.name()).selected(chosen).min_size(vec2(0.0, TARGET));
            if ui.add(button).on_hover_text(one.hint()).clicked() && !chosen {
                out.push(AppCommand::Rehearse(RehearseCommand::View(one)));
            }
        }
    });
    if let Some(flown) = &rehearse.flying {
        let (state, units) = (flown.state(), view.units());
        let told = format!(
            "throttle {:.0} %, height {}, airspeed {}",
            flown.sticks().throttle_share * 100.0,
            units.short(crate::words::Measure::Height, state.height),
            units.short(crate::words::Measure::Speed, state.airspeed),
        );
        ui.label(told).on_hover_text("telemetry, as somebody beside the pilot reads it out");
    }
    // Always a line, so that the picture keeps its size.
    let words = rehearse
        .caption
        .as_ref()
        .map_or_else(String::new, |caption| format!("{}: \u{201c}{}\u{201d}", caption.who, caption.line));
    ui.label(RichText::new(words).family(bold()).size(18.0));
}
