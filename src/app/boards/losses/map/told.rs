//! What a cell is told about in words: counts with their interval, as in the reports.

use bevy_egui::egui::{RichText, Ui};
use glam::DVec2;

use crate::app::look::theme::bold;
use crate::app::look::words::{number, seconds};
use crate::margins::Outcome;
use crate::study::losses::Cell;
use crate::units::Bearing;
use crate::words::{Measure, Units, counted, looked_at};

/// Tells about a cell under the pointer.
pub(super) fn show(ui: &mut Ui, cell: &Cell, confidence: f64, units: &Units) {
    ui.label(RichText::new(at_place(cell.middle, units)).family(bold()));
    for line in lines(cell, confidence) {
        ui.label(line);
    }
    ui.label(RichText::new("press: fly its worst trial").family(bold()));
}

/// A place by its distances from the datum.
pub(crate) fn at_place(at: DVec2, units: &Units) -> String {
    let side = |value: f64, more: &str, less: &str| {
        format!("{} {}", units.short(Measure::Distance, value.abs()), if value < 0.0 { less } else { more })
    };
    format!("{}, {} of the datum", side(at.x, "east", "west"), side(at.y, "north", "south"))
}

/// A heading, such as "NE (45\u{b0})".
pub(crate) fn heading(deg: f64) -> String {
    format!("{} ({deg:.0}\u{b0})", Bearing::from_deg(deg).point())
}

/// Everything counted of a cell.
fn lines(cell: &Cell, confidence: f64) -> Vec<String> {
    let mut lines = vec![format!("worst as entered: {}", cell.plan_worst.name()), looked_at(cell, confidence)];
    let seen = Outcome::ALL.into_iter().zip(cell.outcomes).filter(|(_, count)| *count > 0);
    lines.extend(
        seen.map(|(outcome, count)| format!("{}: {}", outcome.name(), counted(count, cell.count.flown, confidence))),
    );
    lines.extend(home(cell));
    lines
}

/// Time and energy home.
pub(crate) fn home(cell: &Cell) -> Option<String> {
    let ([time, longest], [energy, most]) = (cell.home_s?, cell.energy_wh?);
    let (time, longest) = (seconds(time), seconds(longest));
    let (energy, most) = (number(energy), number(most));
    Some(format!("home in {time}, at most {longest}; {energy} Wh, at most {most} Wh"))
}
