//! What is being worked out beside the window, how far it is, and the button that stops it or lets it go on. What else
//! takes long has the same bar.

use bevy_egui::egui::{
    Align2, Button, CornerRadius, FontId, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2,
};

use crate::app::look::theme::{TARGET, TEXT, bold};
use crate::app::session::{AppCommand, Doing, View};

/// Width of the button, points.
const BUTTON: f32 = 72.0;

/// Shows how far the longer questions are.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let doing = view.session.doing;
    let share = if let Doing::Working { done, of, .. } = doing { share((done, of)) } else { None };
    let stopped = doing == Doing::Stopped;
    let word = if stopped { "Go on" } else { "Stop" };
    if bar(ui, view, &words(view), share, (word, doing != Doing::Resting)) {
        out.push(AppCommand::Refine(stopped));
    }
}

/// A bar with words on it, filled to a share, as wide as there is room, and beside it a button that may be pressed or not;
/// whether it was.
pub fn bar(ui: &mut Ui, view: &View<'_>, words: &str, share: Option<f32>, (word, on): (&str, bool)) -> bool {
    let row = ui.horizontal(|ui| {
        let width = ui.available_width() - BUTTON - ui.spacing().item_spacing.x;
        let (rect, response) = ui.allocate_exact_size(vec2(width, TARGET), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::ProgressIndicator, true, words));
        fill(ui, view, rect.shrink2(vec2(0.0, 4.0)), words, share);
        ui.add_enabled(on, Button::new(word).min_size(vec2(BUTTON, TARGET))).clicked()
    });
    row.inner
}

fn fill(ui: &Ui, view: &View<'_>, rect: Rect, words: &str, share: Option<f32>) {
    let (painter, palette) = (ui.painter(), view.palette);
    painter.rect_filled(rect, CornerRadius::same(3), palette.button);
    if let Some(share) = share {
        let full = Rect::from_min_max(rect.min, pos2(rect.left() + rect.width() * share, rect.bottom()));
        painter.rect_filled(full, CornerRadius::same(3), palette.chosen);
    }
    painter.rect_stroke(rect, CornerRadius::same(3), Stroke::new(1.0, palette.rule), StrokeKind::Inside);
    let font = if view.session.is_current() { FontId::proportional(TEXT) } else { FontId::new(TEXT, bold()) };
    painter.text(rect.left_center() + vec2(8.0, 0.0), Align2::LEFT_CENTER, words, font, palette.ink);
}

/// Share done of what is known to be to do; none where nothing is.
#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "the length of a bar")]
pub fn share((done, of): (u64, u64)) -> Option<f32> {
    (of > 0).then(|| (done as f32 / of as f32).clamp(0.0, 1.0))
}

/// What is going on, in words.
fn words(view: &View<'_>) -> String {
    if !view.session.is_current() {
        return "As entered it can't be flown: answers are of before.".into();
    }
    match view.session.doing {
        Doing::Resting => "Everything here is worked out.".into(),
        Doing::Stopped => "Stopped: what was found so far stands.".into(),
        Doing::Working { what: "", .. } => "Working it out again.".into(),
        Doing::Working { what, done, of } => {
            // What is left to do is known only bit by bit, so that it is never all of it.
            let percent = (done * 100).checked_div(of).unwrap_or(0).min(99);
            format!("Working out {what}: {percent} % of it")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::session::Session;
    use crate::run::Scenario;

    #[test]
    fn what_goes_on_is_said_and_never_as_all_of_it() {
        #[track_caller]
        fn check(doing: Doing, expected: &str) {
            let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
            session.doing = doing;
            assert_eq!(words(&View::new(&session)), expected);
        }
        let working = |done, of| Doing::Working { what: "which radius", done, of };
        check(working(5, 10), "Working out which radius: 50 % of it");
        check(working(10, 10), "Working out which radius: 99 % of it");
        check(working(0, 0), "Working out which radius: 0 % of it");
        check(Doing::Stopped, "Stopped: what was found so far stands.");
        check(Doing::Resting, "Everything here is worked out.");
    }
}
