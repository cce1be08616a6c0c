//! The small button beside a name that explains the number.

use bevy_egui::egui::{Button, RichText, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::AppCommand;
use crate::app::theme::{TARGET, bold};
use crate::report::help::Topic;

/// Shows it; pressed, it asks for the explanation.
pub fn mark(ui: &mut Ui, topic: Topic, out: &mut Vec<AppCommand>) {
    let button = Button::new(RichText::new("?").family(bold())).min_size(vec2(26.0, TARGET)).corner_radius(13.0);
    let response = ui.add(button);
    let label = format!("what is {}?", topic.help().title);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    if response.on_hover_text(&label).clicked() {
        out.push(AppCommand::Help(Some(topic)));
    }
}
