//! The loss, and what the jet does about it: what, where, who allowed it, and how the circle is flown.

mod failsafe_action;
mod knows;
mod law;

use bevy_egui::egui::Ui;

use super::{compass, more, soft};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind};
use crate::run::LossKind;
use crate::units::{Angle, Bearing, Length, Ratio, Speed};
use crate::words::Measure;
use crate::words::help::Topic;

const DISTANCE: EntryKind = EntryKind::Of(Measure::Distance);
const KINDS: [(LossKind, &str); 4] = [
    (LossKind::Video, "video"),
    (LossKind::Control, "control"),
    (LossKind::Both, "both"),
    (LossKind::Position, "position"),
];

/// Shows the sheet.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    failsafe_action::show(ui, view, out);
    ui.add_space(8.0);
    event(ui, view, out);
    ui.add_space(8.0);
    failsafe_action::circle(ui, view, out);
    more(ui, "perception", "How well it knows where it is", |ui| knows::show(ui, view, out));
}

/// What is lost, and the state of the jet at that moment.
fn event(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let loss = &view.session.draft.file().loss;
    ui.heading("What is lost, and where");
    if let Some(kind) = entry::choice(ui, out, "lost", loss.kind, &KINDS) {
        entry::change(view, out, "set what is lost", |file| file.loss.kind = kind);
    }
    let words = if view.session.draft.field().is_some_and(|field| field.circuit.is_some()) {
        "The plan as entered flies the loss below. Trials draw theirs from the circuit."
    } else {
        "The field has no circuit: every answer is about this one place. Draw where you fly, with the key U."
    };
    soft(ui, view, words);
    let [east, north] = loss.at_m;
    let found = Entry::new("loss east of datum", DISTANCE, east, "/loss/at_m/0").show(ui, view, out);
    entry::set(view, out, "place of the loss", found, |file, metres| file.loss.at_m[0] = metres);
    let found = Entry::new("loss north of datum", DISTANCE, north, "/loss/at_m/1").show(ui, view, out);
    entry::set(view, out, "place of the loss", found, |file, metres| file.loss.at_m[1] = metres);
    entry::faults(ui, view, "/loss/at_m");
    let height = Entry::new("height over home", Measure::Height, loss.height.m(), "/loss/height");
    let found = height.show(ui, view, out);
    entry::set(view, out, "height of the loss", found, |file, metres| file.loss.height = Length::new(metres));
    let speed = Entry::new("airspeed", Measure::Speed, loss.speed.mps(), "/loss/speed").help(Topic::TurnBack);
    let found = speed.show(ui, view, out);
    entry::set(view, out, "speed of the loss", found, |file, mps| file.loss.speed = Speed::new(mps));
    let found =
        Entry::new("nose points to", EntryKind::Bearing, loss.heading.deg(), "/loss/heading").show(ui, view, out);
    entry::set(view, out, "heading of the loss", found, |file, deg| file.loss.heading = Bearing::from_deg(deg));
    compass(ui, view, loss.heading.deg());
    let found = Entry::new("bank, right is +", EntryKind::Angle, loss.bank.rad(), "/loss/bank").show(ui, view, out);
    entry::set(view, out, "bank of the loss", found, |file, rad| file.loss.bank = Angle::new(rad));
    let found = Entry::new("climb angle", EntryKind::Angle, loss.climb.rad(), "/loss/climb").show(ui, view, out);
    entry::set(view, out, "climb of the loss", found, |file, rad| file.loss.climb = Angle::new(rad));
    let charge = Entry::new("battery still holds", EntryKind::Share, loss.charge.share(), "/loss/charge");
    let found = charge.help(Topic::LapsToReserve).show(ui, view, out);
    entry::set(view, out, "charge at the loss", found, |file, share| file.loss.charge = Ratio::new(share));
}
