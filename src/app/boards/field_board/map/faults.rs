//! What is wrong, at the place where it is wrong: a sign with its words.

use bevy_egui::egui::{
    Align2, FontId, Id, Painter, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, WidgetType, vec2,
};

use crate::app::look::labels::{Labels, nearest, plate};
use crate::app::look::lens::Lens;
use crate::app::look::theme::{Palette, bold};
use crate::app::session::View;
use crate::app::session::field_board::{Chosen, Here, Part, as_people_count, here};
use crate::error::Severity;

/// Half the size of a sign, points.
const SIGN: f32 = 11.0;
/// Longest line of the words, points.
const WIDEST: f32 = 250.0;

/// Marks every fault of the field. `tags` say where the names of parts stand.
///
/// While something is drawn they are in nobody's way: only those that are `held` out take the pointer.
pub(super) fn show(ui: &Ui, lens: &Lens, view: &View<'_>, tags: &[(Part, Rect)], held: bool, labels: &mut Labels) {
    let file = view.session.draft.file();
    let painter = ui.painter_at(lens.rect);
    for here in here(file, view.session.draft.faults()) {
        let Chosen { part, corner } = here.at;
        let points = part.points(file);
        let tag = tags.iter().find(|(tagged, _)| *tagged == part).map(|(_, rect)| rect.left_center());
        let place = match corner {
            Some(corner) => Some(lens.screen(points[corner])),
            None => tag.or_else(|| points.first().map(|&at| lens.screen(at))),
        };
        let Some(place) = place.filter(|place| lens.rect.contains(*place)) else { continue };
        if let Some(corner) = corner
            && points.len() > 2
            && part.is_ring(file)
        {
            let edge = [points[corner], points[(corner + 1) % points.len()]].map(|at| lens.screen(at));
            let colour = colour(&here, view.palette);
            painter.extend(Shape::dashed_line(&edge, Stroke::new(5.0, colour), 10.0, 5.0));
        }
        let size = Vec2::splat(SIGN * 2.0);
        let seat = labels.place(Rect::from_center_size(place, vec2(12.0, 12.0)), size, 4.0);
        let sense = if held { Sense::click() } else { Sense::empty() };
        let sign = ui.interact(seat.expand(5.0), Id::new(("fault", here.at)), sense);
        let told = sentence(&here, true);
        sign.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, told.clone()));
        painter.line_segment([place, seat.center()], Stroke::new(1.5, view.palette.ink));
        draw_sign(&painter, seat.center(), &here, view.palette);
        if sign.has_focus() {
            painter.rect_stroke(seat.expand(4.0), 3.0, (3.0, view.palette.focus), StrokeKind::Outside);
        }
        let chosen = view.session.field_board.chosen.is_some_and(|chosen| chosen.part == part);
        let in_full = sign.hovered() || sign.has_focus() || chosen;
        words(&painter, view, seat, &here, &sentence(&here, in_full), labels);
    }
}

fn severity(here: &Here<'_>) -> Severity {
    here.faults.iter().map(|fault| fault.severity).max().unwrap_or(Severity::Warning)
}

const fn of_severity(severity: Severity, palette: &Palette) -> bevy_egui::egui::Color32 {
    match severity {
        Severity::Error => palette.hatch[0],
        Severity::Warning => palette.hatch[2],
    }
}

fn colour(here: &Here<'_>, palette: &Palette) -> bevy_egui::egui::Color32 {
    of_severity(severity(here), palette)
}

/// What is wrong, with the way out where there is room for it.
fn sentence(here: &Here<'_>, in_full: bool) -> String {
    let word = match severity(here) {
        Severity::Error => "error",
        Severity::Warning => "warning",
    };
    let mut lines: Vec<String> = Vec::new();
    for (index, fault) in here.faults.iter().enumerate() {
        let problem = as_people_count(&fault.problem);
        if in_full {
            lines.push(format!("{problem}. {}.", as_people_count(&fault.way_out).trim_end_matches('.')));
        } else if index == 0 {
            lines.push(problem);
        }
    }
    if !in_full && here.faults.len() > 1 {
        lines.push(format!("and {} more", here.faults.len() - 1));
    }
    format!("{word}: {}", lines.join("\n"))
}

/// Three corners and an exclamation mark; a warning is lighter inside.
fn draw_sign(painter: &Painter, at: Pos2, here: &Here<'_>, palette: &Palette) {
    let corners = [(0.0, -1.0), (1.05, 0.8), (-1.05, 0.8)].map(|(x, y)| at + vec2(x, y) * SIGN).to_vec();
    let fill = match severity(here) {
        Severity::Error => palette.hatch[0],
        Severity::Warning => palette.tint[2],
    };
    painter.circle_filled(at, SIGN * 1.25, palette.paper);
    painter.add(Shape::convex_polygon(corners, fill, Stroke::new(2.0, palette.ink)));
    painter.text(at + vec2(0.0, 1.5), Align2::CENTER_CENTER, "!", FontId::new(15.0, bold()), palette.ink);
}

fn words(painter: &Painter, view: &View<'_>, seat: Rect, here: &Here<'_>, text: &str, labels: &mut Labels) {
    let palette = view.palette;
    let galley = painter.layout(text.to_owned(), FontId::proportional(14.0), palette.ink, WIDEST);
    let rect = labels.place(seat, galley.size() + vec2(12.0, 6.0), 3.0);
    let nearest = nearest(rect, seat.center());
    if nearest.distance(seat.center()) > SIGN + 6.0 {
        painter.line_segment([seat.center(), nearest], Stroke::new(1.0, palette.ink));
    }
    plate(painter, palette, rect);
    painter.rect_stroke(rect, 3.0, (1.5, colour(here, palette)), StrokeKind::Inside);
    painter.galley(rect.min + vec2(6.0, 3.0), galley, palette.ink);
}
