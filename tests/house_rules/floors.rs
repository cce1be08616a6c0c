//! Does the window keep to its floors, and is there no circle of files anywhere in the library?

use std::collections::BTreeSet;
use std::path::PathBuf;

use super::imports::{Library, Module, circles};
use super::{code, texts};

/// The floors of `src/app`, each a folder, from the one that all others stand on. A floor uses those before it.
const FLOORS: [&str; 9] = ["look", "session", "beside", "map", "widgets", "boards", "front", "files", "window"];

/// Files outside `window` that name bevy: the dialogs of the system are waited for by its `block_on`.
const NAMES_BEVY: [&str; 1] = ["src/app/files/dialogs.rs"];

fn library(files: &[(&str, &str)]) -> Library {
    Library::read(files.iter().map(|(path, source)| (PathBuf::from(path), code(source))))
}

fn whole_library() -> Library {
    let files = texts("src").into_iter().filter(|(path, _)| path.extension().is_some_and(|ending| ending == "rs"));
    Library::read(files.map(|(path, source)| (path, code(&source))))
}

/// Imports of `src/app` that go to a floor further up, to the roof that hands everything out, or from board to board.
fn against_the_floors(library: &Library) -> Vec<String> {
    let floor = |module: &Module| FLOORS.iter().position(|floor| module.get(1).is_some_and(|name| name == floor));
    let board = |module: &Module| module.get(2).filter(|_| module[1] == "boards").cloned();
    let of_app = |module: &Module| module.first().is_some_and(|room| room == "app");
    let mut faults = Vec::new();
    for ((from, to), what) in library.imports() {
        if !of_app(&from) || !of_app(&to) || from.len() < 2 {
            continue;
        }
        let from_board_to_board = matches!((board(&from), board(&to)), (Some(a), Some(b)) if a != b);
        let down = matches!((floor(&from), floor(&to)), (Some(from), Some(to)) if to <= from);
        if !down || from_board_to_board {
            faults.push(format!("{} uses {what}, of {}", from.join("/"), to.join("/")));
        }
    }
    faults
}

fn in_circles(library: &Library) -> Vec<String> {
    let name = |module: &Module| module.join("/");
    circles(library.imports().into_keys())
        .iter()
        .map(|(from, to)| format!("{} imports {}", name(from), name(to)))
        .collect()
}

#[test]
fn floors_of_the_window_use_only_floors_before_them() {
    let library = whole_library();
    let faults = against_the_floors(&library);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    let floors: BTreeSet<_> = library.imports().into_keys().map(|(from, _)| from).collect();
    for floor in FLOORS {
        let one = ["app".to_owned(), floor.to_owned()];
        assert!(floors.iter().any(|module| module.starts_with(&one)), "no file of {floor} imports anything");
    }
}

/// A module and those below it are one thing and no circle; what counts are files beside each other, however many of them
/// close it, and through whichever re-export.
#[test]
fn no_files_import_each_other_in_a_circle() {
    let library = whole_library();
    let found = in_circles(&library);
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn bevy_is_named_in_one_folder() {
    for (path, source) in texts("src/app") {
        let named = code(&source).contains("bevy::");
        let may = path.starts_with("src/app/window") || NAMES_BEVY.iter().any(|known| path.ends_with(known));
        assert!(may || !named, "{} names bevy", path.display());
    }
}

#[test]
fn a_planted_use_of_a_higher_floor_is_found_through_re_exports() {
    let root = ("src/app/mod.rs", "pub mod front;\npub mod look;\npub mod boards;\npub use front::Keys;");
    let front = ("src/app/front/mod.rs", "mod keys;\npub use keys::Keys;");
    let boards = ("src/app/boards/mod.rs", "pub mod a;\npub mod b;");
    #[track_caller]
    fn check(files: &[(&str, &str)], expected: usize) {
        let faults = against_the_floors(&library(files));
        assert_eq!(faults.len(), expected, "{faults:?}");
    }
    let keys = ("src/app/front/keys.rs", "use crate::app::look::pens::Pen;");
    let pens = |source| ("src/app/look/pens.rs", source);
    check(&[root, front, boards, keys, pens("pub struct Pen;")], 0);
    check(&[root, front, boards, keys, pens("use crate::app::Keys;")], 1);
    check(&[root, front, boards, keys, pens("use crate::app::{front as f};\nfn g() { f::Keys::new() }")], 2);
    check(&[root, front, boards, keys, pens("#[cfg(test)]\nmod tests {\n    use crate::app::Keys;\n}")], 0);
    check(&[root, front, boards, keys, pens("pub(in crate::app) fn f() {}")], 0);
    check(&[root, boards, ("src/app/boards/a.rs", "use super::b::B;"), ("src/app/boards/b.rs", "")], 1);
    check(&[root, ("src/app/shed/a.rs", "use crate::app::look::pens;"), pens("")], 1);
}

#[test]
fn a_planted_circle_is_found_and_a_module_with_what_is_below_it_is_none() {
    #[track_caller]
    fn check(files: &[(&str, &str)], expected: usize) {
        let found = in_circles(&library(files));
        assert_eq!(found.len(), expected, "{found:?}");
    }
    let top = ("src/a/mod.rs", "mod b;\nmod c;\nmod d;\npub use b::B;\npub use c::C;");
    check(&[top, ("src/a/b.rs", "use super::top;"), ("src/a/c.rs", "use super::B;")], 0);
    check(&[top, ("src/a/b.rs", "use super::C;"), ("src/a/c.rs", "use super::B;")], 2);
    check(
        &[
            top,
            ("src/a/b.rs", "use super::{C as X};"),
            ("src/a/c.rs", "fn f() { super::d::f() }"),
            ("src/a/d.rs", "use crate::a::B;"),
        ],
        3,
    );
    check(
        &[
            top,
            ("src/a/b.rs", "use super::C;"),
            ("src/a/c.rs", "#[cfg(test)]\nmod tests;"),
            ("src/a/c/tests.rs", "use crate::a::B;"),
        ],
        0,
    );
}
