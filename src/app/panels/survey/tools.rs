//! The tools of the survey: what is in hand, to what it clings, the way back, and what is read while drawing.

use bevy_egui::egui::{Button, Id, RichText, Slider, Ui, vec2};

use super::super::View;
use super::place_box;
use crate::app::survey::{Chosen, GRIDS, GroundPicture, PictureCommand, Snap, Tool, figures};
use crate::app::theme::{TARGET, bold};
use crate::app::{AppCommand, FileCommand, Measure, SurveyCommand, map};

/// Room below which tools stand in two columns, points.
const NARROW: f32 = 420.0;

/// Shows the tools, in two columns where there is no room for a row.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let survey = &view.session.survey;
    tools(ui, view, out);
    ui.label(RichText::new(survey.asks_for()).color(view.palette.soft));
    if survey.tool.takes_places() {
        place_box::show(ui, view, out);
    }
    hands(ui, view, out);
    read(ui, view);
    ui.separator();
    snap(ui, view, out);
    back(ui, view, out);
    ui.separator();
    picture(ui, view, out);
}

fn ask(out: &mut Vec<AppCommand>, command: SurveyCommand) {
    out.push(AppCommand::Survey(command));
}

fn tools(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let survey = &view.session.survey;
    let width = if ui.available_width() < NARROW { (ui.available_width() - 7.0) / 2.0 } else { 100.0 };
    ui.horizontal_wrapped(|ui| {
        for tool in Tool::ALL {
            let taken = map::tool_taken(survey, tool);
            let letter = RichText::new(tool.key().name()).color(view.palette.soft);
            let button = Button::new(RichText::new(tool.name()).family(bold())).right_text(letter);
            let button = button.selected(survey.tool == taken).min_size(vec2(width, TARGET));
            if ui.add(button).on_hover_text(format!("{} (key {})", taken.hint(), tool.key().name())).clicked() {
                ask(out, SurveyCommand::Tool(taken));
            }
        }
    });
}

/// Buttons for what the keyboard does, for hands in gloves.
fn hands(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let survey = &view.session.survey;
    let mut press = |ui: &mut Ui, enabled: bool, text: &str, hint: &str, command: SurveyCommand| {
        if ui.add_enabled(enabled, Button::new(text)).on_hover_text(hint).clicked() {
            ask(out, command);
        }
    };
    ui.horizontal_wrapped(|ui| match (survey.tool, survey.chosen) {
        (Tool::Draw(kind), _) => {
            let placed = survey.drawing.len();
            press(ui, kind.is_ring() && placed >= kind.fewest(), "Complete", "key Enter", SurveyCommand::Finish);
            press(ui, placed > 0, "Take back", "key Backspace", SurveyCommand::DropCorner);
            press(ui, true, "Leave", "key Escape", SurveyCommand::Cancel);
        }
        (Tool::Measure, _) => {
            press(ui, !survey.measured.is_empty(), "Take back", "key Backspace", SurveyCommand::DropCorner);
            press(ui, true, "Leave", "key Escape", SurveyCommand::Cancel);
        }
        (Tool::PlacePicture, _) => {
            press(ui, !survey.pins.is_empty(), "Take back", "key Backspace", SurveyCommand::DropCorner);
            press(ui, true, "Leave", "key Escape", SurveyCommand::Cancel);
        }
        (Tool::Choose, Some(Chosen { part, corner })) => {
            let file = view.session.draft.file();
            if let Some(corner) = corner.filter(|_| part.is_ring(file)) {
                if let Some(command) = map::corner_after(view) {
                    press(ui, true, "New corner", "after this one; key Insert or +", command);
                }
                let text = format!("Delete corner {}", corner + 1);
                press(ui, true, &text, "key Delete", SurveyCommand::DeleteCorner);
            }
            if crate::app::survey::edit::delete_part(file, part).is_some() {
                let name = part.name(file);
                let name = name.strip_prefix("the ").unwrap_or(&name);
                press(ui, true, &format!("Delete {name}"), "all of it", SurveyCommand::DeletePart);
            }
        }
        (Tool::Choose, None) => {}
    });
}

