//! The wind sheet: three ways to enter the wind, a sock that shows it, and what it grows to at the height of the
//! circle, and a reading of today beside it.

mod air;
mod aloft;
mod eye;
mod report;
mod sock;
mod today;
mod typed;

use bevy_egui::egui::{Id, RichText, Ui};

use crate::app::look::theme::bold;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::help::mark;
use crate::words::Measure;
use crate::words::help::Topic;

/// How the wind is entered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Way {
    /// With numbers.
    #[default]
    Typed,
    /// From what is seen.
    ByEye,
    /// From a pasted report.
    Report,
}

const WAYS: [(Way, &str); 3] = [(Way::Typed, "typed"), (Way::ByEye, "by eye"), (Way::Report, "from a METAR")];

/// Shows the sheet.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    now(ui, view, out);
    ui.add_space(4.0);
    let id = Id::new("way of entering the wind");
    let way = ui.data(|data| data.get_temp::<Way>(id)).unwrap_or_default();
    if let Some(way) = entry::choice(ui, out, "wind", way, &WAYS) {
        ui.data_mut(|data| data.insert_temp(id, way));
    }
    ui.add_space(4.0);
    match way {
        Way::Typed => typed::show(ui, view, out),
        Way::ByEye => eye::show(ui, view, out),
        Way::Report => report::show(ui, view, out),
    }
    ui.add_space(6.0);
    aloft::show(ui, view, out);
    ui.add_space(6.0);
    ui.heading("Today's reading");
    today::show(ui, view, out);
    ui.add_space(6.0);
    ui.heading("The air");
    air::show(ui, view, out);
}

/// The wind as it is entered: sock, compass and words.
fn now(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let (wind, units) = (&view.session.draft.file().wind, view.units());
    ui.horizontal(|ui| {
        sock::sock(ui, view, wind.mean.mps());
        sock::compass(ui, view, wind.from);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            ui.spacing_mut().interact_size.y = 20.0;
            ui.horizontal(|ui| {
                let from = format!("FROM {}", wind.from.point());
                ui.label(RichText::new(from).family(bold()).size(20.0));
                mark(ui, Topic::Windsock, out);
            });
            ui.label(format!("{:.0}\u{b0} true", wind.from.deg()));
            ui.label(format!("mean {}", units.text(Measure::Wind, wind.mean.mps())));
            let gusts = if wind.gust_is_assumed() { "gusts taken as" } else { "gusts" };
            ui.label(format!("{gusts} {}", units.text(Measure::Wind, wind.gust().mps())));
            ui.label(format!("at {}", units.text(Measure::Height, wind.measured_at.m())));
        });
    });
}
