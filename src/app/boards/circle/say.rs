//! The answer in words: the circle recommended and where the plan stands, or that nothing holds, which is nearest, and
//! by how much.

use bevy_egui::egui::{Frame, Margin, RichText, Sense, Stroke, Ui, vec2};

use super::apply;
use crate::app::look::marks::answer_mark;
use crate::app::look::theme::{bold, primary};
use crate::app::session::{AppCommand, View};
use crate::recovery::Turn;
use crate::study::radius::{Choice, RadiusRange, RadiusStudy};
use crate::study::verdict::Answer;
use crate::words::{self, capital, met, shortfalls};

/// Room for the verdict's mark, points.
const MARK: f32 = 22.0;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    match &study.choice {
        Some(choice) => recommended(ui, view, study, choice, out),
        None => empty(ui, view, study),
    }
}

/// The circle that holds best; at a first look the likeliest, without a verdict.
fn recommended(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, choice: &Choice, out: &mut Vec<AppCommand>) {
    let plan = &view.session.draft.file().recovery;
    let answer = choice.verdict.map(|verdict| verdict.answer);
    ui.horizontal_wrapped(|ui| {
        mark(ui, view, answer);
        let stands = words::standing(study.standing(choice.radius_m, choice.turn));
        let lead = if answer == Some(Answer::Yes) { capital(stands) } else { "First look, no verdict".into() };
        let text = RichText::new(format!("{lead}: {}", view.circle(choice.radius_m, choice.turn)));
        let colour = if answer.is_some() { view.palette.ink } else { view.palette.soft };
        ui.label(text.family(bold()).color(colour));
        let same = plan.turn == choice.turn && (plan.radius.m() - choice.radius_m).abs() < 0.05;
        if same {
            ui.label("as planned");
        } else if ui.add(primary("Use it", view.palette)).on_hover_text("the plan's radius and way round").clicked() {
            out.extend(apply::circle(view, choice.radius_m, choice.turn));
        }
    });
    ui.label(held(study, choice));
    let stands = format!("{}{}", away(view, study, choice), planned(view, study));
    ui.label(stands.trim_end());
}

fn mark(ui: &mut Ui, view: &View<'_>, answer: Option<Answer>) {
    let (rect, _) = ui.allocate_exact_size(vec2(MARK, MARK), Sense::hover());
    answer_mark(ui.painter(), rect.center(), 8.0, answer, view.palette);
}

/// The usable radii that a circle is among.
fn around(usable: &[RadiusRange], radius_m: f64, turn: Turn) -> Option<&RadiusRange> {
    let holds =
        |range: &&RadiusRange| range.turn == turn && (range.low.radius_m..=range.high.radius_m).contains(&radius_m);
    usable.iter().find(holds)
}

/// How far the recommended circle is from each end of its usable radii.
fn away(view: &View<'_>, study: &RadiusStudy, choice: &Choice) -> String {
    let Some(range) = around(&study.usable.trials, choice.radius_m, choice.turn) else { return String::new() };
    let [up, down] = [choice.radius_m - range.low.radius_m, range.high.radius_m - choice.radius_m];
    format!("{} above the lower end of the usable radii, {} below the upper. ", view.metres(up), view.metres(down))
}

/// What its trials say, and what the gusts do to it.
fn held(study: &RadiusStudy, choice: &Choice) -> String {
    let gust = match met(&study.limits, &choice.gust) {
        None => "in a steady gust wind too".to_owned(),
        Some(missed) => format!("not in a steady gust wind: {missed}"),
    };
    match choice.verdict {
        None => "Few trials: green and red come with the verdict.".into(),
        Some(verdict) => format!("{}; {gust}.", verdict.in_words()),
    }
}

/// Where the plan stands to the usable radii of its own way round that hold; nothing at a first look.
fn planned(view: &View<'_>, study: &RadiusStudy) -> String {
    if !study.ask.judges() {
        return String::new();
    }
    let plan = &view.session.draft.file().recovery;
    let (radius, turn) = (plan.radius.m(), plan.turn);
    let name = format!("The plan, {}, is", view.metres(radius));
    let usable = || study.usable.trials.iter().filter(|range| range.turn == turn);
    if let Some(range) = around(&study.usable.trials, radius, turn) {
        let [up, down] = [radius - range.low.radius_m, range.high.radius_m - radius];
        let nearest = if up <= down { ("lower", up) } else { ("upper", down) };
        return format!("{name} among the usable radii, {} from their {} end.", view.metres(nearest.1), nearest.0);
    }
    if around(&study.usable.undecided, radius, turn).is_some() {
        return format!("{name} among the undecided.");
    }
    let short = |range: &RadiusRange| (range.low.radius_m - radius).max(radius - range.high.radius_m);
    match usable().min_by(|a, b| short(a).total_cmp(&short(b))) {
        Some(range) if radius < range.low.radius_m => {
            format!("{name} {} below the usable radii.", view.metres(short(range)))
        }
        Some(range) => format!("{name} {} above the usable radii.", view.metres(short(range))),
        None => format!("{name} not usable: no radius is that way round."),
    }
}

