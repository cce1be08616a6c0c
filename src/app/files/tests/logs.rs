//! Are logs read and held against the plan beside the window, each once and for the plan of the screen, is what can't be
//! read said, and is none written over?

use super::*;
use crate::app::session::{DebriefCommand, Mark};
use crate::report::Format;
use crate::run::{WindChoice, fly};

fn log_of(trial: u64) -> String {
    let run = fly(&Scenario::demo(), trial, WindChoice::Mean);
    let plane = Scenario::demo().field.plane;
    let rows = (0..run.trace.len()).step_by(2).map(|index| {
        let (latitude, longitude) = plane.to_degrees(run.trace.point(index));
        format!("{:.1},{latitude:.9},{longitude:.9},{:.2}\n", run.trace.time_s(index), run.trace.height_m[index])
    });
    std::iter::once("time_s,latitude_deg,longitude_deg,height_above_home_m\n".to_owned()).chain(rows).collect()
}

/// A folder with a log of each trial, in the folders named.
fn logs(names: &[&str]) -> TempDir {
    let logs = folder();
    for (name, trial) in names.iter().zip(1..) {
        let path = logs.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, log_of(trial)).unwrap();
    }
    logs
}

/// Waits for what is to be worked out, a minute at most.
fn wait(stage: &mut Stage) {
    for _ in 0..12_000 {
        stage.files.step(&mut stage.session, Vec::new());
        if stage.session.debrief.to_do.is_empty() {
            return;
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    panic!("it was never done");
}

fn read(stage: &mut Stage, path: &Path) {
    stage.ask(FileCommand::OpenLogs);
    stage.choose(ChosenFile::Path(path.into()));
    wait(stage);
}

fn debrief(stage: &mut Stage, command: DebriefCommand) {
    stage.session.apply(AppCommand::Debrief(command), Lens::default());
}

fn names(stage: &Stage) -> Vec<String> {
    (0..stage.session.debrief.logs.len()).map(|number| stage.session.debrief.name(number)).collect()
}

fn opened(kept: &TempDir) -> Stage {
    Stage::open(Session::new(Scenario::demo(), Vec::new(), None), kept.path())
}

#[test]
fn a_folder_is_read_whole_and_what_is_no_log_is_said() {
    let (kept, logs) = (folder(), logs(&["flight-1.csv", "flight-2.csv"]));
    std::fs::write(logs.path().join("shopping.txt"), "milk, bread").unwrap();
    let mut stage = opened(&kept);
    stage.ask(FileCommand::OpenLogs);
    assert_eq!(stage.choose(ChosenFile::Path(logs.path().into())), Purpose::Logs);
    // Whatever is asked meanwhile stays.
    stage.ask(FileCommand::SaveAs);
    wait(&mut stage);
    assert_eq!(names(&stage), ["flight-1.csv", "flight-2.csv"]);
    assert_eq!(stage.session.front.ask, Some(Ask::System(Purpose::SaveAs)));
    let refused = &stage.session.debrief.refused;
    assert!(matches!(&refused[..], [(path, why)] if name_of(path) == "shopping.txt" && !why.is_empty()), "{refused:?}");
    assert_eq!(stage.choose(ChosenFile::Nothing), Purpose::SaveAs);
    read(&mut stage, &logs.path().join("flight-1.csv"));
    assert!(stage.session.debrief.refused.is_empty() && names(&stage).len() == 2);
}

#[test]
fn logs_of_one_name_are_told_apart_and_none_is_written_over() {
    let (kept, logs) = (folder(), logs(&["monday/flight.csv", "tuesday/flight.csv"]));
    let mut stage = opened(&kept);
    for day in ["monday", "tuesday", "monday"] {
        read(&mut stage, &logs.path().join(day));
    }
    assert_eq!(names(&stage), ["monday/flight.csv", "tuesday/flight.csv"]);
    assert_eq!(stage.session.debrief.chosen, Some((0, 0)));
    let path = logs.path().join("tuesday/flight.csv");
    let before = std::fs::read(&path).unwrap();
    stage.ask(FileCommand::SaveDebrief(Format::Csv));
    stage.choose(ChosenFile::Path(path.clone()));
    assert!(matches!(&stage.session.front.ask, Some(Ask::Told { .. })), "{}", stage.session.word);
    assert_eq!(std::fs::read(&path).unwrap(), before);

    debrief(&mut stage, DebriefCommand::Choose(1, 0));
    debrief(&mut stage, DebriefCommand::Forget(0));
    assert_eq!((names(&stage), stage.session.debrief.chosen), (vec!["flight.csv".into()], Some((0, 0))));
    debrief(&mut stage, DebriefCommand::Forget(0));
    assert_eq!(stage.session.debrief.chosen, None);
}

#[test]
fn what_was_stopped_or_was_for_another_plan_is_not_taken_in() {
    let (kept, logs) = (folder(), logs(&["flight-1.csv"]));
    let path = logs.path().join("flight-1.csv");
    let mut stage = opened(&kept);
    let late = |stage: &mut Stage| {
        for _ in 0..300 {
            std::thread::sleep(Duration::from_millis(5));
            stage.files.step(&mut stage.session, Vec::new());
        }
        names(stage).len()
    };
    for leave in [false, true] {
        stage.ask(FileCommand::OpenLogs);
        stage.choose(ChosenFile::Path(path.clone()));
        assert_eq!(stage.session.debrief.to_do.len(), 1);
        if leave {
            stage.ask(FileCommand::Demo);
        } else {
            debrief(&mut stage, DebriefCommand::Stop);
        }
        assert_eq!(late(&mut stage), 0);
    }
    read(&mut stage, &path);
    assert_eq!(names(&stage).len(), 1);
}

/// What is moved counts at once, and what it tells afterwards; the eye stays where it is.
#[test]
fn a_mark_that_is_moved_is_worked_out_beside_the_window() {
    let (kept, logs) = (folder(), logs(&["flight-1.csv", "flight-2.csv"]));
    let mut stage = opened(&kept);
    read(&mut stage, logs.path());
    debrief(&mut stage, DebriefCommand::Choose(0, 0));
    let marks = |stage: &Stage| stage.session.debrief_chosen().unwrap().1.marks.clone();
    let (before, end) = (marks(&stage), marks(&stage).taken_over);
    let times = stage.session.debrief_chosen().unwrap().0.log.track.time_s().to_vec();
    for (mark, at) in [(Mark::TakenOver, end - 3), (Mark::Lost, before.lost + 2)] {
        debrief(&mut stage, DebriefCommand::Scrub(times[at]));
        debrief(&mut stage, DebriefCommand::Move(mark));
        stage.files.step(&mut stage.session, Vec::new());
    }
    assert!(stage.session.is_debrief_stale() && stage.session.debrief.corrections.is_empty());
    assert_eq!(stage.session.debrief.to_do.len(), 1);
    wait(&mut stage);
    let after = marks(&stage);
    assert_eq!((after.lost, after.taken_over), (before.lost + 2, end - 3));
    assert!(!stage.session.is_debrief_stale() && stage.session.debrief.chosen == Some((0, 0)));
    let circled = stage.session.debrief_chosen().unwrap().1.wind.as_ref().unwrap().samples;
    assert!(circled <= end - 3, "{circled}");
}

/// A datum that was put right moves what the log has in degrees, not the metres of the field.
#[test]
fn a_log_lies_where_the_plan_says_that_the_ground_is() {
    let (kept, logs) = (folder(), logs(&["flight-1.csv"]));
    let mut stage = opened(&kept);
    read(&mut stage, logs.path());
    let first = |stage: &Stage| stage.session.debrief.logs[0].told.log.track.place()[0];
    let before = first(&stage);
    let mut file = stage.session.draft.file().clone();
    // 1 000 m north, by the length of a degree on the ellipsoid near 45 N (closed form), within the 1 % of its change.
    file.field.as_mut().unwrap().datum.latitude_deg += 1000.0 / 111_130.0;
    let change = crate::app::session::Change { what: "move the datum".into(), file };
    stage.session.apply(AppCommand::Edit(Box::new(change)), Lens::default());
    assert!(stage.session.is_debrief_stale());
    debrief(&mut stage, DebriefCommand::Again);
    wait(&mut stage);
    let moved = before - first(&stage);
    assert!((moved.y - 1000.0).abs() < 10.0 && moved.x.abs() < 10.0, "{moved}");
    assert!(!stage.session.is_debrief_stale());
}