/// Lengths, bearings and areas of what is drawn, measured or chosen.
fn read(ui: &mut Ui, view: &View<'_>) {
    let file = view.session.draft.file();
    let survey = &view.session.survey;
    if survey.tool == Tool::Choose
        && let Some(Chosen { part, corner }) = survey.chosen
    {
        let name = corner.map_or_else(|| part.name(file), |corner| part.corner_name(file, corner));
        ui.label(RichText::new(name).family(bold()));
    }
    ui.spacing_mut().interact_size.y = 18.0;
    for line in figures::lines(survey, file, view.units(), map::aimed(ui.ctx())) {
        ui.label(line);
    }
}

fn snap(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let snap = view.session.survey.snap;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.spacing_mut().button_padding.x = 7.0;
        let mut choose = |ui: &mut Ui, on: bool, text: &str, hint: &str, new: Snap| {
            let button = Button::new(text).selected(on).min_size(vec2(TARGET, TARGET));
            if ui.add(button).on_hover_text(hint).clicked() {
                ask(out, SurveyCommand::Snap(new));
            }
        };
        ui.label(RichText::new("grid").family(bold()));
        for grid in GRIDS {
            let on = snap.grid_m == Some(grid);
            let new = Snap { grid_m: if on { None } else { Some(grid) }, ..snap };
            choose(ui, on, &format!("{grid} m"), "places cling to lines so far apart; Alt: to nothing", new);
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

fn back(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let draft = &view.session.draft;
    ui.horizontal_wrapped(|ui| {
        let mut press = |ui: &mut Ui, text: &str, what: Option<&str>, keys: &str, command: AppCommand| {
            let button = ui.add_enabled(what.is_some(), Button::new(text));
            if button.on_hover_text(format!("{} ({keys})", what.unwrap_or_default())).clicked() {
                out.push(command);
            }
        };
        let drawing = matches!(view.session.survey.tool, Tool::Draw(_)) && !view.session.survey.drawing.is_empty();
        let undo = if drawing { Some("the corner placed last") } else { draft.to_undo() };
        press(ui, "Undo", undo, "Ctrl+Z", AppCommand::Undo);
        press(ui, "Redo", draft.to_redo(), "Ctrl+Shift+Z", AppCommand::Redo);
    });
}

fn picture(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let survey = &view.session.survey;
    let Some(picture) = &survey.picture else {
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
        ask(out, SurveyCommand::Picture(PictureCommand::Strength(strength / 100.0)));
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button("Place again").on_hover_text("name two known points").clicked() {
            ask(out, SurveyCommand::Picture(PictureCommand::Again));
        }
        if ui.button("Take away").clicked() {
            ask(out, SurveyCommand::Picture(PictureCommand::PutAway));
        }
    });
}

/// How a picture lies: scale, turn, and how far apart its known points are.
fn placed(view: &View<'_>, picture: &GroundPicture) -> Vec<String> {
    let mut lines = vec![picture.said.clone()];
    if picture.placed {
        let placement = &picture.placement;
        let scale = placement.metres_a_pixel();
        lines.push(format!("{scale:.3} m a pixel, turned {:.1}\u{b0}", placement.turn_deg()).replace('-', "\u{2212}"));
    }
    if let [a, b] = view.session.survey.pins[..] {
        let pixels = a.pixel.distance(b.pixel);
        let apart = a.ground.zip(b.ground).map(|(a, b)| view.units().text(Measure::Distance, a.distance(b)));
        let apart = apart.map_or_else(String::new, |apart| format!(", {apart}"));
        lines.push(format!("points {pixels:.0} pixels apart{apart}"));
    }
    lines
}

/// Name of the box for places, so that the map can give it the keyboard.
pub(super) fn box_id() -> Id {
    Id::new("place to be typed")
}
