//! Where does a person begin who has never been here? Three doors, until one of them has been taken.

use bevy_egui::egui::{Button, Context, Frame, Id, Key, Margin, Modal, Modifiers, RichText, vec2};

use crate::app::look::theme::bold;
use crate::app::session::tour::TourCommand;
use crate::app::session::{AppCommand, FileCommand, FrontCommand, View};

/// Width of a door and height of its button, points.
const WIDTH: f32 = 440.0;
const HIGH: f32 = 44.0;

/// A door: what is on it, what is behind it, and what is asked for.
const DOORS: [(&str, &str, FileCommand); 3] = [
    (
        "Look round the demo",
        "Ten minutes with a guide on an invented field. Nothing of yours is touched.",
        FileCommand::Tour,
    ),
    ("Draw my field", "An empty field, with a checklist from here to the print.", FileCommand::New),
    ("Open a file", "A field that somebody has drawn already.", FileCommand::Open),
];

/// Shows them, as long as nobody has gone through one.
pub fn show(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    if !view.session.is_at_the_doors() {
        return;
    }
    let taken = AppCommand::Front(FrontCommand::Tour(TourCommand::NotNow));
    if ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        out.push(taken.clone());
    }
    let frame = Frame::window(&ctx.global_style()).inner_margin(Margin::same(18));
    Modal::new(Id::new("doors")).frame(frame).show(ctx, |ui| {
        ui.set_width(WIDTH);
        ui.heading("Where do you want to begin?");
        for (number, (door, behind, command)) in DOORS.iter().enumerate() {
            ui.add_space(8.0);
            let button = Button::new(RichText::new(*door).family(bold()).size(17.0)).min_size(vec2(WIDTH, HIGH));
            let button = ui.add(button);
            if number == 0 && ui.memory(|memory| memory.focused()).is_none() {
                button.request_focus();
            }
            ui.label(RichText::new(*behind).color(view.palette.soft));
            if button.clicked() {
                out.extend([taken.clone(), AppCommand::File(command.clone())]);
            }
        }
    });
}
