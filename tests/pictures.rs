//! Is the window drawn as it should be? Every picture is left in a folder for people to look at.
//!
//! Without a graphics adapter nothing can be drawn. That is a failure wherever pictures were asked for (`CI` or
//! `PEEWIT_PICTURES` is set); elsewhere the test says so and passes.

use std::collections::HashSet;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use bevy::asset::RenderAssetUsages;
use bevy::image::{CompressedImageFormats, Image, ImageSampler, ImageType};
use bevy_egui::egui::Color32;
use glam::DVec2;
use peewit::app::beside::answer_now;
use peewit::app::lens::Lens;
use peewit::app::{AppCommand, Board, Change, Grade, Knob, Session, Theme, picture};
use peewit::error::Fault;
use peewit::run::{Scenario, Stretch, WindChoice};

use crate::panels::stage;

/// Fewest different colours of a picture that shows something.
const COLOURS: usize = 60;

fn folder() -> PathBuf {
    let asked = std::env::var_os("PEEWIT_PICTURES").map(PathBuf::from);
    let folder = asked.unwrap_or_else(|| Path::new(env!("CARGO_TARGET_TMPDIR")).join("pictures"));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Draws a picture; none where there is no graphics adapter and nobody insists on one.
pub(crate) fn draw(session: Session, size: [u32; 2], theme: Theme, name: &str) -> Option<Vec<u8>> {
    // Two bevy apps at once in one process fight over the graphics driver.
    static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());
    let _turn = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
    let path = folder().join(name);
    match picture(session, size, theme, &path) {
        Ok(()) => Some(std::fs::read(path).unwrap()),
        Err(why) => {
            let insist = ["CI", "PEEWIT_PICTURES"].iter().any(|name| std::env::var_os(name).is_some());
            assert!(!insist, "{name}: {why}");
            eprintln!("{name} was not drawn: {why}");
            None
        }
    }
}

/// The pixels of a PNG, red, green, blue and opaque each.
fn pixels(png: &[u8], [width, height]: [u32; 2]) -> Vec<[u8; 4]> {
    let image = Image::from_buffer(
        png,
        ImageType::Extension("png"),
        CompressedImageFormats::NONE,
        true,
        ImageSampler::Default,
        RenderAssetUsages::MAIN_WORLD,
    )
    .unwrap();
    assert_eq!([image.width(), image.height()], [width, height]);
    image.data.unwrap().chunks_exact(4).map(|pixel| [pixel[0], pixel[1], pixel[2], pixel[3]]).collect()
}

#[track_caller]
pub(crate) fn check_not_blank(png: &[u8], size: [u32; 2]) -> Vec<[u8; 4]> {
    let pixels = pixels(png, size);
    let colours: HashSet<[u8; 4]> = pixels.iter().copied().collect();
    assert!(colours.len() > COLOURS, "only {} colours", colours.len());
    pixels
}

fn demo() -> Session {
    Session::new(crate::support::tight_strip(), Vec::new(), Some("goatwillow-strip.json".into()))
}

/// A session with a circle too small for the gusts, part of the way through, with the first of the worst rows chosen.
fn busy() -> Session {
    let mut session = demo();
    let lens = peewit::app::Shown::default().lens;
    session.apply(AppCommand::Turn(Knob::Radius, 60.0), lens);
    session.apply(AppCommand::Wind(WindChoice::Gust), lens);
    session.apply(AppCommand::Fit, lens);
    let rows = &session.flown.as_ref().unwrap().margins.rows;
    let worst = (0..rows.len()).rev().max_by_key(|&index| rows[index].verdict).unwrap_or(0);
    session.apply(AppCommand::Choose(worst), lens);
    session
}

fn faults() -> Vec<Fault> {
    vec![
        Fault {
            line: Some(14),
            ..Fault::error(
                "/field/areas/0/ring_m/3",
                "the ring crosses itself between corners 3 and 5",
                "put the corners in the order one walks round the area",
            )
        },
        Fault {
            line: Some(48),
            ..Fault::error("/recovery/radius", "\"60\" has no unit", "a length takes m, ft, km, in, yd")
        },
        Fault::error("/wind/gusts", "unknown key \"gusts\"", "did you mean \"gust\"?"),
        Fault::warning("/jet/fan_lag", "nobody has measured this number", "measure it, or keep the default knowingly"),
    ]
}

/// The share of places of the ground at which the picture has a colour, give or take a pixel or two.
fn share_of(pixels: &[[u8; 4]], [width, height]: [u32; 2], lens: Lens, places: &[DVec2], colour: [u8; 3]) -> f64 {
    let near = |at: i64, by: i64, size: u32| u32::try_from(at + by).ok().filter(|at| *at < size);
    let has = |place: &&DVec2| {
        let at = lens.screen(**place);
        let (x, y) = (at.x.round() as i64, at.y.round() as i64);
        let window = (-2..=2).flat_map(|dx| (-2..=2).map(move |dy| (dx, dy)));
        window.filter_map(|(dx, dy)| Some((near(x, dx, width)?, near(y, dy, height)?))).any(|(x, y)| {
            let pixel = pixels[(y * width + x) as usize];
            (0..3).all(|channel| pixel[channel].abs_diff(colour[channel]) < 12)
        })
    };
    places.iter().filter(has).count() as f64 / places.len() as f64
}

