//! Why the bands end where they end, and what would open one that is empty, each pressed to be taken over.

use bevy_egui::egui::{Button, RichText, Ui, vec2};

use super::apply;
use crate::app::look::theme::{TARGET, bold};
use crate::app::look::words;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::standing;
use crate::recovery::Turn;
use crate::study::radius::{Band, Opener, RadiusStudy};
use crate::words::end;
use crate::words::help::Topic;

/// Shows both.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let answer = view.session.answers.radius.as_ref();
    standing::show(
        ui,
        view,
        answer,
        |study| study.partial,
        |ui, study| {
            for line in reasons(view, study) {
                ui.label(line);
            }
            if study.bands.mean.is_empty() || study.bands.gust.is_empty() {
                openers(ui, view, study, out);
            }
        },
    );
}

/// The ends of the bands in words, reasons that repeat said once: first the plan's way round.
fn reasons(view: &View<'_>, study: &RadiusStudy) -> Vec<String> {
    let planned = view.session.draft.file().recovery.turn;
    let mut said: Vec<(Turn, String, Vec<&str>)> = Vec::new();
    let bands = &study.bands;
    for (kind, list) in [
        ("trials", &bands.cases),
        ("undecided by trials", &bands.undecided),
        ("as written", &bands.mean),
        ("in gusts", &bands.gust),
    ] {
        for band in list {
            let both = ends(view, band);
            match said.iter_mut().find(|(turn, words, _)| *turn == band.turn && *words == both) {
                Some((_, _, kinds)) => kinds.push(kind),
                None => said.push((band.turn, both, vec![kind])),
            }
        }
    }
    said.sort_by_key(|(turn, ..)| *turn != planned);
    let line = |(turn, both, kinds): (Turn, String, Vec<&str>)| {
        let way = if turn == planned { String::new() } else { format!("{}, ", words::turn_word(turn)) };
        format!("{way}{}: {both}", kinds.join(" and "))
    };
    said.into_iter().map(line).collect()
}

fn ends(view: &View<'_>, band: &Band) -> String {
    let (low, high) = (view.metres(band.low.radius_m), view.metres(band.high.radius_m));
    format!("below {low}: {}; above {high}: {}.", end(&band.low), end(&band.high))
}

fn openers(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let wanted =
            if study.bands.mean.is_empty() { "What would open a band" } else { "What would hold in the gusts" };
        ui.label(RichText::new(wanted).family(bold()));
        mark(ui, Topic::Openers, out);
    });
    if study.openers.is_empty() {
        // Every study that looks for them finds some that open nothing.
        ui.label("Not looked for yet.");
        return;
    }
    let wanted = |opener: &&Opener| {
        let bands = if study.bands.mean.is_empty() { &opener.bands } else { &opener.gust };
        !bands.is_empty()
    };
    for opener in study.openers.iter().filter(wanted) {
        one(ui, view, opener, out);
    }
    let nothing: Vec<&str> =
        study.openers.iter().filter(|opener| !wanted(opener)).map(|opener| opener.change.as_str()).collect();
    if !nothing.is_empty() {
        ui.label(format!("Tried, and opens nothing: {}.", nothing.join("; ")));
    }
}

/// One change with the band it gives, to be pressed.
fn one(ui: &mut Ui, view: &View<'_>, opener: &Opener, out: &mut Vec<AppCommand>) {
    let text = format!("{}\n{}", opener.change, gives(view, opener));
    let hint = if opener.step.is_a_choice() {
        "press to take it over into the plan"
    } else {
        "nobody chooses this: press to see the plan as it would be then"
    };
    let button = Button::new(text).wrap().min_size(vec2(ui.available_width(), TARGET));
    if ui.add_enabled(view.session.is_current(), button).on_hover_text(hint).clicked() {
        out.extend(apply::opener(view, opener));
    }
}

/// The bands of a change, in both winds.
fn gives(view: &View<'_>, opener: &Opener) -> String {
    let mean = spans(view, &opener.bands);
    let gust = if opener.gust.is_empty() { "none".into() } else { spans(view, &opener.gust) };
    format!("gives {mean}; in the gusts {gust}")
}

/// Bands in words, such as "110 m to 135 m clockwise".
pub(super) fn spans(view: &View<'_>, bands: &[Band]) -> String {
    if bands.is_empty() {
        return "none".into();
    }
    let span =
        |band: &Band| format!("{} to {}", view.metres(band.low.radius_m), view.circle(band.high.radius_m, band.turn));
    bands.iter().map(span).collect::<Vec<_>>().join("; ")
}
