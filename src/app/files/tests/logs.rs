//! Are all logs of a folder read, one after the other, and is what can't be read said?

use super::*;
use crate::run::{WindChoice, fly};

fn log_of(trial: u64) -> String {
    let run = fly(&Scenario::demo(), trial, WindChoice::Mean);
    let rows = (0..run.trace.len()).step_by(2).map(|index| {
        let at = run.trace.point(index);
        format!("{:.1},{:.2},{:.2},{:.2}\n", run.trace.time_s(index), at.x, at.y, run.trace.height_m[index])
    });
    std::iter::once("time_s,east_m,north_m,height_above_home_m\n".to_owned()).chain(rows).collect()
}

#[test]
fn a_folder_is_read_whole_and_what_is_no_log_is_said() {
    let (kept, logs) = (folder(), folder());
    for trial in [1, 2] {
        std::fs::write(logs.path().join(format!("flight-{trial}.csv")), log_of(trial)).unwrap();
    }
    std::fs::write(logs.path().join("shopping.txt"), "milk, bread").unwrap();
    let mut stage = Stage::open(Session::new(Scenario::demo(), Vec::new(), None), kept.path());
    stage.ask(FileCommand::OpenLogs);
    assert_eq!(stage.choose(ChosenFile::Path(logs.path().into())), Purpose::Logs);
    // A minute at most.
    for _ in 0..12_000 {
        if stage.session.debrief.reading.is_empty() {
            break;
        }
        std::thread::sleep(Duration::from_millis(5));
        stage.files.step(&mut stage.session, Vec::new());
    }
    let names: Vec<_> = stage.session.debrief.logs.iter().map(|log| log.log.name.as_str()).collect();
    assert_eq!(names, ["flight-1.csv", "flight-2.csv"]);
    assert!(
        stage.session.front.ask.is_some() || !stage.session.word.is_empty(),
        "shopping.txt was passed over in silence"
    );
}
