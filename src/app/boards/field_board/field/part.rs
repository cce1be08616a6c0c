//! The part that is chosen: its properties, how large it is, and its corners to be typed.

use bevy_egui::egui::{Button, RichText, ScrollArea, Ui, WidgetInfo, WidgetType, vec2};
use glam::DVec2;

use super::{area, circuit, place};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::field_board::{Chosen, FieldCommand, Part, edit, figures};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, Line};
use crate::app::widgets::help::mark;
use crate::field::{FieldFile, ObstacleFile, SpotFile};
use crate::units::Length;
use crate::words::Measure;
use crate::words::help::Topic;

/// Corners beyond which the table is a window of its own, and its height, points.
const MANY: usize = 12;
const WINDOW: f32 = 420.0;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, part: Part) {
    let Some(field) = view.session.draft.field() else { return };
    match part {
        Part::Area(index) => area::show(ui, view, out, index),
        Part::Obstacle(index) => {
            if let Some(tall) = field.obstacles.get(index) {
                obstacle(ui, view, out, index, tall);
            }
        }
        Part::Runway => {
            let width = field.runway.map_or(0.0, |strip| strip.width.m());
            let found = Entry::new("runway width", Measure::Distance, width, "/field/runway/width").show(ui, view, out);
            with_field(view, out, "width of the runway", found, |field, m| {
                field.runway.iter_mut().for_each(|strip| strip.width = Length::new(m));
            });
        }
        Part::Spot(index) => {
            if let Some(spot) = field.ground.get(index) {
                ground(ui, view, out, index, spot);
            }
        }
        Part::FlightLine => {
            titled(ui, out, "The jet stays on the far side of it from the pilot position.", Topic::FlightLine);
        }
        Part::Circuit => {
            titled(ui, out, "Where the jet is flown: trials have their loss on it.", Topic::Circuit);
            circuit::show(ui, view, out);
        }
        Part::Boundary => titled(ui, out, "Land whose overflight is allowed.", Topic::Boundary),
        _ => {}
    }
    faults(ui, view, part);
    size(ui, view, part);
    corners(ui, view, out, part);
    delete(ui, view, out, part);
}

fn titled(ui: &mut Ui, out: &mut Vec<AppCommand>, words: &str, topic: Topic) {
    ui.horizontal(|ui| {
        ui.label(words);
        mark(ui, topic, out);
    });
}

fn with_field(
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    what: &str,
    found: Option<f64>,
    put: impl FnOnce(&mut FieldFile, f64),
) {
    entry::set(view, out, what, found, |file, value| {
        if let Some(field) = &mut file.field {
            put(field, value);
        }
    });
}

fn obstacle(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, tall: &ObstacleFile) {
    let place = format!("/field/obstacles/{index}/name");
    let name = Line { name: "obstacle name", shown: &tall.name, hint: "", place: &place, topic: Some(Topic::Obstacle) };
    let found = name.show(ui, view, out, entry::words);
    entry::set(view, out, "name of the obstacle", found, |file, name| {
        let tall = file.field.as_mut().and_then(|field| field.obstacles.get_mut(index));
        tall.into_iter().for_each(|tall| tall.name.clone_from(&name));
    });
    let place = format!("/field/obstacles/{index}/height");
    let found = Entry::new("height of its top", Measure::Height, tall.height.m(), &place).show(ui, view, out);
    with_field(view, out, &format!("height of {}", tall.name), found, |field, m| {
        field.obstacles.get_mut(index).into_iter().for_each(|tall| tall.height = Length::new(m));
    });
}

fn ground(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, index: usize, spot: &SpotFile) {
    let place = format!("/field/ground/{index}/height");
    let height = Entry::new("over the datum's ground", Measure::Height, spot.height.m(), &place);
    let found = height.help(Topic::GroundHeights).show(ui, view, out);
    with_field(view, out, &format!("spot height {}", index + 1), found, |field, m| {
        field.ground.get_mut(index).into_iter().for_each(|spot| spot.height = Length::new(m));
    });
}

