//! The answer in words: the circle recommended and where the plan stands, or loudly that none fits, and by how much.

use bevy_egui::egui::{Align, Button, Frame, Layout, Margin, RichText, Sense, Stroke, Ui, vec2};

use super::apply;
use crate::app::panels::{View, standing};
use crate::app::theme::bold;
use crate::app::{AppCommand, Measure, map, words};
use crate::ledger::Verdict;
use crate::recovery::Turn;
use crate::report::study::met;
use crate::study::radius::{Band, Choice, RadiusStudy};
use crate::study::verdict::Answer;

/// Room for the verdict's mark, points.
const MARK: f32 = 22.0;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let answer = view.session.answers.radius.as_ref();
    ui.spacing_mut().item_spacing.y = 2.0;
    standing::show(
        ui,
        view,
        answer,
        |study| study.partial,
        |ui, study| match &study.choice {
            Some(choice) => recommended(ui, view, study, choice, out),
            None => empty(ui, view, study),
        },
    );
}

/// A length along the ground in the person's unit.
pub(super) fn metres(view: &View<'_>, metres: f64) -> String {
    view.units().short(Measure::Distance, metres)
}

/// A circle in words.
pub(super) fn circle(view: &View<'_>, radius_m: f64, turn: Turn) -> String {
    format!("{} {}", metres(view, radius_m), words::turn_word(turn))
}

fn recommended(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, choice: &Choice, out: &mut Vec<AppCommand>) {
    let plan = &view.session.draft.file().recovery;
    ui.horizontal(|ui| {
        let holds = choice.verdict.is_some_and(|verdict| verdict.answer == Answer::Yes);
        mark(ui, view, if holds { Verdict::Clear } else { Verdict::Thin });
        let text = format!("Recommended: {}", circle(view, choice.radius_m, choice.turn));
        ui.label(RichText::new(text).family(bold()).size(18.0));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let same = plan.turn == choice.turn && (plan.radius.m() - choice.radius_m).abs() < 0.05;
            if same {
                ui.label("as planned");
            } else if ui.add(Button::new("Use it")).on_hover_text("the plan's radius and way round").clicked() {
                out.extend(apply::circle(view, choice.radius_m, choice.turn));
            }
        });
    });
    ui.label(format!("{}{}", away(view, study, choice), held(study, choice)));
    ui.label(RichText::new(planned(view, study)).family(bold()));
}

fn mark(ui: &mut Ui, view: &View<'_>, verdict: Verdict) {
    let (rect, _) = ui.allocate_exact_size(vec2(MARK, MARK), Sense::hover());
    map::verdict_mark(ui.painter(), rect.center(), 8.0, verdict, view.palette);
}

/// The band that a circle is in.
fn around(bands: &[Band], radius_m: f64, turn: Turn) -> Option<&Band> {
    let holds = |band: &&Band| band.turn == turn && (band.low.radius_m..=band.high.radius_m).contains(&radius_m);
    bands.iter().find(holds)
}

/// How far the recommended circle is from each end of the band.
fn away(view: &View<'_>, study: &RadiusStudy, choice: &Choice) -> String {
    let Some(band) = around(&study.bands.mean, choice.radius_m, choice.turn) else { return String::new() };
    let [up, down] = [choice.radius_m - band.low.radius_m, band.high.radius_m - choice.radius_m];
    format!("{} above the lower end of its band, {} below the upper;", metres(view, up), metres(view, down))
}

/// In what else than the mean wind it holds.
fn held(study: &RadiusStudy, choice: &Choice) -> String {
    let gust = match met(&study.limits, &choice.gust) {
        None => " holds in the gusts too.".to_owned(),
        Some(missed) => format!(" not in the gusts: {missed}."),
    };
    match choice.verdict {
        None => format!("{gust} A first look: no trial has said yet what it is worth."),
        Some(verdict) => format!("{gust} {}.", verdict.told()),
    }
}

/// Where the plan stands to the bands of its own way round.
fn planned(view: &View<'_>, study: &RadiusStudy) -> String {
    let plan = &view.session.draft.file().recovery;
    let (radius, turn) = (plan.radius.m(), plan.turn);
    let name = format!("The plan, {}, is", metres(view, radius));
    let bands = || study.bands.mean.iter().filter(|band| band.turn == turn);
    if let Some(band) = around(&study.bands.mean, radius, turn) {
        let [up, down] = [radius - band.low.radius_m, band.high.radius_m - radius];
        let nearest = if up <= down { ("lower", up) } else { ("upper", down) };
        return format!("{name} in the band, {} from its {} end.", metres(view, nearest.1), nearest.0);
    }
    let short = |band: &Band| (band.low.radius_m - radius).max(radius - band.high.radius_m);
    match bands().min_by(|a, b| short(a).total_cmp(&short(b))) {
        Some(band) if radius < band.low.radius_m => format!("{name} {} below the band.", metres(view, short(band))),
        Some(band) => format!("{name} {} above the band.", metres(view, short(band))),
        None => format!("{name} in no band: there is none that way round."),
    }
}

