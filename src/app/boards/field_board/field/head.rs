//! What the field is called, the day of the flight, and where on the globe its metres begin.

use bevy_egui::egui::Ui;

use super::degrees::Axis;
use crate::app::boards::field_board::{more, soft};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{EntryKind, Line, Optional};
use crate::field::Datum;
use crate::run::is_day;
use crate::units::Angle;
use crate::words::help::Topic;

/// Shows the boxes.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    let name = Line { name: "field name", shown: &file.name, hint: "what people call it", place: "/name", topic: None };
    let found = name.show(ui, view, out, entry::words);
    entry::set(view, out, "name", found, |file, name| file.name = name);
    let date = Line { name: "day of the flight", shown: &file.date, hint: "2026-04-18", place: "/date", topic: None };
    let found = date.show(ui, view, out, day);
    entry::set(view, out, "day of the flight", found, |file, day| file.date = day);
    let rules =
        view.session.draft.field().map_or(0, |field| field.areas.iter().filter(|area| !area.months.is_empty()).count());
    if rules > 0 {
        let whose = if rules == 1 { "1 area has".to_owned() } else { format!("{rules} areas have") };
        soft(ui, view, &format!("{whose} rules for some months only: the day decides."));
    }
    let Some(datum) = view.session.draft.field().map(|field| field.datum) else { return };
    globe(ui, view, out, datum);
}

fn globe(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, datum: Datum) {
    let (latitude, longitude) = (datum.latitude_deg, datum.longitude_deg);
    let shown = Axis::Latitude.decimal(latitude);
    let place = "/field/datum/latitude_deg";
    let line = Line { name: "datum latitude", shown: &shown, hint: "", place, topic: Some(Topic::Datum) };
    let found = line.show(ui, view, out, |text| Axis::Latitude.read(text));
    set(view, out, found, |datum, degrees| datum.latitude_deg = degrees);
    let shown = Axis::Longitude.decimal(longitude);
    let place = "/field/datum/longitude_deg";
    let line = Line { name: "datum longitude", shown: &shown, hint: "", place, topic: None };
    let found = line.show(ui, view, out, |text| Axis::Longitude.read(text));
    set(view, out, found, |datum, degrees| datum.longitude_deg = degrees);
    let declination = Optional {
        name: "magnetic declination",
        kind: EntryKind::Angle,
        now: view.session.draft.field().and_then(|field| field.magnetic_declination).map(Angle::rad),
        hint: "not entered; east is +",
        place: "/field/magnetic_declination",
        topic: Some(Topic::MagneticDeclination),
    };
    let found = declination.show(ui, view, out);
    entry::set(view, out, "magnetic declination", found, |file, rad| {
        if let Some(field) = &mut file.field {
            field.magnetic_declination = rad.map(Angle::new);
        }
    });
    more(ui, "datum", "The datum in other forms", |ui| {
        for form in [Axis::minutes, Axis::seconds] {
            ui.label(format!("{}   {}", form(Axis::Latitude, latitude), form(Axis::Longitude, longitude)));
        }
        soft(ui, view, "All of these forms can be typed. The field is in metres about the datum and moves with it.");
    });
}

fn set(view: &View<'_>, out: &mut Vec<AppCommand>, found: Option<f64>, put: impl FnOnce(&mut Datum, f64)) {
    entry::set(view, out, "datum", found, |file, degrees| {
        if let Some(field) = &mut file.field {
            put(&mut field.datum, degrees);
        }
    });
}

/// Reads a day.
fn day(text: &str) -> Result<String, String> {
    let text = text.trim();
    if is_day(text) {
        return Ok(text.to_owned());
    }
    Err(format!("\"{text}\" is no day of the calendar; write year-month-day, such as 2026-04-18"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_the_calendar_are_taken_and_others_are_not() {
        assert_eq!(day(" 2026-04-18 ").as_deref(), Ok("2026-04-18"));
        for text in ["2026-02-30", "18.4.2026", "2026-W16-6", "20260418", "", "2026-4-18"] {
            assert!(day(text).is_err_and(|why| why.contains("year-month-day")), "{text}");
        }
    }
}
