//! Which scenario this is, and the way to files, edits, help and settings.

mod icons;

use bevy_egui::egui::{Align, Button, Label, Layout, Response, RichText, Ui, WidgetInfo, WidgetType, vec2};

use super::menu;
use crate::app::boards;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Board, FrontCommand, Page, View};
use icons::Icon;

/// One step of the zoom buttons and keys.
pub(super) const ZOOM_STEP: f64 = 1.25;
/// Least width that the name of the scenario gets, points.
const NAME: f32 = 70.0;

/// Shows the bar at the top.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        ui.spacing_mut().item_spacing.x = 4.0;
        let usable = view.session.refused.is_none();
        if usable {
            ui.scope(|ui| boards(ui, view, out));
        }
        menu::show(ui, view, out);
        if usable {
            edits(ui, view, out);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            buttons(ui, view, out);
            // What is left is the middle's, whatever its length.
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| middle(ui, view));
        });
    });
}

/// The boards, from the left.
fn boards(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    // Six of them, beside all that stands in the smallest window.
    ui.spacing_mut().button_padding.x = 6.0;
    ui.spacing_mut().item_spacing.x = 1.0;
    for board in Board::ALL {
        let word = RichText::new(board.name()).family(bold());
        let button = Button::new(word).selected(view.session.board == board).min_size(vec2(48.0, TARGET));
        let hint = format!("{} (key {})", board.hint(), board.key().name());
        if ui.add(button).on_hover_text(hint).clicked() {
            out.push(AppCommand::Board(board));
        }
    }
}

/// The way back and forth between edits, with what it would undo or do again.
fn edits(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let draft = &view.session.draft;
    for (icon, name, what, key, command) in [
        (Icon::Back, "Undo", draft.to_undo(), "Ctrl+Z", AppCommand::Undo),
        (Icon::Forth, "Redo", draft.to_redo(), "Ctrl+Y", AppCommand::Redo),
    ] {
        let hint = what.map_or_else(|| format!("nothing to {}", name.to_lowercase()), |what| format!("{name}: {what}"));
        if icon_button(ui, icon, name, &format!("{hint} ({key})"), what.is_some()).clicked() {
            out.push(command);
        }
    }
}

fn icon_button(ui: &mut Ui, icon: Icon, name: &str, hint: &str, enabled: bool) -> Response {
    let button = ui.add_enabled(enabled, Button::new("").min_size(vec2(36.0, TARGET)));
    button.widget_info(|| WidgetInfo::labeled(WidgetType::Button, enabled, name));
    let ink = if enabled { ui.visuals().widgets.inactive.fg_stroke.color } else { ui.visuals().weak_text_color() };
    icon.paint(ui.painter(), button.rect.center(), ink);
    button.on_hover_text(hint).on_disabled_hover_text(hint)
}

/// Name, and whether it is saved.
fn middle(ui: &mut Ui, view: &View<'_>) {
    ui.spacing_mut().item_spacing.x = 6.0;
    ui.add_space(4.0);
    let session = view.session;
    if session.refused.is_some() {
        let path = session.path.as_ref().map_or_else(|| "input".into(), |path| path.display().to_string());
        ui.add(Label::new(RichText::new(&path).family(bold()).size(18.0)).truncate()).on_hover_text(path);
        return;
    }
    let saved = if session.is_unsaved() { "not saved" } else { &session.word };
    let width = |text: &str, size: f32| {
        let font = bevy_egui::egui::FontId::new(size, bold());
        ui.painter().layout_no_wrap(text.to_owned(), font, view.palette.ink).size().x
    };
    let name = &session.draft.file().name;
    let wanted = width(name, 18.0);
    let left = (ui.available_width() - 12.0).max(NAME);
    // A word about the last save gives way to the name; "not saved" never does.
    let word = width(saved, 14.0) + 8.0;
    let word = if session.is_unsaved() { word } else { word.min((left - wanted).max(0.0)) };
    let name_room = wanted.min(left - word).max(NAME.min(wanted));
    let hint = session.path.as_ref().map_or_else(|| name.clone(), |path| format!("{name}\n{}", path.display()));
    let label = Label::new(RichText::new(name).family(bold()).size(18.0)).truncate();
    ui.scope(|ui| {
        ui.set_max_width(name_room + 1.0);
        ui.add(label).on_hover_text(hint);
    });
    if word > 24.0 && !saved.is_empty() {
        let text = RichText::new(saved).size(14.0).color(view.palette.soft);
        let text = if session.is_unsaved() { text.family(bold()).color(view.palette.ink).underline() } else { text };
        ui.scope(|ui| {
            ui.set_max_width(word);
            ui.add(Label::new(text).truncate()).on_hover_text("what is on the screen, and what is in the file");
        });
    }
}

/// From the right: settings, help, look, view, warnings.
fn buttons(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let mut press = |ui: &mut Ui, text: &str, hint: &str, command: AppCommand| {
        if ui.button(text).on_hover_text(hint).clicked() {
            out.push(command);
        }
    };
    let settings = AppCommand::Front(FrontCommand::Settings(true));
    press(ui, "Settings", "units, size, look", settings);
    let help = AppCommand::Front(FrontCommand::Page(Some(Page::Topics)));
    press(ui, "Help", "explanations, words, keys, the tour (key F1)", help);
    let other = if view.palette.dark { "Light" } else { "Dark" };
    press(ui, other, "key T", AppCommand::SwapTheme);
    if view.session.refused.is_some() {
        return;
    }
    let (session, board) = (view.session, boards::of(view.session.board));
    if board.compares() && !session.compared {
        press(ui, "Compare", "this plan beside the kept one (key F6)", AppCommand::Compare(true));
    }
    for (icon, name, hint, command) in [
        (Icon::Whole, "Fit", "the whole field and the whole path (key F)", AppCommand::Fit),
        (Icon::Plus, "Nearer", "nearer (key +)", AppCommand::Zoom { factor: 1.0 / ZOOM_STEP, about: None }),
        (Icon::Minus, "Further", "further (key \u{2212})", AppCommand::Zoom { factor: ZOOM_STEP, about: None }),
    ]
    .into_iter()
    .filter(|_| board.has_map(view) || session.compared)
    {
        if icon_button(ui, icon, name, hint, true).clicked() {
            out.push(command);
        }
    }
    warnings(ui, view, out);
}

fn warnings(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let (draft, shown) = (&view.session.draft, view.session.warnings_shown);
    let (all, errors) = (draft.faults().len(), draft.errors().count());
    if all == 0 {
        return;
    }
    let counted = |count: usize, word: &str| format!("{count} {word}{}", if count == 1 { "" } else { "s" });
    let text = match (errors, all - errors) {
        (0, warnings) => counted(warnings, "warning"),
        (errors, 0) => counted(errors, "error"),
        (errors, warnings) => format!("{} + {warnings}", counted(errors, "error")),
    };
    let button = ui.add(Button::new(&text).selected(shown).min_size(vec2(0.0, TARGET)));
    let label = format!("{} {text}", if shown { "Hide" } else { "Show" });
    button.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    if button.on_hover_text(format!("{label}: what is worth a look in the file")).clicked() {
        out.push(AppCommand::ShowWarnings(!shown));
    }
}
