//! What is planned and what the day is like: five numbers to turn, the trial and the wind flown, and who allowed what.

use bevy_egui::egui::text::LayoutJob;
use bevy_egui::egui::{
    Align, Button, DragValue, FontId, FontSelection, Id, Key, Label, Layout, Response, RichText, Slider,
    SliderClamping, Ui, vec2,
};

use crate::app::look::theme::{GAP, TARGET, TEXT, bold, boxed};
use crate::app::session::{AppCommand, Change, Dial, Flown, Knob, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::room::follow_focus;
use crate::recovery::Turn;
use crate::run::WindChoice;
use crate::words;
use crate::words::help::Topic;

/// Keys that give the knobs the keyboard.
const KEYS: [Key; 5] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];
/// Height of a line that nobody presses, points.
const LINE: f32 = 18.0;
/// Least width of a button for a way round, points.
const SIDE: f32 = 112.0;
/// The highest trial that can be asked for here.
const LAST_TRIAL: u64 = 99_999;

/// Shows the plan.
pub(crate) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    ui.heading("Plan and day");
    for (knob, key) in Knob::ALL.into_iter().zip(KEYS) {
        turn(ui, view, (knob, key), out);
    }
    way_round(ui, view, out);
    ui.add_space(GAP);
    wind(ui, view, out);
    trial(ui, view, out);
    ui.add_space(GAP);
    ui.scope(|ui| {
        ui.spacing_mut().button_padding.x = 0.0;
        let restore = ui.add_enabled(view.session.draft.is_changed(), Button::new("Back to the file's numbers"));
        if restore.clicked() {
            out.push(AppCommand::Restore);
        }
        keep(ui, view, out);
    });
    ui.add_space(GAP);
    facts(ui, view, flown);
    remember_focus(ui);
    follow_focus(ui);
}

/// Where it is noted whether anything had the keyboard in the last pass.
fn focus_id() -> Id {
    Id::new("something had the keyboard")
}

fn remember_focus(ui: &Ui) {
    let focused = ui.memory(|memory| memory.focused()).is_some();
    ui.data_mut(|data| data.insert_temp(focus_id(), focused));
}

/// Whether the keyboard, which nothing had, was asked for: it begins with the plan, and not with the heading.
fn begins(ui: &Ui) -> bool {
    let had = ui.data(|data| data.get_temp::<bool>(focus_id())).unwrap_or(true);
    !had && ui.input(|input| input.key_pressed(Key::Tab) && input.modifiers.is_none())
}

fn turn(ui: &mut Ui, view: &View<'_>, (knob, key): (Knob, Key), out: &mut Vec<AppCommand>) {
    let dial = Dial::of(view, knob);
    let (now, written) = (knob.get(view.session.draft.file()), knob.get(view.session.draft.saved()));
    let mut value = dial.shown(now);
    let label = ui.scope(|ui| name(ui, view, (knob, now, written), &dial, out)).inner;
    // A file may hold a value beyond the usual range; the rail then reaches as far as the file does.
    let (low, high) = (knob.range().start().min(written), knob.range().end().max(written));
    let rail = dial.shown(low).floor()..=dial.shown(high).ceil();
    ui.spacing_mut().slider_width = ui.available_width() - 92.0;
    let (reads, says) = (dial.clone(), dial.clone());
    let slider = Slider::new(&mut value, rail)
        .step_by(knob.step())
        // A slider that is left alone must not round the number of the file.
        .clamping(SliderClamping::Edits)
        .suffix(format!(" {}", dial.unit))
        .custom_parser(move |text| reads.parse(text))
        .custom_formatter(move |value, _| says.digits(value));
    let response = ui.scope(|ui| {
        boxed(ui);
        ui.add(slider).labelled_by(label.id)
    });
    let response = response.inner;
    let called = !ui.ctx().text_edit_focused() && ui.input(|input| input.key_pressed(key));
    if called || (knob == Knob::Radius && begins(ui)) {
        response.request_focus();
    }
    if response.changed() && value != dial.shown(now) {
        out.push(AppCommand::Turn(knob, dial.meant(value)));
    }
    if response.drag_stopped() || response.lost_focus() {
        out.push(AppCommand::Settle);
    }
}

