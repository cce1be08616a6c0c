//! What a person chooses for good: units, the scale of everything, light or dark.

use bevy_egui::egui::{Button, Context, Frame, Grid, Id, Margin, Modal, RichText, Ui, vec2};

use crate::app::look::theme;
use crate::app::look::theme::{SCALES, TARGET, Theme, bold};
use crate::app::session::{AppCommand, FrontCommand, Settings, View};
use crate::words::Measure;

/// Shows the settings, where they are open.
pub fn show(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    if !view.session.front.settings {
        return;
    }
    let now = &view.session.settings;
    let mut settings = now.clone();
    let frame = Frame::window(&ctx.global_style()).inner_margin(Margin::same(18));
    Modal::new(Id::new("settings")).frame(frame).show(ctx, |ui| {
        ui.set_max_width(720.0);
        ui.heading("Settings");
        ui.add_space(6.0);
        units(ui, view, &mut settings);
        ui.separator();
        scale(ui, view, &mut settings);
        row(ui, "look", |ui| {
            for (theme, word) in [(Theme::Light, "light, for sunlight"), (Theme::Dark, "dark, for the evening")] {
                if choice(ui, word, settings.theme == theme, true) {
                    settings.theme = theme;
                }
            }
        });
        ui.separator();
        ui.horizontal(|ui| {
            if ui.add(Button::new("Show the notice again").min_size(vec2(0.0, TARGET))).clicked() {
                settings.notice_read = false;
                out.push(AppCommand::Front(FrontCommand::Settings(false)));
            }
            if ui.add(Button::new("Usual settings").min_size(vec2(0.0, TARGET))).clicked() {
                let Settings { notice_read, tour_seen, recent, .. } = settings.clone();
                settings = Settings { notice_read, tour_seen, recent, ..Settings::default() };
            }
            let close = Button::new(RichText::new("Close").family(bold())).min_size(vec2(90.0, TARGET));
            let close = ui.add(close).on_hover_text("key Escape");
            if ui.memory(|memory| memory.focused()).is_none() {
                close.request_focus();
            }
            if close.clicked() {
                out.push(AppCommand::Front(FrontCommand::Settings(false)));
            }
        });
    });
    if settings != *now {
        out.push(AppCommand::Settings(Box::new(settings)));
    }
}

fn units(ui: &mut Ui, view: &View<'_>, settings: &mut Settings) {
    let soft = view.palette.soft;
    Grid::new("units").num_columns(3).spacing([18.0, 6.0]).show(ui, |ui| {
        for head in ["", "unit", "and beside it, in brackets"] {
            ui.label(RichText::new(head).color(soft));
        }
        ui.end_row();
        for measure in Measure::ALL {
            ui.label(RichText::new(measure.name()).family(bold()));
            let pair = settings.units.of_mut(measure);
            ui.push_id((measure, "first"), |ui| {
                ui.horizontal(|ui| {
                    for &name in measure.choices() {
                        if choice(ui, name, pair.first == name, true) {
                            pair.first = name.into();
                        }
                    }
                });
            });
            ui.push_id((measure, "second"), |ui| {
                ui.horizontal(|ui| {
                    for &name in [""].iter().chain(measure.choices()) {
                        let word = if name.is_empty() { "none" } else { name };
                        // The same unit twice says nothing.
                        let sensible = pair.first != name;
                        if choice(ui, word, pair.second == name && sensible, sensible) {
                            pair.second = name.into();
                        }
                    }
                });
            });
            ui.end_row();
        }
    });
}

fn scale(ui: &mut Ui, view: &View<'_>, settings: &mut Settings) {
    let most = theme::most_scale(ui.ctx());
    let soft = view.palette.soft;
    row(ui, "size of everything", |ui| {
        for scale in SCALES {
            if choice(ui, &format!("{:.0} %", scale * 100.0), settings.scale == scale, scale <= most) {
                settings.scale = scale;
            }
        }
    });
    if most < SCALES[SCALES.len() - 1] {
        let text = format!("Ctrl and + or \u{2212}. In a window of this size there is room for {:.0} %.", most * 100.0);
        ui.label(RichText::new(text).color(soft).size(14.0));
    }
}

fn row(ui: &mut Ui, name: &str, inside: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        ui.label(RichText::new(name).family(bold()));
        inside(ui);
    });
}

/// A button of which one in a row is chosen.
fn choice(ui: &mut Ui, word: &str, chosen: bool, enabled: bool) -> bool {
    let button = Button::new(word).selected(chosen).min_size(vec2(44.0, TARGET));
    ui.add_enabled(enabled, button).clicked() && !chosen
}
