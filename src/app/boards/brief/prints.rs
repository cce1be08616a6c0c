//! What goes out on paper: the prints by what they are for, a page as it will look, and the way into files.

use bevy_egui::egui::{
    Align, Button, CentralPanel, Layout, Panel, RichText, ScrollArea, Ui, Vec2, WidgetInfo, WidgetType, vec2,
};

use super::{HEAD, banner, checks, dots, going_on, head, page, save, turned};
use crate::app::beside::pages::{Seen, Shelf, What};
use crate::app::look::lens::Lens;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, BriefCommand, FileCommand, Paper, View, lacking};
use crate::app::widgets::entry;
use crate::app::widgets::room::{ROOMY, frame};
use crate::report::Format;
use crate::report::prints::Print;
use crate::words::capital;

/// Width of the list, points.
const LIST: f32 = 380.0;
/// Height of the row over the page, points.
const ROW: f32 = 40.0;

/// Lays the view out.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let brief = view.session.brief;
    let all = ui.available_size();
    let room = all - vec2(LIST + 28.0, HEAD + banner::height(view) + ROW + 18.0);
    // As wide as fits leaves room for the bar of the scroll area.
    let room = if brief.wide { vec2(room.x - 12.0, room.x * 3.0) } else { room };
    let what = What::Page(brief.print, brief.page);
    let seen = Shelf::of(ui.ctx()).look(ui.ctx(), view.session, what, dots(ui, room));
    let pages = seen.drawn.as_ref().map_or(1, |drawn| drawn.pages);
    let now = brief.page.min(pages.saturating_sub(1));
    if let Some(forth) = turned(ui, view) {
        turn(now, pages, forth, out);
    }
    head(ui, view, out, "What goes out on paper", |ui, out| save::word(ui, view, out));
    Panel::left("list of prints").frame(frame(view, ROOMY)).resizable(false).exact_size(LIST).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| {
            list(ui, view, out);
            ui.separator();
            files(ui, view, now, pages, out);
            standing(ui, view, out);
            if brief.print == Print::Pack {
                checks::show(ui, view, out);
            }
        });
    });
    let shown = CentralPanel::no_frame().frame(frame(view, ROOMY)).show(ui, |ui| {
        row(ui, view, (now, pages), out);
        paper(ui, view, &seen, room);
    });
    Lens::new(view.session.look, shown.response.rect)
}

fn paper(ui: &mut Ui, view: &View<'_>, seen: &Seen, room: Vec2) {
    let brief = view.session.brief;
    if !brief.wide {
        return page::show(ui, view, seen, room);
    }
    let scroll = ScrollArea::vertical().id_salt(("page", brief.print.name(), brief.page));
    scroll.auto_shrink([false, false]).show(ui, |ui| page::show(ui, view, seen, room));
}

/// The prints, by what they are for.
fn list(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    for print in Print::ALL {
        let chosen = view.session.brief.print == print;
        let text = RichText::new(capital(print.purpose())).size(16.0);
        let text = if chosen { text.family(bold()) } else { text };
        let button = Button::new(text).selected(chosen).wrap().min_size(vec2(ui.available_width(), 40.0));
        let response = ui.add(button);
        response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, chosen, print.purpose()));
        if response.clicked() && !chosen {
            out.push(AppCommand::Brief(BriefCommand::Print(print)));
        }
    }
}

/// The files that can be written.
fn files(ui: &mut Ui, view: &View<'_>, now: usize, pages: usize, out: &mut Vec<AppCommand>) {
    let print = view.session.brief.print;
    let why = save::why_not(view, print);
    let hint = why.as_deref().unwrap_or_default();
    let print_it = Button::new(RichText::new("Print").family(bold())).min_size(vec2(ui.available_width(), TARGET));
    let print_it = ui.add_enabled(why.is_none(), print_it).on_disabled_hover_text(hint);
    if print_it
        .on_hover_text("opens it as PDF with the program that this system has for it; print from there")
        .clicked()
    {
        let paper = Paper { print, format: Format::Pdf, page: now + 1 };
        out.push(AppCommand::File(FileCommand::PutOnPaper(paper)));
    }
    let png = if pages > 1 { "Save this page as PNG\u{2026}" } else { "Save as PNG\u{2026}" };
    for (format, words) in
        [(Format::Pdf, "Save as PDF\u{2026}"), (Format::Html, "Save as HTML\u{2026}"), (Format::Png, png)]
    {
        let text = RichText::new(words);
        let text = if format == Format::Pdf { text.family(bold()) } else { text };
        let button = Button::new(text).min_size(vec2(ui.available_width(), TARGET));
        if ui.add_enabled(why.is_none(), button).on_disabled_hover_text(hint).clicked() {
            out.push(save::ask(Paper { print, format, page: now + 1 }));
        }
    }
}

/// How what the print rests on stands.
fn standing(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.add_space(6.0);
    let all = lacking(view.session, view.session.brief.print);
    if all.is_empty() {
        ui.label("Everything this print rests on is worked out.");
        return;
    }
    entry::barred(ui, view, true, |ui| {
        ui.label(RichText::new("It can't be saved yet: it rests on").family(bold()));
        for (index, (question, lack)) in all.iter().enumerate() {
            let stop = if index + 1 < all.len() { ";" } else { "." };
            ui.label(format!("{} ({}){stop}", question.words(), lack.words()));
        }
    });
    ui.add_space(4.0);
    going_on(ui, view, out);
}

/// Which page, and how large.
fn row(ui: &mut Ui, view: &View<'_>, (now, pages): (usize, usize), out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        if pages > 1 {
            for (word, forth, on) in [("Page back", false, now > 0), ("Next page", true, now + 1 < pages)] {
                if ui.add_enabled(on, Button::new(word).min_size(vec2(90.0, TARGET))).clicked() {
                    turn(now, pages, forth, out);
                }
            }
        }
        ui.label(RichText::new(format!("page {} of {pages}", now + 1)).family(bold()));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            for (wide, word) in [(true, "As wide as fits"), (false, "Whole page")] {
                let chosen = view.session.brief.wide == wide;
                if ui.add(Button::new(word).selected(chosen).min_size(vec2(0.0, TARGET))).clicked() && !chosen {
                    out.push(AppCommand::Brief(BriefCommand::Wide(wide)));
                }
            }
        });
    });
}

fn turn(now: usize, pages: usize, forth: bool, out: &mut Vec<AppCommand>) {
    let to = if forth { now + 1 } else { now.wrapping_sub(1) };
    if to < pages {
        out.push(AppCommand::Brief(BriefCommand::Page(to)));
    }
}
