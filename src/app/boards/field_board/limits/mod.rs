//! The limits: how far from everything the recovery is asked to stay, and the rules that such numbers come from.

mod rules;

use bevy_egui::egui::Ui;

use super::{more, soft};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{About, Entry, EntryKind, Numbered as _};
use crate::run::{HeightAbove, HeightLimit};
use crate::units::{Angle, Length, Ratio, Time};
use crate::words::Measure;
use crate::words::help::Topic;

/// What a height limit begins with when one is asked for, metres.
const NEW_HEIGHT_LIMIT: f64 = 120.0;
/// What the longest way home begins with, seconds.
const NEW_HOME: f64 = 60.0;

/// Shows the sheet.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    permitted(ui, view, out);
    ui.add_space(6.0);
    ui.heading("Margins asked for");
    margins(ui, view, out);
    ui.add_space(6.0);
    ui.heading("Time, battery and sight");
    time_and_sight(ui, view, out);
    ui.add_space(6.0);
    ui.heading("In how many trials");
    enough(ui, view, out);
    ui.add_space(8.0);
    rules::show(ui, view, out);
}

fn permitted(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let forbidden = view.session.draft.file().limits.no_automatic_return;
    if let Some(on) = entry::switch(ui, out, "Automatic return is not permitted here", forbidden) {
        let what = if on { "forbid the automatic return" } else { "permit the automatic return" };
        entry::change(view, out, what, |file| file.limits.no_automatic_return = on);
    }
    soft(ui, view, "For clubs and landowners that forbid it: plan a cut, and find the jet by eye.");
    if forbidden {
        entry::faults(ui, view, "/recovery/failsafe_action");
    }
}

fn margins(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let limits = &view.session.draft.file().limits;
    let buffer = Entry::new("buffer", Measure::Distance, limits.buffer.m(), "/limits/buffer");
    let found = buffer.help(Topic::Buffer).show(ui, view, out);
    entry::set(view, out, "buffer", found, |file, m| file.limits.buffer = Length::new(m));
    let people = Entry::new("people buffer", Measure::Distance, limits.people_buffer.m(), "/limits/people_buffer");
    let found = people.help(Topic::People).show(ui, view, out);
    entry::set(view, out, "people buffer", found, |file, m| file.limits.people_buffer = Length::new(m));
    let height = Entry::new("buffer in height", Measure::Height, limits.height_buffer.m(), "/limits/height_buffer");
    let found = height.show(ui, view, out);
    entry::set(view, out, "buffer in height", found, |file, m| file.limits.height_buffer = Length::new(m));
    if let Some(on) = entry::switch(ui, out, "There is a height limit", limits.height_limit.is_some()) {
        let new = HeightLimit { height: Length::new(NEW_HEIGHT_LIMIT), above: HeightAbove::Ground };
        let what = if on { "set a height limit" } else { "take the height limit away" };
        entry::change(view, out, what, |file| file.limits.height_limit = on.then_some(new));
    }
    if let Some(height_limit) = limits.height_limit {
        let entry_ =
            Entry::new("height limit", Measure::Height, height_limit.height.m(), "/limits/height_limit/height");
        let found = entry_.help(Topic::HeightLimit).show(ui, view, out);
        let put = |file: &mut crate::run::ScenarioFile, change: &dyn Fn(&mut HeightLimit)| {
            file.limits.height_limit.iter_mut().for_each(change);
        };
        entry::set(view, out, "height limit", found, |file, m| {
            put(file, &|height_limit| height_limit.height = Length::new(m));
        });
        let above = [(HeightAbove::Ground, "over the ground below"), (HeightAbove::Home, "over home")];
        if let Some(above) = entry::choice(ui, out, "height limit is", height_limit.above, &above) {
            entry::change(view, out, "set what the height limit is measured from", |file| {
                put(file, &|height_limit| height_limit.above = above);
            });
        }
    }
    let factor = Entry::new("speed held over the stall", EntryKind::Plain, limits.stall_factor, "/limits/stall_factor");
    let found = factor.help(Topic::SpeedHeld).show(ui, view, out);
    entry::set(view, out, "stall factor", found, |file, factor| file.limits.stall_factor = factor);
    let over = Entry::new("held for", EntryKind::Time, limits.stall_over.s(), "/limits/stall_over");
    let found = over.help(Topic::SpeedHeld).show(ui, view, out);
    entry::set(view, out, "seconds that a speed is held", found, |file, s| file.limits.stall_over = Time::new(s));
    let place = "/limits/stall_factor_moment";
    let moment = Entry::new("speed over the stall at a moment", EntryKind::Plain, limits.stall_factor_moment, place);
    let found = moment.help(Topic::StallMargin).show(ui, view, out);
    entry::set(view, out, "stall factor of a moment", found, |file, factor| file.limits.stall_factor_moment = factor);
    soft(ui, view, "Times the stall speed at the load wanted then: 1.3 is three tenths over it.");
}

