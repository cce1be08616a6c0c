//! How the jet is guided: the law of the plan, those that a log has ruled out, its gain, and what the throttle holds.

use bevy_egui::egui::Ui;

use crate::app::boards::field_board::soft;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind};
use crate::app::widgets::help::mark;
use crate::recovery::{Gain, Guidance, SpeedHold};
use crate::units::Time;
use crate::words::help::Topic;
use crate::words::{gain, guidance};

const HOLDS: [(SpeedHold, &str); 3] = [
    (SpeedHold::Airspeed, "airspeed"),
    (SpeedHold::Throttle, "a throttle"),
    (SpeedHold::GroundSpeed, "speed over ground"),
];

/// Shows the choices.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let plan = &view.session.draft.file().recovery;
    ui.label("guidance");
    if let Some(law) = entry::choice(ui, out, "guidance", plan.guidance, &Guidance::ALL.map(|law| (law, guidance(law))))
    {
        entry::change(view, out, "set the guidance", |file| file.recovery.guidance = law);
    }
    ui.label("a log of this jet has ruled out");
    for law in Guidance::ALL {
        let word = guidance(law);
        let out_now = plan.laws_ruled_out.contains(&law);
        let Some(on) = entry::switch(ui, out, &format!("not {word}"), out_now) else { continue };
        let what = if on { format!("rule out {word}") } else { format!("leave {word} in") };
        entry::change(view, out, what, |file| {
            file.recovery.laws_ruled_out.retain(|known| *known != law);
            if on {
                file.recovery.laws_ruled_out.push(law);
            }
        });
    }
    entry::faults(ui, view, "/recovery/laws_ruled_out");
    soft(ui, view, "The plan flies the one chosen; trials draw from all that are not ruled out.");
    ui.label("gain");
    let gains = Gain::ALL.map(|strength| (strength, gain(strength)));
    if let Some(gain) = entry::choice(ui, out, "gain", plan.gain, &gains) {
        entry::change(view, out, "set the gain", |file| file.recovery.gain = gain);
    }
    ui.horizontal(|ui| {
        ui.label("holds");
        mark(ui, Topic::SpeedHold, out);
    });
    if let Some(hold) = entry::choice(ui, out, "holds", plan.speed_hold, &HOLDS) {
        entry::change(view, out, "set what the throttle holds", |file| file.recovery.speed_hold = hold);
    }
    let lag =
        Entry::new("elevator lags by", EntryKind::Time, plan.load_lag.s(), "/recovery/load_lag").show(ui, view, out);
    entry::set(view, out, "lag of the elevator", lag, |file, s| file.recovery.load_lag = Time::new(s));
}
