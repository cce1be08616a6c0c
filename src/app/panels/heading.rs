//! Which scenario this is, what its ledger amounts to, and the view.

use bevy_egui::egui::{Align, Button, Layout, RichText, Sense, Ui, vec2};

use super::View;
use crate::app::theme::{TARGET, bold};
use crate::app::{AppCommand, Board, Flown, map};
use crate::ledger::Verdict;

/// One step of the zoom buttons and keys.
pub(super) const ZOOM_STEP: f64 = 1.25;

/// Shows the bar at the top.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        match &view.session.path {
            _ if view.session.refused.is_none() => {
                boards(ui, view, out);
                ui.label(RichText::new(&view.session.draft.file().name).family(bold()).size(18.0));
                ui.add_space(6.0);
                if let Some(flown) = &view.session.flown {
                    verdict(ui, view, flown);
                }
            }
            _ => {
                let name = view.session.path.as_ref().map_or_else(|| "input".into(), |path| path.display().to_string());
                ui.label(RichText::new(name).family(bold()).size(20.0));
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| buttons(ui, view, out));
    });
}

/// The boards, from the left.
fn boards(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    for board in Board::ALL {
        let word = RichText::new(board.name()).family(bold());
        let button = Button::new(word).selected(view.session.board == board).min_size(vec2(72.0, TARGET));
        let hint = format!("{} (key {})", board.hint(), board.key().name());
        if ui.add(button).on_hover_text(hint).clicked() {
            out.push(AppCommand::Board(board));
        }
    }
}

fn verdict(ui: &mut Ui, view: &View<'_>, flown: &Flown) {
    let (rect, _) = ui.allocate_exact_size(vec2(22.0, 22.0), Sense::hover());
    let worst = flown.ledger.verdict();
    map::verdict_mark(ui.painter(), rect.center(), 9.0, worst, view.palette);
    ui.label(RichText::new(summary(flown)).family(bold()).size(17.0));
}

/// What the ledger amounts to, in words.
fn summary(flown: &Flown) -> String {
    let rows = &flown.ledger.rows;
    let count = |verdict| rows.iter().filter(|row| row.verdict == verdict).count();
    let (breached, thin, counted) = (count(Verdict::Breached), count(Verdict::Thin), count(Verdict::Counted));
    let all = rows.len();
    match (breached, thin) {
        (0, 0) if counted > 0 => format!("all {all} margins met, {counted} counted"),
        (0, 0) => format!("all {all} margins met"),
        (0, thin) => format!("{thin} of {all} margins thin"),
        (breached, 0) => format!("{breached} of {all} margins breached"),
        (breached, thin) => format!("{breached} of {all} margins breached, {thin} thin"),
    }
}

fn buttons(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let mut press = |ui: &mut Ui, text: &str, hint: &str, command: AppCommand| {
        if ui.button(text).on_hover_text(hint).clicked() {
            out.push(command);
        }
    };
    let other = if view.palette.dark { "Light" } else { "Dark" };
    press(ui, other, "key T", AppCommand::SwapTheme);
    if view.session.flown.is_none() && view.session.board != Board::Survey {
        return;
    }
    press(ui, "Fit", "key F: the whole field and the whole path", AppCommand::Fit);
    press(ui, "Nearer", "key +", AppCommand::Zoom { factor: 1.0 / ZOOM_STEP, about: None });
    press(ui, "Further", "key \u{2212}", AppCommand::Zoom { factor: ZOOM_STEP, about: None });
    let warnings = view.session.draft.faults().len();
    if warnings > 0 {
        let shown = view.session.warnings_shown;
        let word = if warnings == 1 { "warning" } else { "warnings" };
        let text = format!("{} {warnings} {word}", if shown { "Hide" } else { "Show" });
        press(ui, &text, "what is worth a look in the file", AppCommand::ShowWarnings(!shown));
    }
}
