//! What one recovery tells: wind and airspeed, what steers it, predicted beside flown, margins, and what it corrects.

use bevy_egui::egui::{Button, Grid, RichText, Sense, Ui, vec2};

use crate::app::look::marks::verdict_mark;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, DebriefCommand, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::verdict;
use crate::debrief::Debriefed;
use crate::report::debrief::LogDebrief;
use crate::words::debrief as words;
use crate::words::help::Topic;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, log: &LogDebrief, one: &Debriefed, out: &mut Vec<AppCommand>) {
    let units = view.units();
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.label(RichText::new("Wind and airspeed, from the ground track").family(bold()));
        mark(ui, Topic::WindFlown, out);
    });
    match &one.wind {
        Ok(fit) => {
            ui.label(crate::words::capital(&words::wind(fit, units)) + ".");
            if let Some(caution) = fit.caution() {
                ui.label(RichText::new(caution).color(view.palette.soft));
            }
        }
        Err(why) => {
            ui.label(format!("It can't be told: {why}."));
        }
    }
    if one.laps.len() > 1 {
        ui.collapsing("Lap by lap", |ui| {
            for (lap, (_, fit)) in one.laps.iter().enumerate() {
                match fit {
                    Ok(fit) => ui.label(format!("lap {}: {}", lap + 1, words::wind(fit, units))),
                    Err(why) => ui.label(format!("lap {}: {why}", lap + 1)),
                };
            }
        });
    }
    if !log.heights.winds.is_empty() {
        ui.collapsing("The wind by height, from whole turns", |ui| {
            for line in words::by_height(&log.heights, units) {
                ui.label(line);
            }
        });
    }
    ui.horizontal(|ui| {
        ui.label(RichText::new("What steers it").family(bold()));
        mark(ui, Topic::SteeredBy, out);
    });
    if let Err(why) = &one.steering {
        ui.label(format!("It can't be told: {why}."));
    }
    if let Ok(steering) = &one.steering {
        ui.label(crate::words::capital(&words::steers(steering)) + ".");
        ui.collapsing("How well each law fits", |ui| {
            for candidate in &steering.candidates {
                ui.label(words::candidate(candidate, units));
            }
        });
    }
    compared(ui, view, one);
    corrections(ui, view, out);
    learned(ui, view, one);
    margins(ui, view, one);
}

fn compared(ui: &mut Ui, view: &View<'_>, one: &Debriefed) {
    ui.label(RichText::new("Predicted in the wind as flown, and flown").family(bold()));
    Grid::new("compared").num_columns(4).striped(true).spacing(vec2(10.0, 2.0)).show(ui, |ui| {
        for head in ["", "predicted", "flown", "off"] {
            ui.label(RichText::new(head).color(view.palette.soft));
        }
        ui.end_row();
        for line in words::compared(one, view.units()) {
            for cell in [line.name, &line.predicted, &line.flown, &line.off] {
                ui.label(cell);
            }
            ui.end_row();
        }
    });
    ui.label(words::held(one));
}

/// What the flight says of the numbers of the sheet.
fn learned(ui: &mut Ui, view: &View<'_>, one: &Debriefed) {
    let Some(learned) = &one.learned else { return };
    ui.collapsing("What it says of the sheet", |ui| {
        for line in words::learned(learned, view.units()) {
            match line.told {
                Ok(told) => ui.label(format!("{}: {told}", line.name)),
                Err(why) => {
                    ui.label(RichText::new(format!("{}: can't be told, {why}", line.name)).color(view.palette.soft))
                }
            };
        }
    });
}

fn margins(ui: &mut Ui, view: &View<'_>, one: &Debriefed) {
    ui.collapsing("Margins of the flight", |ui| {
        Grid::new("flown margins").num_columns(3).striped(true).spacing(vec2(8.0, 2.0)).show(ui, |ui| {
            for row in &one.margins.rows {
                let (room, _) = ui.allocate_exact_size(vec2(20.0, 20.0), Sense::hover());
                verdict_mark(ui.painter(), room.center(), 7.0, row.verdict, view.palette);
                ui.label(&row.name);
                ui.label(crate::words::margin(row));
                ui.end_row();
            }
        });
        for lacked in &one.margins.lacked {
            ui.label(RichText::new(format!("{}: the log does not tell", lacked.limit.name)).color(view.palette.soft));
        }
    });
}

/// What it would correct, each with a person's consent; before and after stand side by side.
fn corrections(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let debrief = &view.session.debrief;
    let stale = view.session.is_debrief_stale();
    if stale {
        let later = "What it would correct in the sheet is told once it is held against the plan as it is.";
        ui.label(RichText::new(later).color(view.palette.soft));
    } else if debrief.corrections.is_empty() {
        ui.label(RichText::new("It corrects nothing in the sheet.").color(view.palette.soft));
    } else {
        let head = match debrief.logs.len() {
            1 => "What it would correct in the sheet".into(),
            logs => format!("What the {logs} logs together would correct in the sheet"),
        };
        ui.label(RichText::new(head).family(bold()));
    }
    for correction in &debrief.corrections {
        ui.horizontal_wrapped(|ui| {
            ui.label(words::correction(correction));
            if ui.add(Button::new("Use it").min_size(vec2(0.0, TARGET))).clicked() {
                out.push(AppCommand::Debrief(DebriefCommand::Take(Box::new(correction.clone()))));
            }
        });
    }
}

/// What became of the verdict, where the plan is as a correction left it.
pub(super) fn taken(ui: &mut Ui, view: &View<'_>) {
    if view.session.debrief.taken == Some(view.session.edition) {
        let now = verdict::known(view).map(|(_, verdict)| verdict.in_words());
        let now = now.unwrap_or_else(|| "being worked out".into());
        ui.label(format!("The verdict with what was taken: {now}. Undo (Ctrl+Z) takes it back."));
    }
}
