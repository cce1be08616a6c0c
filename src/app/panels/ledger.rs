//! The ledger: every margin with its standoff and verdict. A row, pressed, shows its moment and its place on the map.

use bevy_egui::egui::{Align, Button, Layout, RichText, Sense, Ui, vec2};
use egui_extras::{Column, TableBuilder, TableRow};

use super::View;
use crate::app::theme::{TARGET, bold};
use crate::app::{AppCommand, map, words};
use crate::ledger::{Row, Verdict};

/// Titles of the columns.
const TITLES: [&str; 6] = ["", "limit", "left", "asked", "verdict", "when"];

/// Shows the ledger.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    ui.heading("Margins");
    for remark in &flown.ledger.remarks {
        ui.label(remark);
    }
    let table = TableBuilder::new(ui)
        .striped(true)
        .sense(Sense::CLICK)
        .cell_layout(Layout::left_to_right(Align::Center))
        .column(Column::exact(24.0))
        .column(Column::remainder().clip(true))
        .column(Column::exact(74.0))
        .column(Column::exact(58.0))
        .column(Column::exact(90.0))
        .column(Column::exact(56.0));
    table
        .header(22.0, |mut row| {
            for title in TITLES {
                row.col(|ui| {
                    ui.label(RichText::new(title).size(14.0).color(view.palette.soft));
                });
            }
        })
        .body(|body| {
            body.rows(TARGET, flown.ledger.rows.len(), |mut table_row| {
                let index = table_row.index();
                let row = &flown.ledger.rows[index];
                table_row.set_selected(view.session.chosen == Some(index));
                let pressed = cells(&mut table_row, view, index, row);
                if pressed || table_row.response().clicked() {
                    out.push(AppCommand::Choose(index));
                }
            });
        });
}

/// Fills a row and says whether its name was pressed, which is how the keyboard presses it.
fn cells(table_row: &mut TableRow<'_, '_>, view: &View<'_>, index: usize, row: &Row) -> bool {
    let mut pressed = false;
    let counted = row.verdict == Verdict::Counted;
    table_row.col(|ui| {
        ui.label(RichText::new((index + 1).to_string()).family(bold()));
    });
    table_row.col(|ui| {
        let name = Button::new(row.name.as_str()).wrap().frame(false).min_size(vec2(0.0, TARGET - 4.0));
        pressed = ui.add(name).clicked();
    });
    table_row.col(|ui| {
        let sign = if counted { "over " } else { "" };
        ui.label(RichText::new(format!("{sign}{}", words::with_unit(row.margin, row.unit))).family(bold()));
    });
    table_row.col(|ui| {
        let asked = if counted { String::new() } else { words::with_unit(row.standoff, row.unit) };
        ui.label(asked);
    });
    table_row.col(|ui| {
        let (mark, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
        map::verdict_mark(ui.painter(), mark.center(), 7.0, row.verdict, view.palette);
        ui.label(row.verdict.name());
    });
    table_row.col(|ui| {
        ui.label(words::seconds(row.at_s));
    });
    pressed
}
