//! What the numbers of a jet amount to, live.

use bevy_egui::egui::{Frame, Margin, RichText, Stroke, Ui, vec2};

use crate::app::boards::field_board::more;
use crate::app::look::theme::bold;
use crate::app::look::words::number;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::brief::{SaidBack, left_out};
use crate::jet::{JetNumbers, JetSheet};
use crate::run::ScenarioFile;
use crate::units::Quantity as _;
use crate::words::Measure;
use crate::words::help::Topic;

/// One of the numbers: its name, its value, its value in another unit, and how it is found.
type Figure = [String; 4];

/// Mass on each area of the wing, in the units that go with the person's unit of mass.
fn wing_loading(view: &View<'_>, jet: &JetSheet) -> String {
    let (mass, area) = (jet.mass.value, jet.whole().wing_area.map(|area| area.value).unwrap_or_default());
    let first = &*view.units().of(Measure::Mass).first;
    if ["lb", "oz"].contains(&first) {
        let ounces = mass.in_unit("oz").unwrap_or_default() / area.in_unit("ft2").unwrap_or(1.0);
        format!("{} oz/ft2", number(ounces))
    } else {
        format!("{} g/dm2", number(mass.kg() * 1000.0 / (area.m2() * 100.0)))
    }
}

fn figures(view: &View<'_>, file: &ScenarioFile) -> Vec<Figure> {
    let said = SaidBack::of(file).lines(view.units());
    let mut all: Vec<Figure> =
        said.into_iter().map(|line| [line.name.to_owned(), line.value, line.second, line.how.to_owned()]).collect();
    let as_is = |name: &str, value: String, found: &str| [name.to_owned(), value, String::new(), found.to_owned()];
    let usable = JetNumbers::new(&file.jet, file.air.density()).pack * (1.0 - file.limits.reserve.share());
    all.push(as_is("wing loading", wing_loading(view, &file.jet), "mass / wing area"));
    let energy = format!("{} Wh", number(usable / 3600.0));
    all.push(as_is("energy to use", energy, "3.7 V a cell \u{d7} charge, less the reserve"));
    all
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
            for one in left_out(&view.session.draft.file().jet) {
                let from =
                    if one.by_default { "by default, not measured yet" } else { "worked out from what is known" };
                ui.label(RichText::new(format!("{}: {from}", one.in_words())).size(14.0));
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
