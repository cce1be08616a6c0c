//! What does a person at the window wait for: how soon after a touch is there a first look, and how long does a frame take
//! while studies are refined on the other threads?
//!
//! The panels over the demo with the real worker beside them, without a screen: a frame takes news, lays the panels out, cuts
//! them into triangles and draws the ground anew where it has changed. What the graphics card and bevy's own schedule take, and
//! the wait for the screen's next picture, isn't in it.

#![allow(clippy::disallowed_methods, clippy::print_stdout, reason = "time is what is measured, and told")]

use std::hint::black_box;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::thread::sleep;
use std::time::{Duration, Instant};

use bevy_egui::egui::{Context, RawInput, Rect, pos2};
use peewit::app::beside::{Beside, Job};
use peewit::app::lens::Lens;
use peewit::app::map::ground;
use peewit::app::{AppCommand, Board, Doing, Knob, Session, Shown, View, front, theme};
use peewit::run::Scenario;

/// The screen, points.
const SCREEN: [f32; 2] = [1920.0, 1080.0];
/// Time from one picture of the screen to the next.
const PICTURE: Duration = Duration::from_nanos(16_666_667);
/// How long the window rests at most while something is worked out and nobody touches it.
const WATCH: Duration = Duration::from_millis(120);
/// From an edit to the next: by then studies are refined, so that a touch has to stop them.
const PAUSE: Duration = Duration::from_secs(1);
/// By how much the radius is turned, metres: a dial is dragged by little.
const TURNS_M: [f64; 5] = [1.0, 1.0, 1.0, -1.0, -1.0];
/// Frames that are measured: ten seconds of them.
const FRAMES: usize = 600;
/// After so many frames nothing is refined any more.
const PATIENCE: usize = 10 * FRAMES;

/// What is asked of a first look and of a frame, ms.
const FIRST_LOOK_MS: f64 = 50.0;
const FRAME_MS: f64 = 33.0;

/// The window without a screen.
struct Window {
    ctx: Context,
    session: Session,
    beside: Beside,
    /// Rung whenever there is news.
    bell: Receiver<()>,
    lens: Lens,
    /// The plan and the scale in which the ground was drawn last.
    ground: Option<(u64, f64)>,
}

/// How long after a touch there was what.
struct Touched {
    /// The plan as it is now, flown as entered.
    edit: Duration,
    /// What few trials say of it.
    verdict: Duration,
    /// The answer of the open board.
    board: Duration,
}

impl Window {
    fn open() -> Self {
        // The path of a file passes over what is shown before the first use.
        let mut session = Session::new(Scenario::demo(), Vec::new(), Some("demo.json".into()));
        session.board = Board::Circle;
        let (ring, bell) = channel();
        let heard = move || {
            // Once the window is closed nobody listens.
            let _ = ring.send(());
        };
        let (ctx, beside) = (Context::default(), Beside::start(heard).expect("a thread"));
        theme::apply(&ctx, session.settings.theme);
        let mut window = Self { ctx, session, beside, bell, lens: Shown::default().lens, ground: None };
        window.ask();
        while !window.first_look() {
            window.wait();
            window.frame();
        }
        window
    }

    /// Hands the plan over, as the window does after an edit.
    fn ask(&self) {
        let flown = self.session.flown.as_ref().expect("a plan that can be flown");
        let scenario = Arc::new(flown.scenario.clone());
        self.beside.ask(Job { edition: self.session.edition, scenario, board: self.session.board, refine: true });
    }

    /// Rests until there is news.
    fn wait(&self) {
        let _ = self.bell.recv_timeout(WATCH);
        // One frame takes all the news there is.
        while self.bell.try_recv().is_ok() {}
    }

    /// One frame, and how long it took.
    fn frame(&mut self) -> Duration {
        let begun = Instant::now();
        self.beside.news().into_iter().for_each(|news| self.session.hear(news));
        self.session.doing = self.beside.doing();
        self.session.tick(PICTURE.as_secs_f64());
        let screen = Rect::from_min_max(pos2(0.0, 0.0), SCREEN.into());
        let input = RawInput { screen_rect: Some(screen), ..RawInput::default() };
        let mut asked = Vec::new();
        let mut output = self.ctx.run_ui(input, |ui| {
            asked.clear();
            if theme::fonts_ready(ui.ctx()) {
                self.lens = front::window(ui.ctx(), &View::new(&self.session), &mut asked);
            }
        });
        let shapes = std::mem::take(&mut output.shapes);
        black_box(self.ctx.tessellate(shapes, output.pixels_per_point));
        output.drop_without_applying_deltas();
        asked.into_iter().for_each(|command| self.session.apply(command, self.lens));
        self.draw_ground();
        begun.elapsed()
    }

