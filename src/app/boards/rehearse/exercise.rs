//! Which exercise is flown next: the ladder, and what of it can be changed.

use bevy_egui::egui::{Button, ComboBox, DragValue, RichText, Slider, Ui, vec2};

use crate::app::look::theme::{TARGET, bold, boxed, primary};
use crate::app::session::{AppCommand, FileCommand, Going, Practice, RehearseCommand, View};
use crate::field::Where;
use crate::rehearsal::{Exercise, From, Hands, Lost, When, ladder};
use crate::words::rehearsal as words;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let rehearse = &view.session.rehearse;
    ui.heading("Rehearse the loss");
    if !view.session.is_current() {
        ui.label("As it stands this plan can't be flown. What is wrong with it stands on the Field board.");
        return;
    }
    let rungs = ladder();
    ComboBox::from_id_salt("ladder").width(300.0).selected_text(rehearse.exercise.name.clone()).show_ui(ui, |ui| {
        for (index, rung) in rungs.iter().enumerate() {
            if ui.selectable_label(rehearse.rung == Some(index), &rung.exercise.name).clicked() {
                let exercise = Exercise { hands: rehearse.exercise.hands, ..rung.exercise.clone() };
                out.push(AppCommand::Rehearse(RehearseCommand::Exercise(Box::new(exercise), Some(index))));
            }
        }
        if ui.selectable_label(rehearse.rung.is_none(), "Free flight").clicked() {
            let exercise = Exercise { hands: rehearse.exercise.hands, ..Exercise::default() };
            out.push(AppCommand::Rehearse(RehearseCommand::Exercise(Box::new(exercise), None)));
        }
    });
    if let Some(rung) = rehearse.rung.and_then(|index| rungs.get(index)) {
        ui.label(rung.new);
        ui.label(RichText::new("A good run").family(bold()));
        ui.label(rung.good);
    }
    ui.label(RichText::new(words::exercise(&rehearse.exercise, view.units())).color(view.palette.soft));
    ui.add_space(6.0);
    if ui.add(primary("Fly it", view.palette).min_size(vec2(160.0, 40.0))).clicked() {
        out.push(AppCommand::Rehearse(RehearseCommand::Begin));
    }
    if ui.add(Button::new("Fly a recording again\u{2026}").min_size(vec2(160.0, TARGET))).clicked() {
        out.push(AppCommand::File(FileCommand::OpenRehearsal));
    }
    ui.label("Arrows: the stick, down is nose up. W, S: throttle. Space: the next stage. R: return. Enter: I have control. Esc: pause.");
    ui.add_space(6.0);
    ui.collapsing("Change it", |ui| change(ui, view, out));
    ui.collapsing("How it is shown and told", |ui| shown(ui, view, out));
}

/// What of the exercise can be changed; another exercise is no longer one of the ladder.
fn change(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let now = &view.session.rehearse.exercise;
    let mut next = now.clone();
    ui.horizontal(|ui| {
        ui.label("lost");
        ComboBox::from_id_salt("lost").selected_text(words::lost(next.lost)).show_ui(ui, |ui| {
            for lost in Lost::ALL {
                ui.selectable_value(&mut next.lost, lost, words::lost(lost));
            }
        });
    });
    when(ui, view, &mut next.when);
    let number = |ui: &mut Ui, words: &str, value: &mut f64, to: f64, unit: &str| {
        ui.horizontal(|ui| {
            ui.label(words);
            boxed(ui);
            ui.add(DragValue::new(value).range(0.0..=to).speed(0.5).max_decimals(0).suffix(unit));
        });
    };
    if next.lost.takes_control() && next.lost != Lost::Flicker {
        number(ui, "link back after", &mut next.back_after_s, Exercise::LONGEST_S, " s");
    }
    ui.horizontal(|ui| {
        ui.label("wind");
        let mut percent = next.wind_share * 100.0;
        ui.add(Slider::new(&mut percent, 0.0..=200.0).step_by(5.0).suffix(" % of the plan's"));
        next.wind_share = percent / 100.0;
    });
    ui.horizontal(|ui| {
        ui.label("from");
        let plan = next.from == From::Plan;
        if ui.add(Button::new("the plan's loss").selected(plan)).clicked() {
            next.from = From::Plan;
        }
        if ui.add(Button::new("beside the centre").selected(!plan)).clicked() && plan {
            next.from = From::Upwind { aside_deg: 0.0, share: 0.4 };
        }
    });
    if let From::Upwind { aside_deg, share } = &mut next.from {
        number(ui, "clockwise from upwind", aside_deg, 359.0, "\u{b0}");
        let mut percent = *share * 100.0;
        number(ui, "of the way to the edge", &mut percent, 100.0, " %");
        *share = percent / 100.0;
    }
    ui.horizontal(|ui| {
        ui.label("trial");
        boxed(ui);
        ui.add(DragValue::new(&mut next.trial).range(0..=1_000_000));
    })
    .response
    .on_hover_text("0 draws nothing; any other number draws everything uncertain, the same for everybody");
    ui.horizontal_wrapped(|ui| {
        ui.label("sticks");
        for hands in Hands::ALL {
            let word = if hands == Hands::Levelling { "stabiliser levels" } else { "straight through" };
            ui.selectable_value(&mut next.hands, hands, word).on_hover_text(words::hands(hands));
        }
    });
    if next != *now {
        let (rung, name) = if (Exercise { hands: now.hands, ..next.clone() }) == *now {
            (view.session.rehearse.rung, now.name.clone())
        } else {
            (None, "Free flight".to_owned())
        };
        out.push(AppCommand::Rehearse(RehearseCommand::Exercise(Box::new(Exercise { name, ..next }), rung)));
    }
}

