//! Does the board of the circle show what the studies found, and change in the plan what is pressed, dragged and typed?

use std::sync::{Arc, LazyLock};

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{Key, Modifiers, Pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use glam::DVec2;
use peewit::app::{Answer, AppCommand, Board, Change, CircleView, Doing, Grade, Session, Shown, Theme};
use peewit::margins::Outcome;
use peewit::recovery::Turn;
use peewit::run::Scenario;
use peewit::study::envelope::{EnvelopeAsk, envelope};
use peewit::study::radius::{Choice, RadiusAsk, RadiusStudy, Step, study, study_briefly};
use peewit::study::verdict;
use peewit::study::wind_limit::{WindLimitAsk, wind_limit};
use peewit::study::work::Work;
use peewit::units::{Bearing, Length, Ratio, Speed};
use peewit::words::{counted, end, figure};

use crate::panels::{Stage, check_not_cut, click, press, stage, texts};

const SMALL: [f32; 2] = [1366.0, 768.0];

/// Answers every question of the board with few trials, as if it had been refined.
pub(crate) fn answered(mut session: Session) -> Session {
    fn answer<T>(session: &Session, found: T) -> Option<Answer<T>> {
        Some(Answer { found: Arc::new(found), edition: session.edition, grade: Grade::Refined })
    }
    let scenario = session.flown.as_ref().unwrap().scenario.clone();
    let work = Work::default();
    let radius = study(&scenario, &RadiusAsk { trials: 128, ..RadiusAsk::usual() }, &work);
    session.answers.radius = answer(&session, radius);
    let own_circle = study_briefly(&scenario, &RadiusAsk { trials: 128, ..RadiusAsk::own_circle(&scenario) }, &work);
    session.answers.own_circle = answer(&session, own_circle);
    let winds = wind_limit(&scenario, &WindLimitAsk { trials: 64, ..WindLimitAsk::usual(&scenario) }, &work);
    session.answers.wind_limit = answer(&session, winds);
    let rings = envelope(&scenario, &EnvelopeAsk { trials: 200, ..EnvelopeAsk::usual() }, &work);
    session.answers.envelope = answer(&session, rings);
    session
}

/// The demo about its datum peg, where no circle fits.
pub(crate) fn empty() -> Session {
    static ONCE: LazyLock<Session> = LazyLock::new(|| {
        let mut file = crate::support::tight_strip().file;
        file.field.as_mut().unwrap().centre_m = Some([0.0, 0.0]);
        let scenario = Scenario::from_file(file).unwrap();
        answered(Session::new(scenario, Vec::new(), Some("at-the-peg.json".into())))
    });
    ONCE.clone()
}

/// The demo with its centre 80 m further south, in next to no wind, and asked for so little that few trials tell: there
/// is usable radii.
pub(crate) fn open() -> Session {
    static ONCE: LazyLock<Session> = LazyLock::new(|| {
        let mut file = crate::support::tight_strip().file;
        file.field.as_mut().unwrap().centre_m = Some([0.0, -80.0]);
        (file.wind.mean, file.wind.gust) = (Speed::new(1.0), Some(Speed::new(2.0)));
        (file.limits.crossed_at_most, file.limits.kept_at_least) = (Ratio::new(0.2), Ratio::new(0.5));
        let scenario = Scenario::from_file(file).unwrap();
        answered(Session::new(scenario, Vec::new(), Some("demo.json".into())))
    });
    ONCE.clone()
}

fn found(session: &Session) -> Arc<RadiusStudy> {
    session.answers.radius.as_ref().unwrap().found.clone()
}

fn all(harness: &Harness<'_, Stage>) -> String {
    texts(harness).into_iter().map(|(text, ..)| text + "\n").collect()
}

#[track_caller]
fn check_says(harness: &Harness<'_, Stage>, words: &str) {
    let all = all(harness);
    assert!(all.contains(words), "\"{words}\" is not on the screen:\n{all}");
}

#[test]
fn no_usable_radii_says_so_with_the_room_missing_and_the_room_budget() {
    let session = empty();
    let study = found(&session);
    assert!(study.usable.mean.is_empty(), "about the peg no circle fits");
    let missing = study.closed.smallest_m[1] - study.closed.largest_m;
    let harness = stage(session, [1366.0, 1800.0]);
    check_says(&harness, &format!("No circle fits: {} m short", figure(missing)));
    check_says(&harness, &study.closed.largest_reason);
    check_says(&harness, "Room budget: ");
    check_says(&harness, "What would help");
}

#[test]
fn a_remedy_pressed_is_taken_over_as_one_step() {
    let session = empty();
    let study = found(&session);
    let remedy =
        study.remedies.iter().find(|remedy| matches!(remedy.step, Step::Centre(_)) && !remedy.usable.is_empty());
    let remedy = remedy.expect("another centre makes radii usable in the demo");
    let Step::Centre(centre) = remedy.step else { unreachable!() };
    let mut harness = stage(session, [1366.0, 1800.0]);
    let node = harness
        .get_by(|node| node.role() == Role::Button && node.label().is_some_and(|l| l.starts_with(&remedy.change)));
    node.click();
    harness.run_steps(2);
    let session = &harness.state().session;
    assert_eq!(session.draft.field().unwrap().centre_m, Some(centre.to_array()));
    let plan = &session.draft.file().recovery;
    let inside = remedy
        .usable
        .iter()
        .any(|range| range.turn == plan.turn && (range.low.radius_m..=range.high.radius_m).contains(&plan.radius.m()));
    assert!(inside, "{} m is not in {:?}", plan.radius.m(), remedy.usable);
    assert_eq!(session.draft.to_undo(), Some(remedy.change.as_str()));
    harness.state_mut().session.apply(AppCommand::Undo, Shown::default().lens);
    assert!(!harness.state().session.draft.is_changed());
}

#[test]
fn usable_radii_are_told_with_their_ends_their_reasons_and_the_circle_recommended() {
    let session = open();
    let study = found(&session);
    let choice = study.choice.clone().expect("there is a circle that holds");
    let planned =
        study.usable.trials.iter().find(|range| range.turn == Turn::Anticlockwise).expect("usable radii").clone();
    let mut harness = stage(session, [1366.0, 1400.0]);
    let turn = if choice.turn == Turn::Clockwise { "clockwise" } else { "anticlockwise" };
    check_says(&harness, &format!("Recommended: {} m {turn}", figure(choice.radius_m)));
    for edge in [&planned.low, &planned.high] {
        check_says(&harness, &format!("{} m: {}", figure(edge.radius_m), end(edge)));
    }
    check_says(&harness, " among the usable radii, ");
    check_says(&harness, &choice.verdict.unwrap().in_words());
    harness.state_mut().session.apply(AppCommand::Turn(peewit::app::Knob::Radius, 40.0), Shown::default().lens);
    harness.run_steps(2);
    check_says(&harness, &format!("is {} m below the usable radii", figure(planned.low.radius_m - 40.0)));
    click(&mut harness, "Use it");
    let plan = &harness.state().session.draft.file().recovery;
    assert!((plan.radius.m() - choice.radius_m).abs() < 1e-9 && plan.turn == choice.turn);
}

#[test]
fn every_view_has_a_button_a_key_and_the_numbers_of_its_study() {
    let mut harness = stage(open(), [1366.0, 2400.0]);
    let study = found(&harness.state().session);
    let winds = harness.state().session.answers.wind_limit.as_ref().unwrap().found.clone();
    for view in CircleView::ALL {
        press(&mut harness, view.key());
        assert_eq!(harness.state().session.circle, view);
        click(&mut harness, CircleView::Margins.name());
        assert_eq!(harness.state().session.circle, CircleView::Margins);
        click(&mut harness, view.name());
        assert_eq!(harness.state().session.circle, view);
        match view {
            CircleView::Radii => check_says(&harness, &end(&study.usable.mean[0].low)),
            CircleView::Margins => {
                for row in &harness.state().session.flown.as_ref().unwrap().margins.rows {
                    check_says(&harness, &row.name);
                }
            }
            CircleView::Wind => {
                let worst = &winds.directions[winds.worst.unwrap()];
                check_says(&harness, &format!("{} m/s", figure(worst.wind_limit_mps.unwrap())));
                check_says(&harness, &format!("{} m/s hand-held, at 2 m", figure(worst.at_2m_mps.unwrap()[1])));
                check_says(&harness, "The maximum bank holds the plan's radius");
            }
            CircleView::Room => {
                for part in &study.budget {
                    check_says(&harness, part.name);
                    check_says(&harness, &part.origin);
                }
                check_says(&harness, "apart, not one of them");
            }
            CircleView::Lap => {
                let lap = harness.state().session.flown.as_ref().unwrap().lap.clone().expect("a whole lap");
                let most = lap.load.iter().copied().fold(0.0, f64::max);
                check_says(&harness, &format!("Load up to {most:.2}"));
                check_says(&harness, "needed to hold the circle");
            }
            CircleView::Doubts => {
                for input in &study.sensitivity {
                    check_says(&harness, input.input);
                }
                let trials = &study.choice.as_ref().unwrap().trials;
                for (outcome, count) in Outcome::ALL.into_iter().zip(trials.outcomes) {
                    check_says(&harness, outcome.name());
                    check_says(&harness, &counted(count, trials.trials, study.ask.confidence));
                }
                check_says(&harness, "field of directions, nominal");
            }
        }
    }
}

#[test]
fn one_press_turns_the_wind_to_the_worst_direction() {
    let mut session = open();
    session.circle = CircleView::Wind;
    let winds = session.answers.wind_limit.as_ref().unwrap().found.clone();
    let worst = winds.directions[winds.worst.unwrap()].from_deg;
    let mut file = session.draft.file().clone();
    file.wind.from = Bearing::from_deg(worst + 90.0);
    session.apply(AppCommand::Edit(Box::new(Change { what: "turn it".into(), file })), Shown::default().lens);
    let mut harness = stage(session, [1366.0, 1400.0]);
    click(&mut harness, "Turn the wind there");
    let from = harness.state().session.draft.file().wind.from.deg();
    assert!((from - worst).abs() < 1e-9, "from {from} instead of {worst}");
    check_says(&harness, "Worst, and the wind's now: ");
}

#[test]
fn the_best_centre_is_one_press_away() {
    let mut session = empty();
    session.circle = CircleView::Room;
    let best = found(&session).best_centre.clone().unwrap();
    let mut harness = stage(session, [1366.0, 1800.0]);
    harness.get_by_label_contains("Move the centre there").click();
    harness.run_steps(2);
    let draft = &harness.state().session.draft;
    assert_eq!(draft.field().unwrap().centre_m, Some(best.centre.to_array()));
    assert!((draft.file().recovery.radius.m() - best.radius_m).abs() < 1e-9);
}

/// Drags from one place of the screen to another in a few moves.
fn drag(harness: &mut Harness<'_, Stage>, from: Pos2, to: Pos2) {
    harness.hover_at(from);
    harness.run_steps(1);
    harness.drag_at(from);
    harness.run_steps(1);
    for part in [0.25, 0.5, 0.75, 1.0] {
        harness.hover_at(from.lerp(to, part));
        harness.run_steps(1);
    }
    harness.drop_at(to);
    harness.run_steps(2);
}

#[test]
fn a_drag_of_the_centre_is_one_step_and_flies_at_every_move() {
    let mut harness = stage(empty(), SMALL);
    let (lens, flights) = (harness.state().lens, harness.state().session.flights);
    let centre = harness.state().session.flown.as_ref().unwrap().scenario.field.centre;
    let from = lens.screen(centre);
    drag(&mut harness, from + vec2(3.0, -2.0), from + vec2(53.0, 38.0));
    let session = &harness.state().session;
    let wanted = centre + DVec2::new(50.0, -40.0) * lens.metres_a_point;
    let now = DVec2::from(session.draft.field().unwrap().centre_m.unwrap());
    assert!(now.distance(wanted) < 1.0, "{now} instead of {wanted}");
    assert!(session.flights >= flights + 3, "flown {} times", session.flights - flights);
    assert_eq!(session.flown.as_ref().unwrap().scenario.field.centre, now);
    assert_eq!(session.draft.to_undo(), Some("move the centre"));
    harness.state_mut().session.apply(AppCommand::Undo, lens);
    assert!(!harness.state().session.draft.is_changed());
}

#[test]
fn the_grip_on_the_ring_drags_the_radius() {
    let mut harness = stage(empty(), SMALL);
    let lens = harness.state().lens;
    let grip = harness.get_by_role_and_label(Role::Slider, "radius of the circle").rect().center();
    let before = harness.state().session.draft.file().recovery.radius.m();
    let centre = lens.screen(harness.state().session.flown.as_ref().unwrap().scenario.field.centre);
    let to = grip + (grip - centre).normalized() * 30.0;
    drag(&mut harness, grip, to);
    let after = harness.state().session.draft.file().recovery.radius.m();
    let wanted = before + 30.0 * lens.metres_a_point;
    assert!((after - wanted).abs() < 1.0, "{after} instead of {wanted}");
    harness.state_mut().session.apply(AppCommand::Undo, lens);
    assert!(!harness.state().session.draft.is_changed());
}

#[test]
fn the_arrow_of_the_wind_is_turned_and_pulled() {
    let mut harness = stage(empty(), SMALL);
    let lens = harness.state().lens;
    let tail = harness.get_by_role_and_label(Role::Slider, "wind").rect().center();
    let file = harness.state().session.draft.file().clone();
    assert_eq!(file.wind.from.deg(), 180.0, "the demo's wind comes from the south");
    // The tail is below the middle: to the right of it is east.
    drag(&mut harness, tail, tail + vec2(30.0, 0.0));
    let wind = harness.state().session.draft.file().wind;
    assert!((100.0..179.0).contains(&wind.from.deg()), "from {}", wind.from.deg());
    assert!(wind.mean.mps() > file.wind.mean.mps() + 0.5, "{}", wind.mean.mps());
    let proportion = wind.gust().mps() / wind.mean.mps();
    assert!((proportion - file.wind.gust().mps() / file.wind.mean.mps()).abs() < 1e-9);
    harness.state_mut().session.apply(AppCommand::Undo, lens);
    assert!(!harness.state().session.draft.is_changed());
}

#[test]
fn every_handle_is_moved_by_the_arrows_too() {
    let mut harness = stage(empty(), SMALL);
    let before = harness.state().session.draft.file().clone();
    let centre = before.field.as_ref().unwrap();
    let centre = DVec2::from(centre.centre_m.unwrap_or(centre.home_m));
    let focus = |harness: &mut Harness<'_, Stage>, label: &str| {
        harness.get_by_role_and_label(Role::Slider, label).focus();
        harness.run_steps(2);
    };
    focus(&mut harness, "centre");
    press(&mut harness, Key::ArrowRight);
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    harness.run_steps(2);
    let field = harness.state().session.draft.field().unwrap().clone();
    assert_eq!(field.centre_m, Some((centre + DVec2::new(1.0, -10.0)).to_array()));
    focus(&mut harness, "radius of the circle");
    press(&mut harness, Key::ArrowUp);
    let radius = harness.state().session.draft.file().recovery.radius.m();
    assert!((radius - before.recovery.radius.m() - 1.0).abs() < 1e-9, "{radius}");
    focus(&mut harness, "wind");
    press(&mut harness, Key::ArrowRight);
    press(&mut harness, Key::ArrowUp);
    let wind = harness.state().session.draft.file().wind;
    assert!((wind.from.deg() - before.wind.from.deg() - 1.0).abs() < 1e-9, "{}", wind.from.deg());
    assert!((wind.mean.mps() - before.wind.mean.mps() - 0.1).abs() < 1e-9, "{}", wind.mean.mps());
}