    fn draw_ground(&mut self) {
        let wanted = Some((self.session.edition, self.lens.metres_a_point));
        let Some(flown) = self.session.flown.as_ref().filter(|_| self.ground != wanted) else { return };
        let palette = self.session.settings.theme.palette();
        black_box(ground::draw(&flown.scenario.field, palette, self.lens.metres_a_point).into_parts());
        self.ground = wanted;
    }

    /// Turns the radius, and waits until all that a first look is of has been drawn. The frame that hears of the turn is the
    /// one before it is obeyed.
    fn touch(&mut self, by_m: f64) -> Touched {
        let touched = Instant::now();
        self.frame();
        self.turn(by_m);
        self.frame();
        let edit = touched.elapsed();
        let mut verdict = None;
        while !self.first_look() {
            self.wait();
            self.frame();
            let of_now = |edition| edition == Some(self.session.edition);
            if of_now(self.session.answers.own_circle.as_ref().map(|answer| answer.edition)) {
                verdict.get_or_insert_with(|| touched.elapsed());
            }
        }
        let board = touched.elapsed();
        Touched { edit, verdict: verdict.unwrap_or(board), board }
    }

    fn turn(&mut self, by_m: f64) {
        let before = self.session.edition;
        let radius_m = Knob::Radius.get(self.session.draft.file()) + by_m;
        self.session.apply(AppCommand::Turn(Knob::Radius, radius_m), self.lens);
        assert_ne!(self.session.edition, before, "nothing was turned");
        self.ask();
    }

    /// Whether the coarse answer of the open board is there.
    fn first_look(&self) -> bool {
        self.session.answers.radius.as_ref().is_some_and(|answer| answer.edition == self.session.edition)
    }

    /// Whether studies are refined: the coarse answer that comes last is there, and something is worked out.
    fn refines(&self) -> bool {
        let coarse = self.session.answers.losses.as_ref().is_some_and(|answer| answer.edition == self.session.edition);
        coarse && matches!(self.session.doing, Doing::Working { .. })
    }

    /// One frame for the next picture of the screen while the replay plays, and how long it took.
    fn play(&mut self) -> Duration {
        if !self.session.playhead.playing {
            self.session.apply(AppCommand::PlayOrPause, self.lens);
        }
        let took = self.frame();
        sleep(PICTURE.saturating_sub(took));
        took
    }
}

/// Frames while studies are refined. Where all is worked out another plan is begun.
fn while_refined(window: &mut Window) -> Vec<Duration> {
    let mut found = Vec::new();
    for _ in 0..PATIENCE {
        if found.len() == FRAMES {
            break;
        }
        if window.session.answers.are_whole(window.session.edition) {
            window.turn(TURNS_M[0]);
        }
        let took = window.play();
        if window.refines() {
            found.push(took);
        }
    }
    found
}

/// One row of the table: the median, the 99th of a hundred where there are that many, the longest, and what is asked.
#[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "few hundreds")]
fn row(name: &str, mut times: Vec<Duration>, asked_ms: f64) {
    times.sort_unstable();
    let at = |share: f64| {
        let last = times.len().saturating_sub(1);
        times.get((share * last as f64).round() as usize).map_or(f64::NAN, |time| time.as_secs_f64() * 1e3)
    };
    let most = if times.len() < 100 { String::new() } else { format!("{:.1}", at(0.99)) };
    println!("{name:52} {:8.1} {most:>8} {:8.1} {asked_ms:8.0}   {} times", at(0.5), at(1.0), times.len());
}

fn main() {
    let mut window = Window::open();
    let mut touches = Vec::new();
    for by_m in TURNS_M {
        let begun = Instant::now();
        while begun.elapsed() < PAUSE {
            window.play();
        }
        touches.push(window.touch(by_m));
    }
    let frames = while_refined(&mut window);
    println!("{:52} {:>8} {:>8} {:>8} {:>8}", "what a person waits for, ms", "median", "99 %", "longest", "asked");
    let of = |which: fn(&Touched) -> Duration| touches.iter().map(which).collect();
    row("from a touch until the edit is drawn", of(|touched| touched.edit), FIRST_LOOK_MS);
    row("from a touch until a first verdict is drawn", of(|touched| touched.verdict), FIRST_LOOK_MS);
    row("from a touch until the board's first look is drawn", of(|touched| touched.board), FIRST_LOOK_MS);
    row("a frame while studies are refined", frames, FRAME_MS);
}