fn when(ui: &mut Ui, view: &View<'_>, when: &mut When) {
    let flown = view.session.flown.as_ref();
    let circuit = flown.and_then(|flown| flown.scenario.field.circuit.as_ref());
    let length = circuit.and_then(|circuit| match &circuit.place {
        Where::Line(line) => Some(line.length_m()),
        Where::Area(_) => None,
    });
    let now = *when;
    ui.horizontal_wrapped(|ui| {
        ui.label("when");
        let mut choice = |ui: &mut Ui, chosen: bool, word: &str, other: When| {
            if ui.add(Button::new(word).selected(chosen)).clicked() && !chosen {
                *when = other;
            }
        };
        choice(ui, matches!(now, When::AfterS(_)), "at a moment", When::AfterS(20.0));
        choice(ui, matches!(now, When::BetweenS(_)), "at random", When::BetweenS([10.0, 40.0]));
        if let Some(length) = length {
            choice(ui, matches!(now, When::OnCircuitM(_)), "on the circuit", When::OnCircuitM((length / 4.0).round()));
        }
        choice(ui, now == When::Pressed, "the instructor presses", When::Pressed);
    });
    ui.horizontal(|ui| {
        boxed(ui);
        let drag = |ui: &mut Ui, value: &mut f64, to: f64, unit: &str| {
            ui.add(DragValue::new(value).range(0.0..=to).max_decimals(0).suffix(unit));
        };
        match when {
            When::AfterS(at) => drag(ui, at, Exercise::LONGEST_S, " s after the beginning"),
            When::BetweenS([from, to]) => {
                drag(ui, from, Exercise::LONGEST_S, " s");
                drag(ui, to, Exercise::LONGEST_S, " s");
                *to = to.max(*from);
            }
            When::OnCircuitM(along) => drag(ui, along, length.unwrap_or(1e5), " m along it"),
            When::Pressed => {}
        }
    });
}

/// How it is shown and told, kept from one start to the next.
fn shown(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let now = &view.session.settings.practice;
    let mut next = Practice { ..now.clone() };
    ui.horizontal_wrapped(|ui| {
        ui.label("the picture goes");
        for going in Going::ALL {
            ui.selectable_value(&mut next.going, going, going.name());
        }
    });
    ui.checkbox(&mut next.still, "nothing moves that need not");
    ui.checkbox(&mut next.with_spotter, "somebody else is the spotter, and gives the cue by the card");
    ui.checkbox(&mut next.spoken, "the spotter's lines are spoken, where this system has a voice");
    let mut window = view.session.rehearse.spotter_window;
    if ui.checkbox(&mut window, "a second window for the spotter").changed() {
        out.push(AppCommand::Rehearse(RehearseCommand::SpotterWindow(window)));
    }
    if next != *now {
        out.push(AppCommand::Rehearse(RehearseCommand::Practice(Box::new(next))));
    }
}
