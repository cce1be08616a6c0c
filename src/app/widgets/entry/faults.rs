//! What is wrong with what was entered, below the box it was entered in, in words with the way out.

use bevy_egui::egui::{CornerRadius, RichText, Sense, Ui, vec2};

use crate::app::look::theme::bold;
use crate::app::session::View;
use crate::error::{Fault, Severity};

/// Shows every fault of the draft that lies at a place of its file, a JSON pointer.
pub fn faults(ui: &mut Ui, view: &View<'_>, place: &str) {
    for fault in view.session.draft.faults().iter().filter(|fault| fault.place == place) {
        note(ui, view, fault);
    }
}

/// Shows one fault.
pub fn note(ui: &mut Ui, view: &View<'_>, fault: &Fault) {
    let text = format!("{}. {}", fault.problem.trim_end_matches('.'), fault.way_out);
    let (word, loud) = match fault.severity {
        Severity::Error => ("error", true),
        Severity::Warning => ("worth a look", false),
    };
    barred(ui, view, loud, |ui| {
        ui.label(RichText::new(word).family(bold()).size(14.0));
        ui.label(RichText::new(sentence(&text)).size(14.0));
    });
}

/// Says what is wrong with what is being typed; whether it is to be put back to what it was.
pub(super) fn wrong(ui: &mut Ui, view: &View<'_>, name: &str, why: &str, shown: &str) -> bool {
    barred(ui, view, true, |ui| {
        ui.label(RichText::new("not taken").family(bold()).size(14.0));
        ui.label(RichText::new(format!("{}.", sentence(why.trim_end_matches('.')))).size(14.0));
        let back = if shown.is_empty() { "Esc: as it was".to_owned() } else { format!("Esc: back to {shown}") };
        let button = ui.button(back);
        button.widget_info(|| {
            bevy_egui::egui::WidgetInfo::labeled(bevy_egui::egui::WidgetType::Button, true, format!("put {name} back"))
        });
        button.clicked()
    })
}

/// Wrapped text beside a bar: wide and filled where it is an error, thin where it is worth a look.
pub fn barred<R>(ui: &mut Ui, view: &View<'_>, loud: bool, add: impl FnOnce(&mut Ui) -> R) -> R {
    let (width, colour) = if loud { (5.0, view.palette.hatch[0]) } else { (2.0, view.palette.hatch[2]) };
    let inner = ui.horizontal(|ui| {
        ui.spacing_mut().interact_size.y = 18.0;
        ui.allocate_exact_size(vec2(6.0, 1.0), Sense::hover());
        ui.vertical(|ui| ui.horizontal_wrapped(add).inner).inner
    });
    let bar = inner.response.rect.with_max_x(inner.response.rect.left() + width);
    ui.painter().rect_filled(bar, CornerRadius::ZERO, colour);
    inner.inner
}

/// With a capital.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    first + letters.as_str()
}
