//! Every part of the field in a list; the one that is chosen lies open with its properties.

use bevy_egui::egui::{Align, Button, Frame, Id, Margin, RichText, Stroke, Ui, WidgetInfo, WidgetType, vec2};
use glam::DVec2;

use super::{area, circuit, part};
use crate::app::look::lens::MapView;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::field_board::circuit::is_area;
use crate::app::session::field_board::{Chosen, FieldCommand, Kind, Part, edit, extent};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::words::Measure;

/// Half the side of a new ring and half the length of a new line, metres.
const NEW: f64 = 20.0;
const NEW_LINE: f64 = 50.0;

/// Shows the list.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    ui.heading("Parts of the field");
    let id = Id::new("part shown last");
    let before = ui.data(|data| data.get_temp::<Option<Part>>(id)).unwrap_or_default();
    let chosen = view.session.field_board.chosen.map(|chosen| chosen.part);
    ui.data_mut(|data| data.insert_temp(id, chosen));
    let points = [Part::Pilot, Part::Home, Part::Centre, Part::Loss];
    for part in Part::all(file).into_iter().filter(|part| !points.contains(part)) {
        let open = chosen == Some(part);
        let response = row(ui, view, out, part, open);
        if open {
            let frame = Frame::new().stroke(Stroke::new(1.5, view.palette.focus)).inner_margin(Margin::symmetric(8, 6));
            frame.corner_radius(4).show(ui, |ui| {
                ui.set_width(ui.available_width());
                part::show(ui, view, out, part);
            });
            // A part chosen on the map may lie anywhere in the list.
            if before != chosen {
                response.scroll_to_me(Some(Align::TOP));
            }
        }
    }
    add(ui, view, out);
}

fn row(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, part: Part, open: bool) -> bevy_egui::egui::Response {
    let name = part.name(view.session.draft.file());
    let name = name.strip_prefix("the ").unwrap_or(&name);
    let sign = if open { "\u{23f7}" } else { "\u{23f5}" };
    let text = RichText::new(format!("{sign} {name}"));
    let text = if open { text.family(bold()) } else { text };
    let about = RichText::new(summary(view, part)).color(view.palette.soft);
    let button = Button::new(text).right_text(about).selected(open).min_size(vec2(ui.available_width(), TARGET));
    let response = ui.add(button.truncate());
    let label = format!("part {name}");
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, open, &label));
    if response.clicked() {
        let wanted = (!open).then_some(Chosen { part, corner: None });
        out.push(AppCommand::Field(FieldCommand::Choose(wanted)));
    }
    response
}

/// What a part is, in a few words.
fn summary(view: &View<'_>, part: Part) -> String {
    let (file, units) = (view.session.draft.file(), view.units());
    let Some(field) = &file.field else { return String::new() };
    let points = part.points(file);
    match part {
        Part::Boundary | Part::BoundaryHole(_) | Part::AreaHole(..) => {
            format!("{} corners, {}", points.len(), extent::area(units, extent::ring_area(&points)))
        }
        Part::Area(index) => field.areas.get(index).map_or_else(String::new, |found| area::summary(found, units)),
        Part::Obstacle(index) => {
            field.obstacles.get(index).map_or_else(String::new, |tall| units.short(Measure::Height, tall.height.m()))
        }
        Part::Spot(index) => {
            field.ground.get(index).map_or_else(String::new, |spot| units.short(Measure::Height, spot.height.m()))
        }
        Part::Circuit => match &field.circuit {
            Some(flown) if is_area(flown) => extent::area(units, extent::ring_area(&points)),
            Some(flown) => {
                let length = units.short(Measure::Distance, extent::length(&points, true));
                format!("{length}, {}", flown.way.name())
            }
            None => String::new(),
        },
        Part::FlightLine | Part::Runway => units.short(Measure::Distance, extent::length(&points, false)),
        Part::Pilot | Part::Home | Part::Centre | Part::Loss => String::new(),
    }
}

/// Buttons that put a new part in the middle of the view, to be moved or typed into place.
fn add(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(field) = view.session.draft.field() else { return };
    ui.add_space(4.0);
    ui.label("Add, in the middle of the map:");
    let mut kinds = vec![
        (Kind::Area, "area"),
        (Kind::Tree, "tree or mast"),
        (Kind::Obstacle, "wood or building"),
        (Kind::BoundaryHole, "hole in the boundary"),
        (Kind::Spot, "spot height"),
    ];
    if let Some(Part::Area(index)) = view.session.field_board.chosen.map(|chosen| chosen.part) {
        kinds.push((Kind::AreaHole(index), "hole in the area"));
    }
    if field.flight_line_m.is_none() {
        kinds.push((Kind::FlightLine, "flight line"));
    }
    if field.runway.is_none() {
        kinds.push((Kind::Runway, "runway"));
    }
    if field.circuit.is_none() {
        kinds.push((Kind::Circuit, "circuit"));
    }
    if field.boundary.ring_m.is_empty() {
        kinds.push((Kind::Boundary, "boundary"));
    }
    ui.horizontal_wrapped(|ui| {
        for (kind, word) in kinds {
            let response = ui.add(Button::new(format!("+ {word}")).min_size(vec2(0.0, TARGET)));
            let label = format!("add {word}");
            response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
            if response.clicked() {
                let corners = corners(kind, middle(view));
                let mut new = None;
                entry::edited(view, out, |file| {
                    let (change, part) = edit::add(file, kind, &corners)?;
                    new = Some(part);
                    Some(change)
                });
                out.push(AppCommand::Settle);
                if let Some(part) = new {
                    out.push(AppCommand::Field(FieldCommand::Choose(Some(Chosen { part, corner: None }))));
                }
            }
        }
        if field.runway.is_some() && field.circuit.is_none() {
            circuit::beside_runway(ui, view, out, "+ circuit beside the runway");
        }
    });
}

fn middle(view: &View<'_>) -> DVec2 {
    match view.session.look {
        MapView::Whole(bounds) => bounds.centre().round(),
        MapView::At { centre, .. } => centre.round(),
    }
}

fn corners(kind: Kind, middle: DVec2) -> Vec<DVec2> {
    let at = |x: f64, y: f64| middle + DVec2::new(x, y);
    match kind {
        Kind::Tree | Kind::Spot => vec![middle],
        Kind::FlightLine | Kind::Runway => vec![at(-NEW_LINE, 0.0), at(NEW_LINE, 0.0)],
        Kind::Circuit => {
            let [far, near] = [6.0 * NEW, 3.0 * NEW];
            vec![at(-far, -near), at(far, -near), at(far, near), at(-far, near)]
        }
        Kind::Boundary => {
            let far = 10.0 * NEW;
            vec![at(-far, -far), at(far, -far), at(far, far), at(-far, far)]
        }
        _ => vec![at(-NEW, -NEW), at(NEW, -NEW), at(NEW, NEW), at(-NEW, NEW)],
    }
}
