//! Which radius, which way round, here, today, and how sure are we.

mod answer;
mod budget;
mod centre;
mod choice;
mod closed;
mod flyer;
mod reason;
mod remedies;
mod sensitivity;
mod step;
mod trials;
mod usable;

pub use answer::{
    BestCentre, BudgetLine, Choice, ClosedForm, End, Family, RadiusAsk, RadiusPoint, RadiusRange, RadiusStudy, Remedy,
    Sensitivity, Standing, UsableRadii, holds,
};
pub(super) use closed::{PENETRATION, room, stall_floor};
pub(super) use flyer::scale;
pub use reason::{Reason, Shortfall};
pub use step::Step;

use crate::run::{Scenario, WindChoice};
use crate::study::Tally;
use crate::study::verdict::{Answer, Demand, Verdict};
use crate::study::work::Work;
use choice::Candidate;
use flyer::{Circle, CircleFlyer};

/// Most trials in which the tracking is looked at: for the 95 % of a spread that is plenty.
const TRACKED: u64 = 1000;

/// The study of a scenario. Where `work` is stopped it is marked partial: every radius then has the same fewer trials,
/// and what comes after the trials is left out.
pub fn study(scenario: &Scenario, ask: &RadiusAsk, work: &Work) -> RadiusStudy {
    let flyer = CircleFlyer::new(scenario, work);
    let mut study = asked_for(&flyer, ask);
    if !study.partial {
        look_around(&flyer, &mut study);
    }
    study.partial |= !work.go_on();
    study
}

/// The same without what looks beyond the radii asked for: no room budget, sensitivity, family, best centre and remedies.
pub fn study_briefly(scenario: &Scenario, ask: &RadiusAsk, work: &Work) -> RadiusStudy {
    asked_for(&CircleFlyer::new(scenario, work), ask)
}

/// The radii asked for, their usable radii and the choice among them.
fn asked_for(flyer: &CircleFlyer<'_>, ask: &RadiusAsk) -> RadiusStudy {
    let scenario = flyer.scenario;
    let demand = ask.demand(&scenario.file.limits);
    let fine = usable::circles(&ask.turns, &usable::between(&ask.radii_m, ask.finest_m));
    // What is written is always answered for, however soon the stop: the trials are what takes long.
    let written = flyer.regardless();
    let [mean, gust] = [WindChoice::Mean, WindChoice::Gust].map(|wind| written.fly(&fine, wind));
    let both: Vec<Candidate<'_>> = mean.iter().zip(&gust).map(|(mean, gust)| Candidate { mean, gust }).collect();
    let mut drawn = Drawn { flyer, ask, demand, points: Vec::new(), complete: true };
    drawn.fly(&both, &usable::circles(&ask.turns, &ask.radii_m));
    drawn.look_between(&both);
    let plan = drawn.plan();
    let Drawn { points, complete, .. } = drawn;
    let limits = flyer.limits();
    let usable = UsableRadii {
        mean: usable::usable(&written, &mean, WindChoice::Mean),
        gust: usable::usable(&written, &gust, WindChoice::Gust),
        trials: trials::usable(limits, &points, Answer::Yes),
        undecided: trials::usable(limits, &points, Answer::Undecided),
    };

    let mut study = RadiusStudy {
        ask: ask.clone(),
        demand,
        plan,
        limits: limits.to_vec(),
        points,
        usable,
        already: flyer.already_short(&mean),
        choice: None,
        least_bad: None,
        closed: closed::closed_form(scenario),
        budget: Vec::new(),
        free_m: 0.0,
        free_to: String::new(),
        falls_m: budget::falls_m(flyer),
        looked_at: (scenario.file.recovery.radius.m(), scenario.file.recovery.turn),
        sensitivity: Vec::new(),
        family: Vec::new(),
        remedies: Vec::new(),
        best_centre: None,
        partial: !complete,
    };
    (study.free_m, study.free_to) = room(scenario, flyer.centre, 0.0);
    choose(flyer, &mut study, &both);
    study
}

/// The trials of a study, circle by circle.
struct Drawn<'a> {
    flyer: &'a CircleFlyer<'a>,
    ask: &'a RadiusAsk,
    demand: Demand,
    points: Vec<RadiusPoint>,
    complete: bool,
}