/// No circle holds: the nearest, what is missing, and the room budget. Never green; at a first look not red either.
fn empty(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy) {
    let palette = view.palette;
    let judged = study.ask.judges();
    let (ground, edge) = if judged { (palette.tint[0], palette.hatch[0]) } else { (palette.paper, palette.rule) };
    let frame = Frame::new().fill(ground).stroke(Stroke::new(2.5, edge)).corner_radius(4);
    frame.inner_margin(Margin::symmetric(8, 5)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.horizontal_wrapped(|ui| {
            let verdict = study.least_bad.as_ref().and_then(|choice| choice.verdict);
            let answer = verdict.map_or(Answer::No, |verdict| verdict.answer);
            mark(ui, view, judged.then_some(answer));
            ui.label(RichText::new(short_of(view, study)).family(bold()));
        });
        let plan = &view.session.draft.file().recovery;
        if around(&study.usable.undecided, plan.radius.m(), plan.turn).is_some() {
            ui.label(RichText::new(planned(view, study)).family(bold()));
        }
        ui.label(gap(view, study));
        let eaten = eaten(view, study);
        if !eaten.is_empty() {
            ui.label(eaten);
        }
        if !study.already.is_empty() {
            let already = shortfalls(&study.already);
            ui.label(format!("No circle fixes what is not met before the jet acts: {already}."));
        }
    });
}

/// How much room is missing between what the maximum bank needs and what the field leaves, metres.
fn missing_m(study: &RadiusStudy) -> Option<f64> {
    let missing = study.closed.smallest_m[1] - study.closed.largest_m.max(0.0);
    (missing > 0.0).then_some(missing)
}

fn short_of(view: &View<'_>, study: &RadiusStudy) -> String {
    let nearest = study.least_bad.as_ref();
    let nearest = nearest.map(|choice| format!("; nearest is {}", view.circle(choice.radius_m, choice.turn)));
    match (missing_m(study), nearest) {
        (Some(missing), _) => format!("No circle fits: {} short", view.metres(missing)),
        (None, nearest) if study.ask.judges() => format!("Nothing holds{}", nearest.unwrap_or_default()),
        (None, nearest) => format!("First look, no verdict{}", nearest.unwrap_or_default()),
    }
}

fn gap(view: &View<'_>, study: &RadiusStudy) -> String {
    let [_, mean, _] = study.closed.smallest_m;
    let (largest, reason) = (study.closed.largest_m, &study.closed.largest_reason);
    let needs = format!("The maximum bank holds {} at least in the mean wind;", view.metres(mean));
    if largest <= 0.0 {
        return format!("{needs} the centre itself is nearer than the buffer to {reason}.");
    }
    if mean > largest {
        return format!("{needs} the field leaves {} at most ({reason}, buffer kept).", view.metres(largest));
    }
    let (from, to) = (view.metres(mean), view.metres(largest));
    let room = format!("Maximum bank and field alone would leave {from} to {to}.");
    let Some(choice) = &study.least_bad else { return room };
    let told = choice.verdict.map_or_else(String::new, |verdict| format!("{}. ", verdict.in_words()));
    let alone = met(&study.limits, &choice.mean);
    let alone = alone.map_or_else(String::new, |missed| format!(" As entered: {missed}."));
    format!("{told}{room}{alone}")
}

/// The largest lines of the room budget.
fn eaten(view: &View<'_>, study: &RadiusStudy) -> String {
    let mut lines: Vec<_> = study.budget.iter().filter(|part| part.metres >= 0.5).collect();
    if lines.is_empty() {
        return String::new();
    }
    lines.sort_by(|a, b| b.metres.total_cmp(&a.metres));
    let lines: Vec<_> =
        lines.iter().take(3).map(|part| format!("{} {}", part.name, view.metres(part.metres))).collect();
    format!("Room budget: {}.", lines.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::beside::answer_now;
    use crate::app::session::{Grade, Session};
    use crate::run::Scenario;
    use crate::study::radius::{End, Reason};

    fn said(session: &Session) -> (std::sync::Arc<RadiusStudy>, String) {
        let study = session.answers.radius.as_ref().unwrap().found.clone();
        let words = planned(&View::new(session), &study);
        (study, words)
    }

    #[test]
    fn the_room_missing_about_the_peg_is_that_of_the_closed_forms() {
        let mut file = Scenario::tight_strip().file;
        file.field.as_mut().unwrap().centre_m = Some([0.0, 0.0]);
        let mut session = Session::new(Scenario::from_file(file).unwrap(), Vec::new(), None);
        answer_now(&mut session, Grade::Coarse);
        let (study, words) = said(&session);
        // By hand: the centre is 95 m from the paddock, the buffer 20 m.
        assert!((study.closed.largest_m - 75.0).abs() < 1e-9);
        let missing = missing_m(&study).unwrap();
        assert!((missing - (study.closed.smallest_m[1] - 75.0)).abs() < 1e-9);
        assert_eq!(words, "", "a first look tells no verdict");
        let mut judged = (*study).clone();
        judged.ask.first_look = false;
        judged.usable.trials.clear();
        assert!(planned(&View::new(&session), &judged).contains("not usable"));
        judged.usable.undecided = vec![range(&judged, session.draft.file().recovery.turn)];
        assert!(planned(&View::new(&session), &judged).contains("among the undecided"));
    }

    /// All the radii asked for.
    fn range(study: &RadiusStudy, turn: Turn) -> RadiusRange {
        let end = |radius: Option<&f64>| End { radius_m: *radius.unwrap(), reason: Reason::NoneFlown };
        RadiusRange { turn, low: end(study.ask.radii_m.first()), high: end(study.ask.radii_m.last()) }
    }
}
