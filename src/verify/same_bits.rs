//! The same flight in other company: beside few or many others in the registers, and on one thread or several.

use rayon::ThreadPoolBuilder;

use super::line::{Group, Line, Lines};
use crate::lane::Wide;
use crate::margins::Scorer;
use crate::run::{Ending, Scenario, Trace, WindChoice, draw, fly, fly_wide, samples, setting};
use crate::study::envelope::reaches;
use crate::study::work::{Work, in_order};

/// Trials of each field, the plan as entered among them at places that no width divides evenly.
const NUMBERS: [u64; 11] = [3, 0, 1, 2, 0, 0, 4, 5, 6, 0, 7];

const SOURCE: &str = "what is promised: a trial gives the same bits alone and in company";

pub(super) fn lines(work: &Work) -> Vec<Line> {
    let mut lines = Lines::of(Group::SameBits);
    let count = samples().len() as u64;
    work.expect(count);
    #[allow(clippy::cast_possible_truncation, reason = "a few fields")]
    let found = in_order(work, 0..count, |index| {
        let off = of_field(&samples()[index as usize].scenario());
        work.add(1);
        off
    });
    let trials = NUMBERS.len() * samples().len();
    for (way, name) in ["one", "two", "four", "eight"].iter().enumerate() {
        let off: usize = found.results.iter().map(|off| off[way]).sum();
        differ(
            &mut lines,
            &format!("paths of {trials} trials, {name} side by side, that differ from those alone"),
            off,
        );
    }
    let off: usize = found.results.iter().map(|off| off[4]).sum();
    differ(&mut lines, &format!("scores of {trials} trials on the widest registers that differ from those alone"), off);
    threads(&mut lines, work);
    lines.done()
}

#[allow(clippy::cast_precision_loss, reason = "some hundred")]
fn differ(lines: &mut Lines, name: &str, off: usize) {
    lines.at_most(name, off as f64, 0.0, "", SOURCE);
}

/// A path, bit by bit, and how it ended.
pub fn bits((trace, ending): &(Trace, Ending)) -> (Vec<u64>, Ending) {
    let lists = [
        &trace.x_m,
        &trace.y_m,
        &trace.height_m,
        &trace.airspeed_mps,
        &trace.nose_x,
        &trace.nose_y,
        &trace.bank_rad,
        &trace.load,
        &trace.energy_j,
    ];
    let stretches = trace.stretch.iter().map(|&stretch| stretch as u64);
    (lists.into_iter().flatten().map(|value| value.to_bits()).chain(stretches).collect(), *ending)
}

/// How many paths differ at each width, and how many scores at the widest.
fn of_field(scenario: &Scenario) -> [usize; 5] {
    let trials = NUMBERS.map(|trial| draw(scenario, trial, WindChoice::Mean));
    let alone = NUMBERS.map(|trial| {
        let run = fly(scenario, trial, WindChoice::Mean);
        bits(&(run.trace, run.ending))
    });
    let setting = setting(scenario);
    let ways = [
        fly_wide::<f64>(scenario, &setting, &trials),
        fly_wide::<Wide<2>>(scenario, &setting, &trials),
        fly_wide::<Wide<4>>(scenario, &setting, &trials),
        fly_wide::<Wide<8>>(scenario, &setting, &trials),
    ];
    let [one, two, four, eight] =
        ways.map(|flown| flown.iter().zip(&alone).filter(|(flown, alone)| bits(flown) != **alone).count());
    let scorer = Scorer::new(scenario);
    let scores = scorer.score(&trials).into_iter().zip(scorer.score_wide::<f64>(&trials));
    [one, two, four, eight, scores.filter(|(wide, alone)| wide != alone).count()]
}

/// The same trials on pools of other sizes.
fn threads(lines: &mut Lines, work: &Work) {
    let scenario = Scenario::demo();
    let flown = || reaches(&scenario, 1..97, 72, work).results;
    let expected = flown();
    for threads in [1, 2, 5] {
        let name = if threads == 1 { "one thread".into() } else { format!("{threads} threads") };
        // Where the system gives no such pool, all of them are in doubt.
        let pool = ThreadPoolBuilder::new().num_threads(threads).build();
        let off = pool.map_or(expected.len(), |pool| {
            let found = pool.install(flown);
            found.iter().zip(&expected).filter(|(one, other)| one != other).count()
                + expected.len().abs_diff(found.len())
        });
        differ(lines, &format!("trials of 96 that go another way on {name}"), off);
    }
}