/// The name of a knob, its value in a second unit and in the file, and what explains it; returns the name.
fn name(
    ui: &mut Ui,
    view: &View<'_>,
    (knob, now, written): (Knob, f64, f64),
    dial: &Dial,
    out: &mut Vec<AppCommand>,
) -> Response {
    let mut also = dial.also(now);
    if now != written {
        also = format!("{also} (file: {})", dial.digits(dial.shown(written))).trim_start().to_owned();
    }
    ui.spacing_mut().interact_size.y = LINE;
    let row = ui.horizontal(|ui| {
        let label = ui.label(RichText::new(knob.name()).family(bold()));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            mark(ui, topic(knob), out);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let text = RichText::new(&also).size(14.0).color(view.palette.soft);
                ui.add(Label::new(text).truncate()).on_hover_text(&also);
            });
        });
        label
    });
    row.inner
}

/// What a knob is explained by.
const fn topic(knob: Knob) -> Topic {
    match knob {
        Knob::Radius => Topic::CircleRadius,
        Knob::Height => Topic::CircleHeight,
        Knob::ReturnSpeed => Topic::ReturnSpeed,
        Knob::WindSpeed => Topic::WindSpeed,
        Knob::WindFrom => Topic::WindFrom,
    }
}

/// Which way round, as two buttons.
fn way_round(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.label(RichText::new("turns").family(bold()));
    ui.horizontal_wrapped(|ui| {
        let planned = view.session.draft.file().recovery.turn;
        let wide = (ui.available_width() - ui.spacing().item_spacing.x) / 2.0;
        let wide = wide.max(SIDE);
        for (turn, sign, side) in
            [(Turn::Anticlockwise, "\u{21ba}", "left turns"), (Turn::Clockwise, "\u{21bb}", "right turns")]
        {
            let name = format!("{sign} {}", words::turn(turn));
            let button = Button::new(name).selected(planned == turn).min_size(vec2(wide, TARGET));
            ui.spacing_mut().button_padding.x = 2.0;
            if ui.add(button).on_hover_text(side).clicked() && planned != turn {
                let mut file = view.session.draft.file().clone();
                file.recovery.turn = turn;
                out.push(AppCommand::Edit(Box::new(Change { what: format!("circle {}", words::turn(turn)), file })));
                out.push(AppCommand::Settle);
            }
        }
    });
}

/// Keeps the plan to be compared with, or lets the kept one go.
fn keep(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let kept = view.session.kept.is_some();
    let word = if kept { "Drop the kept plan" } else { "Keep this plan to compare" };
    if ui.button(word).clicked() {
        out.push(AppCommand::Keep(!kept));
    }
}

fn wind(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        (ui.spacing_mut().button_padding.x, ui.spacing_mut().item_spacing.x) = (6.0, 3.0);
        ui.label("flown in");
        for choice in [WindChoice::Mean, WindChoice::Gust] {
            let button = Button::new(words::wind_key(choice)).selected(view.session.wind == choice);
            if ui.add(button).clicked() && view.session.wind != choice {
                out.push(AppCommand::Wind(choice));
            }
        }
        ui.label("wind");
    });
}

fn trial(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let mut trial = view.session.trial;
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        let label = ui.label("trial");
        let box_ = DragValue::new(&mut trial).range(0..=LAST_TRIAL).speed(0.1);
        boxed(ui);
        if ui.add(box_).labelled_by(label.id).changed() && trial != view.session.trial {
            out.push(AppCommand::Trial(trial));
        }
        let words = if trial == 0 { "as planned".to_owned() } else { format!("draw {trial}") };
        ui.label(RichText::new(words).color(view.palette.soft));
    });
}

fn facts(ui: &mut Ui, view: &View<'_>, flown: &Flown) {
    let file = &flown.scenario.file;
    let mut fact = |name: &str, value: &str| {
        let mut job = LayoutJob::default();
        let font = FontId::proportional(TEXT);
        RichText::new(format!("{name}: ")).color(view.palette.soft).font(font.clone()).append_to(
            &mut job,
            ui.style(),
            FontSelection::Default,
            Align::Min,
        );
        RichText::new(value).color(view.palette.ink).font(font).append_to(
            &mut job,
            ui.style(),
            FontSelection::Default,
            Align::Min,
        );
        ui.label(job);
    };
    fact("loss", &format!("{} lost", words::loss(file.loss.kind)));
    fact("failsafe action", &format!("{}, {}", words::failsafe_action(&file.recovery), file.authority().words()));
    fact("guidance", words::guidance(file.recovery.guidance));
    fact("jet", &file.jet.name);
}
