//! Do the panels show what they should, and ask for what was pressed? No graphics card is used.

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{self, Key, Shape};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use glam::DVec2;
use peewit::app::lens::Lens;
use peewit::app::{AppCommand, CircleView, Flown, Knob, Session, Shown, Theme, theme};
use peewit::app::{View, front};
use peewit::error::Fault;
use peewit::run::Stretch;
use peewit::words::cautions::FOOT;

/// A session that obeys at once, and what it has been asked.
pub(crate) struct Stage {
    pub(crate) session: Session,
    pub(crate) lens: Lens,
    pub(crate) asked: Vec<AppCommand>,
}

impl Stage {
    pub(crate) fn flown(&self) -> &Flown {
        self.session.flown.as_ref().unwrap()
    }
}

/// The window of a session without a screen.
pub(crate) fn stage(session: Session, size: [f32; 2]) -> Harness<'static, Stage> {
    let stage = Stage { session, lens: Shown::default().lens, asked: Vec::new() };
    let show = |ui: &mut egui::Ui, stage: &mut Stage| {
        let ctx = ui.ctx().clone();
        if ctx.global_style().visuals.panel_fill != stage.session.settings.theme.palette().paper {
            theme::apply(&ctx, stage.session.settings.theme);
        }
        if !theme::fonts_ready(&ctx) {
            return;
        }
        let mut asked = Vec::new();
        stage.lens = front::window(&ctx, &View::new(&stage.session), &mut asked);
        for command in &asked {
            stage.session.apply(command.clone(), stage.lens);
        }
        stage.asked.extend(asked);
    };
    let mut harness = Harness::builder().with_size(size).build_ui_state(show, stage);
    harness.run_steps(4);
    harness
}

fn demo() -> Harness<'static, Stage> {
    stage(session(), [1366.0, 768.0])
}

/// The demo with its margins in view.
fn session() -> Session {
    let mut session = Session::new(crate::support::tight_strip(), Vec::new(), Some("goatwillow-strip.json".into()));
    session.circle = CircleView::Margins;
    session
}

pub(crate) fn press(harness: &mut Harness<'_, Stage>, key: Key) {
    harness.key_press(key);
    harness.run_steps(2);
}

pub(crate) fn click(harness: &mut Harness<'_, Stage>, label: &str) {
    harness.get_by_role_and_label(Role::Button, label).click();
    harness.run_steps(2);
}

/// Every text that is painted, with the rectangle it may use and its smallest letters.
pub(crate) fn painted<'a>(harness: &'a Harness<'_, Stage>) -> Vec<(&'a egui::epaint::TextShape, egui::Rect, f32)> {
    let mut painted = Vec::new();
    for clipped in &harness.output().shapes {
        let mut open = vec![&clipped.shape];
        while let Some(shape) = open.pop() {
            match shape {
                Shape::Vec(more) => open.extend(more),
                Shape::Text(text) => {
                    let sizes = text.galley.job.sections.iter().map(|section| section.format.font_id.size);
                    painted.push((text, clipped.clip_rect, sizes.fold(f32::INFINITY, f32::min)));
                }
                _ => {}
            }
        }
    }
    painted
}

/// The words of every text on the screen, with where it stands, the rectangle it may use and its smallest letters.
pub(crate) fn texts(harness: &Harness<'_, Stage>) -> Vec<(String, egui::Rect, egui::Rect, f32)> {
    let told = painted(harness).into_iter().map(|(text, room, smallest)| {
        let rect = egui::Rect::from_min_size(text.pos + text.galley.rect.min.to_vec2(), text.galley.size());
        (text.galley.text().to_owned(), rect, room, smallest)
    });
    told.collect()
}

fn faults() -> Vec<Fault> {
    vec![
        Fault { line: Some(14), ..Fault::error("/field/areas/0/ring_m/3", "the ring crosses itself", "walk round it") },
        Fault::error("/wind/gusts", "unknown key \"gusts\"", "did you mean \"gust\"?"),
        Fault::warning("/jet/fan_lag", "nobody has measured this number", "measure it"),
    ]
}

