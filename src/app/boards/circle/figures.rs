//! The numbers of a recovery that are not margins.

use bevy_egui::egui::{Grid, RichText, Ui};

use crate::app::look::theme::bold;
use crate::app::look::words::{ending, maybe, metres, seconds};
use crate::app::session::{AppCommand, Flown, View};

/// Shows the figures in two columns, and how it ends and the smallest radii in lines of their own.
pub(crate) fn show(ui: &mut Ui, view: &View<'_>, _out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    ui.spacing_mut().interact_size.y = 18.0;
    ui.separator();
    ui.heading("Figures");
    let width = (ui.available_width() - 16.0) / 4.0;
    let pairs = pairs(flown);
    Grid::new("figures").num_columns(4).spacing([8.0, 2.0]).min_row_height(20.0).show(ui, |ui| {
        for line in pairs.chunks(2) {
            for (name, value) in line {
                ui.label(RichText::new(*name).color(view.palette.soft));
                ui.scope(|ui| {
                    ui.set_min_width(width - 48.0);
                    ui.label(RichText::new(value).family(bold()));
                });
            }
            ui.end_row();
        }
    });
    ui.horizontal(|ui| {
        ui.label(RichText::new("ends").color(view.palette.soft));
        ui.label(RichText::new(ending(flown.margins.ending, flown.margins.end_s)).family(bold()));
    });
    ui.add_space(2.0);
    let [still, mean, gust] = flown.margins.figures.smallest_radius_m.map(metres);
    ui.label(RichText::new("smallest radius at the maximum bank").color(view.palette.soft));
    ui.label(RichText::new(format!("still air {still}    mean wind {mean}    gust {gust}")).family(bold()));
}

fn pairs(flown: &Flown) -> Vec<(&'static str, String)> {
    let figures = &flown.margins.figures;
    let share = figures.saturated_share.map(|share| share * 100.0);
    vec![
        ("furthest from the centre", maybe(figures.furthest_m, "m")),
        ("time home", maybe(figures.home_s, "s")),
        ("overshoot while joining", maybe(figures.joining_overshoot_m, "m")),
        ("one lap", maybe(figures.lap_s, "s")),
        ("turn-back", metres(figures.turn_back_m)),
        ("at maximum bank", share.map_or_else(|| "not reached".into(), |share| format!("{share:.0} % of a lap"))),
        (
            "laps to the reserve",
            figures.laps_to_reserve.map_or_else(|| "not reached".into(), |laps| format!("{laps:.1}")),
        ),
    ]
    .into_iter()
    .chain(drift(flown))
    .collect()
}

/// The footprints, where the plan or the ending makes them matter.
fn drift(flown: &Flown) -> Vec<(&'static str, String)> {
    let figures = &flown.margins.figures;
    if flown.margins.ending == crate::run::Ending::TakenOver {
        return Vec::new();
    }
    vec![("drift", metres(figures.drift_m)), ("until", seconds(flown.margins.end_s))]
}
