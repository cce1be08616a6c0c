//! Pages of help that are about no single thing: the list of explanations, the words, the keys, the cautions.

use bevy_egui::egui::{Align, Button, Grid, Id, RichText, TextEdit, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::field_board::Tool;
use crate::app::session::{AppCommand, CircleView, Page, View};
use crate::words::cautions;
use crate::words::help::{Topic, glossary};

/// Every key and what it does, by where it works. A new key has its line here.
const KEYS: [(&str, &[(&str, &str)]); 9] = [
    (
        "everywhere",
        &[
            ("F1", "explains what has the keyboard; this page where nothing has"),
            ("F2 to F5, F7, F8", "the boards Field, Circle, Losses, Rehearse, Brief and Debrief"),
            ("F6", "the plan beside the one that was kept"),
            ("Tab, Shift+Tab", "the next thing, the one before; Space or Enter presses it"),
            ("Escape", "closes what is in front"),
            ("T", "light or dark"),
            ("Ctrl and +, \u{2212}, 0", "everything larger, smaller, as usual"),
        ],
    ),
    (
        "files and edits",
        &[
            ("Ctrl+N, Ctrl+O, Ctrl+I", "new, open, import"),
            ("Ctrl+S, Ctrl+Shift+S", "save, save as"),
            ("Ctrl+Z", "takes the last edit back"),
            ("Ctrl+Y, Ctrl+Shift+Z", "does it again"),
            ("Ctrl+Q", "ends the program, and asks first where something is not saved"),
        ],
    ),
    (
        "map",
        &[
            ("F", "the whole field and the whole path"),
            ("+, \u{2212}", "nearer, further"),
            ("Shift and arrows", "moves the view"),
            ("arrows", "move a handle of the map that has the keyboard; with Ctrl further"),
        ],
    ),
    (
        "replay",
        &[
            ("Space", "plays, pauses"),
            ("left, right", "half a second back, on; with Ctrl five seconds"),
            ("Home, End", "the loss, the end"),
        ],
    ),
    (
        "losses",
        &[
            ("arrows", "choose a cell, while the map has the keyboard"),
            ("Enter", "flies the loss from the chosen cell"),
            ("Escape", "goes back to the plan's own loss"),
        ],
    ),
    (
        "rehearse, while somebody flies",
        &[
            ("arrows", "the stick: left, right, up for nose down, down for nose up"),
            ("W, S", "more throttle, less"),
            ("Space", "the next stage of the drill is done"),
            ("R, Enter", "commands the return; I have control"),
            ("I, J, K, L, U, O", "turn the eye up, left, down, right; narrow it, widen it"),
            ("0", "points at the middle of what is seen; so does a press on the jet"),
            ("1 to 4, then 5 to 7", "which way it flies, then how it leans"),
            ("X, E, Escape", "the instructor takes it away; ends it; pauses"),
        ],
    ),
    (
        "brief",
        &[
            ("Page down, Page up", "the next step or page, the one before"),
            ("right, left", "the same, while nothing has the keyboard"),
        ],
    ),
    (
        "corners of the Field board",
        &[
            ("Enter", "what is being drawn is complete"),
            ("Backspace", "takes the corner placed last back; deletes the chosen one"),
            ("Delete", "deletes the chosen corner"),
            ("Insert, +", "a new corner after the chosen one"),
            ("Escape", "gives up what is being drawn, then the tool, then the choice"),
        ],
    ),
    (
        "plan and tour",
        &[
            ("1 to 5", "give the keyboard to a number of the plan; arrows turn it"),
            ("Page down, Page up", "the next card of the tour, the one before"),
        ],
    ),
];

/// The name of a page.
pub(super) const fn title(page: Page) -> &'static str {
    match page {
        Page::Topics => "Explanations",
        Page::Keys => "Keys",
        Page::Words => "Words",
        Page::Cautions => "Cautions",
    }
}

/// Shows a page.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, page: Page, out: &mut Vec<AppCommand>) {
    match page {
        Page::Topics => topics(ui, out),
        Page::Keys => keys(ui, view),
        Page::Words => words(ui, view),
        Page::Cautions => {
            for text in cautions::ALL {
                ui.label(text);
                ui.add_space(6.0);
            }
        }
    }
}

fn topics(ui: &mut Ui, out: &mut Vec<AppCommand>) {
    ui.label("The round marks beside the numbers lead here too, and so does F1.");
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        for &topic in Topic::ALL {
            if ui.add(Button::new(topic.help().title).min_size(vec2(0.0, TARGET))).clicked() {
                out.push(AppCommand::Help(Some(topic)));
            }
        }
    });
}

fn keys(ui: &mut Ui, view: &View<'_>) {
    ui.label("While a box is being typed in, letters and digits are text.");
    let tools = Tool::ALL.map(|tool| (tool.key().name(), tool.hint()));
    let views = CircleView::ALL.map(|view| (view.key().name(), view.hint()));
    let letters = [("tools of the Field board", &tools[..]), ("views of the circle", &views[..])];
    for (place, keys) in KEYS.into_iter().chain(letters) {
        ui.add_space(6.0);
        ui.label(RichText::new(place).family(bold()).color(view.palette.soft));
        Grid::new(place).num_columns(2).spacing([16.0, 3.0]).min_row_height(22.0).min_col_width(190.0).show(ui, |ui| {
            for (key, what) in keys {
                ui.label(RichText::new(*key).family(bold()));
                ui.label(*what);
                ui.end_row();
            }
        });
    }
}

fn words(ui: &mut Ui, view: &View<'_>) {
    let id = Id::new("words sought");
    let mut sought = ui.data_mut(|data| data.get_temp_mut_or_default::<String>(id).clone());
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        let label = ui.label("find");
        let edit = TextEdit::singleline(&mut sought).desired_width(260.0).min_size(vec2(0.0, TARGET));
        ui.add(edit.vertical_align(Align::Center)).labelled_by(label.id);
    });
    ui.data_mut(|data| data.insert_temp(id, sought.clone()));
    let sought = sought.trim().to_lowercase();
    ui.spacing_mut().interact_size.y = 18.0;
    ui.spacing_mut().item_spacing.y = 6.0;
    for (word, meaning) in glossary() {
        if word.to_lowercase().contains(&sought) || meaning.to_lowercase().contains(&sought) {
            ui.horizontal_wrapped(|ui| {
                ui.label(RichText::new(word).family(bold()));
                ui.label(RichText::new(meaning).color(view.palette.ink));
            });
        }
    }
}
