//! The shapes found in a file, and a choice for each of what it stands for.

use bevy_egui::egui::{Button, ComboBox, RichText, ScrollArea, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::look::words::number;
use crate::app::session::{AppCommand, FileCommand, FrontCommand, Intake, Reply, Take, TakeCommand, View, size};
use crate::error::Severity;
use crate::field::import::{Form, Role};
use crate::words::Measure;

/// Height of a row, points.
const ROW: f32 = TARGET + 4.0;
/// Widths of the columns, points.
const COLUMNS: [f32; 3] = [230.0, 190.0, 290.0];

/// Shows them.
pub fn show(ui: &mut Ui, view: &View<'_>, intake: &Intake, out: &mut Vec<AppCommand>) {
    ui.set_width(COLUMNS.iter().sum::<f32>() + 40.0);
    ui.heading(format!("Shapes of {}", intake.name));
    ui.label(if intake.takes.is_empty() {
        "Nothing in it can be used."
    } else if intake.fresh {
        "Choose what each stands for. The middle of them becomes the datum of the field."
    } else {
        "Choose what each stands for. All of it is one edit, which can be taken back."
    });
    ui.add_space(4.0);
    let screen = ui.ctx().viewport_rect().height();
    let rows = ScrollArea::vertical().id_salt("shapes").max_height(screen * 0.45).auto_shrink([false, true]);
    rows.show_rows(ui, ROW, intake.takes.len(), |ui, range| {
        for (at, take) in range.clone().zip(&intake.takes[range]) {
            ui.push_id(at, |ui| row(ui, view, at, take, out));
        }
    });
    faults(ui, view, intake);
    ui.add_space(8.0);
    buttons(ui, intake, out);
}

fn row(ui: &mut Ui, view: &View<'_>, at: usize, take: &Take, out: &mut Vec<AppCommand>) {
    let ask = |command| AppCommand::Front(FrontCommand::Take(command));
    ui.horizontal(|ui| {
        ui.set_height(TARGET);
        let name = bevy_egui::egui::Label::new(RichText::new(&take.shape.name).family(bold())).truncate();
        cell(ui, COLUMNS[0], |ui| ui.add(name).on_hover_text(&take.shape.name));
        cell(ui, COLUMNS[1], |ui| ui.label(RichText::new(looks(view, take)).color(view.palette.soft)));
        let role = |role: Option<Role>| role.map_or("leave it out", Role::name);
        let combo = ComboBox::from_id_salt("role").width(180.0).selected_text(role(take.role));
        let shown = combo.show_ui(ui, |ui| {
            let fitting = Role::ALL.into_iter().filter(|role| role.fits(take.shape.form)).map(Some);
            for choice in std::iter::once(None).chain(fitting) {
                if ui.selectable_label(take.role == choice, role(choice)).clicked() {
                    out.push(ask(TakeCommand::Role(at, choice)));
                }
            }
        });
        let label = format!("{} stands for {}", take.shape.name, role(take.role));
        shown.response.widget_info(|| WidgetInfo::labeled(WidgetType::ComboBox, true, &label));
        if take.shape.form == Form::Line {
            let close = ui.add_enabled(take.shape.closed().is_some(), Button::new("Close it"));
            if close.on_hover_text("makes a ring of the line, such as of a walk round the edge").clicked() {
                out.push(ask(TakeCommand::Close(at)));
            }
        }
    });
}

fn cell<T>(ui: &mut Ui, width: f32, inside: impl FnOnce(&mut Ui) -> T) {
    ui.allocate_ui(vec2(width, TARGET), |ui| {
        ui.set_min_width(width);
        inside(ui);
    });
}

/// Form and size.
fn looks(view: &View<'_>, take: &Take) -> String {
    let shape = &take.shape;
    let (form, size) = (shape.form.name(), size(shape));
    match shape.form {
        Form::Point => {
            let [x, y] = shape.points_m.first().copied().unwrap_or_default();
            let metres = |value| view.units().short(Measure::Distance, value);
            format!("{form}, {} E, {} N", metres(x), metres(y))
        }
        Form::Line => format!("{form}, {}", view.units().short(Measure::Distance, size)),
        Form::Ring if size >= 1000.0 => format!("{form}, {} ha", number(size / 10_000.0)),
        Form::Ring => format!("{form}, {} m\u{b2}", number(size)),
    }
}

fn faults(ui: &mut Ui, view: &View<'_>, intake: &Intake) {
    if intake.faults.is_empty() {
        return;
    }
    ui.add_space(4.0);
    ui.separator();
    let height = ui.ctx().viewport_rect().height() * 0.2;
    ScrollArea::vertical().id_salt("faults").max_height(height).auto_shrink([false, true]).show(ui, |ui| {
        for fault in &intake.faults {
            let word = if fault.severity == Severity::Error { "error" } else { "warning" };
            let place = fault.line.map_or_else(|| fault.place.clone(), |line| format!("line {line}"));
            let place = if place.is_empty() { String::new() } else { format!("{place}: ") };
            let text = format!("{word}: {place}{}. {}.", fault.problem, fault.way_out.trim_end_matches('.'));
            ui.label(RichText::new(text).color(view.palette.soft));
        }
    });
}

fn buttons(ui: &mut Ui, intake: &Intake, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let strong = |text: &str| Button::new(RichText::new(text).family(bold())).min_size(vec2(90.0, TARGET));
        let many = intake.chosen();
        let text = format!("Put in {many} {}", if many == 1 { "shape" } else { "shapes" });
        if ui.add_enabled(many > 0, strong(&text)).clicked() {
            out.push(AppCommand::File(FileCommand::PutIn { whole: false }));
        }
        if intake.whole.is_some() {
            let hint = "the file is a whole field: it takes the place of the one on the screen";
            if ui.add(strong("Take the whole field")).on_hover_text(hint).clicked() {
                out.push(AppCommand::File(FileCommand::PutIn { whole: true }));
            }
        }
        if ui.add(strong("Go back")).clicked() {
            out.push(AppCommand::File(FileCommand::Reply(Reply::GoBack)));
        }
    });
}
