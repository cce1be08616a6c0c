//! What would it take for a plan that does not hold: one set of changes, made together, whose trials say yes.
//!
//! A search downhill over centre, radius, way round, return speed, heights and bank. What is gone down is how badly a few
//! trials fail, the same draws for every design, crossings before buffers; on the way down the trials grow more. A design
//! that looks well is flown until decided. Changes that turn out not to be needed are taken back, and the radii to either
//! side are flown, so that what is proposed is no edge.

mod design;
mod search;

pub use design::{Change, Design};

use crate::run::Scenario;
use crate::study::verdict::{self, Answer, Demand, PlanVerdict};
use crate::study::work::Work;
use search::{STEP_M, Search};

/// Trials with which a search is worth its time: fewer decide nothing, and are flown where an answer is wanted soon.
pub const DECIDING: u64 = 512;
/// Radii flown to either side of the proposed one, in steps.
const BESIDE: i32 = 6;

/// The plan proposed instead.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// It, as a point.
    pub design: Design,
    /// By what it differs from the plan.
    pub changes: Vec<Change>,
    /// Its trials.
    pub verdict: PlanVerdict,
    /// Least and most radius whose trials say yes with the other changes made, metres, in steps of 5 m. The proposed one
    /// lies between them.
    pub usable_m: [f64; 2],
}

/// What a search came to.
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// The plan holds as it is: there is nothing to change.
    Holds,
    /// These changes make it hold.
    Changes(Box<Remedy>),
    /// Nothing tried holds.
    Nothing,
    /// Stopped on the way.
    Stopped,
}

/// Looks for changes that make a plan hold. `own` is what the trials of the plan as it is say.
pub fn search(scenario: &Scenario, own: Answer, work: &Work) -> Found {
    if own == Answer::Yes {
        return Found::Holds;
    }
    let search = Search::new(scenario, work);
    let found = search.run().find_map(|design| confirm(&search, design, work));
    match found {
        Some(remedy) => Found::Changes(Box::new(remedy)),
        None if work.go_on() => Found::Nothing,
        None => Found::Stopped,
    }
}

/// Flies a design until decided, takes back what is not needed, and looks how far the radius may be off.
fn confirm(search: &Search<'_>, design: Design, work: &Work) -> Option<Remedy> {
    let demand = Demand::of(&search.scenario.file.limits);
    let flown = |design: &Design| verdict::plan(&design.take(search.scenario), &demand, work);
    let answer = |design: &Design| flown(design).verdict.answer;
    let own = search.own;
    if !search.makes_headway(&design) || answer(&design) != Answer::Yes {
        return None;
    }
    // What is asked of the airframe goes first, then what the pilot has to do otherwise, then what is only set.
    let mut kept = design;
    for change in own.changes(&design).into_iter().rev() {
        let without = kept.without(change, &own);
        let may = without != own && search.may(&without) && search.makes_headway(&without);
        if may && search.lasts(&without) && answer(&without) == Answer::Yes {
            kept = without;
        }
    }
    let [least, most] = [-1.0, 1.0].map(|way| search.reach(&kept, way, BESIDE, answer));
    if !work.go_on() || most - least < 2.0 * STEP_M {
        return None;
    }
    let middle = ((least + most) / 2.0 / STEP_M).floor() * STEP_M;
    // The plan's own radius stays where it is no edge; else the middle of what holds.
    let stays = own.radius_m > least && own.radius_m < most;
    let design = Design { radius_m: if stays { own.radius_m } else { middle }, ..kept };
    let verdict = flown(&design);
    (verdict.verdict.answer == Answer::Yes && search.lasts(&design)).then(|| Remedy {
        design,
        changes: own.changes(&design),
        verdict,
        usable_m: [least, most],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::{ScenarioFile, WindChoice};
    use crate::units::{Length, Speed};

    /// The demo, whose plan holds, with an edit that makes it fail.
    fn failing(edit: impl FnOnce(&mut ScenarioFile)) -> Scenario {
        let mut file = Scenario::demo().file;
        edit(&mut file);
        Scenario::from_file(file).unwrap()
    }

    fn answer(scenario: &Scenario) -> Answer {
        verdict::plan(scenario, &Demand::of(&scenario.file.limits), &Work::default()).verdict.answer
    }

    #[test]
    fn what_is_proposed_holds_is_no_edge_and_is_faster_than_the_wind() {
        let scenario = failing(|file| file.jet.return_speed.value = Speed::new(35.0));
        assert_ne!(answer(&scenario), Answer::Yes);
        let Found::Changes(remedy) = search(&scenario, Answer::No, &Work::default()) else { panic!("nothing found") };
        let changed = remedy.design.take(&scenario);
        // Drawn afresh, with another seed.
        let mut fresh = changed.file.clone();
        fresh.seed += 1;
        assert_eq!(answer(&Scenario::from_file(fresh).unwrap()), Answer::Yes, "{remedy:?}");
        let [least, most] = remedy.usable_m;
        assert!(least < remedy.design.radius_m && remedy.design.radius_m < most, "{remedy:?}");
        assert!(remedy.design.return_mps > changed.wind_at_circle()[1], "{remedy:?}");
        assert!(!remedy.changes.is_empty());
        let gust = crate::run::draw(&changed, 0, WindChoice::Gust);
        assert!(crate::margins::Scorer::new(&changed).score(&[gust])[0].held);
    }

    #[test]
    fn nothing_is_proposed_where_nothing_can_hold_or_nothing_is_wrong() {
        assert_eq!(search(&Scenario::demo(), Answer::Yes, &Work::default()), Found::Holds);
        // The boundary is 600 m across: no place is 400 m from its edges.
        let scenario = failing(|file| file.limits.buffer = Length::new(400.0));
        assert_eq!(search(&scenario, Answer::No, &Work::default()), Found::Nothing);
        let stopped = Work::default();
        stopped.stop();
        assert_eq!(search(&scenario, Answer::No, &stopped), Found::Stopped);
    }
}