/// Faults of its shape as a whole; those of single corners stand beside them.
fn faults(ui: &mut Ui, view: &View<'_>, part: Part) {
    let base = place::pointer(view.session.draft.file(), part, 0);
    let base = base.strip_suffix("/0").unwrap_or(&base);
    entry::faults(ui, view, base);
    if let Some((whole, _)) = base.rsplit_once('/').filter(|(whole, _)| whole.matches('/').count() > 1) {
        entry::faults(ui, view, whole);
    }
}

/// Area and the way round it.
fn size(ui: &mut Ui, view: &View<'_>, part: Part) {
    for line in figures::of_chosen(view.units(), view.session.draft.file(), Chosen { part, corner: None }) {
        ui.label(line);
    }
}

/// The table of its corners.
fn corners(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, part: Part) {
    let points = part.points(view.session.draft.file());
    if points.is_empty() {
        return;
    }
    let head = if points.len() == 1 { "Where it is, east and north" } else { "Corners, east and north of the datum" };
    ui.label(RichText::new(head).family(bold()));
    if points.len() <= MANY {
        for (corner, &at) in points.iter().enumerate() {
            show_corner(ui, view, out, (part, corner, at), &points);
        }
        return;
    }
    // A survey by GPS has thousands: only the rows in sight are laid out.
    let row = TARGET + ui.spacing().item_spacing.y + 18.0 + ui.spacing().item_spacing.y;
    ScrollArea::vertical().id_salt("corners").max_height(WINDOW).show_rows(ui, row, points.len(), |ui, rows| {
        for corner in rows {
            show_corner(ui, view, out, (part, corner, points[corner]), &points);
        }
    });
}

fn show_corner(
    ui: &mut Ui,
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    (part, corner, at): (Part, usize, DVec2),
    points: &[DVec2],
) {
    let file = view.session.draft.file();
    let is_ring = part.is_ring(file);
    let chosen = Chosen { part, corner: Some(corner) };
    let is_chosen = view.session.field_board.chosen == Some(chosen);
    place::row(
        ui,
        view,
        out,
        (part, corner, at),
        |ui, out| {
            let text = RichText::new(format!("{}", corner + 1));
            let text = if is_chosen { text.family(bold()) } else { text };
            let button = ui.add(Button::new(text).selected(is_chosen).min_size(vec2(40.0, TARGET)));
            button.widget_info(|| {
                let label = format!("choose {}", part.corner_name(file, corner));
                WidgetInfo::selected(WidgetType::Button, true, is_chosen, label)
            });
            if button.clicked() {
                out.push(AppCommand::Field(FieldCommand::Choose(Some(chosen))));
            }
        },
        |ui, out| {
            if !is_ring {
                return;
            }
            let next = points[(corner + 1) % points.len()];
            press(ui, out, "+", &format!("new corner after {}", corner + 1), |out| {
                entry::edited(view, out, |file| edit::insert_corner(file, part, corner, (at + next) / 2.0));
            });
            press(ui, out, "\u{2212}", &format!("delete corner {}", corner + 1), |out| {
                entry::edited(view, out, |file| edit::delete_corner(file, part, corner));
            });
        },
    );
    ui.scope(|ui| {
        ui.spacing_mut().interact_size.y = 18.0;
        ui.horizontal(|ui| {
            ui.add_space(46.0);
            place::label(ui, view, at);
        });
    });
}

fn press(ui: &mut Ui, out: &mut Vec<AppCommand>, text: &str, words: &str, ask: impl FnOnce(&mut Vec<AppCommand>)) {
    let button = ui.add(Button::new(RichText::new(text).family(bold())).min_size(vec2(TARGET, TARGET)));
    button.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, words));
    if button.on_hover_text(words).clicked() {
        ask(out);
        out.push(AppCommand::Settle);
    }
}

fn delete(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, part: Part) {
    let name = part.name(view.session.draft.file());
    if ui.add(Button::new(format!("Delete all of {name}")).min_size(vec2(0.0, TARGET))).clicked() {
        entry::edited(view, out, |file| edit::delete_part(file, part));
        out.push(AppCommand::Settle);
    }
}
