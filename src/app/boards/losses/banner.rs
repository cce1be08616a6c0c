//! Which loss is replayed where it is not the plan's own, over whatever board is shown, with the way back.

use bevy_egui::egui::{Align, Button, Frame, Layout, Margin, Panel, RichText, Ui, vec2};

use crate::app::boards::losses::map::{at_place, heading};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::words::Measure;

/// Shows it while a loss elsewhere is replayed.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let (Some(lost), Some(flown)) = (view.session.lost, &view.session.flown) else { return };
    let look = Frame::new().fill(view.palette.chosen).inner_margin(Margin::symmetric(10, 4));
    Panel::top("replayed loss").frame(look).resizable(false).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.set_min_height(TARGET);
            let came = flown.outcome.map_or("", |outcome| outcome.name());
            ui.label(RichText::new(format!("Replayed loss: {came}")).family(bold()));
            let units = view.units();
            let trial = if lost.trial == 0 { "as entered".to_owned() } else { format!("trial {}", lost.trial) };
            ui.label(format!(
                "{}, heading {}, {} up at {}, {trial}, mean wind",
                at_place(lost.at, units),
                heading(lost.heading_deg),
                units.short(Measure::Height, lost.height_m),
                units.short(Measure::Speed, lost.speed_mps),
            ));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let back = Button::new("Back to the plan's own loss").min_size(vec2(0.0, TARGET));
                if ui.add(back).on_hover_text("escape key").clicked() {
                    out.push(AppCommand::Lost(None));
                }
            });
        });
    });
}
