//! From the screen to a file or onto paper: what is asked for, why it can't be had yet, and what became of it.

use bevy_egui::egui::{Button, Label, RichText, Ui, vec2};

use crate::app::look::theme::TARGET;
use crate::app::session::{AppCommand, FileCommand, Paper, View, lacking};
use crate::report::prints::Print;

/// Asks for a print in a file.
pub(super) const fn ask(paper: Paper) -> AppCommand {
    AppCommand::File(FileCommand::Print(paper))
}

/// Why a print can't be saved yet; none where it can.
pub(super) fn why_not(view: &View<'_>, print: Print) -> Option<String> {
    let all = lacking(view.session, print);
    let named: Vec<String> =
        all.iter().map(|(question, lack)| format!("{}: {}", question.words(), lack.words())).collect();
    (!named.is_empty()).then(|| format!("It can't be saved yet. {}.", named.join("; ")))
}

/// What became of the last print, and once it is there a button that opens it.
pub(super) fn word(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    if let Some(path) = &view.session.printed_to
        && ui.add(Button::new("Open").min_size(vec2(0.0, TARGET))).on_hover_text(path.display().to_string()).clicked()
    {
        out.push(AppCommand::File(FileCommand::Launch(path.clone())));
    }
    let word = &view.session.printed;
    if !word.is_empty() {
        ui.add(Label::new(RichText::new(word).color(view.palette.ink)).truncate()).on_hover_text(word);
    }
}
