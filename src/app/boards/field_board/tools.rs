//! The tools of the Field board: what is in hand, to what it clings, and what is read while drawing.

use bevy_egui::egui::{Button, RichText, Slider, Ui, vec2};

use super::place_box;
use crate::app::boards::field_board::map::{aimed, corner_after, tool_taken};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::field_board::{
    Chosen, FieldCommand, GRIDS, GroundPicture, PictureCommand, Snap, Tool, figures,
};
use crate::app::session::{AppCommand, FileCommand, View};
use crate::words::Measure;

/// Room below which tools stand in two columns, points.
const NARROW: f32 = 420.0;

/// Shows the tools, in two columns where there is no room for a row.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let field_board = &view.session.field_board;
    tools(ui, view, out);
    snap(ui, view, out);
    // What changes while one draws comes last, so that no button moves away from under the pointer.
    ui.separator();
    ui.label(RichText::new(field_board.asks_for()).color(view.palette.soft));
    if field_board.tool.takes_places() {
        place_box::show(ui, view, out);
    }
    hands(ui, view, out);
    read(ui, view);
    if field_board.tool != Tool::Choose || field_board.chosen.is_none() {
        picture(ui, view, out);
    }
}

fn ask(out: &mut Vec<AppCommand>, command: FieldCommand) {
    out.push(AppCommand::Field(command));
}

fn tools(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let field_board = &view.session.field_board;
    let width = if ui.available_width() < NARROW { (ui.available_width() - 7.0) / 2.0 } else { 100.0 };
    ui.horizontal_wrapped(|ui| {
        for tool in Tool::ALL {
            let taken = tool_taken(field_board, tool);
            let letter = RichText::new(tool.key().name()).color(view.palette.soft);
            let button = Button::new(RichText::new(tool.name()).family(bold())).right_text(letter);
            let button = button.selected(field_board.tool == taken).min_size(vec2(width, TARGET));
            if ui.add(button).on_hover_text(format!("{} (key {})", taken.hint(), tool.key().name())).clicked() {
                ask(out, FieldCommand::Tool(taken));
            }
        }
    });
}

/// Buttons for what the keyboard does, for hands in gloves.
fn hands(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let field_board = &view.session.field_board;
    let mut buttons: Vec<(bool, String, &str, FieldCommand)> = Vec::new();
    let mut add = |on: bool, text: &str, hint, command| buttons.push((on, text.to_owned(), hint, command));
    let placed = match (field_board.tool, field_board.chosen) {
        (Tool::Draw(kind), _) => {
            let placed = field_board.drawing.len();
            if kind.is_ring() {
                add(placed >= kind.fewest(), "Complete", "key Enter", FieldCommand::Finish);
            }
            Some(placed)
        }
        (Tool::Measure, _) => Some(field_board.measured.len()),
        (Tool::PlacePicture, _) => Some(field_board.pins.len()),
        (Tool::Choose, Some(Chosen { part, corner: Some(corner) })) if part.is_ring(view.session.draft.file()) => {
            if let Some(command) = corner_after(view) {
                add(true, "New corner", "after this one; key Insert or +", command);
            }
            add(true, &format!("Delete corner {}", corner + 1), "key Delete", FieldCommand::DeleteCorner);
            None
        }
        (Tool::Choose, _) => None,
    };
    if let Some(placed) = placed {
        add(placed > 0, "Take back", "key Backspace", FieldCommand::DropCorner);
        add(true, "Leave", "key Escape", FieldCommand::Cancel);
    }
    if buttons.is_empty() {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().button_padding.x = 7.0;
        for (on, text, hint, command) in buttons {
            if ui.add_enabled(on, Button::new(text)).on_hover_text(hint).clicked() {
                ask(out, command);
            }
        }
    });
}

