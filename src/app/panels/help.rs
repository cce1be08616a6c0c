//! A mark beside a number's name that explains it.

use bevy_egui::egui::{Button, RichText, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::AppCommand;
use crate::app::theme::bold;
use crate::report::help::Topic;

/// Size of the mark, points.
const MARK: f32 = 24.0;

/// Shows the mark; pressed, it asks for the explanation.
pub fn mark(ui: &mut Ui, topic: Topic, out: &mut Vec<AppCommand>) {
    let button = Button::new(RichText::new("?").family(bold())).corner_radius(MARK / 2.0).min_size(vec2(MARK, MARK));
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().button_padding = vec2(0.0, 0.0);
            ui.spacing_mut().interact_size.y = MARK;
            ui.add(button)
        })
        .inner;
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, format!("what is {}?", topic.help().title)));
    if response.clicked() {
        out.push(AppCommand::Help(Some(topic)));
    }
}
