//! Playing the flight back: play, pause, scrub, speed, and what the jet does at that moment.

use bevy_egui::egui::{Button, RichText, Slider, Ui, vec2};

use crate::app::look::theme::{TARGET, bold, primary};
use crate::app::look::words::{metres, number, seconds};
use crate::app::session::{AppCommand, Flown, View};
use crate::run::Trace;

/// How many times as fast as it flew.
const SPEEDS: [f64; 4] = [1.0, 2.0, 4.0, 8.0];

/// Shows the row of buttons and the line of numbers under it.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    row(ui, view, 0.0, out, |_, _| ());
    moment(ui, view);
}

/// Shows the row of buttons alone, and `more` buttons in so much room at its end.
pub fn row(
    ui: &mut Ui,
    view: &View<'_>,
    room: f32,
    out: &mut Vec<AppCommand>,
    more: impl FnOnce(&mut Ui, &mut Vec<AppCommand>),
) {
    let Some(flown) = &view.session.flown else { return };
    let playhead = view.session.playhead;
    ui.horizontal_wrapped(|ui| {
        let word = if playhead.playing { "Pause" } else { "Play" };
        if ui.add(primary(word, view.palette).min_size(vec2(70.0, TARGET))).on_hover_text("space bar").clicked() {
            out.push(AppCommand::PlayOrPause);
        }
        let mut at_s = playhead.at_s;
        ui.spacing_mut().slider_width = (ui.available_size_before_wrap().x - 262.0 - room).max(90.0);
        let scrub = Slider::new(&mut at_s, 0.0..=flown.end_s().max(0.1)).show_value(false).step_by(0.1);
        let label = "time since the loss";
        let response = ui.add(scrub).on_hover_text("arrow keys, when nothing else has the keyboard");
        response.widget_info(|| bevy_egui::egui::WidgetInfo::slider(true, at_s, label));
        if response.changed() && at_s != playhead.at_s {
            out.push(AppCommand::Scrub(at_s));
        }
        ui.label(RichText::new(format!("{} of {}", seconds(playhead.at_s), seconds(flown.end_s()))));
        ui.spacing_mut().button_padding.x = 6.0;
        ui.spacing_mut().item_spacing.x = 2.0;
        for speed in SPEEDS {
            let text = format!("{speed:.0}\u{d7}");
            #[allow(clippy::float_cmp, reason = "set from the very same list")]
            let chosen = playhead.speed == speed;
            if ui.add(Button::new(text).selected(chosen)).on_hover_text("how fast it plays").clicked() {
                out.push(AppCommand::Speed(speed));
            }
        }
        more(ui, out);
    });
}

/// Shows what the jet does at the play head.
pub fn moment(ui: &mut Ui, view: &View<'_>) {
    if let Some(flown) = &view.session.flown {
        ui.label(RichText::new(told(flown, view.session.playhead.at_s)).family(bold()));
    }
}

/// What the jet does at a time since the loss, in words.
fn told(flown: &Flown, at_s: f64) -> String {
    let trace = &flown.run.trace;
    if trace.is_empty() {
        return "no flight".to_owned();
    }
    let at = flown.sample_at(at_s);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the trace")]
    let stretch = trace.stretch[(at as usize).min(trace.len() - 1)];
    let bank = Trace::between(&trace.bank_rad, at).to_degrees();
    let side = if bank < -0.5 {
        " left"
    } else if bank > 0.5 {
        " right"
    } else {
        ""
    };
    let from_centre = trace.point_between(at).distance(flown.scenario.field.centre);
    format!(
        "{}   height {}   {} m/s   bank {:.0}\u{b0}{side}   {} from the centre",
        stretch.name(),
        metres(Trace::between(&trace.height_m, at)),
        number(Trace::between(&trace.airspeed_mps, at)),
        bank.abs(),
        metres(from_centre),
    )
}
