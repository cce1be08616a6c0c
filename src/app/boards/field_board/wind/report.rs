//! The wind from a pasted METAR: group by group in words, what it would set, and what must be said with it.

use bevy_egui::egui::{Button, Id, RichText, TextEdit, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::help::mark;
use crate::units::Length;
use crate::wind::{Metar, metar};
use crate::words::Measure;
use crate::words::help::Topic;

/// Room for a group before its words, points.
const GROUP: f32 = 96.0;

/// Shows the box for the report and what was understood of it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.label("Paste the report of an aerodrome");
        mark(ui, Topic::Metar, out);
    });
    let id = Id::new("METAR");
    let mut text = ui.data(|data| data.get_temp::<String>(id)).unwrap_or_default();
    let edit = TextEdit::multiline(&mut text).id(id.with("box")).desired_rows(2).desired_width(f32::INFINITY);
    let response = ui.add(edit.margin(vec2(6.0, 6.0)).hint_text("such as 27012G22KT, or the whole line"));
    response.widget_info(|| WidgetInfo::labeled(WidgetType::TextEdit, true, "METAR line"));
    let cleared = !text.is_empty() && ui.button("Clear").clicked();
    if cleared {
        text.clear();
    }
    ui.data_mut(|data| data.insert_temp(id, text.clone()));
    if text.trim().is_empty() {
        return;
    }
    match Metar::read(&text) {
        Ok(report) => understood(ui, view, out, &report),
        Err(faults) => {
            let words = match faults.len() {
                1 => "This can't be used, for one reason:".to_owned(),
                count => format!("This can't be used, for {count} reasons:"),
            };
            ui.label(RichText::new(words).family(bold()));
            for fault in &faults {
                let place = if fault.place.is_empty() { String::new() } else { format!("{}: ", fault.place) };
                let mut fault = fault.clone();
                fault.problem = place + &fault.problem;
                entry::note(ui, view, &fault);
            }
        }
    }
}

fn understood(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, report: &Metar) {
    ui.label(RichText::new("Understood").family(bold()));
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        ui.spacing_mut().interact_size.y = 19.0;
        for (group, words) in &report.groups {
            ui.horizontal_top(|ui| {
                ui.allocate_ui(vec2(GROUP, 19.0), |ui| {
                    ui.set_min_width(GROUP);
                    ui.set_max_width(GROUP);
                    ui.label(RichText::new(group).family(bold()));
                });
                ui.vertical(|ui| ui.label(words));
            });
        }
    });
    let file = view.session.draft.file();
    let (mut wind, mut air) = (file.wind, file.air);
    let mut set = report.apply(&mut wind);
    set.extend(report.apply_air(&mut air));
    let taken = (wind, air) == (file.wind, file.air);
    ui.horizontal(|ui| {
        let button = Button::new(RichText::new("Use this wind").family(bold())).min_size(vec2(0.0, TARGET));
        if ui.add_enabled(report.wind.is_some(), button).clicked() {
            entry::change(view, out, "take the wind and the air of the report", |file| {
                report.apply(&mut file.wind);
                report.apply_air(&mut file.air);
            });
            out.push(AppCommand::Settle);
        }
        if let Some(metres) = report.visibility_m {
            let far = view.units().short(Measure::Distance, metres);
            if ui.button(format!("Use its visibility, {far}")).clicked() {
                entry::change(view, out, "take the visibility of the report", |file| {
                    file.limits.visibility = Length::new(metres);
                });
                out.push(AppCommand::Settle);
            }
        }
    });
    set_words(ui, view, &set, taken);
    entry::barred(ui, view, false, |ui| {
        ui.label(RichText::new("mind").family(bold()).size(14.0));
        ui.label(RichText::new(metar::caution()).size(14.0));
    });
}

/// What pressing the button sets, or has set.
pub(super) fn set_words(ui: &mut Ui, view: &View<'_>, words: &[String], taken: bool) {
    let head = if taken { "This is the wind now: " } else { "It would set: " };
    ui.label(RichText::new(format!("{head}{}.", words.join("; "))).size(14.0).color(view.palette.soft));
}