/// Which shares of the trials are enough.
fn enough(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let limits = &view.session.draft.file().limits;
    let share = limits.crossed_at_most.share();
    let crossed = Entry::new("crossed in at most", EntryKind::Share, share, "/limits/crossed_at_most");
    let found = crossed.help(Topic::CrossedAtMost).show(ui, view, out);
    entry::set(view, out, "share that may cross a limit", found, |file, share| {
        file.limits.crossed_at_most = Ratio::new(share);
    });
    let share = limits.kept_at_least.share();
    let kept = Entry::new("buffers kept in at least", EntryKind::Share, share, "/limits/kept_at_least");
    let found = kept.help(Topic::KeptAtLeast).show(ui, view, out);
    entry::set(view, out, "share that has to keep the buffers", found, |file, share| {
        file.limits.kept_at_least = Ratio::new(share);
    });
}

fn time_and_sight(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let limits = &view.session.draft.file().limits;
    let reserve = Entry::new("battery reserve", EntryKind::Share, limits.reserve.share(), "/limits/reserve");
    let found = reserve.help(Topic::Reserve).show(ui, view, out);
    entry::set(view, out, "battery reserve", found, |file, share| file.limits.reserve = Ratio::new(share));
    let laps = Entry::new("laps to the reserve", EntryKind::Plain, limits.laps_to_reserve, "/limits/laps_to_reserve");
    let found = laps.help(Topic::LapsToReserve).show(ui, view, out);
    entry::set(view, out, "laps to the reserve", found, |file, laps| file.limits.laps_to_reserve = laps);
    if let Some(on) = entry::switch(ui, out, "It must be home within a time", limits.home_within.is_some()) {
        let what = if on { "set a time to be home within" } else { "take the time to be home within away" };
        entry::change(view, out, what, |file| file.limits.home_within = on.then_some(Time::new(NEW_HOME)));
    }
    if let Some(time) = limits.home_within {
        let within = Entry::new("home within", EntryKind::Time, time.s(), "/limits/home_within").help(Topic::TimeHome);
        let found = within.show(ui, view, out);
        entry::set(view, out, "time to be home within", found, |file, s| file.limits.home_within = Some(Time::new(s)));
    }
    let about = About { name: "take-over time", kind: EntryKind::Time, place: "/limits/take_over", topic: None };
    let new = entry::number(ui, view, out, &about, limits.take_over.number());
    entry::set(view, out, "take-over time", new, |file, number| file.limits.take_over.take(number));
    let sight = Entry::new("ground visibility", Measure::Distance, limits.visibility.m(), "/limits/visibility");
    let found = sight.help(Topic::Visibility).show(ui, view, out);
    entry::set(view, out, "visibility", found, |file, m| file.limits.visibility = Length::new(m));
    more(ui, "sight", "How small a jet is still found", |ui| {
        let rad = limits.smallest_angle.rad();
        let angle = Entry::new("smallest angle of span", EntryKind::Angle, rad, "/limits/smallest_angle");
        let found = angle.show(ui, view, out);
        entry::set(view, out, "smallest angle", found, |file, rad| file.limits.smallest_angle = Angle::new(rad));
    });
}
