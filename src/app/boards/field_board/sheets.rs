//! The sheets beside the map: one open at a time, with a mark on each that has something to be fixed.

use bevy_egui::egui::{Button, RichText, ScrollArea, Ui, WidgetInfo, WidgetType, vec2};

use super::{brief, checklist, field, jet, limits, loss, wind};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, FieldSheet, View, lies_under};

/// Shows the sheets.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    checklist::show(ui, view, out);
    ui.separator();
    tabs(ui, view, out);
    let sheet = view.session.sheet;
    ScrollArea::vertical().id_salt(sheet).auto_shrink([false, false]).show(ui, |ui| {
        // The bar of the scroll area lies over its edge.
        ui.set_max_width(ui.available_width() - 10.0);
        match sheet {
            FieldSheet::Jet => jet::show(ui, view, out),
            FieldSheet::Wind => wind::show(ui, view, out),
            FieldSheet::Loss => loss::show(ui, view, out),
            FieldSheet::Limits => limits::show(ui, view, out),
            FieldSheet::Brief => brief::show(ui, view, out),
            FieldSheet::Field => field::show(ui, view, out),
        }
        ui.add_space(12.0);
    });
}

fn tabs(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.spacing_mut().button_padding.x = 4.0;
        #[allow(clippy::cast_precision_loss, reason = "a handful of sheets")]
        let count = FieldSheet::ALL.len() as f32;
        let width = (ui.available_width() - 4.0 * (count - 1.0)) / count;
        for sheet in FieldSheet::ALL {
            let open = view.session.sheet == sheet;
            let wrong = view.session.draft.errors().filter(|fault| lies_under(&fault.place, sheet.places())).count();
            let text = if wrong > 0 { format!("{} !", sheet.name()) } else { sheet.name().to_owned() };
            let text = RichText::new(text);
            let text = if open { text.family(bold()) } else { text };
            let button = ui.add(Button::new(text).selected(open).min_size(vec2(width, TARGET)));
            let errors = match wrong {
                0 => String::new(),
                1 => ": 1 error to fix".into(),
                _ => format!(": {wrong} errors to fix"),
            };
            button.widget_info(|| {
                WidgetInfo::selected(WidgetType::Button, true, open, format!("{} sheet{errors}", sheet.name()))
            });
            if button.on_hover_text(format!("{}{errors}", sheet.hint())).clicked() && !open {
                out.push(AppCommand::Sheet(sheet));
            }
        }
    });
}
