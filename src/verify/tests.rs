//! Whether the table holds, can be kept, and can fail line by line.

use super::*;

/// The whole table with few draws; made once for all that look at it.
fn table() -> &'static Checked {
    static TABLE: std::sync::OnceLock<Checked> = std::sync::OnceLock::new();
    TABLE.get_or_init(|| verify(20, &Depth::brief(), &Work::default()))
}

#[test]
fn every_line_holds_and_says_who_says_so() {
    let checked = table();
    let told = |line: &Line| format!("{:?}: {} {:?}: {} {}", line.group, line.name, line.expected, line.got, line.unit);
    checked.lines.iter().for_each(|line| println!("{}", told(line)));
    println!("{} lines in {:.1} s", checked.lines.len(), checked.took_s);
    let missed: Vec<String> = checked.missed().map(told).collect();
    assert!(checked.holds() && missed.is_empty(), "{missed:#?}");
    for group in Group::ALL {
        assert!(checked.lines.iter().any(|line| line.group == group), "{group:?}");
    }
    for line in &checked.lines {
        assert!(line.source.len() > 10 && line.name.len() > 3, "{line:?}");
        let same = checked.lines.iter().filter(|other| (other.group, &other.name) == (line.group, &line.name));
        assert_eq!(same.count(), 1, "{} twice", line.name);
    }
}

/// Lines whose own source is no finer than a hundredth, and differences of two sums that are far larger than they.
const COARSE: [&str; 6] = [
    "120 kt",
    "gust over mean wind",
    "mean square of a long run",
    "one eddy length apart",
    "order of the error",
    "work of thrust less drag and shear",
];

#[test]
fn a_figure_that_is_wrong_by_a_hundredth_is_seen() {
    let mut seen = 0;
    for line in &table().lines {
        assert!(!Line { got: f64::NAN, ..line.clone() }.held(), "{line:?}");
        let Expected::Near { value, within } = line.expected else { continue };
        if value == 0.0 || COARSE.iter().any(|name| line.name.contains(name)) {
            continue;
        }
        for wrong in [0.99, 1.01] {
            assert!(
                !Line { expected: Expected::Near { value: wrong * value, within }, ..line.clone() }.held(),
                "{line:?}"
            );
        }
        seen += 1;
    }
    assert!(seen > 100, "{seen}");
}

#[test]
fn a_run_can_be_kept_and_read_back() {
    let mut checked = table().clone();
    checked.lines[0].got = f64::NAN;
    let text = serde_json::to_string_pretty(&checked).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("checks.json");
    std::fs::write(&path, &text).unwrap();
    let read = Checked::read(&path).unwrap();
    assert_eq!(serde_json::to_string_pretty(&read).unwrap(), text);
    assert_eq!(read.lines[1..], checked.lines[1..]);
    assert!(read.lines[0].got.is_nan() && !read.holds());
    std::fs::write(&path, "{}").unwrap();
    assert!(Checked::read(&path).unwrap_err().to_string().contains("peewit verify --out"));
}

#[test]
fn another_seed_draws_other_cases_and_the_same_seed_the_same() {
    let draws = |seed| -> Vec<f64> {
        coverage::lines(&Depth::brief(), seed, &Work::default()).into_iter().map(|line| line.got).collect()
    };
    let first = draws(1);
    assert_eq!(first, draws(1));
    assert_ne!(first, draws(2));
}

#[test]
fn stopped_work_ends_at_once_and_holds_nothing() {
    let work = Work::default();
    work.stop();
    let checked = verify(1, &Depth::usual(), &work);
    assert!(checked.partial && checked.lines.is_empty() && !checked.holds());
}
