//! The wind as numbers: mean, gust, direction and height, and how sure they are.

use bevy_egui::egui::Ui;

use crate::app::boards::field_board::{compass, more, soft};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind, Optional};
use crate::units::{Angle, Bearing, Length, Ratio, Speed};
use crate::wind::{Profile, Terrain};
use crate::words::Measure;
use crate::words::help::Topic;

const SPEED: EntryKind = EntryKind::Of(Measure::Wind);

/// Shows the boxes.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let wind = &view.session.draft.file().wind;
    let found =
        Entry::new("mean wind", SPEED, wind.mean.mps(), "/wind/mean").help(Topic::WindSpeed).show(ui, view, out);
    entry::set(view, out, "mean wind", found, |file, mps| file.wind.mean = Speed::new(mps));
    let gust = Optional {
        name: "wind in the gusts",
        kind: SPEED,
        now: wind.gust.map(Speed::mps),
        hint: "nobody reported one",
        place: "/wind/gust",
        topic: Some(Topic::Gust),
    };
    let found = gust.show(ui, view, out);
    entry::set(view, out, "wind in the gusts", found, |file, mps| file.wind.gust = mps.map(Speed::new));
    if wind.gust_is_assumed() {
        let taken = view.units().short(Measure::Wind, wind.gust().mps());
        soft(ui, view, &format!("Taken as 1.5 times the mean, {taken}. Type the strongest that the meter shows."));
    }
    let from = Entry::new("blows FROM", EntryKind::Bearing, wind.from.deg(), "/wind/from").help(Topic::WindFrom);
    let found = from.show(ui, view, out);
    entry::set(view, out, "direction of the wind", found, |file, deg| file.wind.from = Bearing::from_deg(deg));
    compass(ui, view, wind.from.deg());
    soft(ui, view, "Degrees clockwise from TRUE north, or a point such as SSW. A hand-held compass reads magnetic.");
    let height = Entry::new("measured at", Measure::Height, wind.measured_at.m(), "/wind/measured_at");
    let found = height.help(Topic::WindAtHeight).show(ui, view, out);
    entry::set(view, out, "height of the measured wind", found, |file, metres| {
        file.wind.measured_at = Length::new(metres);
    });
    soft(ui, view, "Above the ground: a meter in the raised hand is at about 2 m.");
    if let Some(on) = entry::switch(ui, out, "Bumpy air: trials fly through turbulence", wind.turbulence) {
        entry::change(view, out, if on { "turn turbulence on" } else { "turn turbulence off" }, |file| {
            file.wind.turbulence = on;
        });
    }
    let thermals = Optional {
        name: "thermals",
        kind: SPEED,
        now: wind.convection.map(Speed::mps),
        hint: "none",
        place: "/wind/convection",
        topic: Some(Topic::Thermals),
    };
    let found = thermals.show(ui, view, out);
    entry::set(view, out, "strength of the thermals", found, |file, mps| file.wind.convection = mps.map(Speed::new));
    soft(ui, view, "Off, each trial has a steady wind. The flight of the plan itself is always in a steady wind.");
    more(ui, "wind", "How it grows with height, and how sure the numbers are", |ui| rest(ui, view, out));
}

fn rest(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let wind = &view.session.draft.file().wind;
    ui.label("It grows with height");
    let profiles = [(Profile::Power, "by a power"), (Profile::Log, "by a logarithm"), (Profile::Uniform, "not at all")];
    if let Some(profile) = entry::choice(ui, out, "growth with height", wind.profile, &profiles) {
        entry::change(view, out, "set how the wind grows with height", |file| file.wind.profile = profile);
    }
    if wind.profile != Profile::Uniform {
        ui.label("It has blown over");
        let grounds = Terrain::ALL.map(|terrain| (terrain, terrain.name()));
        if let Some(terrain) = entry::choice(ui, out, "terrain upwind", wind.terrain, &grounds) {
            entry::change(view, out, "say what the wind has blown over", |file| file.wind.terrain = terrain);
        }
    }
    let ([lowest, highest], roughnesses) = (wind.exponents(), wind.roughnesses_m());
    match wind.profile {
        Profile::Power => {
            let low = Entry::new("lowest exponent", EntryKind::Plain, lowest, "/wind/exponent_low");
            let found = low.help(Topic::WindAtHeight).show(ui, view, out);
            entry::set(view, out, "lowest exponent", found, |file, exponent| file.wind.exponent_low = Some(exponent));
            let high = Entry::new("highest exponent", EntryKind::Plain, highest, "/wind/exponent_high");
            let found = high.show(ui, view, out);
            entry::set(view, out, "highest exponent", found, |file, exponent| file.wind.exponent_high = Some(exponent));
        }
        Profile::Log => {
            // The middle of the terrain's range, until somebody knows better.
            let middle = (roughnesses[0] * roughnesses[1]).sqrt();
            let entry_ = Entry::new("roughness length", Measure::Distance, middle, "/wind/roughness");
            let found = entry_.help(Topic::WindAtHeight).show(ui, view, out);
            entry::set(view, out, "roughness length", found, |file, metres| {
                file.wind.roughness = Some(Length::new(metres));
            });
        }
        Profile::Uniform => {}
    }
    let share = Entry::new("spread of the mean", EntryKind::Share, wind.mean_spread.share(), "/wind/mean_spread");
    let found = share.show(ui, view, out);
    entry::set(view, out, "spread of the mean wind", found, |file, share| file.wind.mean_spread = Ratio::new(share));
    let floor = Entry::new("and at least", SPEED, wind.mean_floor.mps(), "/wind/mean_floor").show(ui, view, out);
    entry::set(view, out, "least spread of the mean wind", floor, |file, mps| file.wind.mean_floor = Speed::new(mps));
    let spread = Entry::new("spread of direction", EntryKind::Angle, wind.from_spread().rad(), "/wind/from_spread");
    let found = spread.show(ui, view, out);
    entry::set(view, out, "spread of the direction", found, |file, rad| file.wind.from_spread = Some(Angle::new(rad)));
    soft(ui, view, "A spread is one standard deviation: two trials in three lie within it.");
}
