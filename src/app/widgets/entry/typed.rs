//! A box that is typed in: what stands in it is kept as it was typed until it can be read, and only then handed on.

use bevy_egui::egui::{
    CornerRadius, Event, Id, Key, Response, Stroke, StrokeKind, TextEdit, Ui, WidgetInfo, WidgetType,
    text::{CCursor, CCursorRange},
    vec2,
};

use crate::app::look::theme::{TARGET, boxed};
use crate::app::session::{AppCommand, View};

/// More characters than anybody types into a box; a choice that long is cut to the text there is.
const MOST: usize = 10_000;

/// What is being typed into a box, kept from frame to frame.
#[derive(Debug, Clone, Default)]
struct Typing {
    /// The text.
    text: String,
    /// The text that stood there before; the same means that nothing was typed.
    before: String,
    /// Whether arrow keys were pressed since it was last left to itself, so that their steps are one edit.
    stepping: bool,
}

impl Typing {
    fn of(text: &str) -> Self {
        Self { text: text.into(), before: text.into(), stepping: false }
    }

    fn is_touched(&self) -> bool {
        self.text != self.before
    }
}

/// A box.
#[derive(Debug)]
pub(super) struct TypedEntry<'a> {
    /// Where its text is kept.
    pub(super) id: Id,
    /// Its name for those who can't see it.
    pub(super) name: &'a str,
    /// The value as it stands in the box when nobody types.
    pub(super) shown: &'a str,
    /// Text that stands in an empty box.
    pub(super) hint: &'a str,
    /// Width, points.
    pub(super) width: f32,
}

/// What came of a box in this pass.
#[derive(Debug)]
pub(super) struct TypedOutcome<T> {
    /// A value that was entered.
    pub(super) found: Option<T>,
    /// What was typed and not entered yet: its value, or what is wrong with it.
    pub(super) typing: Option<Result<T, String>>,
}

impl TypedEntry<'_> {
    /// Shows it. `read` reads a text; `step` moves what was typed, or the value where nothing was, by some steps.
    pub(super) fn show<T>(
        &self,
        ui: &mut Ui,
        view: &View<'_>,
        out: &mut Vec<AppCommand>,
        read: impl Fn(&str) -> Result<T, String>,
        step: impl Fn(Option<T>, f64) -> Option<T>,
    ) -> TypedOutcome<T> {
        let mut typing = ui.data(|data| data.get_temp::<Typing>(self.id));
        if let Some(kept) = &mut typing
            && !kept.is_touched()
        {
            (kept.text, kept.before) = (self.shown.into(), self.shown.into());
        }
        let steps = if ui.memory(|memory| memory.has_focus(self.id)) { arrows(ui) } else { 0.0 };
        let mut text = typing.as_ref().map_or_else(|| self.shown.to_owned(), |typing| typing.text.clone());
        let is_wrong = typing.as_ref().is_some_and(Typing::is_touched) && read(&text).is_err();
        let response = self.edit(ui, view, &mut text, is_wrong);
        let key = |key| ui.input(|input| input.key_pressed(key));
        let mut found = None;
        if response.gained_focus() {
            out.push(AppCommand::Settle);
            typing.get_or_insert_with(|| Typing::of(self.shown));
            self.choose_all(ui);
        }
        if response.changed() {
            typing.get_or_insert_with(|| Typing::of(self.shown)).text.clone_from(&text);
        }
        if let Some(kept) = &mut typing {
            let entered = response.lost_focus() || (response.has_focus() && key(Key::Enter));
            if response.lost_focus() && key(Key::Escape) {
                typing = None;
            } else if steps != 0.0 {
                let from = if kept.is_touched() { read(&kept.text).ok() } else { None };
                found = step(from, steps);
                if found.is_some() && !kept.stepping {
                    out.push(AppCommand::Settle);
                }
                *kept = Typing { stepping: true, ..Typing::of(self.shown) };
            } else if entered && kept.is_touched() {
                found = read(&kept.text).ok();
                if found.is_some() {
                    out.push(AppCommand::Settle);
                    *kept = Typing::of(self.shown);
                    self.choose_all(ui);
                }
            } else if entered {
                kept.stepping = false;
                self.choose_all(ui);
            }
            if response.lost_focus() && typing.as_ref().is_some_and(|kept| !kept.is_touched()) {
                typing = None;
            }
        }
        let touched = typing.as_ref().filter(|typing| typing.is_touched()).map(|typing| read(&typing.text));
        ui.data_mut(|data| match typing {
            Some(typing) => _ = data.insert_temp(self.id, typing),
            None => _ = data.remove_temp::<Typing>(self.id),
        });
        TypedOutcome { found, typing: touched }
    }

    /// Forgets what was typed.
    pub(super) fn put_back(&self, ui: &Ui) {
        ui.data_mut(|data| data.remove_temp::<Typing>(self.id));
    }

    fn edit(&self, ui: &mut Ui, view: &View<'_>, text: &mut String, is_wrong: bool) -> Response {
        let edit = TextEdit::singleline(text)
            .id(self.id)
            .return_key(None)
            .hint_text(self.hint)
            .margin(vec2(6.0, 7.0))
            .min_size(vec2(0.0, TARGET))
            .desired_width(self.width);
        let response = ui
            .scope(|ui| {
                boxed(ui);
                ui.add(edit)
            })
            .inner;
        response.widget_info(|| WidgetInfo::labeled(WidgetType::TextEdit, true, self.name));
        if is_wrong {
            let stroke = Stroke::new(2.5, view.palette.hatch[0]);
            ui.painter().rect_stroke(response.rect, CornerRadius::same(4), stroke, StrokeKind::Inside);
        }
        response
    }

    /// Chooses all of the text, so that what is typed next takes its place.
    fn choose_all(&self, ui: &Ui) {
        let mut state = TextEdit::load_state(ui.ctx(), self.id).unwrap_or_default();
        let all = CCursorRange::two(CCursor::new(0), CCursor::new(MOST));
        state.cursor.set_char_range(Some(all));
        TextEdit::store_state(ui.ctx(), self.id, state);
    }
}

/// Steps that the arrow keys up and down ask for: a tenth with the shift key.
fn arrows(ui: &Ui) -> f64 {
    let mut steps = 0.0;
    ui.input_mut(|input| {
        input.events.retain(|event| {
            let Event::Key { key, pressed: true, modifiers, .. } = event else { return true };
            let way = match key {
                Key::ArrowUp => 1.0,
                Key::ArrowDown => -1.0,
                _ => return true,
            };
            steps += if modifiers.shift { way / 10.0 } else { way };
            false
        });
    });
    steps
}
