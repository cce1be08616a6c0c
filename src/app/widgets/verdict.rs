//! The one verdict of the plan, over every board: a shape, a word and the shares of the trials that it rests on. Grey and
//! without a word while no trial has decided anything; views explain it, none has another.

use bevy_egui::egui::{Align, FontId, Label, Layout, RichText, Sense, Ui, vec2};

use super::standing;
use crate::app::look::marks::answer_mark;
use crate::app::look::theme::{PALE, TEXT, bold};
use crate::app::session::{Answer as Known, Doing, View};
use crate::study::radius::RadiusStudy;
use crate::study::verdict::{Answer, Verdict};

/// Height of the line, points.
const HIGH: f32 = 22.0;

/// What the trials of the plan say, and the answer that it is from; none before they are flown, and at a first look.
pub fn known<'a>(view: &View<'a>) -> Option<(&'a Known<RadiusStudy>, Verdict)> {
    let answer = view.session.answers.own_circle.as_ref()?;
    Some((answer, answer.found.plan?))
}

/// The word of an answer, for a heading.
pub(super) const fn word(answer: Answer) -> &'static str {
    match answer {
        Answer::Yes => "Holds",
        Answer::No => "Does not hold",
        Answer::Undecided => "Undecided",
    }
}

/// Shows it.
pub fn show(ui: &mut Ui, view: &View<'_>) {
    let known = known(view);
    let stale = known.as_ref().is_some_and(|(answer, _)| view.is_stale(answer));
    // Nothing in this line is pressed.
    ui.spacing_mut().interact_size.y = HIGH;
    ui.horizontal(|ui| {
        if stale {
            ui.multiply_opacity(PALE);
        }
        let (mark, _) = ui.allocate_exact_size(vec2(20.0, HIGH), Sense::hover());
        answer_mark(ui.painter(), mark.center(), 8.0, known.map(|(_, verdict)| verdict.answer), view.palette);
        let losses = view.session.flown.as_ref().map_or_else(String::new, |flown| flown.scenario.losses_told());
        let Some((answer, verdict)) = known else {
            ui.label(RichText::new(unknown(view)).color(view.palette.soft)).on_hover_text(losses);
            return;
        };
        let head = RichText::new(format!("{}:", word(verdict.answer))).family(bold()).size(16.0);
        let hint = format!("{losses}\n{}.", verdict.in_words());
        ui.label(head).on_hover_text(&hint);
        let said = standing::words(view, answer, answer.found.partial);
        let said = if said.is_empty() { String::new() } else { format!(" [{said}]") };
        let shares = format!("{}{said}", verdict.shares_told());
        ui.label(&shares).on_hover_text(&hint);
        // Where there is room: which losses it is about.
        let font = FontId::proportional(TEXT);
        let wide = ui.painter().layout_no_wrap(losses.clone(), font, view.palette.soft).size().x;
        if wide < ui.available_width() {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                ui.add(Label::new(RichText::new(&losses).color(view.palette.soft))).on_hover_text(&hint);
            });
        }
    });
}

/// Why there is no verdict.
pub fn unknown(view: &View<'_>) -> String {
    let session = view.session;
    if !session.is_current() {
        let errors = session.draft.errors().count();
        return format!("Not flown: {errors} {} to fix.", if errors == 1 { "error" } else { "errors" });
    }
    let why = match (&session.answers.own_circle, session.doing) {
        (_, Doing::Stopped) => "working out is stopped".to_owned(),
        (Some(answer), _) => format!("a first look at {} trials so far", answer.found.ask.trials),
        (None, _) => "being worked out".to_owned(),
    };
    format!("No verdict yet: {why}.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::beside::answer_now;
    use crate::app::session::{Grade, Session};
    use crate::run::Scenario;

    #[test]
    fn a_first_look_is_no_verdict() {
        let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        assert_eq!(unknown(&View::new(&session)), "No verdict yet: being worked out.");
        answer_now(&mut session, Grade::Coarse);
        assert!(known(&View::new(&session)).is_none());
        assert_eq!(unknown(&View::new(&session)), "No verdict yet: a first look at 32 trials so far.");
        session.doing = Doing::Stopped;
        assert_eq!(unknown(&View::new(&session)), "No verdict yet: working out is stopped.");
    }
}
