//! What the numbers of a jet amount to, live, and the level stall speed typed in place of a lift coefficient.

use bevy_egui::egui::{Frame, Margin, RichText, Stroke, Ui, vec2};

use crate::app::boards::field_board::{more, soft};
use crate::app::look::theme::bold;
use crate::app::look::words::number;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind};
use crate::app::widgets::help::mark;
use crate::jet::{JetNumbers, JetSheet, Origin};
use crate::run::ScenarioFile;
use crate::units::{G0, Quantity as _};
use crate::words::Measure;
use crate::words::help::Topic;

/// One of the numbers: its name, its value, its value in another unit, and how it is found.
type Figure = [String; 4];

/// Lift coefficient of a level stall at a speed, m/s, in air of a density, kg/m^3.
fn lift_at_stall(jet: &JetSheet, density: f64, stall_mps: f64) -> f64 {
    let weight = jet.mass.value.kg() * G0;
    2.0 * weight / (density * jet.wing_area.value.m2() * stall_mps * stall_mps)
}

/// Mass on each area of the wing, in the units that go with the person's unit of mass.
fn wing_loading(view: &View<'_>, jet: &JetSheet) -> String {
    let (mass, area) = (jet.mass.value, jet.wing_area.value);
    let first = &*view.units().of(Measure::Mass).first;
    if ["lb", "oz"].contains(&first) {
        let ounces = mass.in_unit("oz").unwrap_or_default() / area.in_unit("ft2").unwrap_or(1.0);
        format!("{} oz/ft2", number(ounces))
    } else {
        format!("{} g/dm2", number(mass.kg() * 1000.0 / (area.m2() * 100.0)))
    }
}

fn figures(view: &View<'_>, file: &ScenarioFile) -> [Figure; 6] {
    let (jet, units) = (&file.jet, view.units());
    let numbers = JetNumbers::new(jet, file.air.density());
    let bank = jet.maximum_bank.value.rad();
    let (stall, speed) = (numbers.stall_speed(1.0), numbers.return_speed);
    let smallest = speed * speed / (G0 * bank.tan());
    let kept = 1.0 - file.limits.reserve.share();
    let in_units = |name: &str, measure: Measure, si: f64, found: &str| {
        [name.to_owned(), units.short(measure, si), units.second(measure, si), found.to_owned()]
    };
    let as_is = |name: &str, value: String, found: &str| [name.to_owned(), value, String::new(), found.to_owned()];
    let root = "\u{221a}(2 m g / (\u{3c1} S CL))";
    let energy = format!("{} Wh", number(numbers.pack / 3600.0 * kept));
    let minutes = format!("{} min", number(numbers.endurance_s(speed) * kept / 60.0));
    [
        in_units("level stall", Measure::Speed, stall, root),
        in_units(
            "banked stall",
            Measure::Speed,
            numbers.stall_speed(1.0 / bank.cos()),
            "level stall / \u{221a}(cos bank)",
        ),
        in_units("smallest circle", Measure::Distance, smallest, "V\u{b2} / (g tan bank), in still air"),
        as_is("wing loading", wing_loading(view, jet), "mass / wing area"),
        as_is("energy to use", energy, "3.7 V a cell \u{d7} charge, less the reserve"),
        as_is("lasts in level flight", minutes, "that energy / power at the return speed"),
    ]
}

/// Shows them, three in a row.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let figures = figures(view, view.session.draft.file());
    let frame = Frame::new().fill(view.palette.stripe).stroke(Stroke::new(1.0, view.palette.rule)).corner_radius(4);
    frame.inner_margin(Margin::symmetric(9, 5)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 1.0;
        ui.horizontal(|ui| {
            ui.label(RichText::new("What these amount to").family(bold()));
            mark(ui, Topic::StallMargin, out);
            mark(ui, Topic::SmallestRadius, out);
        });
        let width = (ui.available_width() - 12.0) / 3.0;
        for row in figures.chunks(3) {
            ui.horizontal_top(|ui| {
                for figure in row {
                    ui.allocate_ui(vec2(width, 40.0), |ui| show_figure(ui, view, width, figure));
                }
            });
        }
        more(ui, "derived", "How these are found", |ui| {
            for [name, _, _, found] in &figures {
                ui.label(RichText::new(format!("{name}: {found}")).size(14.0));
            }
        });
    });
}

fn show_figure(ui: &mut Ui, view: &View<'_>, width: f32, [name, value, second, _]: &Figure) {
    ui.vertical(|ui| {
        ui.set_width(width);
        ui.spacing_mut().interact_size.y = 18.0;
        ui.label(RichText::new(name).size(14.0).color(view.palette.soft));
        let value = if value.contains("NaN") || value.contains("inf") { "\u{2013}" } else { value };
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 5.0;
            ui.label(RichText::new(value).family(bold()));
            ui.label(RichText::new(second).size(14.0).color(view.palette.soft));
        });
    });
}

/// A box for a stall speed that somebody has measured.
pub(super) fn measured_stall(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    let stall = JetNumbers::new(&file.jet, file.air.density()).stall_speed(1.0);
    let entry = Entry::new("stall speed as flown", EntryKind::Of(Measure::Speed), stall, "/jet/lift_max/by-stall");
    let found = entry.help(Topic::StallMargin).show(ui, view, out).filter(|mps| *mps > 0.0);
    entry::set(view, out, "stall speed", found, |file, mps| {
        file.jet.lift_max.value = lift_at_stall(&file.jet, file.air.density(), mps);
        file.jet.lift_max.origin = Origin::Measured;
    });
    let words = "Slow to the stall into wind, then downwind, and average the two ground speeds. Typed here it sets the \
                 largest lift coefficient, as measured.";
    soft(ui, view, words);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[test]
    fn a_stall_speed_gives_the_lift_coefficient_that_stalls_there() {
        let mut jet = Scenario::tight_strip().file.jet;
        // job.md 10, airframe B: 1.75 kg on 0.19 m2 with CLmax 1.00 stalls at 12.1 m/s.
        jet.mass.value = crate::units::Mass::new(1.75);
        jet.wing_area.value = crate::units::Area::new(0.19);
        approx::assert_abs_diff_eq!(lift_at_stall(&jet, 1.225, 12.1), 1.0, epsilon = 0.01);
        jet.lift_max.value = lift_at_stall(&jet, 1.225, 11.0);
        let numbers = JetNumbers::new(&jet, 1.225);
        approx::assert_abs_diff_eq!(numbers.stall_speed(1.0), 11.0, epsilon = 1e-9);
    }
}