/// Lengths, bearings and areas of what is drawn, measured or chosen.
fn read(ui: &mut Ui, view: &View<'_>) {
    let file = view.session.draft.file();
    let field_board = &view.session.field_board;
    if field_board.tool == Tool::Choose
        && let Some(Chosen { part, corner }) = field_board.chosen
    {
        let name = corner.map_or_else(|| part.name(file), |corner| part.corner_name(file, corner));
        ui.label(RichText::new(name).family(bold()));
    }
    for line in figures::lines(field_board, file, view.units(), aimed(ui.ctx())) {
        ui.label(line);
    }
}

fn snap(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let snap = view.session.field_board.snap;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.spacing_mut().button_padding.x = 7.0;
        let mut choose = |ui: &mut Ui, on: bool, text: &str, hint: &str, new: Snap| {
            let button = Button::new(text).selected(on).min_size(vec2(TARGET, TARGET));
            if ui.add(button).on_hover_text(hint).clicked() {
                ask(out, FieldCommand::Snap(new));
            }
        };
        ui.label(RichText::new("grid").family(bold()));
        for grid in GRIDS {
            let on = snap.grid_m == Some(grid);
            let new = Snap { grid_m: if on { None } else { Some(grid) }, ..snap };
            let unit = if grid == GRIDS[GRIDS.len() - 1] { " m" } else { "" };
            choose(ui, on, &format!("{grid}{unit}"), "places cling to lines so far apart; Alt: to nothing", new);
        }
        ui.end_row();
        let hint = "places cling to corners, ends and points; Alt: to nothing";
        choose(ui, snap.corners, "corners", hint, Snap { corners: !snap.corners, ..snap });
        let hint = "places cling to edges; Alt: to nothing";
        choose(ui, snap.edges, "edges", hint, Snap { edges: !snap.edges, ..snap });
        let hint = "edges turn by right angles and every 15 degrees; Alt: as they like";
        choose(ui, snap.angles, "angles", hint, Snap { angles: !snap.angles, ..snap });
    });
}

fn picture(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let field_board = &view.session.field_board;
    let Some(picture) = &field_board.picture else {
        if ui.button("Picture under the grid \u{2026}").on_hover_text("a photograph from above, or a plan").clicked() {
            out.push(AppCommand::File(FileCommand::Import));
        }
        return;
    };
    ui.label(RichText::new(picture.name()).family(bold()));
    for line in placed(view, picture) {
        ui.label(line);
    }
    let mut strength = picture.strength * 100.0;
    let label = ui.label("strength").id;
    ui.spacing_mut().slider_width = ui.available_width() - 80.0;
    let slider = Slider::new(&mut strength, 50.0..=100.0).suffix(" %").step_by(5.0);
    if ui.add(slider).labelled_by(label).changed() {
        ask(out, FieldCommand::Picture(PictureCommand::Strength(strength / 100.0)));
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button("Place again").on_hover_text("name two known points").clicked() {
            ask(out, FieldCommand::Picture(PictureCommand::Again));
        }
        if ui.button("Take away").clicked() {
            ask(out, FieldCommand::Picture(PictureCommand::Remove));
        }
    });
}

/// How a picture lies: scale, turn, and how far apart its known points are.
fn placed(view: &View<'_>, picture: &GroundPicture) -> Vec<String> {
    let mut lines = vec![picture.said.clone()];
    if picture.placed {
        let (scale, turn) = (picture.placement.metres_a_pixel(), picture.turn_deg());
        lines.push(format!("{scale:.3} m a pixel, turned {turn:.1}\u{b0}").replace('-', "\u{2212}"));
    }
    if let [a, b] = view.session.field_board.pins[..] {
        let pixels = a.pixel.distance(b.pixel);
        let apart = a.ground.zip(b.ground).map(|(a, b)| view.units().text(Measure::Distance, a.distance(b)));
        let apart = apart.map_or_else(String::new, |apart| format!(", {apart}"));
        lines.push(format!("points {pixels:.0} pixels apart{apart}"));
    }
    lines
}