#[test]
fn the_curve_sets_the_radius_by_a_press_and_by_the_arrows() {
    let mut harness = stage(open(), SMALL);
    let curve = "furthest distance from the centre by commanded radius";
    let rect = harness.get_by_role_and_label(Role::Slider, curve).rect();
    let radius = |harness: &Harness<'_, Stage>| harness.state().session.draft.file().recovery.radius.m();
    let mut press_at = |share: f32| {
        let at = Pos2::new(rect.left() + rect.width() * share, rect.bottom() - 30.0);
        harness.hover_at(at);
        harness.run_steps(1);
        harness.drag_at(at);
        harness.run_steps(1);
        harness.drop_at(at);
        harness.run_steps(2);
        radius(&harness)
    };
    // The radii flown are 40 to 260 m; the scale ends on ticks about them.
    let (low, high) = (press_at(0.001), press_at(0.999));
    assert!((0.0..=40.0).contains(&low) && (260.0..=300.0).contains(&high), "{low} to {high}");
    // Even between its ends: as far from one press to the next as from that to the end.
    let (further, first) = (press_at(0.7), press_at(0.4));
    assert!((further - first - (high - further)).abs() < 4.0, "{first}, {further}, {high}");
    assert!((first + 0.4 / 0.3 * (first - further)).abs() < 45.0, "{first}, {further}");
    harness.get_by_role_and_label(Role::Slider, curve).focus();
    harness.run_steps(2);
    press(&mut harness, Key::ArrowLeft);
    assert!((radius(&harness) - first + 1.0).abs() < 1e-9);
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
    harness.run_steps(2);
    assert!((radius(&harness) - first - 9.0).abs() < 1e-9);
}

