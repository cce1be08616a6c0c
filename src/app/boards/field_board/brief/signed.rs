//! Who signed the plan, as what, and when.

use bevy_egui::egui::{Align, Button, Layout, RichText, Ui, WidgetInfo, WidgetType, vec2};

use super::rows::{add, remove, take_out};
use super::soft;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::Line;
use crate::run::{ScenarioFile, Signature};

/// Room for a name before its box, points.
const NAME: f32 = 40.0;

/// Shows the signatures.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.heading("Who signed");
    soft(
        ui,
        view,
        "A signature here is a note that somebody signed this version; the paper is what counts. Any change of the plan lets it lapse.",
    );
    for (index, (one, version)) in view.session.draft.file().signed().into_iter().enumerate() {
        signature(ui, view, out, index, one);
        if !version.counts() {
            ui.horizontal_wrapped(|ui| {
                ui.label(RichText::new(format!("lapsed: {}", version.words())).family(bold()));
                sign(ui, view, out, index, "sign the present version");
            });
            ui.add_space(4.0);
        }
    }
    if add(ui, "Add a signature") {
        let on = view.session.today.clone();
        entry::change(view, out, "add a signature", |file| {
            let version = file.plan_hash();
            file.brief.signed.push(Signature { name: "name".into(), role: String::new(), on, version });
        });
        out.push(AppCommand::Settle);
    }
}

fn signature(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, one: &Signature) {
    let all: [(&str, &str, &str, fn(&mut Signature) -> &mut String); 3] = [
        ("name", &one.name, "who", |one| &mut one.name),
        ("role", &one.role, "second person", |one| &mut one.role),
        ("on", &one.on, "2026-04-18", |one| &mut one.on),
    ];
    for (row, (key, shown, hint, part)) in all.into_iter().enumerate() {
        let name = format!("signature {}: {key}", index + 1);
        let place = format!("/brief/signed/{index}/{key}");
        let line = Line { name: &name, shown, hint, place: &place, topic: None };
        let cell = ui
            .horizontal(|ui| {
                let label = RichText::new(if row == 0 { format!("{}.", index + 1) } else { key.to_owned() });
                ui.allocate_ui_with_layout(vec2(NAME, TARGET), Layout::left_to_right(Align::Center), |ui| {
                    ui.set_min_width(NAME);
                    ui.label(label.family(bold()));
                });
                let beside = [TARGET + 26.0, 20.0, 124.0][row];
                let cell = line.cell(ui, view, out, ui.available_width() - beside, entry::words);
                match row {
                    0 if remove(ui, &format!("signature {}", index + 1)) => {
                        let what = format!("take signature {} out", index + 1);
                        entry::change(view, out, what, |file| take_out(&mut file.brief.signed, index));
                        out.push(AppCommand::Settle);
                    }
                    2 => sign(ui, view, out, index, "signed today"),
                    _ => {}
                }
                cell
            })
            .inner;
        cell.below(ui, view);
        entry::set(view, out, &name, cell.found(), |file, text| put(file, index, &|one| part(one).clone_from(&text)));
    }
    ui.add_space(4.0);
}

fn put(file: &mut ScenarioFile, index: usize, change: &dyn Fn(&mut Signature)) {
    file.brief.signed.get_mut(index).into_iter().for_each(change);
}

/// A button that puts a name under the plan as it is now, on the day of today.
fn sign(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, words: &str) {
    let button = ui.add(Button::new(words).min_size(vec2(0.0, TARGET)));
    let label = format!("signature {}: {words}", index + 1);
    button.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    if button.clicked() {
        let day = view.session.today.clone();
        entry::change(view, out, format!("sign {} today", index + 1), |file| {
            let version = file.plan_hash();
            put(file, index, &|one| {
                one.on.clone_from(&day);
                one.version.clone_from(&version);
            });
        });
        out.push(AppCommand::Settle);
    }
}
