//! What was flown against what was said: logs, the recoveries in them, the wind they tell, what steers the jet, and what of
//! the sheet that corrects.

mod columns;
mod heights;
mod log;
mod map;
mod told;
mod velocities;

use bevy_egui::egui::{Button, CentralPanel, Panel, RichText, ScrollArea, Slider, Ui, vec2};

use crate::app::boards::Panels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::{TARGET, bold, primary};
use crate::app::session::{AppCommand, DebriefCommand, DebriefView, FileCommand, Mark, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::{ROOMY, frame};
use crate::debrief::Tally;
use crate::report::Format;
use crate::words::debrief as words;
use crate::words::help::Topic;

/// Width of the panel beside the view, points.
const SIDE: f32 = 470.0;
/// What the debrief can be saved as.
const SAVED: [(Format, &str); 4] = [
    (Format::Pdf, "Print\u{2026}"),
    (Format::Text, "Report\u{2026}"),
    (Format::Json, "JSON\u{2026}"),
    (Format::GeoJson, "GeoJSON\u{2026}"),
];

/// The board.
#[derive(Debug)]
pub struct DebriefPanels;

impl Panels for DebriefPanels {
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
        Panel::right("debrief").frame(frame(view, ROOMY)).resizable(false).exact_size(SIDE).show(ui, |ui| {
            ScrollArea::vertical().show(ui, |ui| side(ui, view, out));
        });
        Panel::bottom("log").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| foot(ui, view, out));
        // A plot has no ground under it.
        let room = match view.session.debrief.view {
            DebriefView::Map => CentralPanel::no_frame(),
            DebriefView::Velocities | DebriefView::Residuals | DebriefView::Heights => {
                CentralPanel::no_frame().frame(frame(view, ROOMY))
            }
        };
        room.show(ui, |ui| match view.session.debrief.view {
            DebriefView::Map => map::show(ui, view, out),
            DebriefView::Velocities => velocities::circle(ui, view),
            DebriefView::Residuals => velocities::residuals(ui, view),
            DebriefView::Heights => heights::show(ui, view),
        })
        .inner
    }

    fn has_map(&self, view: &View<'_>) -> bool {
        view.session.debrief.view == DebriefView::Map
    }
}

fn side(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let debrief = &view.session.debrief;
    ui.horizontal(|ui| {
        ui.heading("Debrief");
        mark(ui, Topic::Debrief, out);
        if ui.add(primary("Open a log\u{2026}", view.palette).min_size(vec2(130.0, TARGET))).clicked() {
            out.push(AppCommand::File(FileCommand::OpenLog));
        }
        if ui.add(Button::new("A folder of logs\u{2026}").min_size(vec2(0.0, TARGET))).clicked() {
            out.push(AppCommand::File(FileCommand::OpenLogs));
        }
    });
    if let [next, more @ ..] = &debrief.to_do[..] {
        ui.horizontal_wrapped(|ui| {
            let doing = if next.held.is_some() { "Working anew on" } else { "Reading" };
            let name = next.path.file_name().unwrap_or(next.path.as_os_str()).to_string_lossy();
            let more = if more.is_empty() { String::new() } else { format!(", and {} more to come", more.len()) };
            ui.label(format!("{doing} {name}{more} \u{2026}"));
            if ui.button("stop").on_hover_text("what was read stays").clicked() {
                out.push(AppCommand::Debrief(DebriefCommand::Stop));
            }
        });
    }
    columns::show(ui, view, out);
    log::refused(ui, view);
    if debrief.logs.is_empty() {
        ui.label(
            "Open the log of a flight with a recovery in it: GPX, CSV with any columns, NMEA 0183 or IGC. It is read where it \
             lies; nothing of it is kept but what you take into the sheet, and, for every table with the same header, what \
             its columns hold as you have said it. Or drop it, or a folder of them, on this window.",
        );
        return;
    }
    told::taken(ui, view);
    let stale = view.session.is_debrief_stale();
    if stale {
        let old = "These are the numbers of an EARLIER plan, or of moments that have been moved since.";
        ui.label(RichText::new(old).family(bold()));
        if debrief.to_do.is_empty() {
            let button = primary("Hold it against the plan as it is", view.palette).min_size(vec2(240.0, TARGET));
            if ui.add_enabled(view.session.is_current(), button).clicked() {
                out.push(AppCommand::Debrief(DebriefCommand::Again));
            }
        }
    }
    let tally = Tally::of(debrief.told().flat_map(|log| &log.recoveries));
    ui.label(RichText::new(words::standing(&tally)).family(bold()));
    log::list(ui, view, out);
    if let Some((log, one)) = view.session.debrief_chosen() {
        told::show(ui, view, log, one, out);
    }
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        for (format, word) in SAVED {
            if ui.add_enabled(!stale, Button::new(word).min_size(vec2(0.0, TARGET))).clicked() {
                out.push(AppCommand::File(FileCommand::SaveDebrief(format)));
            }
        }
        let mut no_places = debrief.no_places;
        if ui.checkbox(&mut no_places, "without places").on_hover_text("nothing says where it was flown").changed() {
            out.push(AppCommand::Debrief(DebriefCommand::NoPlaces(no_places)));
        }
    });
}

/// Which view, where in the log, and the moments of the recovery.
fn foot(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let debrief = &view.session.debrief;
    ui.horizontal(|ui| {
        for one in DebriefView::ALL {
            let chosen = debrief.view == one;
            if ui.add(Button::new(one.name()).selected(chosen).min_size(vec2(0.0, TARGET))).clicked() && !chosen {
                out.push(AppCommand::Debrief(DebriefCommand::View(one)));
            }
        }
    });
    let Some((log, one)) = view.session.debrief_chosen() else { return };
    let times = log.log.track.time_s();
    let end_s = times.last().copied().unwrap_or_default();
    ui.horizontal(|ui| {
        let mut at_s = debrief.at_s;
        ui.spacing_mut().slider_width = (ui.available_width() - 160.0).max(120.0);
        let slider = Slider::new(&mut at_s, 0.0..=end_s.max(0.1)).show_value(false);
        if ui.add(slider).on_hover_text("where in the log").changed() {
            out.push(AppCommand::Debrief(DebriefCommand::Scrub(at_s)));
        }
        ui.label(format!("{at_s:.1} of {end_s:.0} s"));
    });
    ui.horizontal_wrapped(|ui| {
        ui.label("go to, or move here:");
        for mark in Mark::ALL {
            let Some(sample) = mark.of(&one.marks) else { continue };
            let at_s = times[sample.min(times.len() - 1)];
            let button = ui.button(format!("{} {at_s:.0} s", mark.name()));
            let response = button
                .on_hover_text("press to go there; press with the other button to move it to where the slider is");
            if response.clicked() {
                out.push(AppCommand::Debrief(DebriefCommand::Scrub(at_s)));
            }
            if response.secondary_clicked() {
                out.push(AppCommand::Debrief(DebriefCommand::Move(mark)));
            }
        }
    });
}