#[test]
fn the_way_round_is_two_buttons_and_a_plan_can_be_kept() {
    let mut harness = stage(empty(), SMALL);
    click(&mut harness, "\u{21bb} clockwise");
    assert_eq!(harness.state().session.draft.file().recovery.turn, Turn::Clockwise);
    click(&mut harness, "Keep this plan to compare");
    assert!(harness.state().session.kept.is_some());
    click(&mut harness, "Drop the kept plan");
    assert!(harness.state().session.kept.is_none());
}

#[test]
fn work_is_shown_stopped_and_let_go_on() {
    let mut session = empty();
    session.doing = Doing::Working { what: "which radius", done: 3, of: 10 };
    let mut harness = stage(session, SMALL);
    let _ = harness.get_by_label("Working out which radius: 30 % of it");
    click(&mut harness, "Stop");
    assert_eq!(harness.state().session.doing, Doing::Stopped);
    let _ = harness.get_by_label("Stopped: what was found so far stands.");
    click(&mut harness, "Go on");
    assert_eq!(harness.state().session.doing, Doing::Resting);
}

#[test]
fn an_answer_says_what_it_is_not() {
    let mut harness = stage(open(), SMALL);
    assert!(!all(&harness).contains("being worked out again"));
    harness.state_mut().session.apply(AppCommand::Turn(peewit::app::Knob::Radius, 100.0), Shown::default().lens);
    harness.run_steps(2);
    check_says(&harness, "of the plan before: being worked out again");
    let mut coarse = open();
    coarse.answers.radius.as_mut().unwrap().grade = Grade::Coarse;
    check_says(&stage(coarse, SMALL), "first look: few trials");
    let mut partial = open();
    let answer = partial.answers.radius.as_mut().unwrap();
    answer.found = Arc::new(RadiusStudy { partial: true, ..(*answer.found).clone() });
    check_says(&stage(partial, SMALL), "stopped half-way");
    let mut none = open();
    none.answers = peewit::app::Answers::default();
    check_says(&stage(none, SMALL), "Being worked out.");
}

