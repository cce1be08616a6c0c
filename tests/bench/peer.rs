//! What is simulated in a second, beside what an engineer would write instead: a table, with how many times as much it is
//! as a numpy kernel on one core of the same machine in the same minute.
//!
//! `PEEWIT_PYTHON` names the interpreter, else it is `python3`.

use std::process::Command;
use std::time::{Duration, Instant};

use super::*;

/// Rounds, each measuring every row once, so that whatever else the machine does falls on all of them.
const ROUNDS: usize = 7;
/// How long a row is measured in a round.
const ROUND: Duration = Duration::from_millis(300);

/// Prints the table.
#[allow(clippy::print_stdout, reason = "what benches are for")]
pub(super) fn table() {
    let (scenario, all) = (Scenario::demo(), 16 * TRIALS);
    let (scorer, setting) = (Scorer::new(&scenario), setting(&scenario));
    let many: Vec<Trial> = (1..=all).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect();
    let few = &many[..64];
    let unscored = || Unscored { flight: Watched::of(&scenario, &setting), trials: black_box(few) };
    let [few_s, many_s] = [few, &many[..]].map(|trials| seconds(&scorer.score(trials)));
    let all_cores = || many.par_chunks(64).map(|some| scorer.score(some).len()).sum::<usize>();
    let rows: [(&str, f64, &dyn Fn()); 5] = [
        ("unscored, one lane", few_s, &|| unscored().run::<f64>()),
        ("unscored, widest", few_s, &|| widest(unscored())),
        ("scored, one lane", few_s, &|| assert!(scorer.score_wide::<f64>(black_box(few)).len() == few.len())),
        ("scored, widest", few_s, &|| assert!(scorer.score(black_box(few)).len() == few.len())),
        ("scored, widest, all cores", many_s, &|| assert!(all_cores() == many.len())),
    ];
    let mut paces = vec![Vec::new(); rows.len()];
    let mut peer = Vec::new();
    for _ in 0..ROUNDS {
        peer.extend(numpy());
        for ((_, flown_s, work), paces) in rows.iter().zip(&mut paces) {
            paces.push(flown_s * pace(work));
        }
    }
    let numpy = median(peer);
    match numpy {
        Some(numpy) => println!("numpy kernel, one core: {:.3} million simulated seconds a second", numpy / 1e6),
        None => println!("No python with numpy here to hold this against (PEEWIT_PYTHON names one)."),
    }
    for ((name, ..), paces) in rows.iter().zip(paces) {
        let pace = median(paces).unwrap_or_default();
        let times = numpy.map_or(String::new(), |numpy| format!("  {:5.1} times numpy", pace / numpy));
        println!("{name:26} {:7.3} million simulated seconds a second{times}", pace / 1e6);
    }
}

/// How often some work is done in a second.
#[allow(clippy::disallowed_methods, reason = "time is what is measured")]
fn pace(work: &dyn Fn()) -> f64 {
    let (begun, mut done) = (Instant::now(), 0.0);
    while begun.elapsed() < ROUND {
        work();
        done += 1.0;
    }
    done / begun.elapsed().as_secs_f64()
}

/// Simulated seconds a second of the numpy kernel; none where there is no numpy.
fn numpy() -> Option<f64> {
    let python = std::env::var("PEEWIT_PYTHON").unwrap_or_else(|_| "python3".into());
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/bench/numpy_kernel.py");
    let threads = ["OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"].map(|name| (name, "1"));
    let output = Command::new(python).arg(script).envs(threads).output().ok()?;
    String::from_utf8(output.stdout).ok()?.trim().parse().ok()
}

fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied()
}
