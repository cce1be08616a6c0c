//! The small, quiet buttons that explain a number, and which of them is nearest to what has the keyboard.

use bevy_egui::egui::{Button, Context, Id, Rect, RichText, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::session::AppCommand;
use crate::words::help::Topic;

/// Size of the button, points.
const MARK: f32 = 24.0;

/// Shows the button; pressed, it asks for the explanation.
pub fn mark(ui: &mut Ui, topic: Topic, out: &mut Vec<AppCommand>) {
    let sign = RichText::new("?").size(14.0).color(ui.visuals().weak_text_color());
    let button = Button::new(sign).frame_when_inactive(false).corner_radius(MARK / 2.0).min_size(vec2(MARK, MARK));
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().button_padding = vec2(0.0, 0.0);
            ui.spacing_mut().interact_size.y = MARK;
            ui.add(button)
        })
        .inner;
    let label = format!("what is {}?", topic.help().title);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    note(ui.ctx(), response.rect, topic);
    if response.on_hover_text(&label).clicked() {
        out.push(AppCommand::Help(Some(topic)));
    }
}

/// The marks of a pass, by which F1 finds out what the thing with the keyboard is about.
#[derive(Debug, Clone, Default)]
struct Marks {
    pass: u64,
    now: Vec<(Rect, Topic)>,
    before: Vec<(Rect, Topic)>,
}

fn marks_id() -> Id {
    Id::new("help marks")
}

fn note(ctx: &Context, rect: Rect, topic: Topic) {
    let pass = ctx.cumulative_pass_nr();
    ctx.data_mut(|data| {
        let marks = data.get_temp_mut_or_default::<Marks>(marks_id());
        if marks.pass != pass {
            marks.before = std::mem::take(&mut marks.now);
            marks.pass = pass;
        }
        marks.now.push((rect, topic));
    });
}

/// What the thing with the keyboard is about: the mark on its line, or else the nearest just above it.
pub fn focused(ctx: &Context) -> Option<Topic> {
    let rect = ctx.read_response(ctx.memory(|memory| memory.focused())?)?.rect;
    let marks = ctx.data(|data| data.get_temp::<Marks>(marks_id()))?;
    let marks = if marks.now.is_empty() { marks.before } else { marks.now };
    let away = |mark: &Rect| {
        let (dx, dy) = ((mark.center().x - rect.center().x).abs(), rect.center().y - mark.center().y);
        let beside = dx < 0.5 * rect.width() + 260.0;
        (beside && (-8.0..60.0).contains(&dy)).then_some(dx + 4.0 * dy.abs())
    };
    let near = marks.iter().filter_map(|(mark, topic)| Some((away(mark)?, *topic)));
    near.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, topic)| topic)
}