#[test]
fn answers_of_a_plan_that_cannot_be_flown_say_that_they_are_of_before() {
    let mut session = open();
    let mut file = session.draft.file().clone();
    file.recovery.radius = Length::new(-5.0);
    session.apply(AppCommand::Edit(Box::new(Change { what: "spoil it".into(), file })), Shown::default().lens);
    assert!(!session.is_current());
    for view in CircleView::ALL {
        let mut session = session.clone();
        session.circle = view;
        let harness = stage(session, SMALL);
        check_says(&harness, "of the last field that could be flown");
        check_says(&harness, "As entered it can't be flown: answers are of before.");
    }
}

#[test]
fn nothing_is_recommended_but_what_trials_say_yes_to() {
    let says = |change: &dyn Fn(&mut RadiusStudy)| {
        let mut session = open();
        let answer = session.answers.radius.as_mut().unwrap();
        let mut study = (*answer.found).clone();
        change(&mut study);
        answer.found = Arc::new(study);
        all(&stage(session, [1366.0, 1800.0]))
    };
    assert!(says(&|_| ()).contains("Recommended: "));
    let first = says(&|study| {
        (study.ask.trials, study.ask.first_look) = (8, true);
        study.usable.trials.clear();
        study.usable.undecided.clear();
        study.choice.as_mut().unwrap().verdict = None;
    });
    assert!(first.contains("First look, no verdict: ") && first.contains("first look, N = 8: no verdict"), "{first}");
    assert!(!first.contains("ecommended"), "{first}");
    let undecided = says(&|study| {
        let Choice { verdict, .. } = study.choice.as_mut().unwrap();
        let verdict = verdict.as_mut().unwrap();
        (verdict.answer, verdict.keeping) = (verdict::Answer::Undecided, verdict::Answer::Undecided);
        study.least_bad = study.choice.take();
        study.usable.undecided = std::mem::take(&mut study.usable.trials);
    });
    assert!(undecided.contains("Nothing holds; nearest is ") && undecided.contains("Undecided: stays inside"));
    assert!(undecided.contains("among the undecided") && !undecided.contains("ecommended"), "{undecided}");
}