/// Where a text stands that is these words and no more.
fn places(all: &[(String, egui::Rect, egui::Rect, f32)], words: &str) -> Vec<egui::Rect> {
    all.iter().filter(|(text, ..)| text == words).map(|(_, rect, ..)| *rect).collect()
}

#[test]
fn what_is_on_the_map_is_named_where_it_is() {
    let harness = demo();
    let (all, lens) = (texts(&harness), harness.state().lens);
    let scenario = &harness.state().flown().scenario;
    let field = &scenario.field;
    let area = |name: &str| field.areas.iter().find(|area| area.name == name).unwrap().region.bounds();
    let tree = |name: &str| field.obstacles.iter().find(|obstacle| obstacle.name == name).unwrap();
    let point = |at: DVec2| (at, at);
    let top = |name: &str| format!("{name}, top {:.0} m", tree(name).top_m);
    for (words, (low, high)) in [
        ("datum", point(DVec2::ZERO)),
        ("pilot", point(field.pilot)),
        ("home", point(field.home)),
        ("centre", point(field.centre)),
        ("control lost", point(DVec2::from(scenario.file.loss.at_m))),
        ("runway", point(field.runway.unwrap().to)),
        ("goat paddock, no-fly", area("goat paddock")),
        ("pits and cars, caution", area("pits and cars")),
        (&top("lone oak"), tree("lone oak").region.bounds()),
        (&top("thorn hedge"), tree("thorn hedge").region.bounds()),
    ] {
        // Words may be pushed off what they name, with a thread to it.
        let thing = egui::Rect::from_two_pos(lens.screen(low), lens.screen(high)).expand(125.0);
        let named = places(&all, words);
        let there = |named: &egui::Rect| lens.rect.contains_rect(*named) && thing.intersects(*named);
        assert!(named.iter().any(there), "\"{words}\" at {named:?}, not {thing:?}");
    }
}

#[test]
fn every_number_stands_beside_its_name() {
    // High enough that nothing has to be scrolled to.
    let mut session = session();
    session.unfolded = peewit::app::Unfolded { legend: true, heights: true };
    let harness = stage(session, [1366.0, 2400.0]);
    let all = texts(&harness);
    let beside = |name: &str, told: &str| {
        let right = |of: &egui::Rect, rect: &egui::Rect| {
            rect.left() >= of.right() && rect.left() < of.right() + 400.0 && of.y_range().contains(rect.center().y)
        };
        let told = places(&all, told);
        places(&all, name).iter().any(|name| told.iter().any(|told| right(name, told)))
    };
    let (flown, lens) = (harness.state().flown(), harness.state().lens);
    for row in &flown.margins.rows {
        assert!(beside(&row.name, row.verdict.name()), "{} is not told as {}", row.name, row.verdict.name());
    }
    let figures = &flown.margins.figures;
    let digits = |value: f64| if value.abs() < 99.95 { format!("{value:.1}") } else { format!("{value:.0}") };
    for (name, value) in [
        ("furthest from the centre", format!("{} m", digits(figures.furthest_m.unwrap()))),
        ("overshoot while joining", format!("{} m", digits(figures.joining_overshoot_m.unwrap()))),
        ("one lap", format!("{} s", digits(figures.lap_s.unwrap()))),
        ("laps to the reserve", format!("{:.1}", figures.laps_to_reserve.unwrap())),
    ] {
        assert!(beside(name, &value), "{name} is not told as {value}");
    }
    // What belongs to no other word stands alone, off the map.
    let stretches = Stretch::ALL.into_iter().filter(|stretch| flown.run.trace.stretch.contains(stretch));
    let stretches = stretches.filter(|stretch| *stretch != Stretch::TakenOver).map(Stretch::name);
    let named =
        [FOOT, "Goatwillow Strip", "commanded ring", "at the maximum bank", "smallest radius at the maximum bank"];
    for words in stretches.chain(named) {
        let found = places(&all, words);
        assert!(found.iter().any(|rect| !lens.rect.intersects(*rect)), "\"{words}\" is not on the screen");
    }
    for words in ["wind from S 180\u{b0}", "N"] {
        assert!(places(&all, words).iter().any(|rect| lens.rect.contains_rect(*rect)), "\"{words}\" is not on the map");
    }
}

