//! The air of the day: elevation, temperature and pressure, and the density that follows.

use bevy_egui::egui::Ui;

use crate::app::boards::field_board::soft;
use crate::app::look::words::number;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind, Optional};
use crate::units::{Length, Pressure, Temperature};
use crate::wind::isa_density;
use crate::words::Measure;
use crate::words::help::Topic;

/// Shows the boxes.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let air = &view.session.draft.file().air;
    let elevation = Entry::new("field over the sea", Measure::Height, air.elevation.m(), "/air/elevation");
    let found = elevation.help(Topic::Air).show(ui, view, out);
    entry::set(view, out, "elevation of the field", found, |file, m| file.air.elevation = Length::new(m));
    let temperature = Optional {
        name: "temperature",
        kind: EntryKind::Temperature,
        now: air.temperature.map(Temperature::k),
        hint: "as the standard",
        place: "/air/temperature",
        topic: None,
    };
    let found = temperature.show(ui, view, out);
    entry::set(view, out, "temperature", found, |file, k| file.air.temperature = k.map(Temperature::new));
    let pressure = Optional {
        name: "pressure, QNH",
        kind: EntryKind::Pressure,
        now: air.pressure.map(Pressure::pa),
        hint: "as the standard",
        place: "/air/pressure",
        topic: None,
    };
    let found = pressure.show(ui, view, out);
    entry::set(view, out, "pressure", found, |file, pa| file.air.pressure = pa.map(Pressure::new));
    let density = air.density();
    if density.is_finite() && density > 0.0 {
        let share = number(100.0 * density / isa_density(0.0));
        soft(ui, view, &format!("{density:.3} kg/m3: {share} % of the standard at sea level."));
    }
}
