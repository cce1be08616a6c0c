//! A place of the field in two boxes, east and north of the datum, with its latitude and longitude beside it.

use bevy_egui::egui::{RichText, Ui};
use glam::DVec2;

use super::degrees::Axis;
use crate::app::session::field_board::circuit::is_area;
use crate::app::session::field_board::{Part, edit};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::Entry;
use crate::geometry::TangentPlane;
use crate::run::ScenarioFile;
use crate::words::Measure;

/// Room for one of the boxes, points.
pub(super) const BOX: f32 = 100.0;

/// Where a corner of a part stands in the scenario's file, as a JSON pointer.
pub(super) fn pointer(file: &ScenarioFile, part: Part, corner: usize) -> String {
    match part {
        Part::Boundary => format!("/field/boundary/ring_m/{corner}"),
        Part::BoundaryHole(hole) => format!("/field/boundary/holes_m/{hole}/{corner}"),
        Part::Area(index) => format!("/field/areas/{index}/ring_m/{corner}"),
        Part::AreaHole(index, hole) => format!("/field/areas/{index}/holes_m/{hole}/{corner}"),
        Part::Obstacle(index) if part.is_ring(file) => format!("/field/obstacles/{index}/ring_m/{corner}"),
        Part::Obstacle(index) => format!("/field/obstacles/{index}/at_m"),
        Part::FlightLine => format!("/field/flight_line_m/{corner}"),
        Part::Runway => format!("/field/runway/{}", if corner == 0 { "from_m" } else { "to_m" }),
        Part::Circuit => {
            let flown = file.field.as_ref().and_then(|field| field.circuit.as_ref());
            let key = if flown.is_some_and(is_area) { "area_m" } else { "line_m" };
            format!("/field/circuit/{key}/{corner}")
        }
        Part::Pilot => "/field/pilot_m".into(),
        Part::Home => "/field/home_m".into(),
        Part::Centre => "/field/centre_m".into(),
        Part::Loss => "/loss/at_m".into(),
        Part::Spot(index) => format!("/field/ground/{index}/at_m"),
    }
}

/// Latitude and longitude of a place, to a metre.
pub(super) fn degrees(view: &View<'_>, at: DVec2) -> String {
    let Some(datum) = view.session.draft.field().map(|field| field.datum) else { return String::new() };
    let (latitude, longitude) = TangentPlane::new(datum.latitude_deg, datum.longitude_deg).to_degrees(at);
    format!("{}  {}", Axis::Latitude.short(latitude), Axis::Longitude.short(longitude))
}

/// Shows the boxes of a corner in a row that `before` begins and `after` ends, and below it what is wrong. The boxes are
/// named after the corner: "pilot east".
pub(super) fn row(
    ui: &mut Ui,
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    (part, corner, at): (Part, usize, DVec2),
    before: impl FnOnce(&mut Ui, &mut Vec<AppCommand>),
    after: impl FnOnce(&mut Ui, &mut Vec<AppCommand>),
) {
    let file = view.session.draft.file();
    let name = part.corner_name(file, corner);
    let name = name.strip_prefix("the ").unwrap_or(&name);
    let place = pointer(file, part, corner);
    let names = [format!("{name} east"), format!("{name} north")];
    let places = [format!("{place}/0"), format!("{place}/1")];
    let (east, north) = ui
        .horizontal(|ui| {
            before(ui, out);
            let east = Entry::new(&names[0], Measure::Distance, at.x, &places[0]).wide(BOX).cell(ui, view, out);
            let north = Entry::new(&names[1], Measure::Distance, at.y, &places[1]).wide(BOX).cell(ui, view, out);
            after(ui, out);
            (east, north)
        })
        .inner;
    let to = DVec2::new(east.found().unwrap_or(at.x), north.found().unwrap_or(at.y));
    if to != at {
        entry::edited(view, out, |file| edit::move_corner(file, part, corner, to));
    }
    east.below(ui, view);
    north.below(ui, view);
    entry::faults(ui, view, &place);
}

/// Latitude and longitude in small letters.
pub(super) fn label(ui: &mut Ui, view: &View<'_>, at: DVec2) {
    ui.label(RichText::new(degrees(view, at)).size(14.0).color(view.palette.soft));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::session::field_board::Chosen;
    use crate::run::Scenario;

    #[test]
    fn every_pointer_leads_back_to_its_corner() {
        let file = Scenario::tight_strip().file;
        let value = serde_json::to_value(&file).unwrap();
        for part in Part::all(&file) {
            for (corner, at) in part.points(&file).into_iter().enumerate() {
                let place = pointer(&file, part, corner);
                let found = Part::of_place(&place).unwrap();
                assert_eq!(found.part, part, "{place}");
                assert!(found.corner.is_none_or(|found| found == corner), "{place}");
                assert_eq!(value.pointer(&format!("{place}/0")).and_then(|x| x.as_f64()), Some(at.x), "{place}");
            }
        }
        let nothing = Chosen { part: Part::Loss, corner: None };
        assert_eq!(Part::of_place("/loss/at_m"), Some(nothing));
    }
}
