//! What the looks of the cells mean, with the counts of every outcome over the field, the worst first.

use bevy_egui::egui::{Grid, Mesh, RichText, Sense, Shape, Stroke, Ui, Vec2, vec2};

use crate::app::boards::losses::map::{CellStyle, ShareStep, diamond, outcome_look, step, swatch};
use crate::app::look::theme::bold;
use crate::app::session::{LossView, View};
use crate::margins::Outcome;
use crate::study::losses::LossStudy;
use crate::study::stats::{Share, percent_interval};

/// Size of a sample, points.
const SAMPLE: Vec2 = Vec2::new(32.0, 17.0);
/// Height of a line, points.
const LINE: f32 = 19.0;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, study: &LossStudy) {
    if view.session.losses.view != LossView::Worst {
        shares(ui, view, study);
    }
    outcomes(ui, view, study);
}

fn shares(ui: &mut Ui, view: &View<'_>, study: &LossStudy) {
    ui.label("Flights from a cell that crossed no limit:");
    Grid::new("shares").num_columns(3).spacing([8.0, 1.0]).min_row_height(LINE).show(ui, |ui| {
        for kind in ShareStep::ALL {
            sample(ui, view, Some(kind.look(view.palette)));
            ui.label(kind.name());
            let cells = study.cells.iter().filter(|cell| step(cell) == Some(kind)).count();
            ui.label(RichText::new(format!("{cells} cells")).family(bold()));
            ui.end_row();
        }
    });
    ui.add_space(4.0);
}

fn outcomes(ui: &mut Ui, view: &View<'_>, study: &LossStudy) {
    let flown = study.count().flown;
    let soft = |ui: &mut Ui, words: &str, hint: &str| {
        ui.label(RichText::new(words).size(14.0).color(view.palette.soft)).on_hover_text(hint);
    };
    let worst = view.session.losses.view == LossView::Worst;
    Grid::new("outcomes").num_columns(5).spacing([7.0, 1.0]).min_col_width(1.0).min_row_height(LINE).show(ui, |ui| {
        ui.label("");
        soft(ui, "outcome, worst first", "every flight has one of them, the worst that happened");
        soft(ui, "cells", "cells whose worst heading comes to this as entered");
        soft(ui, "any", "cells whose worst flight of all trials comes to this");
        soft(ui, &format!("of {flown} flights"), "no even sample of the field: uncertain cells are flown more often");
        ui.end_row();
        for (index, outcome) in Outcome::ALL.into_iter().enumerate() {
            let cells = study.cells.iter().filter(|cell| cell.plan_worst == outcome).count();
            let any = study.cells.iter().filter(|cell| cell.worst == outcome).count();
            let count = study.cells.iter().map(|cell| cell.outcomes[index]).sum();
            sample(ui, view, worst.then(|| outcome_look(outcome, view.palette)));
            ui.label(outcome.name());
            ui.label(RichText::new(cells.to_string()).family(bold()));
            ui.label(any.to_string());
            let share = percent_interval(Share { count, of: flown }.wilson(study.ask.confidence));
            let told = if flown == 0 { "none flown".to_owned() } else { format!("{count} ({share})") };
            ui.label(RichText::new(told).size(14.0));
            ui.end_row();
        }
    });
    if worst && study.cells.iter().any(|cell| cell.worst < cell.plan_worst) {
        ui.horizontal(|ui| {
            ui.spacing_mut().interact_size.y = LINE;
            let (rect, _) = ui.allocate_exact_size(SAMPLE, Sense::hover());
            let mut mesh = Mesh::default();
            let room = bevy_egui::egui::Rect::from_center_size(rect.center(), Vec2::splat(9.0));
            diamond(&mut mesh, room, view.palette);
            ui.painter().add(Shape::mesh(mesh));
            ui.label("a trial came to something worse there");
        });
    }
}

fn sample(ui: &mut Ui, view: &View<'_>, look: Option<CellStyle>) {
    let size = if look.is_some() { SAMPLE } else { vec2(1.0, SAMPLE.y) };
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    if let Some(look) = look {
        swatch(ui.painter(), rect, look, Stroke::new(1.0, view.palette.ink));
    }
}

/// The outcome that keeps most cells from being recovered.
pub(super) fn reason(study: &LossStudy) -> String {
    let count = |outcome| study.cells.iter().filter(|cell| cell.plan_worst == outcome).count();
    let failing = Outcome::ALL.into_iter().filter(|outcome| *outcome != Outcome::Recovered);
    // Of two alike the worse one, which comes first.
    let most = failing.map(|outcome| (count(outcome), outcome)).rev().max_by_key(|(cells, _)| *cells);
    match most.filter(|(cells, _)| *cells > 0) {
        Some((cells, outcome)) => {
            format!("Biggest reason: {}, from {cells} of {} cells.", outcome.name(), study.cells.len())
        }
        None => "As entered, no cell comes to anything but recovered.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;
    use crate::study::losses::{LossAsk, first};
    use crate::study::work::Work;

    #[test]
    fn the_biggest_reason_is_the_outcome_of_most_cells() {
        let scenario = Scenario::tight_strip();
        let ask = LossAsk { cells: 8, headings: 2, ..LossAsk::usual(&scenario) };
        let mut study = first(&scenario, &ask, &Work::default());
        study.cells.truncate(4);
        let mut check = |worst: [Outcome; 4], expected: &str| {
            study.cells.iter_mut().zip(worst).for_each(|(cell, worst)| cell.plan_worst = worst);
            assert_eq!(reason(&study), expected);
        };
        use Outcome::{EnergyOut, LeftBoundary, Recovered, Stalled};
        check([Recovered, EnergyOut, EnergyOut, Stalled], "Biggest reason: energy out, from 2 of 4 cells.");
        check(
            [Recovered, LeftBoundary, EnergyOut, Recovered],
            "Biggest reason: boundary or flight line, from 1 of 4 cells.",
        );
        check([Recovered; 4], "As entered, no cell comes to anything but recovered.");
    }
}
