//! The margins: every margin with its buffer and verdict. A row, pressed, shows its moment and its place on the map.

use bevy_egui::egui::{Align, Button, Color32, Label, Layout, RichText, Sense, TextStyle, Ui, vec2};
use egui_extras::{Column, TableBuilder, TableRow};

use super::verdict;
use crate::app::look::marks::verdict_mark;
use crate::app::look::theme::{TARGET, bold};
use crate::app::look::words;
use crate::app::session::{AppCommand, View};
use crate::margins::{MarginRow, Verdict};

/// Titles of the columns.
const TITLES: [&str; 6] = ["", "limit", "left", "asked", "verdict", "when"];

/// Room for the names of the limits, points; a longer one takes a second line.
const NAME: f32 = 138.0;

/// Shows the margins.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    ui.heading("Margins of this one run");
    let share = verdict::known(view).map(|(_, verdict)| verdict.shares_told());
    let share = share.unwrap_or_else(|| "no verdict yet".into());
    ui.label(RichText::new(format!("The plan's trials: {share}.")).size(14.0).color(view.palette.soft));
    for remark in &flown.margins.remarks {
        ui.label(RichText::new(remark).size(14.0));
    }
    ui.spacing_mut().item_spacing = vec2(4.0, 0.0);
    let heights: Vec<f32> = flown.margins.rows.iter().map(|row| height_of(ui, row)).collect();
    let table = TableBuilder::new(ui)
        .vscroll(false)
        .striped(true)
        .sense(Sense::CLICK)
        .cell_layout(Layout::left_to_right(Align::Center))
        .column(Column::exact(24.0))
        .column(Column::exact(NAME))
        .column(Column::exact(70.0))
        .column(Column::exact(58.0))
        .column(Column::exact(88.0))
        .column(Column::exact(52.0));
    table
        .header(22.0, |mut row| {
            for title in TITLES {
                row.col(|ui| {
                    ui.label(RichText::new(title).size(14.0).color(view.palette.soft));
                });
            }
        })
        .body(|body| {
            body.heterogeneous_rows(heights.into_iter(), |mut table_row| {
                let index = table_row.index();
                let row = &flown.margins.rows[index];
                table_row.set_selected(view.session.chosen == Some(index));
                let pressed = cells(&mut table_row, view, index, row);
                if pressed || table_row.response().clicked() {
                    out.push(AppCommand::Choose(index));
                }
            });
        });
}

/// Room for a name and a verdict on one line or on two.
fn height_of(ui: &Ui, row: &MarginRow) -> f32 {
    let font = TextStyle::Button.resolve(ui.style());
    let name = ui.painter().layout(row.name.clone(), font, Color32::BLACK, NAME);
    let long = name.rows.len() > 1 || row.verdict == Verdict::InsideBuffer;
    if long { TARGET + 6.0 } else { TARGET }
}

/// Fills a row and says whether its name was pressed, which is how the keyboard presses it.
fn cells(table_row: &mut TableRow<'_, '_>, view: &View<'_>, index: usize, row: &MarginRow) -> bool {
    let mut pressed = false;
    let [left, asked] = words::left_and_asked(row.margin, row.buffer, row.unit.symbol());
    // Of a caution area the seconds over it are counted: nothing is left and nothing was asked.
    let asked = if row.verdict == Verdict::Counted { "over it".to_owned() } else { asked };
    table_row.col(|ui| {
        ui.label(RichText::new((index + 1).to_string()).family(bold()));
    });
    table_row.col(|ui| {
        let name = Button::new(row.name.as_str()).wrap().frame(false).min_size(vec2(0.0, TARGET));
        pressed = ui.add(name).clicked();
    });
    table_row.col(|ui| {
        ui.label(RichText::new(left).family(bold()));
    });
    table_row.col(|ui| {
        ui.label(asked);
    });
    table_row.col(|ui| {
        let (mark, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
        verdict_mark(ui.painter(), mark.center(), 7.0, row.verdict, view.palette);
        ui.add(Label::new(row.verdict.name()).wrap());
    });
    table_row.col(|ui| {
        ui.label(words::seconds(row.at_s));
    });
    pressed
}
