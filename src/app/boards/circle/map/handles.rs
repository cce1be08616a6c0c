//! Handles of the plan on the map: the centre, the radius on the commanded ring, and the wind in its corner.

use bevy_egui::egui::{Id, Pos2, Shape, Stroke, Ui, Vec2, vec2};
use glam::DVec2;

use super::grip::{Grip, say};
use crate::app::look::lens::Lens;
use crate::app::map::furniture;
use crate::app::map::places::centre;
use crate::app::session::{AppCommand, Change, Knob, View};
use crate::run::ScenarioFile;
use crate::units::Bearing;
use crate::words::Measure;

/// Where the grip of the radius is at first: to the south-east, where nothing else is written, degrees.
const GRIP_AT: f64 = 150.0;

/// Shows the handles, and pushes what they ask for.
pub(super) fn over(ui: &Ui, lens: &Lens, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(centre) = view.session.draft.field().and_then(centre) else { return };
    radius(ui, lens, view, centre, out);
    move_centre(ui, lens, view, centre, out);
    wind(ui, lens, view, out);
}

/// One edit of the draft, the same step as long as it goes on.
fn edit(view: &View<'_>, what: &str, out: &mut Vec<AppCommand>, change: impl FnOnce(&mut ScenarioFile)) {
    let mut file = view.session.draft.file().clone();
    change(&mut file);
    if file != *view.session.draft.file() {
        out.push(AppCommand::Edit(Box::new(Change { what: what.into(), file })));
    }
}

fn move_centre(ui: &Ui, lens: &Lens, view: &View<'_>, centre: DVec2, out: &mut Vec<AppCommand>) {
    let at = lens.screen(centre);
    if !lens.rect.contains(at) {
        return;
    }
    let grip = Grip::at(ui, at, "centre");
    let dragged = grip.dragged(ui, centre, |pointer| lens.ground(pointer));
    if let Some(to) = dragged.or_else(|| grip.arrows(ui).map(|step| centre + step)) {
        let to = to.round();
        edit(view, "move the centre", out, |file| {
            if let Some(field) = &mut file.field {
                field.centre_m = Some(to.to_array());
            }
        });
    }
    if grip.let_go() {
        out.push(AppCommand::Settle);
    }
    grip.ring(ui, view, at, 14.0);
    arrows(ui, view, at);
    if grip.is_used() {
        let part = |value: f64, ahead: &str, behind: &str| {
            let length = view.units().short(Measure::Distance, value.abs());
            format!("{length} {}", if value < 0.0 { behind } else { ahead })
        };
        let words =
            format!("centre {}, {} of the datum", part(centre.x, "east", "west"), part(centre.y, "north", "south"));
        say(ui, view, lens, at, &words);
    }
}

/// Four tips about a grip that can go any way.
fn arrows(ui: &Ui, view: &View<'_>, at: Pos2) {
    for way in [vec2(1.0, 0.0), vec2(-1.0, 0.0), vec2(0.0, 1.0), vec2(0.0, -1.0)] {
        tip(ui, view, at + way * 22.0, way);
    }
}

/// A small arrow head that points a way.
fn tip(ui: &Ui, view: &View<'_>, tip: Pos2, way: Vec2) {
    let side = way.rot90() * 4.5;
    let corners = vec![tip, tip - way * 7.0 + side, tip - way * 7.0 - side];
    let edge = Stroke::new(1.0, view.palette.paper);
    ui.painter().add(Shape::convex_polygon(corners, view.palette.focus, edge));
}

fn radius(ui: &Ui, lens: &Lens, view: &View<'_>, centre: DVec2, out: &mut Vec<AppCommand>) {
    let now = view.session.draft.file().recovery.radius.m();
    let memory = Id::new("bearing of the radius grip");
    let bearing: f64 = ui.data(|data| data.get_temp(memory)).unwrap_or(GRIP_AT);
    let way = Bearing::from_deg(bearing).unit();
    let at = lens.screen(centre + way * now);
    if !lens.rect.contains(at) {
        return;
    }
    let grip = Grip::at(ui, at, "radius of the circle");
    if let Some(to) = grip.dragged(ui, centre + way * now, |pointer| lens.ground(pointer)) {
        let away = to - centre;
        ui.data_mut(|data| data.insert_temp(memory, Bearing::of(away).deg()));
        turn(view, away.length(), out);
    } else if let Some(step) = grip.arrows(ui) {
        let unit = view.units().to_si(Measure::Distance, 1.0);
        turn(view, now + (step.x + step.y) * unit, out);
    }
    if grip.let_go() {
        out.push(AppCommand::Settle);
    }
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let outwards = vec2(way.x as f32, -way.y as f32);
    ui.painter_at(lens.rect).circle(at, 8.0, view.palette.paper, Stroke::new(2.0, view.palette.focus));
    grip.ring(ui, view, at, 8.0);
    tip(ui, view, at + outwards * 19.0, outwards);
    tip(ui, view, at - outwards * 19.0, -outwards);
    if grip.is_used() {
        let distance = |metres: f64| view.units().short(Measure::Distance, metres);
        let furthest = view.session.flown.as_ref().and_then(|flown| flown.margins.figures.furthest_m);
        let furthest = furthest.map_or_else(|| "no whole lap".into(), |out| format!("furthest {}", distance(out)));
        say(ui, view, lens, at, &format!("radius {}: {furthest}", distance(now)));
    }
}

/// Turns the radius to the nearest whole of the person's unit.
fn turn(view: &View<'_>, metres: f64, out: &mut Vec<AppCommand>) {
    let shown = view.units().first(Measure::Distance, metres).round();
    let metres = view.units().to_si(Measure::Distance, shown);
    if (metres - view.session.draft.file().recovery.radius.m()).abs() > 1e-9 {
        out.push(AppCommand::Turn(Knob::Radius, metres));
    }
}

/// The arrow of the wind: turned about its middle for the direction, pulled longer for the speed.
fn wind(ui: &Ui, lens: &Lens, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    let (mean, from) = (Knob::WindSpeed.get(file), file.wind.from);
    let Some(flown) = &view.session.flown else { return };
    let dial = furniture::WindDial::of(lens, &flown.scenario.field);
    let tail = dial.at(from, mean);
    let grip = Grip::at(ui, tail, "wind");
    // On the dial up is north, so that the pointer has a place there as on the ground.
    let place = |pointer: Pos2| dial.place(pointer);
    if let Some(to) = grip.dragged(ui, place(tail), place) {
        let from = if to.length() < 1.0 { from } else { Bearing::of(to) };
        blow(view, from.deg(), dial.speed(to.length()), out);
    } else if let Some(step) = grip.arrows(ui) {
        blow(view, from.deg() + step.x, mean + 0.1 * step.y, out);
    }
    if grip.let_go() {
        out.push(AppCommand::Settle);
    }
    grip.ring(ui, view, tail, 8.0);
    if grip.is_used() {
        let words =
            format!("wind from {} {:.0}\u{b0}, {}", from.point(), from.deg(), view.units().text(Measure::Wind, mean));
        say(ui, view, lens, tail, &words);
    }
}

/// Lets the wind blow from a whole degree, at a tenth of the unit that the knob is stepped by.
fn blow(view: &View<'_>, from_deg: f64, mps: f64, out: &mut Vec<AppCommand>) {
    let saved = view.session.draft.saved();
    edit(view, "turn the wind", out, |file| {
        Knob::WindFrom.set(saved, file, from_deg.round().rem_euclid(360.0));
        Knob::WindSpeed.set(saved, file, (mps * 10.0).round() / 10.0);
    });
}