/// No circle: what is missing, and what eats the room.
fn empty(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy) {
    let palette = view.palette;
    let frame = Frame::new()
        .fill(palette.tint[0])
        .stroke(Stroke::new(2.5, palette.hatch[0]))
        .corner_radius(4)
        .inner_margin(Margin::symmetric(8, 5));
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.horizontal(|ui| {
            mark(ui, view, Verdict::Breached);
            ui.label(RichText::new(short_of(view, study)).family(bold()).size(18.0));
        });
        ui.label(gap(view, study));
        let eaten = eaten(view, study);
        if !eaten.is_empty() {
            ui.label(eaten);
        }
        if !study.already.is_empty() {
            let already = study.already.join("; ");
            ui.label(format!("No circle mends what is not met before the jet acts: {already}."));
        }
    });
}

/// How much room is missing between what the bank limit needs and what the field leaves, metres.
fn missing_m(study: &RadiusStudy) -> Option<f64> {
    let missing = study.closed.smallest_m[1] - study.closed.largest_m.max(0.0);
    (missing > 0.0).then_some(missing)
}

fn short_of(view: &View<'_>, study: &RadiusStudy) -> String {
    match missing_m(study) {
        Some(missing) => format!("No circle fits: {} short", metres(view, missing)),
        None => "No circle fits".into(),
    }
}

fn gap(view: &View<'_>, study: &RadiusStudy) -> String {
    let [_, mean, _] = study.closed.smallest_m;
    let (largest, reason) = (study.closed.largest_m, &study.closed.largest_reason);
    let needs = format!("The bank limit holds {} at least in the mean wind;", metres(view, mean));
    if largest <= 0.0 {
        return format!("{needs} the hub itself is nearer than the standoff to {reason}.");
    }
    if mean > largest {
        return format!("{needs} the field leaves {} at most ({reason}, standoff kept).", metres(view, largest));
    }
    let least_bad = study.least_bad.as_ref().map_or_else(String::new, |choice| {
        let missed = met(&study.limits, &choice.mean).unwrap_or_else(|| "the circle is not held".into());
        let told = choice.verdict.map_or_else(String::new, |verdict| format!(" {}.", verdict.told()));
        format!(" Nearest is {}:{told} Without errors: {missed}.", circle(view, choice.radius_m, choice.turn))
    });
    let (from, to) = (metres(view, mean), metres(view, largest));
    format!("Bank limit and field alone would leave {from} to {to}, but no radius flown is known to hold.{least_bad}")
}

/// The largest lines of the buffer stack.
fn eaten(view: &View<'_>, study: &RadiusStudy) -> String {
    let mut buffers: Vec<_> = study.buffers.iter().filter(|buffer| buffer.metres >= 0.5).collect();
    if buffers.is_empty() {
        return String::new();
    }
    buffers.sort_by(|a, b| b.metres.total_cmp(&a.metres));
    let lines: Vec<_> =
        buffers.iter().take(3).map(|buffer| format!("{} {}", buffer.name, metres(view, buffer.metres))).collect();
    format!("What eats the room: {}.", lines.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::beside::answer_now;
    use crate::app::{Grade, Session};
    use crate::run::Scenario;

    fn said(session: &Session) -> (std::sync::Arc<RadiusStudy>, String) {
        let study = session.answers.radius.as_ref().unwrap().found.clone();
        let words = planned(&View::new(session), &study);
        (study, words)
    }

    #[test]
    fn the_room_missing_about_the_peg_is_that_of_the_closed_forms() {
        let mut file = Scenario::tight_strip().file;
        file.field.as_mut().unwrap().hub_m = Some([0.0, 0.0]);
        let mut session = Session::new(Scenario::from_file(file).unwrap(), Vec::new(), None);
        answer_now(&mut session, Grade::Coarse);
        let (study, words) = said(&session);
        // By hand: the hub is 95 m from the paddock, the standoff 20 m.
        assert!((study.closed.largest_m - 75.0).abs() < 1e-9);
        let missing = missing_m(&study).unwrap();
        assert!((missing - (study.closed.smallest_m[1] - 75.0)).abs() < 1e-9);
        assert!(words.contains("in no band"), "{words}");
    }
}
