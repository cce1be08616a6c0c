//! Is the window drawn as it should be? Every picture is left in a folder for people to look at.
//!
//! Without a graphics adapter nothing can be drawn. That is a failure wherever pictures were asked for (`CI` or
//! `PEEWIT_PICTURES` is set); elsewhere the test says so and passes.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use bevy::asset::RenderAssetUsages;
use bevy::image::{CompressedImageFormats, Image, ImageSampler, ImageType};
use peewit::app::{AppCommand, Session, Theme, picture};
use peewit::error::Fault;
use peewit::run::Scenario;

/// Fewest different colours of a picture that shows something.
const COLOURS: usize = 60;

fn folder() -> PathBuf {
    let asked = std::env::var_os("PEEWIT_PICTURES").map(PathBuf::from);
    let folder = asked.unwrap_or_else(|| Path::new(env!("CARGO_TARGET_TMPDIR")).join("pictures"));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Draws a picture; none where there is no graphics adapter and nobody insists on one.
fn draw(session: Session, size: [u32; 2], theme: Theme, name: &str) -> Option<Vec<u8>> {
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
fn check_not_blank(png: &[u8], size: [u32; 2]) -> Vec<[u8; 4]> {
    let pixels = pixels(png, size);
    let colours: HashSet<[u8; 4]> = pixels.iter().copied().collect();
    assert!(colours.len() > COLOURS, "only {} colours", colours.len());
    pixels
}

fn demo() -> Session {
    Session::new(Scenario::demo(), Vec::new(), Some("goatwillow-strip.json".into()))
}

/// A session part of the way through, with the worst row chosen.
fn busy() -> Session {
    let mut session = demo();
    let rows = &session.flown.as_ref().unwrap().ledger.rows;
    let worst = (0..rows.len()).max_by_key(|&index| rows[index].verdict).unwrap_or(0);
    let lens = peewit::app::Shown::default().lens;
    session.apply(AppCommand::Choose(worst), lens);
    session
}

fn faults() -> Vec<Fault> {
    vec![
        Fault {
            line: Some(14),
            ..Fault::error(
                "/field/patches/0/ring_m/3",
                "the ring crosses itself between corners 3 and 5",
                "put the corners in the order one walks round the patch",
            )
        },
        Fault {
            line: Some(48),
            ..Fault::error("/recovery/radius", "\"60\" has no unit", "a length takes m, ft, km, in, yd")
        },
        Fault::error("/wind/gusts", "unknown key \"gusts\"", "did you mean \"gust\"?"),
        Fault::warning("/jet/usable", "nobody has measured this number", "measure it, or keep the default knowingly"),
    ]
}

// One test: two bevy apps at once in one process share the graphics driver's worst moments.
#[test]
fn the_window_is_drawn() {
    for (name, size) in [("small", [1366, 768]), ("large", [1920, 1080])] {
        for theme in [Theme::Light, Theme::Dark] {
            let file = format!("{name}-{theme:?}.png").to_lowercase();
            let Some(png) = draw(busy(), size, theme, &file) else { return };
            let again = draw(busy(), size, theme, &file).unwrap();
            check_not_blank(&png, size);
            assert!(png == again, "{file} differs from one drawing to the next");
        }
    }
    let size = [1366, 768];
    let png = draw(Session::faulty(faults(), Some("my-field.json".into())), size, Theme::Light, "faulty-light.png");
    check_not_blank(&png.unwrap(), size);
    let warned = Session::new(Scenario::demo(), vec![faults().remove(3)], Some("goatwillow-strip.json".into()));
    check_not_blank(&draw(warned, size, Theme::Light, "warned-light.png").unwrap(), size);
}