#[test]
fn the_window_comes_to_rest() {
    let mut harness = demo();
    harness.run_steps(8);
    let causes = harness.ctx.repaint_causes();
    assert!(harness.try_run().is_ok(), "it is drawn again and again because of {causes:?}");
}

/// In the columns on the left and the right a text may be cut at the head or the foot, to be scrolled to; nowhere else.
#[track_caller]
pub(crate) fn check_not_cut(text: &str, rect: egui::Rect, room: egui::Rect) {
    let across = rect.left() >= room.left() && rect.right() <= room.right();
    let (head, foot) = (rect.top() < room.top(), rect.bottom() > room.bottom());
    let scrolled = room.width() < 640.0 && head != foot;
    assert!(across && (scrolled || !(head || foot)), "\"{text}\" is cut: {rect:?} in {room:?}");
}

#[test]
fn no_text_is_cut_or_too_small_on_a_small_screen() {
    for theme in [Theme::Light, Theme::Dark] {
        let mut harness = demo();
        harness.state_mut().session.settings.theme = theme;
        harness.run_steps(2);
        for (text, rect, room, size) in texts(&harness) {
            assert!(size >= 14.0, "\"{text}\" is {size} points high");
            check_not_cut(&text, rect, room.expand(1.0));
        }
    }
}

#[test]
fn everything_to_press_is_large_enough_for_a_glove() {
    let harness = demo();
    let buttons: Vec<_> = harness.get_all_by_role(Role::Button).collect();
    assert!(buttons.len() > 20, "only {} buttons", buttons.len());
    for button in buttons {
        let (rect, label) = (button.rect(), button.accesskit_node().label());
        if label.as_ref().is_some_and(|label| label.starts_with("what is ")) {
            assert!(rect.height() >= 23.5, "{label:?} is {} points high", rect.height());
            continue;
        }
        assert!(rect.height() >= 31.5, "{label:?} is {} points high", rect.height());
    }
}

#[test]
fn a_row_of_the_margins_shows_its_moment_and_its_place() {
    let mut harness = demo();
    let row = harness.state().flown().margins.rows[0].clone();
    click(&mut harness, &row.name);
    let stage = harness.state();
    assert_eq!(stage.session.chosen, Some(0));
    assert!((stage.session.playhead.at_s - row.at_s).abs() < 1e-9);
    let words = texts(&harness).into_iter().map(|(text, ..)| text).collect::<Vec<_>>();
    assert!(words.iter().any(|text| text.starts_with(&format!("1 {}:", row.name))), "{words:?}");
}

#[test]
fn a_row_of_the_margins_can_be_chosen_with_the_keyboard() {
    let mut harness = demo();
    let name = harness.state().flown().margins.rows[1].name.clone();
    harness.get_by_role_and_label(Role::Button, &name).focus();
    harness.run_steps(2);
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().session.chosen, Some(1));
}

#[test]
fn a_slider_turned_with_the_keyboard_redraws_path_and_margins() {
    for (knob, key) in Knob::ALL.into_iter().zip([Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5]) {
        let mut harness = demo();
        let before = (knob.get(&harness.state().flown().scenario.file), harness.state().flown().margins.clone());
        press(&mut harness, key);
        press(&mut harness, Key::ArrowRight);
        let after = harness.state().flown();
        assert!((knob.get(&after.scenario.file) - before.0 - knob.step()).abs() < 1e-6, "{}", knob.name());
        assert_ne!(before.1, after.margins, "{}", knob.name());
        click(&mut harness, "Back to the file's numbers");
        assert!(!harness.state().session.draft.is_changed());
    }
}

#[test]
fn sliders_are_found_by_their_names() {
    let harness = demo();
    for knob in Knob::ALL {
        let _ = harness.get_by_role_and_label(Role::Slider, knob.name());
    }
    let _ = harness.get_by_role_and_label(Role::Slider, "time since the loss");
}

