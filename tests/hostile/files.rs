//! Whose file is written over, and is a file whole that several write at once?

use crate::commands::Desk;

/// Commands that answer soon, with what each can be written as.
const ANSWERS: [(&str, &str); 4] = [
    ("recover field.json --trials 2", "txt json csv geojson gpx kml"),
    ("radius field.json --radii 100m,120m --trials 2", "txt json csv svg png pdf html"),
    ("wind-limit field.json --directions 2 --trials 2", "csv"),
    ("losses field.json --cells 4 --headings 2 --trials 0", "csv geojson"),
];

fn run(desk: &Desk, words: &str, code: i32) -> (String, String) {
    desk.check(&words.split(' ').collect::<Vec<_>>(), code)
}

#[test]
fn what_peewit_wrote_is_written_anew_and_nothing_else_unless_told() {
    let desk = Desk::new();
    for (command, endings) in ANSWERS {
        let words = endings.split(' ').fold(command.to_owned(), |words, ending| format!("{words} --out a.{ending}"));
        run(&desk, &words, 0);
        // The same files once more: all of them are its own.
        run(&desk, &words, 0);
        for ending in endings.split(' ') {
            // Empty files, as a shell makes them, hold nothing.
            std::fs::write(desk.path("empty").with_extension(ending), "").unwrap();
            run(&desk, &format!("{command} --out empty.{ending}"), 0);
            let mine = desk.path("mine").with_extension(ending);
            std::fs::write(&mine, "Written by hand, peewit or no peewit.").unwrap();
            let (_, err) = run(&desk, &format!("{command} --out b.{ending} --out mine.{ending}"), 2);
            assert!(err.contains("is there already") && err.contains("--force"), "{ending}: {err}");
            assert_eq!(std::fs::read_to_string(&mine).unwrap(), "Written by hand, peewit or no peewit.");
            assert!(!desk.path("b").with_extension(ending).exists());
        }
    }
    // Another field is a scenario, and no report.
    std::fs::copy(desk.path("field.json"), desk.path("other.json")).unwrap();
    let (_, err) = run(&desk, "recover field.json --trials 0 --out other.json", 2);
    assert!(err.contains("no .json that Peewit wrote"), "{err}");
    run(&desk, "recover field.json --trials 0 --out other.json --force", 0);
    // What was read stays, whatever is asked for.
    let (_, err) = run(&desk, "recover field.json --trials 0 --out field.json --force", 2);
    assert!(err.contains("nothing that was read is written over"), "{err}");
}

#[test]
fn two_answers_never_go_to_one_file() {
    let desk = Desk::new();
    run(&desk, "recover field.json --trials 0 --out log.csv", 0);
    let (_, err) = run(&desk, "debrief field.json log.csv --correct a.json --out a.json", 2);
    assert!(err.contains("named twice"), "{err}");
    // The corrected plan is written over no other plan, and over no log.
    for (correct, said) in [("log.csv", "was read"), ("field.json", "was read")] {
        let (_, err) = run(&desk, &format!("debrief field.json log.csv --force --correct {correct}"), 2);
        assert!(err.contains(said), "{err}");
    }
    std::fs::copy(desk.path("field.json"), desk.path("other.json")).unwrap();
    let (_, err) = run(&desk, "debrief field.json log.csv --correct other.json", 2);
    assert!(err.contains("--force"), "{err}");
}

#[test]
fn a_file_that_several_programs_write_at_once_is_whole_and_no_draft_is_left() {
    let desk = Desk::new();
    let write = |seed: usize| {
        let seed = seed.to_string();
        desk.check(&["recover", "field.json", "--trials", "0", "--trial", "1", "--seed", &seed, "--out", "a.csv"], 0);
    };
    let alone: Vec<Vec<u8>> = (1..=4)
        .map(|seed| {
            write(seed);
            std::fs::read(desk.path("a.csv")).unwrap()
        })
        .collect();
    assert!(alone.iter().all(|one| alone.iter().filter(|other| *other == one).count() == 1));
    // One that was killed half way.
    std::fs::write(desk.path(".peewit-k1lled.part"), "half a rep").unwrap();
    std::thread::scope(|scope| {
        for seed in 1..=4 {
            scope.spawn(move || write(seed));
        }
    });
    assert!(alone.contains(&std::fs::read(desk.path("a.csv")).unwrap()));
    assert_eq!(desk.names(), ["a.csv", "field.json"]);
}
