//! What a person measures of the battery in flight: the power at the return speed, or the minutes of a flight.

use bevy_egui::egui::Ui;

use crate::app::boards::field_board::soft;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{About, EntryKind, Numbered as _};
use crate::jet::{Entry as Sheeted, JetNumbers, JetSheet, Origin};
use crate::run::ScenarioFile;
use crate::units::Quantity;
use crate::words::help::Topic;

/// Spread that such a number begins with, as a share of it: judgement.
const SPREAD: f64 = 0.1;
/// Share of a full pack that a timed flight uses: until a fifth is left.
const TIMED_SHARE: f64 = 0.8;

/// Power and time as the sheet has them now, W and s: what somebody then types over.
fn worked_out(file: &ScenarioFile) -> (f64, f64) {
    let numbers = JetNumbers::new(&file.jet, file.air.density());
    let lasts = numbers.endurance_s(numbers.return_speed);
    ((numbers.pack / lasts).round(), (TIMED_SHARE * lasts).round())
}

fn begin<Q: Quantity>(si: f64) -> Sheeted<Q> {
    Sheeted::si(si, (SPREAD * si).round(), Origin::Estimated)
}

/// Shows the switches, and the numbers that are there.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    let jet = &file.jet;
    soft(ui, view, "Better than efficiencies: what a wattmeter or a watch says of this jet. Either will do.");
    if let Some(on) = entry::switch(ui, out, "Power at the return speed was measured", jet.return_power.is_some()) {
        let (watts, _) = worked_out(file);
        toggle(view, out, "power at the return speed", on, |jet| jet.return_power = on.then(|| begin(watts)));
    }
    if let Some(power) = jet.return_power {
        let (name, place) = ("power at return speed", "/jet/return_power");
        let about = About { name, kind: EntryKind::Power, place, topic: Some(Topic::PartThrottle) };
        let new = entry::number(ui, view, out, &about, power.number());
        entry::set(view, out, name, new, |file, number| {
            file.jet.return_power.iter_mut().for_each(|power| power.take(number));
        });
    }
    if let Some(on) = entry::switch(ui, out, "Time of flight was measured", jet.flight_time.is_some()) {
        let (_, seconds) = worked_out(file);
        toggle(view, out, "time of flight", on, |jet| jet.flight_time = on.then(|| begin(seconds)));
    }
    if let Some(time) = jet.flight_time {
        let (name, place) = ("flight until a fifth is left", "/jet/flight_time");
        let about = About { name, kind: EntryKind::Time, place, topic: Some(Topic::PartThrottle) };
        let new = entry::number(ui, view, out, &about, time.number());
        entry::set(view, out, "time of flight", new, |file, number| {
            file.jet.flight_time.iter_mut().for_each(|time| time.take(number));
        });
    }
    if let Some(on) = entry::switch(ui, out, "Cold pack: 15 % less energy", jet.cold) {
        entry::change(view, out, if on { "fly the pack cold" } else { "fly the pack warm" }, |file| file.jet.cold = on);
    }
}

fn toggle(view: &View<'_>, out: &mut Vec<AppCommand>, what: &str, on: bool, put: impl FnOnce(&mut JetSheet)) {
    let what = if on { format!("add the {what}") } else { format!("take the {what} away") };
    entry::change(view, out, what, |file| put(&mut file.jet));
}