#[test]
fn keys_play_scrub_zoom_fit_and_change_the_theme() {
    let mut harness = demo();
    let whole = harness.state().session.look;
    press(&mut harness, Key::Space);
    assert!(harness.state().session.playhead.playing);
    press(&mut harness, Key::Space);
    assert!(!harness.state().session.playhead.playing);
    press(&mut harness, Key::ArrowRight);
    press(&mut harness, Key::ArrowRight);
    press(&mut harness, Key::ArrowLeft);
    assert!((harness.state().session.playhead.at_s - 0.5).abs() < 1e-9);
    let before = harness.state().lens.metres_a_point;
    press(&mut harness, Key::Plus);
    harness.run_steps(1);
    assert!(harness.state().lens.metres_a_point < before);
    press(&mut harness, Key::Minus);
    harness.run_steps(1);
    assert!((harness.state().lens.metres_a_point - before).abs() < 1e-9);
    press(&mut harness, Key::F);
    assert_eq!(harness.state().session.look, whole);
    press(&mut harness, Key::T);
    assert_eq!(harness.state().session.settings.theme, Theme::Dark);
}

#[test]
fn buttons_ask_for_what_they_say() {
    let mut harness = demo();
    click(&mut harness, "Play");
    assert!(harness.state().session.playhead.playing);
    click(&mut harness, "Pause");
    click(&mut harness, "4\u{d7}");
    assert_eq!(harness.state().session.playhead.speed, 4.0);
    click(&mut harness, "gust");
    assert!(harness.state().asked.contains(&AppCommand::Wind(peewit::run::WindChoice::Gust)));
    click(&mut harness, "Nearer");
    click(&mut harness, "Dark");
    assert_eq!(harness.state().session.settings.theme, Theme::Dark);
}

#[test]
fn dragging_the_map_moves_it_and_a_press_on_a_mark_chooses_its_row() {
    let mut harness = demo();
    let lens = harness.state().lens;
    let row = &harness.state().flown().margins.rows[0];
    let mark = lens.screen(row.at);
    harness.hover_at(mark);
    harness.drag_at(mark);
    harness.drop_at(mark);
    harness.run_steps(2);
    assert_eq!(harness.state().session.chosen, Some(0));
    let from = lens.rect.center() + egui::vec2(40.0, 120.0);
    harness.hover_at(from);
    harness.drag_at(from);
    harness.run_steps(1);
    harness.hover_at(from + egui::vec2(60.0, 0.0));
    harness.run_steps(1);
    harness.drop_at(from + egui::vec2(60.0, 0.0));
    harness.run_steps(2);
    let moved = lens.centre - harness.state().lens.centre;
    assert!((moved.x / lens.metres_a_point - 60.0).abs() < 1.0, "moved {moved} m");
}

#[test]
fn a_file_that_cannot_be_used_shows_every_fault_and_no_field() {
    let harness = stage(Session::faulty(faults(), Some("my-field.json".into())), [1366.0, 768.0]);
    let all: String = texts(&harness).into_iter().map(|(text, ..)| text.to_lowercase() + "\n").collect();
    for fault in faults() {
        for word in [&fault.place, &fault.problem, &fault.way_out] {
            assert!(all.contains(&word.to_lowercase()), "\"{word}\" is not on the screen");
        }
    }
    assert!(all.contains("line 14") && all.contains("2 errors") && all.contains(&FOOT.to_lowercase()));
    assert!(!all.contains("centre"));
}

#[test]
fn warnings_are_shown_over_the_field_and_can_be_hidden() {
    let warned =
        Session::new(crate::support::tight_strip(), faults().split_off(2), Some("goatwillow-strip.json".into()));
    let mut harness = stage(warned, [1366.0, 768.0]);
    let shown = |harness: &Harness<'_, Stage>| texts(harness).iter().any(|(text, ..)| text.contains("/jet/fan_lag"));
    assert!(shown(&harness));
    click(&mut harness, "Hide 1 warning");
    assert!(!shown(&harness));
}

#[test]
fn the_notice_is_shown_before_the_first_use_until_it_is_read() {
    let mut harness = stage(Session::new(crate::support::tight_strip(), Vec::new(), None), [1366.0, 768.0]);
    press(&mut harness, Key::T);
    assert_eq!(harness.state().session.settings.theme, Theme::Light);
    click(&mut harness, "I have read this");
    assert!(harness.state().session.settings.notice_read);
    assert!(texts(&harness).iter().all(|(text, ..)| !text.contains("approves nothing")));
}