/// The camera and the panels must agree on where things are: boundary and path are looked for where they project.
#[track_caller]
fn check_true_to_scale(pixels: &[[u8; 4]], size: [u32; 2], theme: Theme, scale: f32) {
    let mut session = busy();
    session.settings.theme = theme;
    let harness = stage(session, size.map(|length| length as f32 / scale));
    let points = harness.state().lens;
    // The same lens in pixels.
    let metres_a_point = points.metres_a_point / f64::from(scale);
    let lens = Lens { rect: points.rect * scale, metres_a_point, ..points };
    let palette = theme.palette();
    let colour = |colour: Color32| [colour.r(), colour.g(), colour.b()];
    let flown = harness.state().session.flown.as_ref().unwrap();
    let edges = flown.scenario.field.boundary.edges();
    let boundary: Vec<DVec2> =
        edges.iter().flat_map(|edge| (1..40).map(|step| edge.from.lerp(edge.to, f64::from(step) / 40.0))).collect();
    let found = share_of(pixels, size, lens, &boundary, colour(palette.ink));
    assert!(found > 0.75, "the boundary is on {:.0} % of its places", found * 100.0);
    let trace = &flown.run.trace;
    let circling = (0..trace.len()).filter(|&index| trace.stretch[index] == Stretch::Circling);
    let circling: Vec<DVec2> = circling.map(|index| trace.point(index)).collect();
    let found = share_of(pixels, size, lens, &circling, colour(palette.pen(Stretch::Circling).colour));
    assert!(found > 0.7, "the circle is on {:.0} % of its places", found * 100.0);
}

#[test]
fn the_window_is_drawn() {
    for (name, size) in [("small", [1366, 768]), ("large", [1920, 1080])] {
        for theme in [Theme::Light, Theme::Dark] {
            let file = format!("{name}-{theme:?}.png").to_lowercase();
            let Some(png) = draw(busy(), size, theme, &file) else { return };
            let again = draw(busy(), size, theme, &file).unwrap();
            assert!(png == again, "{file} differs from one drawing to the next");
            check_true_to_scale(&check_not_blank(&png, size), size, theme, 1.0);
        }
    }
    let size = [1366, 768];
    let path = || Some(PathBuf::from("my-field.json"));
    let png = draw(Session::faulty(faults(), path()), size, Theme::Light, "faulty-light.png");
    check_not_blank(&png.unwrap(), size);
    let warned = Session::new(crate::support::tight_strip(), faults().split_off(3), path());
    check_not_blank(&draw(warned, size, Theme::Light, "warned-light.png").unwrap(), size);
    let first = Session::new(crate::support::tight_strip(), Vec::new(), None);
    check_not_blank(&draw(first, size, Theme::Light, "first-light.png").unwrap(), size);
}

#[test]
fn larger_letters_leave_the_field_true_to_scale() {
    let size = [1920, 1080];
    let scaled = || {
        let mut session = busy();
        session.settings.scale = 1.5;
        session
    };
    let Some(png) = draw(scaled(), size, Theme::Light, "scaled-light.png") else { return };
    check_true_to_scale(&check_not_blank(&png, size), size, Theme::Light, 1.5);
}

#[test]
fn every_shipped_scenario_is_drawn() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|file| file.extension().is_some_and(|extension| extension == "json"));
    files.sort();
    assert!(files.len() > 1);
    for file in files {
        let name = format!("{}.png", file.file_stem().unwrap().to_string_lossy());
        let (scenario, warnings) = Scenario::load(&file).unwrap();
        let Some(png) = draw(Session::new(scenario, warnings, Some(file)), [1366, 768], Theme::Light, &name) else {
            return;
        };
        check_not_blank(&png, [1366, 768]);
    }
}

/// A walk through every board, as a person takes it: draw, plan, compare, lose.
#[test]
fn every_board_is_walked_through_and_drawn() {
    let lens = peewit::app::Shown::default().lens;
    let mut session = demo();
    session.today = "2026-04-18".into();
    let mut centre = session.draft.file().clone();
    if let Some(field) = &mut centre.field {
        field.centre_m = None;
    }
    let keep = AppCommand::Keep(true);
    let move_centre = AppCommand::Edit(Box::new(Change { what: "put the centre at home".into(), file: centre }));
    let walk = [
        ("field", vec![AppCommand::Board(Board::Field), AppCommand::Fit]),
        ("circle", vec![AppCommand::Board(Board::Circle), keep, move_centre, AppCommand::Fit]),
        ("compare", vec![AppCommand::Compare(true)]),
        ("losses", vec![AppCommand::Board(Board::Losses), AppCommand::Undo, AppCommand::Fit]),
        ("brief", vec![AppCommand::Board(Board::Brief)]),
    ];
    for (name, commands) in walk {
        for command in commands {
            session.apply(command, lens);
        }
        answer_now(&mut session, Grade::Coarse);
        for (size, theme) in [
            ([1366, 768], Theme::Light),
            ([1366, 768], Theme::Dark),
            ([1920, 1080], Theme::Light),
            ([1920, 1080], Theme::Dark),
        ] {
            let file = format!("walk-{name}-{}-{theme:?}.png", size[0]).to_lowercase();
            let Some(png) = draw(session.clone(), size, theme, &file) else { return };
            check_not_blank(&png, size);
        }
    }
}