impl Drawn<'_> {
    fn verdict(&self, tally: &Tally) -> Option<Verdict> {
        self.ask.judges().then(|| self.demand.judge(tally))
    }

    fn at(&self, circle: Circle) -> Option<&RadiusPoint> {
        self.points.iter().find(|point| (point.radius_m, point.turn) == (circle.radius_m, circle.turn))
    }

    /// Flies the trials of circles that have been flown as entered.
    fn fly(&mut self, both: &[Candidate<'_>], circles: &[Circle]) {
        let (tallies, complete) = trials::tallies(self.flyer, circles, &self.demand);
        self.complete &= complete;
        for (&circle, trials) in circles.iter().zip(tallies) {
            if let Some(written) = both.iter().find(|candidate| candidate.circle() == circle) {
                let (mean, gust, verdict) =
                    (written.mean.score.clone(), written.gust.score.clone(), self.verdict(&trials));
                let Circle { radius_m, turn } = circle;
                self.points.push(RadiusPoint { radius_m, turn, mean, gust, trials, verdict });
            }
        }
    }

    /// Where no radius asked for says yes: the circle between them that the plan as entered holds best may.
    fn look_between(&mut self, both: &[Candidate<'_>]) {
        let usable = |point: &RadiusPoint| point.verdict.is_some_and(|verdict| verdict.answer == Answer::Yes);
        if !self.complete || !self.ask.judges() || self.points.iter().any(usable) {
            return;
        }
        let best = choice::roomiest(self.flyer, both).filter(|(_, meets)| *meets);
        let Some(circle) = best.map(|(best, _)| best.circle()).filter(|&circle| self.at(circle).is_none()) else {
            return;
        };
        self.fly(both, &[circle]);
        // Only what holds is worth a radius of its own.
        if self.points.pop_if(|point| !usable(point)).is_none() {
            let order = |turn| self.ask.turns.iter().position(|other| *other == turn);
            self.points.sort_by(|a, b| order(a.turn).cmp(&order(b.turn)).then(a.radius_m.total_cmp(&b.radius_m)));
        }
    }

    /// The verdict of the plan's own circle, flown where it is none of those asked for.
    fn plan(&mut self) -> Option<Verdict> {
        let circle = Circle::planned(self.flyer.scenario);
        if let Some(point) = self.at(circle) {
            return point.verdict;
        }
        if !self.complete || !self.ask.judges() {
            return None;
        }
        let (tallies, complete) = trials::tallies(self.flyer, &[circle], &self.demand);
        self.complete &= complete;
        self.verdict(tallies.first()?)
    }
}

/// Recommends a circle, or names the one that is nearest to it.
fn choose(flyer: &CircleFlyer<'_>, study: &mut RadiusStudy, both: &[Candidate<'_>]) {
    let at = |circle: Circle| {
        let mut points = study.points.iter();
        points.position(|point| (point.radius_m, point.turn) == (circle.radius_m, circle.turn))
    };
    let flown: Vec<choice::JudgedCircle<'_, '_>> = both
        .iter()
        .filter_map(|candidate| {
            let Circle { radius_m, turn } = candidate.circle();
            let index = at(candidate.circle())?;
            let inside = study.standing(radius_m, turn) == Standing::Inside;
            Some(choice::JudgedCircle { candidate, verdict: study.points[index].verdict?, inside })
        })
        .collect();
    let (best, holds) = match choice::best(flyer, &flown) {
        Some(best) => (best.candidate, best.verdict.answer == Answer::Yes),
        // Nothing has been judged: what the plan as entered says.
        None => match choice::roomiest(flyer, both) {
            Some(best) => best,
            None => return,
        },
    };
    let circle = best.circle();
    let point = at(circle).map(|index| &study.points[index]);
    let trials = point.map_or_else(|| Tally::new(flyer.limits().len()), |point| point.trials.clone());
    let choice = Some(best.choice(flyer, trials, point.and_then(|point| point.verdict)));
    if holds {
        // A plan that holds is looked at itself: another circle is another plan.
        if study.plan.is_none_or(|plan| plan.answer != Answer::Yes) {
            study.looked_at = (circle.radius_m, circle.turn);
        }
        study.choice = choice;
    } else {
        study.least_bad = choice;
    }
}

/// Everything that looks beyond the radii asked for.
fn look_around(flyer: &CircleFlyer<'_>, study: &mut RadiusStudy) {
    let (radius_m, turn) = study.looked_at;
    let circle = Circle { radius_m, turn };
    study.budget = budget::budget(flyer, circle, study.ask.trials.min(TRACKED));
    if flyer.circles() && flyer.work.go_on() {
        study.sensitivity = sensitivity::sensitivity(flyer, circle);
        study.family = sensitivity::family(flyer, circle);
    }
    if !flyer.work.go_on() {
        // What was only begun is left out.
        (study.budget, study.sensitivity, study.family) = Default::default();
    }
    if flyer.work.go_on() {
        study.best_centre = centre::best_centre(flyer, &study.ask);
    }
    let empty = [(&study.usable.mean, WindChoice::Mean), (&study.usable.gust, WindChoice::Gust)];
    if let Some((_, wanted)) = empty.into_iter().find(|(usable, _)| usable.is_empty())
        && flyer.work.go_on()
    {
        study.remedies = remedies::remedies(flyer, &study.ask, wanted, study.best_centre.as_ref());
    }
}
