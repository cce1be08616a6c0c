//! The plan beside the kept one: both maps at one scale, and every number with its difference.

mod answers;
mod line;
mod map;
mod margins;
mod plan;

use bevy_egui::egui::{
    Align, Button, CentralPanel, Grid, Layout, Panel, RichText, ScrollArea, Sense, Shape, Stroke, Ui, vec2,
};

use crate::app::look::lens::{Lens, MapView};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Flown, Kept, View};
use crate::app::widgets::room::{ROOMY, frame};
pub use line::{Judged, Line};

/// Height of the table on a small and on a large screen, points.
const TABLE: (f32, f32) = (366.0, 420.0);
/// Shares of the width for name, now, kept, difference and verdict.
const COLUMNS: [f32; 5] = [0.27, 0.24, 0.24, 0.12, 0.13];

/// Lays the comparison out and returns the lens of the left map.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    Panel::top("comparison").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| heading(ui, view, out));
    let (Some(now), Some(kept)) = (&view.session.flown, &view.session.kept) else {
        let room = CentralPanel::no_frame().frame(frame(view, ROOMY)).show(ui, |ui| {
            ui.label("No plan is kept yet. Keep the plan as it stands, change it, and the two are shown side by side.");
        });
        return Lens::new(MapView::default(), room.response.rect);
    };
    let height = if ui.ctx().viewport_rect().height() > 900.0 { TABLE.1 } else { TABLE.0 };
    Panel::bottom("compared").frame(frame(view, ROOMY)).resizable(false).exact_size(height).show(ui, |ui| {
        let [left, right] = lines(view, now, kept);
        ui.columns(2, |columns| {
            for (column, (id, lines)) in
                columns.iter_mut().zip([("plan and flight", left), ("left of each limit", right)])
            {
                ScrollArea::vertical().id_salt(id).show(column, |ui| table(ui, view, id, &lines));
            }
        });
    });
    CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, [now, &kept.flown], out)).inner
}

/// Every number of the two, half of them for the left of the screen and half for the right.
pub fn lines(view: &View<'_>, now: &Flown, kept: &Kept) -> [Vec<Line>; 2] {
    let units = view.units();
    let mut left = plan::lines(now, &kept.flown, units);
    left.extend(plan::results(now, &kept.flown, units));
    let mut right = margins::lines(&now.margins, &kept.flown.margins, units);
    let [usable, winds] = answers::lines(view, now, kept);
    right.extend(usable);
    left.extend(winds);
    [left, right]
}

fn heading(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let kept = view.session.kept.is_some();
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET);
        ui.heading("Two plans side by side");
        let wind = crate::words::wind_key(view.session.wind);
        let trial = if view.session.trial == 0 { "as entered".into() } else { format!("trial {}", view.session.trial) };
        ui.label(RichText::new(format!("both flown {trial} in the {wind} wind")).color(view.palette.soft));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let mut press = |ui: &mut Ui, on: bool, words: &str, hint: &str, command: AppCommand| {
                let button = Button::new(words).min_size(vec2(0.0, TARGET));
                if ui.add_enabled(on, button).on_hover_text(hint).clicked() {
                    out.push(command);
                }
            };
            press(ui, true, "Back to the board", "key F6", AppCommand::Compare(false));
            press(ui, kept, "Drop", "keeps no plan any more", AppCommand::Keep(false));
            press(ui, kept, "Swap", "the kept plan is put on the screen, and this one is kept", AppCommand::Swap);
            let on = view.session.is_current();
            press(ui, on, "Keep this plan", "in the place of the one kept, if any", AppCommand::Keep(true));
        });
    });
}

fn table(ui: &mut Ui, view: &View<'_>, id: &str, lines: &[Line]) {
    ui.spacing_mut().interact_size.y = 19.0;
    let width = ui.available_width() - 4.0 * 6.0 - 10.0;
    let cell = |ui: &mut Ui, column: usize, words: RichText| {
        ui.vertical(|ui| {
            ui.set_width(COLUMNS[column] * width);
            ui.label(words);
        });
    };
    Grid::new(id).num_columns(5).spacing([6.0, 0.0]).min_row_height(19.0).striped(true).show(ui, |ui| {
        for (column, title) in [id, "now", "kept", "difference", ""].into_iter().enumerate() {
            cell(ui, column, RichText::new(title).size(14.0).color(view.palette.soft));
        }
        ui.end_row();
        for line in lines {
            cell(ui, 0, RichText::new(&line.name).size(14.0).color(view.palette.soft));
            cell(ui, 1, RichText::new(&line.now).family(bold()));
            cell(ui, 2, RichText::new(&line.kept).family(bold()));
            cell(ui, 3, RichText::new(&line.difference));
            judged(ui, view, line.judged);
            ui.end_row();
        }
    });
}

/// A shape and a word: up for better, down for worse, two bars for the same.
fn judged(ui: &mut Ui, view: &View<'_>, judged: Judged) {
    let palette = view.palette;
    ui.horizontal(|ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(15.0, 17.0), Sense::hover());
        let at = rect.center();
        let stroke = Stroke::new(1.5, palette.ink);
        let triangle = |up: f32, verdict| {
            let corners = [(0.0, -6.0), (6.5, 5.0), (-6.5, 5.0)].map(|(x, y)| at + vec2(x, y * up)).to_vec();
            Shape::convex_polygon(corners, palette.verdict(verdict), stroke)
        };
        match judged {
            Judged::Better => {
                ui.painter().add(triangle(1.0, crate::margins::Verdict::Clear));
            }
            Judged::Worse => {
                ui.painter().add(triangle(-1.0, crate::margins::Verdict::Crossed));
            }
            Judged::Same => {
                for y in [-2.5, 2.5] {
                    ui.painter().line_segment([at + vec2(-5.0, y), at + vec2(5.0, y)], Stroke::new(2.0, palette.soft));
                }
            }
            Judged::Open => {}
        }
        ui.label(RichText::new(judged.name()).family(bold()));
    });
}
