//! From where a loss is recovered: the map of losses with its legend and counts, and the replay of the loss pressed.

mod asked;
pub mod banner;
mod cell;
mod legend;
mod lines;
mod map;

use bevy_egui::egui::{Button, CentralPanel, Frame, Panel, RichText, ScrollArea, Ui};

use crate::app::boards::Panels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::bold;
use crate::app::session::{Answer, AppCommand, Grade, LossCommand, LossView, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::{ROOMY, frame};
use crate::app::widgets::{height, legend as pens, progress, replay};
use crate::brief::{Answer as Told, StudyReport};
use crate::study::losses::LossStudy;
use crate::words::help::Topic;
use crate::words::looked;

/// The board.
#[derive(Debug)]
pub struct LossPanels;

impl Panels for LossPanels {
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
        Panel::right("loss map").frame(frame(view, ROOMY)).resizable(false).exact_size(446.0).show(ui, |ui| {
            Panel::bottom("chosen cell").frame(Frame::NONE).resizable(false).show_separator_line(false).show(
                ui,
                |ui| {
                    cell::show(ui, view, out);
                },
            );
            ScrollArea::vertical().show(ui, |ui| answers(ui, view, out));
        });
        Panel::bottom("replay").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| {
            ui.scope(|ui| pens::show(ui, view, out));
            replay::show(ui, view, out);
            height::show(ui, view, out);
        });
        CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
    }
}

fn answers(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.heading("From where a loss is recovered");
        mark(ui, Topic::LossMap, out);
    });
    progress::show(ui, view, out);
    let Some(answer) = view.session.loss_answer() else {
        ui.label("Being worked out: a first map comes in a moment.");
        asked::show(ui, view, out);
        return;
    };
    ui.label(RichText::new(state(view, answer)).color(view.palette.soft));
    if let Some(flown) = &view.session.flown {
        let told = Told::Losses(&answer.found);
        let report = StudyReport { scenario: &flown.scenario, answer: told, remedy: None, warnings: &[], changes: &[] };
        ui.label(RichText::new(report.headline()).family(bold()));
        ui.label(RichText::new(legend::reason(&answer.found)).family(bold()));
    }
    asked::show(ui, view, out);
    views(ui, view, out);
    legend::show(ui, view, &answer.found);
    lines::show(ui, view, &answer.found, out);
}

/// What went into the answer, and whether it is about the plan on the screen.
pub(super) fn state(view: &View<'_>, answer: &Answer<LossStudy>) -> String {
    let study = &answer.found;
    let headings = study.ask.headings;
    let flown = match answer.grade {
        Grade::Coarse => format!("coarse: the plan as entered on {headings} headings, no cell checked closely"),
        Grade::Refined => format!("refined, {headings} headings: {}", looked(study).trim_end_matches('.')),
    };
    let partial = if study.partial { ", STOPPED before it was complete" } else { "" };
    let stale = if answer.edition == view.session.edition && view.session.is_current() {
        ""
    } else {
        ". Of an EARLIER plan, being worked out again"
    };
    format!("{flown}{partial}{stale}.")
}

fn views(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.label("cells show");
        for choice in LossView::ALL {
            let button = Button::new(choice.name()).selected(view.session.losses.view == choice);
            if ui.add(button).on_hover_text(choice.hint()).clicked() {
                out.push(AppCommand::Losses(LossCommand::View(choice)));
            }
        }
        mark(ui, Topic::Share, out);
    });
}
