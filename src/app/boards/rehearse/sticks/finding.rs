//! What is a person asked to do while the sticks are found?

use bevy_egui::egui::{Button, RichText, Ui};

use crate::app::look::theme::{Palette, TARGET, primary};
use crate::app::session::sticks::{Asked, Finding, Function, StickCommand};

/// Shows it, with the buttons that go on.
pub(super) fn show(ui: &mut Ui, finding: &Finding, palette: &Palette, out: &mut Vec<StickCommand>) {
    let asked = finding.asked();
    ui.label(RichText::new(words(asked)).size(17.0).color(palette.ink));
    let not_yet = finding.not_yet().filter(|_| asked == Asked::Ends);
    if let Some(function) = not_yet {
        ui.label(RichText::new(format!("Not at both its ends yet: {}.", function.name())).color(palette.soft));
    }
    ui.horizontal_wrapped(|ui| {
        let on = match asked {
            Asked::Settle(Function::Switch) | Asked::Move(Function::Switch) => Some("There is no switch"),
            Asked::Ends => Some("They were at all their ends"),
            Asked::Close => Some("It is closed, and they are let go"),
            _ => None,
        };
        if let Some(on) = on {
            let button = primary(on, palette).min_size([0.0, TARGET].into());
            if ui.add_enabled(not_yet.is_none(), button).clicked() {
                out.push(StickCommand::GoOn);
            }
        }
        let stop = Button::new("Leave it as it was").min_size([0.0, TARGET].into());
        if ui.add(stop).clicked() {
            out.push(StickCommand::StopFinding);
        }
    });
}

const fn words(asked: Asked) -> &'static str {
    match asked {
        Asked::Settle(Function::Throttle) => "Close the throttle and let go of both sticks.",
        Asked::Settle(Function::Pitch | Function::Roll) => "Let go of both sticks.",
        Asked::Settle(Function::Switch) => "Let go of both sticks, and switch the switch of the return off.",
        Asked::Move(Function::Throttle) => "Push the throttle to full and hold it there.",
        Asked::Move(Function::Pitch) => "Pull the stick back, as for nose up, and hold it there.",
        Asked::Move(Function::Roll) => "Push the stick right, as for a bank to the right, and hold it there.",
        Asked::Move(Function::Switch) => "Switch the switch of the return on and leave it on.",
        Asked::Ends => "Move both sticks to all their ends, the throttle and the switch too, a moment at each.",
        Asked::Close => "Close the throttle, then let go of both sticks.",
    }
}
