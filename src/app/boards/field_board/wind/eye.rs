//! The wind from what is seen: trees and flags by the Beaufort numbers, or a windsock by its stripes or its angle.

use bevy_egui::egui::{Button, Id, RichText, Ui, vec2};

use super::report::set_words;
use super::sock;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind};
use crate::app::widgets::help::mark;
use crate::error::Fault;
use crate::units::{Angle, Quantity as _};
use crate::wind::Estimate;
use crate::wind::estimate::{SIGNS, SOCK_M, Sign, beaufort, windsock_angle, windsock_stripes};
use crate::words::help::Topic;
use crate::words::{Measure, Units};

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Seen {
    Trees,
    Stripes,
    Hanging,
}

/// What has been said of it, kept from frame to frame.
#[derive(Debug, Clone, Copy)]
struct Eye {
    seen: Seen,
    number: Option<u8>,
    stripes: Option<u8>,
    below_rad: Option<f64>,
    mast_m: f64,
}

impl Default for Eye {
    fn default() -> Self {
        Self { seen: Seen::Trees, number: None, stripes: None, below_rad: None, mast_m: SOCK_M }
    }
}

impl Eye {
    fn estimate(&self) -> Option<Result<Estimate, Vec<Fault>>> {
        match self.seen {
            Seen::Trees => self.number.map(beaufort),
            Seen::Stripes => self.stripes.map(|stripes| windsock_stripes(stripes, self.mast_m)),
            Seen::Hanging => self.below_rad.map(|rad| {
                let deg = Angle::new(rad).in_unit("deg").unwrap_or_default();
                windsock_angle((deg * 10.0).round() / 10.0, self.mast_m)
            }),
        }
    }
}

/// Shows what can be seen, what it means, and the button that takes it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let id = Id::new("wind by eye");
    let before = ui.data(|data| data.get_temp::<Eye>(id)).unwrap_or_default();
    let mut eye = before;
    let ways = [(Seen::Trees, "trees and flags"), (Seen::Stripes, "sock: stripes"), (Seen::Hanging, "sock: angle")];
    eye.seen = entry::choice(ui, out, "what is seen", eye.seen, &ways).unwrap_or(eye.seen);
    ui.add_space(2.0);
    match eye.seen {
        Seen::Trees => trees(ui, view, out, &mut eye),
        Seen::Stripes => {
            ui.horizontal(|ui| {
                ui.label("Stripes that stand out");
                mark(ui, Topic::Windsock, out);
            });
            let counts = [(0, "0"), (1, "1"), (2, "2"), (3, "3"), (4, "4"), (5, "5")].map(|(n, text)| (Some(n), text));
            eye.stripes = entry::choice(ui, out, "stripes that stand out", eye.stripes, &counts).unwrap_or(eye.stripes);
            mast(ui, view, out, &mut eye);
        }
        Seen::Hanging => {
            let below = eye.below_rad.unwrap_or(30.0_f64.to_radians());
            let angle = Entry::new("hangs below level", EntryKind::Angle, below, "eye/below").help(Topic::Windsock);
            eye.below_rad = angle.show(ui, view, out).or(eye.below_rad).or(Some(below));
            mast(ui, view, out, &mut eye);
        }
    }
    ui.data_mut(|data| data.insert_temp(id, eye));
    match eye.estimate() {
        None => {}
        Some(Ok(estimate)) => meaning(ui, view, out, &estimate, eye.seen != Seen::Trees),
        Some(Err(faults)) => faults.iter().for_each(|fault| entry::note(ui, view, fault)),
    }
}

fn mast(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, eye: &mut Eye) {
    let mast = Entry::new("height of its mast", Measure::Height, eye.mast_m, "eye/mast");
    eye.mast_m = mast.show(ui, view, out).unwrap_or(eye.mast_m);
}

/// The signs, one a row to press.
fn trees(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, eye: &mut Eye) {
    ui.horizontal(|ui| {
        ui.label("Press what you see; between two, the higher");
        mark(ui, Topic::Beaufort, out);
    });
    ui.spacing_mut().item_spacing.y = 3.0;
    for sign in &SIGNS {
        let chosen = eye.number == Some(sign.beaufort);
        let words = format!("{}   {} {}", sign.beaufort, sign.seen, speeds(view.units(), sign));
        let label = format!("Beaufort {}: {}", sign.beaufort, sign.seen);
        let response = entry::marked(ui, &words, &label, chosen, ui.available_width());
        if response.clicked() {
            eye.number = Some(sign.beaufort);
        }
    }
}

fn speeds(units: &Units, sign: &Sign) -> String {
    let low = crate::app::look::words::number(units.first(Measure::Wind, sign.low_mps));
    format!("({low} to {})", units.short(Measure::Wind, sign.high_mps))
}

/// What it amounts to, and the button that takes it.
fn meaning(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, estimate: &Estimate, with_sock: bool) {
    ui.add_space(4.0);
    let units = view.units();
    ui.horizontal(|ui| {
        if with_sock {
            sock::sock(ui, view, estimate.mean_mps);
        }
        ui.vertical(|ui| {
            ui.label(RichText::new(units.text(Measure::Wind, estimate.mean_mps)).family(bold()).size(17.0));
            let number = |mps| crate::app::look::words::number(units.first(Measure::Wind, mps));
            let high = units.text(Measure::Wind, estimate.high_mps);
            ui.label(format!("between {} and {high}", number(estimate.low_mps)));
            ui.label(format!("at {}", units.text(Measure::Height, estimate.height_m)));
            let button = ui.add(Button::new(RichText::new("Use this wind").family(bold())).min_size(vec2(0.0, TARGET)));
            if button.clicked() {
                entry::change(view, out, "take the wind judged by eye", |file| _ = estimate.apply(&mut file.wind));
                out.push(AppCommand::Settle);
            }
        });
    });
    let mut wind = view.session.draft.file().wind;
    set_words(ui, view, &estimate.apply(&mut wind), wind == view.session.draft.file().wind);
}
