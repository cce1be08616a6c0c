//! A reading of today beside the plan's wind: what it is at the circle, and what the plan's wind limit says of it. Nothing of
//! the plan changes unless somebody asks for that.

use bevy_egui::egui::{Button, RichText, Ui, vec2};

use super::aloft::span;
use crate::app::boards::field_board::{compass, soft};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Stands, TodayCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind, Optional};
use crate::units::{Bearing, Length, Speed};
use crate::words::Measure;
use crate::words::help::Topic;

const SPEED: EntryKind = EntryKind::Of(Measure::Wind);
/// Heights over the ground at which people have a wind from: the raised hand, and the mast of a forecast (WMO-No. 8: 10 m).
const WHERE: [(f64, &str); 2] = [(2.0, "hand-held, at 2 m"), (10.0, "forecast, at 10 m")];

/// Shows the boxes and what follows from them.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let reading = view.session.wind_reading();
    let ask = |out: &mut Vec<AppCommand>, command: Option<TodayCommand>| out.extend(command.map(AppCommand::Today));
    soft(ui, view, "What the meter says now. The plan stays as it is.");
    let mean = Entry::new("mean today", SPEED, reading.mean.mps(), "today/mean").help(Topic::WindSpeed);
    let found = mean.show(ui, view, out);
    ask(out, found.map(|mps| TodayCommand::Mean(Speed::new(mps))));
    let gust = Optional {
        name: "gusts today",
        kind: SPEED,
        now: reading.gust.map(Speed::mps),
        hint: "1.5 times the mean",
        place: "today/gust",
        topic: Some(Topic::Gust),
    };
    let found = gust.show(ui, view, out);
    ask(out, found.map(|mps| TodayCommand::Gust(mps.map(Speed::new))));
    let from = Entry::new("blows FROM today", EntryKind::Bearing, reading.from.deg(), "today/from");
    let found = from.help(Topic::WindFrom).show(ui, view, out);
    ask(out, found.map(|deg| TodayCommand::From(Bearing::from_deg(deg))));
    compass(ui, view, reading.from.deg());
    ui.label("Where was the wind measured?");
    let found = entry::choice(ui, out, "measured today", reading.measured_at.m(), &WHERE);
    ask(out, found.map(|metres| TodayCommand::MeasuredAt(Length::new(metres))));
    if WHERE.iter().all(|(metres, _)| *metres != reading.measured_at.m()) {
        let at = view.units().text(Measure::Height, reading.measured_at.m());
        soft(ui, view, &format!("Until you say so it is taken as measured at {at}, as the plan's wind was."));
    }
    told(ui, view);
    buttons(ui, view, out);
}

/// What it amounts to at the circle, and whether the plan is known to hold in it.
fn told(ui: &mut Ui, view: &View<'_>) {
    let (file, units) = (view.session.draft.file(), view.units());
    let circle = file.recovery.height.m();
    let [low, _, high] = view.session.wind_reading().on(&file.wind).aloft_range(circle);
    if ![low, high].iter().flatten().all(|speed| speed.is_finite()) {
        return;
    }
    let [mean, gust] = [0, 1].map(|which| span(units, [low[which], high[which]]));
    let height = units.short(Measure::Height, circle);
    ui.label(RichText::new(format!("At the circle, {height} up: {mean}")).family(bold()));
    ui.label(format!("in gusts {gust}"));
    let stands = match view.session.wind_stands() {
        Stands::Under => "Under the plan's wind limit from there: its trials say yes.",
        Stands::Over => "OVER the plan's wind limit from there: its trials say no.",
        Stands::Between => {
            "Not known: the plan's wind limit lies within what this wind may grow to, or the gusts are stronger."
        }
        Stands::NotWorkedOut => "Not known: the plan's wind limit is not worked out yet.",
    };
    ui.label(RichText::new(stands).family(bold()));
}

/// The way to the plan's own verdict in this wind, and the way back.
fn buttons(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let (file, reading) = (view.session.draft.file(), view.session.wind_reading());
    let tried = reading.on(&file.wind) == file.wind;
    ui.horizontal_wrapped(|ui| {
        let button = Button::new(RichText::new("Try it on the plan").family(bold())).min_size(vec2(0.0, TARGET));
        let button = ui.add_enabled(!tried, button).on_disabled_hover_text("it is the plan's wind");
        let hint =
            "puts it in the place of the plan's wind and flies the trials in it; undo brings the plan's wind back";
        if button.on_hover_text(hint).clicked() {
            out.push(AppCommand::Settle);
            entry::change(view, out, "try today's wind on the plan", |file| file.wind = reading.on(&file.wind));
            out.push(AppCommand::Settle);
        }
        if view.session.wind_today.is_some() && ui.add(Button::new("Forget it").min_size(vec2(0.0, TARGET))).clicked() {
            out.push(AppCommand::Today(TodayCommand::Forget));
        }
    });
}
