//! What the jet does about a loss, who allowed that, and how it flies the circle.

use bevy_egui::egui::{Frame, Margin, RichText, Shape, Stroke, Ui};

use super::law;
use crate::app::boards::field_board::soft;
use crate::app::look::theme::bold;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{About, Entry, EntryKind, Line, Numbered as _};
use crate::app::widgets::help::mark;
use crate::recovery::{FailsafeAction, Turn};
use crate::run::LossKind;
use crate::units::{Angle, Length, Time};
use crate::words::Measure;
use crate::words::help::Topic;

const FAILSAFE_ACTIONS: [(FailsafeAction, &str); 3] = [
    (FailsafeAction::Return, "return"),
    (FailsafeAction::WaitThenCut, "wait, then cut"),
    (FailsafeAction::Cut, "cut at once"),
];

/// Shows failsafe action and authority.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let plan = &view.session.draft.file().recovery;
    title(ui, out, "What the jet does", Topic::FailsafeAction);
    if let Some(failsafe_action) = entry::choice(ui, out, "failsafe action", plan.failsafe_action, &FAILSAFE_ACTIONS) {
        entry::change(view, out, "set the failsafe action", |file| file.recovery.failsafe_action = failsafe_action);
    }
    soft(
        ui,
        view,
        match plan.failsafe_action {
            FailsafeAction::Return => "Flies home under power and circles until it is taken over by eye.",
            FailsafeAction::WaitThenCut => {
                "Flies on, wings level, for the waiting time; then stops the fan and glides."
            }
            FailsafeAction::Cut => "Stops the fan at once and glides.",
        },
    );
    entry::faults(ui, view, "/recovery/failsafe_action");
    if plan.failsafe_action == FailsafeAction::WaitThenCut {
        let found = Entry::new("waits", EntryKind::Time, plan.wait.s(), "/recovery/wait").show(ui, view, out);
        entry::set(view, out, "waiting time", found, |file, s| file.recovery.wait = Time::new(s));
    }
    if plan.failsafe_action != FailsafeAction::Return {
        let bank = Entry::new("bank in the glide", EntryKind::Angle, plan.glide_bank.rad(), "/recovery/glide_bank");
        let found = bank.show(ui, view, out);
        entry::set(view, out, "bank in the glide", found, |file, rad| file.recovery.glide_bank = Angle::new(rad));
    }
    authority(ui, view, out);
    let topic = Some(Topic::FailsafeDelay);
    let about = About { name: "failsafe delay", kind: EntryKind::Time, place: "/recovery/failsafe_delay", topic };
    let new = entry::number(ui, view, out, &about, plan.failsafe_delay.number());
    entry::set(view, out, "failsafe delay", new, |file, number| file.recovery.failsafe_delay.take(number));
    if view.session.draft.file().loss.kind == LossKind::Video {
        let about = About { name: "reaction time", kind: EntryKind::Time, place: "/recovery/reaction_time", topic };
        let reaction = plan.reaction_time.unwrap_or(plan.failsafe_delay);
        let new = entry::number(ui, view, out, &about, reaction.number());
        entry::set(view, out, "reaction time", new, move |file, number| {
            file.recovery.reaction_time.get_or_insert(reaction).take(number);
        });
    }
    let above = Entry::new("turns only above", Measure::Height, plan.turn_above.m(), "/recovery/turn_above");
    let found = above.show(ui, view, out);
    entry::set(view, out, "height to turn above", found, |file, m| file.recovery.turn_above = Length::new(m));
}

/// Who authorised it: framed and loud as long as nobody has.
fn authority(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    let (by, counts) = (&file.recovery.authorised_by, file.authority().counts());
    let blank = !counts;
    let margin = if blank { Margin::same(7) } else { Margin::ZERO };
    let inner = Frame::new().inner_margin(margin).show(ui, |ui| {
        ui.set_width(ui.available_width());
        if blank {
            let lapsed = !by.trim().is_empty();
            let words = if lapsed { "AUTHORISED FOR ANOTHER VERSION" } else { "NOBODY HAS AUTHORISED THIS" };
            ui.label(RichText::new(words).family(bold()));
        }
        let line = Line {
            name: "authorised by",
            shown: by,
            hint: "who, and when",
            place: "/recovery/authorised_by",
            topic: Some(Topic::Authority),
        };
        let found = line.show(ui, view, out, entry::words);
        entry::set(view, out, "authority", found, |file, by| {
            file.recovery.authorised_by = by;
            file.recovery.authorised_for = file.plan_hash();
        });
        if blank && !by.trim().is_empty() && ui.button("They authorise it as it is now").clicked() {
            entry::change(view, out, "authorise this version", |file| {
                file.recovery.authorised_for = file.plan_hash();
            });
            out.push(AppCommand::Settle);
        }
    });
    if blank {
        let edge = inner.response.rect.shrink(1.5);
        let corners = [edge.left_top(), edge.right_top(), edge.right_bottom(), edge.left_bottom(), edge.left_top()];
        ui.painter().extend(Shape::dashed_line(&corners, Stroke::new(3.0, view.palette.hatch[0]), 10.0, 5.0));
    }
}

/// Shows how the circle is flown.
pub(super) fn circle(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let plan = &view.session.draft.file().recovery;
    title(ui, out, "How it flies the circle", Topic::Guidance);
    let radius = Entry::new("circle radius", Measure::Distance, plan.radius.m(), "/recovery/radius");
    let found = radius.help(Topic::CircleRadius).show(ui, view, out);
    entry::set(view, out, "circle radius", found, |file, m| file.recovery.radius = Length::new(m));
    let height = Entry::new("circle height", Measure::Height, plan.height.m(), "/recovery/height");
    let found = height.help(Topic::CircleHeight).show(ui, view, out);
    entry::set(view, out, "circle height", found, |file, m| file.recovery.height = Length::new(m));
    ui.label("turns");
    let turns = [(Turn::Anticlockwise, "anticlockwise (left)"), (Turn::Clockwise, "clockwise (right)")];
    if let Some(turn) = entry::choice(ui, out, "turns", plan.turn, &turns) {
        entry::change(view, out, "set the way round", |file| file.recovery.turn = turn);
    }
    law::show(ui, view, out);
    let found = Entry::new("laps before take-over", EntryKind::Plain, plan.laps, "/recovery/laps").show(ui, view, out);
    entry::set(view, out, "laps before the take-over", found, |file, laps| file.recovery.laps = laps);
}

fn title(ui: &mut Ui, out: &mut Vec<AppCommand>, text: &str, topic: Topic) {
    ui.horizontal(|ui| {
        ui.heading(text);
        mark(ui, topic, out);
    });
}
