//! The spotter's own window: where the jet is, said anew at every moment, and what comes next. Whoever stands beside the
//! pilot reads it out.

use bevy_egui::egui::{Button, CentralPanel, Context, Id, LayerId, RichText, ScrollArea, Ui, UiBuilder, vec2};

use crate::app::look::theme::{bold, primary, unboxed};
use crate::app::session::{AppCommand, RehearseCommand, View};
use crate::app::widgets::room::{ROOMY, frame};
use crate::rehearsal::{Rehearsal, Stage};
use crate::words::rehearsal::{spotter_line, to_do};

/// Shows it on all of a window.
pub fn window(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let room = UiBuilder::new().layer_id(LayerId::background()).max_rect(ctx.viewport_rect());
    let mut ui = Ui::new(ctx.clone(), Id::new("spotter"), room);
    unboxed(&mut ui);
    CentralPanel::no_frame().frame(frame(view, ROOMY)).show(&mut ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| show(ui, view, out));
    });
}

fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.heading("Spotter");
    let Some(flown) = &view.session.rehearse.flying else {
        ui.label(
            RichText::new("Nothing is flown. Before it is: \u{201c}I have lookout. Sky clear. Ground clear.\u{201d}")
                .size(20.0),
        );
        return;
    };
    ui.label(RichText::new(spotter_line(flown)).family(bold()).size(34.0));
    ui.add_space(10.0);
    ui.label(RichText::new(now(flown)).size(20.0));
    ui.add_space(10.0);
    if flown.stages().next() == Some(Stage::Cued)
        && ui.add(primary("I have said it", view.palette).min_size(vec2(200.0, 48.0))).clicked()
    {
        out.push(AppCommand::Rehearse(RehearseCommand::Next));
    }
    if flown.lost_at().is_none() && ui.add(Button::new("Take something away now").min_size(vec2(200.0, 40.0))).clicked()
    {
        out.push(AppCommand::Rehearse(RehearseCommand::Do(crate::rehearsal::Deed::Lose)));
    }
}

/// What the pilot is at.
fn now(flown: &Rehearsal) -> String {
    match (flown.lost_at(), flown.stages().next()) {
        (None, _) => "Nothing is lost. Eyes on the jet.".into(),
        (Some(_), Some(Stage::Found)) => "The pilot looks for it. Point with your arm, and say the line again.".into(),
        (Some(_), Some(stage)) => format!("Next: {}.", to_do(stage, flown.exercise().lost)),
        (Some(_), None) => "\u{201c}You have control. Circuit clear.\u{201d}".into(),
    }
}
