//! One step of the briefing: its picture or what moves in its place, and its words in large letters beside it.

use bevy_egui::egui::text::LayoutJob;
use bevy_egui::egui::{Button, CentralPanel, FontId, Panel, RichText, ScrollArea, TextFormat, Ui, vec2};

use super::{HEAD, banner, dots, going_on, head, live, page, save, steps, turned};
use crate::app::beside::pages::{Shelf, What};
use crate::app::look::lens::Lens;
use crate::app::look::theme::TARGET;
use crate::app::session::{AppCommand, Paper, View, lacking};
use crate::app::widgets::room::{ROOMY, frame};
use crate::brief::{Live, Step};
use crate::report::Format;
use crate::report::prints::Print;

/// Height of the row of marks, points.
const FOOT: f32 = 62.0;
/// Width of a picture for its height.
const SHAPE: f32 = 190.0 / 146.0;
/// Sizes of the words, points: the largest at which all of them fit.
const SIZES: [f32; 8] = [36.0, 32.0, 29.0, 26.0, 24.0, 22.0, 20.0, LEAST];
/// The least that can be read across a table, points.
const LEAST: f32 = 18.0;

/// Lays the step out and returns the lens of its map.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let brief = view.session.brief;
    let all = ui.available_size();
    let high = all.y - HEAD - banner::height(view) - FOOT - 18.0;
    let wide = if brief.live == Live::Picture { (high * SHAPE).min(all.x * 0.6) } else { all.x * 0.6 };
    let room = vec2(wide, high);
    let what = if brief.live == Live::Picture { What::Step(brief.step) } else { What::Words };
    let seen = Shelf::of(ui.ctx()).look(ui.ctx(), view.session, what, dots(ui, room));
    let steps: &[Step] = seen.drawn.as_ref().map_or(&[], |drawn| &drawn.told.steps);
    let step = steps.get(brief.step);
    if let Some(forth) = turned(ui, view) {
        let to = if forth { brief.step + 1 } else { brief.step.wrapping_sub(1) };
        steps::go(steps, to, out);
    }
    let title = step.map_or_else(String::new, |step| format!("{}. {}", brief.step + 1, step.title));
    head(ui, view, out, &title, |ui, out| on_paper(ui, view, out));
    Panel::bottom("steps").frame(frame(view, ROOMY)).resizable(false).exact_size(FOOT).show(ui, |ui| {
        steps::show(ui, view, steps, brief.step, out);
    });
    let beside = all.x - wide - 20.0;
    Panel::right("words").frame(frame(view, ROOMY)).resizable(false).exact_size(beside).show(ui, |ui| {
        if !lacking(view.session, Print::Lesson).is_empty() {
            Panel::bottom("going on").frame(frame(view, bevy_egui::egui::Margin::ZERO)).resizable(false).show(
                ui,
                |ui| {
                    ui.label(RichText::new("[first look: being worked out]").color(view.palette.soft));
                    going_on(ui, view, out);
                },
            );
        }
        if let Some(step) = step {
            words(ui, view, &step.words);
        }
    });
    match brief.live {
        Live::Field => live::field(ui, view, out),
        Live::Flight => live::flight(ui, view, out),
        Live::Curve => live::curve(ui, view, out),
        Live::Picture => {
            let shown =
                CentralPanel::no_frame().frame(frame(view, ROOMY)).show(ui, |ui| page::show(ui, view, &seen, room));
            Lens::new(view.session.look, shown.response.rect)
        }
    }
}

/// The way to paper, and what became of it.
fn on_paper(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let why = save::why_not(view, Print::Lesson);
    let button = ui.add_enabled(why.is_none(), Button::new("Briefing as PDF\u{2026}").min_size(vec2(0.0, TARGET)));
    let paper = Paper { print: Print::Lesson, format: Format::Pdf, page: 1 };
    if button.on_disabled_hover_text(why.unwrap_or_default()).clicked() {
        out.push(save::ask(paper));
    }
    save::word(ui, view, out);
}

/// The words, a paragraph each, as large as fits.
fn words(ui: &mut Ui, view: &View<'_>, paragraphs: &[String]) {
    let room = ui.available_size();
    let wide = room.x - 12.0;
    let galleys = |ui: &Ui, size: f32| -> Vec<_> {
        let lay = |text: &String| {
            let format = TextFormat {
                font_id: FontId::proportional(size),
                color: view.palette.ink,
                line_height: Some(size * 1.3),
                ..TextFormat::default()
            };
            let mut job = LayoutJob::single_section(kept_together(text), format);
            job.wrap.max_width = wide;
            ui.painter().layout_job(job)
        };
        paragraphs.iter().map(lay).collect()
    };
    #[allow(clippy::cast_precision_loss, reason = "a handful of paragraphs")]
    let high = |size: f32, all: &[std::sync::Arc<bevy_egui::egui::Galley>]| {
        all.iter().map(|galley| galley.size().y).sum::<f32>() + size * 0.6 * all.len() as f32
    };
    let fitting =
        SIZES.into_iter().map(|size| (size, galleys(ui, size))).find(|(size, all)| high(*size, all) <= room.y);
    let (size, all) = fitting.unwrap_or_else(|| (LEAST, galleys(ui, LEAST)));
    ScrollArea::vertical().id_salt("words of the step").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = size * 0.6;
        for galley in all {
            ui.label(galley);
        }
    });
}

/// Units that stay on the line of their number.
const UNITS: [&str; 8] = ["m", "m/s", "s", "deg", "%", "ft", "kt", "laps"];

/// The same text, in which no line ends between a number and its unit.
fn kept_together(text: &str) -> String {
    let mut kept = String::with_capacity(text.len());
    for word in text.split(' ') {
        let unit = word.trim_matches(|c: char| ".,:;()".contains(c));
        let number = kept.ends_with(|c: char| c.is_ascii_digit());
        if !kept.is_empty() {
            kept.push(if number && UNITS.contains(&unit) { '\u{a0}' } else { ' ' });
        }
        kept += word;
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_keeps_its_unit() {
        #[track_caller]
        fn check(text: &str, expected: &str) {
            assert_eq!(kept_together(text).replace('\u{a0}', "_"), expected);
        }
        check("home 12 s after the loss.", "home 12_s after the loss.");
        check("6.0 m/s (12 kt), so 59 %.", "6.0_m/s (12_kt), so 59_%.");
        check("at 2 o'clock, a step is 1 of 8", "at 2 o'clock, a step is 1 of 8");
    }
}
