//! What the numbers of a jet amount to, live, and the level stall speed typed in place of a lift coefficient.

use bevy_egui::egui::{Frame, Margin, RichText, Stroke, Ui};

use crate::app::panels::entry::{self, Entry, Kind};
use crate::app::panels::{View, help};
use crate::app::theme::bold;
use crate::app::words::number;
use crate::app::{AppCommand, Measure};
use crate::jet::{JetNumbers, JetSheet, Origin};
use crate::report::help::Topic;
use crate::run::ScenarioFile;
use crate::units::{G0, Quantity as _};
use crate::wind::isa_density;

/// One of the numbers: its name, its value, how it is found, what explains it.
type Line = (&'static str, String, &'static str, Topic);

/// Lift coefficient of a level stall at a speed, m/s.
fn lift_at_stall(jet: &JetSheet, stall_mps: f64) -> f64 {
    let weight = jet.mass.value.kg() * G0;
    2.0 * weight / (isa_density(0.0) * jet.wing_area.value.m2() * stall_mps * stall_mps)
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

fn lines(view: &View<'_>, file: &ScenarioFile) -> Vec<Line> {
    let (jet, units) = (&file.jet, view.units());
    let numbers = JetNumbers::new(jet, isa_density(0.0));
    let bank = jet.bank_limit.value.rad();
    let (stall, speed) = (numbers.stall_speed(1.0), numbers.return_speed);
    let banked = numbers.stall_speed(1.0 / bank.cos());
    let smallest = speed * speed / (G0 * bank.tan());
    let energy = numbers.pack / 3600.0 * (1.0 - file.limits.reserve.share());
    let minutes = numbers.endurance_s(speed) * (1.0 - file.limits.reserve.share()) / 60.0;
    let speed_text = |mps: f64| units.text(Measure::Speed, mps);
    vec![
        ("stall speed, level", speed_text(stall), "\u{221a}(2 m g / (\u{3c1} S CL))", Topic::StallMargin),
        (
            "stall speed at the bank limit",
            speed_text(banked),
            "level stall speed / \u{221a}(cos bank)",
            Topic::StallMargin,
        ),
        (
            "smallest circle, still air",
            units.text(Measure::Distance, smallest),
            "V\u{b2} / (g tan bank)",
            Topic::SmallestRadius,
        ),
        ("wing loading", wing_loading(view, jet), "mass / wing area", Topic::JetSheet),
        (
            "energy to plan with",
            format!("{} Wh", number(energy)),
            "3.7 V \u{d7} cells \u{d7} charge, less the reserve",
            Topic::Reserve,
        ),
        (
            "lasts at the return speed",
            format!("{} min", number(minutes)),
            "that energy / power in level flight",
            Topic::LapsInHand,
        ),
    ]
}

/// Shows them, and a box for a stall speed that somebody has measured.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let file = view.session.draft.file();
    let frame = Frame::new().fill(view.palette.stripe).stroke(Stroke::new(1.0, view.palette.rule)).corner_radius(4);
    frame.inner_margin(Margin::symmetric(9, 6)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.label(RichText::new("What these amount to").family(bold()));
        for (name, value, formula, topic) in lines(view, file) {
            ui.horizontal(|ui| {
                ui.set_min_height(26.0);
                ui.allocate_ui(bevy_egui::egui::vec2(206.0, 20.0), |ui| {
                    ui.set_min_width(206.0);
                    ui.label(name);
                });
                let value =
                    if value.contains("NaN") || value.contains("inf") { "not with these numbers" } else { &value };
                ui.label(RichText::new(value).family(bold())).on_hover_text(formula);
                help::mark(ui, topic, out);
            });
        }
    });
    measured_stall(ui, view, out);
}

fn measured_stall(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let jet = &view.session.draft.file().jet;
    let stall = JetNumbers::new(jet, isa_density(0.0)).stall_speed(1.0);
    let entry = Entry::new("stall speed as flown", Kind::Of(Measure::Speed), stall, "/jet/lift_max/by-stall");
    let found = entry.help(Topic::StallMargin).show(ui, view, out).filter(|mps| *mps > 0.0);
    entry::set(view, out, "stall speed", found, |file, mps| {
        file.jet.lift_max.value = lift_at_stall(&file.jet, mps);
        file.jet.lift_max.origin = Origin::Measured;
    });
    let words = "Slow to the stall into wind, then downwind, and average the two ground speeds. Typed here it sets the \
                 largest lift coefficient, as measured.";
    ui.label(RichText::new(words).size(14.0).color(view.palette.soft));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[test]
    fn a_stall_speed_gives_the_lift_coefficient_that_stalls_there() {
        let mut jet = Scenario::demo().file.jet;
        // job.md 10, airframe B: 1.75 kg on 0.19 m2 with CLmax 1.00 stalls at 12.1 m/s.
        jet.mass.value = crate::units::Mass::new(1.75);
        jet.wing_area.value = crate::units::Area::new(0.19);
        approx::assert_abs_diff_eq!(lift_at_stall(&jet, 12.1), 1.0, epsilon = 0.01);
        jet.lift_max.value = lift_at_stall(&jet, 11.0);
        let numbers = JetNumbers::new(&jet, isa_density(0.0));
        approx::assert_abs_diff_eq!(numbers.stall_speed(1.0), 11.0, epsilon = 1e-9);
    }
}