#[test]
fn one_verdict_stands_over_every_board_with_its_shares() {
    let told = open().answers.own_circle.unwrap().found.plan.unwrap();
    for board in Board::ALL {
        let mut session = open();
        session.board = board;
        let mut harness = stage(session, SMALL);
        check_says(&harness, "Holds:");
        check_says(&harness, &told.shares_told());
        // An edit leaves the trials of the plan before, said to be those; a first look has no verdict.
        harness.state_mut().session.apply(AppCommand::Turn(peewit::app::Knob::Radius, 100.0), Shown::default().lens);
        harness.run_steps(2);
        check_says(&harness, &format!("{} [of the plan before", told.shares_told()));
        let mut first = (*harness.state().session.answers.own_circle.as_ref().unwrap().found).clone();
        first.plan = None;
        harness.state_mut().session.answers.own_circle.as_mut().unwrap().found = Arc::new(first);
        harness.run_steps(2);
        check_says(&harness, "No verdict yet");
    }
}

#[test]
fn nothing_is_cut_or_too_small_in_any_view() {
    for theme in [Theme::Light, Theme::Dark] {
        for (session, size) in [(empty(), SMALL), (open(), SMALL), (open(), [1920.0, 1080.0])] {
            for view in CircleView::ALL {
                let mut session = session.clone();
                (session.circle, session.settings.theme) = (view, theme);
                let harness = stage(session, size);
                for (text, rect, room, size) in texts(&harness) {
                    assert!(size >= 14.0, "\"{text}\" is {size} points high");
                    check_not_cut(&text, rect, room.expand(1.0));
                }
            }
        }
    }
}

#[test]
fn the_board_comes_to_rest() {
    for view in CircleView::ALL {
        let mut session = open();
        session.circle = view;
        let mut harness = stage(session, SMALL);
        harness.run_steps(8);
        let causes = harness.ctx.repaint_causes();
        assert!(harness.try_run().is_ok(), "{view:?} is drawn again and again because of {causes:?}");
    }
}
