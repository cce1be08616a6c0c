//! What would help where no radius is usable: one change at a time, each flown.

use std::f64::consts::TAU;

use glam::DVec2;

use super::Step;
use super::answer::{BestCentre, RadiusAsk, Remedy};
use super::closed::{room, stall_floor};
use super::flyer::CircleFlyer;
use super::usable::{circles, tried, usable};
use crate::recovery::FailsafeAction;
use crate::run::{Scenario, ScenarioFile, WindChoice};
use crate::units::{Angle, Length, Speed};

/// Return speeds tried between the present one and the slowest that the stall allows.
const SLOWER: u32 = 4;
/// Changes of the maximum bank, deg.
const MORE_BANK: [f64; 2] = [5.0, 10.0];
/// Steepest maximum bank tried, deg: beyond it the load is twice the weight.
const STEEPEST: f64 = 60.0;
/// Changes of the height of the circle, metres.
const HEIGHTS: [f64; 4] = [-20.0, -10.0, 10.0, 20.0];
/// Lowest height of the circle tried, metres.
const LOWEST: f64 = 10.0;

/// Rings on which another place of the loss is looked for: how far apart, metres, how many, and places on each.
const ASIDE: f64 = 5.0;
const FURTHEST: u32 = 100;
const DIRECTIONS: u32 = 16;
/// Places of the loss tried on the way to the centre, as shares of it.
const TOWARDS: [f64; 3] = [0.25, 0.5, 0.75];

/// The search for what makes radii usable for one demand.
struct Search<'a> {
    flyer: &'a CircleFlyer<'a>,
    ask: &'a RadiusAsk,
    /// The wind in which usable radii are wanted: the mean unless that has some already.
    wanted: WindChoice,
    found: Vec<Remedy>,
}

/// Every change tried, those that do not help too; fewer where the work is to stop.
pub(super) fn remedies(
    flyer: &CircleFlyer<'_>,
    ask: &RadiusAsk,
    wanted: WindChoice,
    best: Option<&BestCentre>,
) -> Vec<Remedy> {
    let mut search = Search { flyer, ask, wanted, found: Vec::new() };
    search.slower();
    search.moved(best);
    search.nearer();
    search.calmer();
    search.steeper();
    search.otherwise();
    search.higher();
    search.found
}

impl Search<'_> {
    fn file(&self) -> &ScenarioFile {
        &self.flyer.scenario.file
    }

    /// The plan with a change, about the same centre.
    fn changed(&self, step: Step) -> Scenario {
        let mut scenario = self.flyer.scenario.clone();
        step.take(&mut scenario.file);
        scenario
    }

    /// Flies a changed plan in the mean wind, and where that opens something in the gust wind.
    fn flown(&self, step: Step, change: String, flyer: &CircleFlyer<'_>) -> Remedy {
        let circles = circles(&self.ask.turns, &tried(&self.ask.radii_m, self.ask.finest_m));
        let range = |wind| usable(flyer, &flyer.fly(&circles, wind), wind);
        let mean = range(WindChoice::Mean);
        let gust = if mean.is_empty() { Vec::new() } else { range(WindChoice::Gust) };
        Remedy { step, change, usable: mean, gust }
    }

    fn keep(&mut self, step: Step, words: String) {
        if self.flyer.work.go_on() {
            let scenario = self.changed(step);
            let remedy =
                self.flown(step, words, &CircleFlyer::new(&scenario, self.flyer.work).about(self.flyer.centre));
            self.push(remedy);
        }
    }

    /// Keeps what was flown to its end.
    fn push(&mut self, remedy: Remedy) {
        if self.flyer.work.go_on() {
            self.found.push(remedy);
        }
    }

    fn slower(&mut self) {
        let sheet = &self.file().jet;
        let (now, bank) = (sheet.return_speed.value, sheet.maximum_bank.value.rad());
        let floor = stall_floor(self.flyer.scenario, bank);
        if floor >= now.mps() {
            return;
        }
        for step in 1..=SLOWER {
            let speed = now.mps() - (now.mps() - floor) * f64::from(step) / f64::from(SLOWER);
            // A tenth at most over the floor, so that the number printed is the number flown.
            let speed = Speed::new((speed * 10.0).ceil() / 10.0);
            let floor = if step == SLOWER { ", the slowest that the stall allows" } else { "" };
            self.keep(Step::ReturnSpeed(speed), format!("return at {speed:.1} instead of {now:.1}{floor}"));
        }
    }

    fn moved(&mut self, best: Option<&BestCentre>) {
        let Some(best) = best.filter(|best| best.centre != self.flyer.centre && self.flyer.work.go_on()) else {
            return;
        };
        let (from, to) = (self.flyer.centre, best.centre);
        let change = format!("circle about ({:.0}, {:.0}) m instead of ({:.0}, {:.0}) m", to.x, to.y, from.x, from.y);
        let remedy = self.flown(Step::Centre(to), change, &self.flyer.about(to));
        self.push(remedy);
    }

    /// Another place of the loss: the nearest from which nothing is too near before the jet acts on it, where that is
    /// not so already, and some of the way to the centre.
    fn nearer(&mut self) {
        let (scenario, centre) = (self.flyer.scenario, self.flyer.centre);
        let (loss, buffer) = (DVec2::from_array(self.file().loss.at_m), self.file().limits.buffer.m());
        let trial = self.flyer.plain(WindChoice::Mean);
        let nose = DVec2::new(trial.start.nose_x, trial.start.nose_y);
        let silent = (nose * trial.start.airspeed + DVec2::new(trial.wind.x, trial.wind.y)) * trial.plan.failsafe_delay;
        let clear = |at: &DVec2| [*at, *at + silent].iter().all(|&at| room(scenario, at, buffer).0 >= 0.0);
        let mut rings = (1..=FURTHEST).flat_map(|ring| {
            let directions = (0..DIRECTIONS).map(|part| TAU * f64::from(part) / f64::from(DIRECTIONS));
            directions.map(move |angle| (loss + DVec2::from_angle(angle) * f64::from(ring) * ASIDE).round())
        });
        let aside = if clear(&loss) { None } else { rings.find(clear) };
        for to in aside.into_iter().chain(TOWARDS.map(|share| loss.lerp(centre, share).round())) {
            let words = format!("lost at ({:.0}, {:.0}) m instead of ({:.0}, {:.0}) m", to.x, to.y, loss.x, loss.y);
            self.keep(Step::LossAt(to), words);
        }
    }

    /// The highest mean wind, its gusts in proportion, that gives usable radii, to a tenth of a metre a second.
    fn calmer(&mut self) {
        let wind = self.file().wind;
        let at = |tenths: u32| {
            let mean = Speed::new(f64::from(tenths) / 10.0);
            let scenario = self.changed(Step::MeanWind(mean));
            let what = if tenths == 0 { "no wind".into() } else { format!("a mean wind of at most {mean:.1}") };
            let change = format!("{what} at {:.0} instead of {:.1}", wind.measured_at, wind.mean);
            self.flown(
                Step::MeanWind(mean),
                change,
                &CircleFlyer::new(&scenario, self.flyer.work).about(self.flyer.centre),
            )
        };
        let opens = |remedy: &Remedy| !self.wanted(remedy).is_empty();
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "tenths of a wind speed")]
        let (mut low, mut high) = (0, (wind.mean.mps() * 10.0).ceil() as u32);
        if high == 0 || !self.flyer.work.go_on() {
            return;
        }
        let mut best = at(low);
        while opens(&best) && high - low > 1 && self.flyer.work.go_on() {
            let middle = u32::midpoint(low, high);
            let tried = at(middle);
            if opens(&tried) {
                (low, best) = (middle, tried);
            } else {
                high = middle;
            }
        }
        self.push(best);
    }

    fn wanted<'b>(&self, remedy: &'b Remedy) -> &'b [super::answer::RadiusRange] {
        match self.wanted {
            WindChoice::Mean => &remedy.usable,
            WindChoice::Gust => &remedy.gust,
        }
    }

    fn steeper(&mut self) {
        let now = self.file().jet.maximum_bank.value.rad().to_degrees();
        let speed = self.file().jet.return_speed.value;
        for bank in MORE_BANK.map(|more| now + more).into_iter().filter(|&bank| bank <= STEEPEST) {
            let words = format!("maximum bank {bank:.0} deg instead of {now:.0} deg");
            let step = Step::MaximumBank(Angle::new(bank.to_radians()));
            let floor = stall_floor(self.flyer.scenario, bank.to_radians());
            if floor > speed.mps() {
                let change = format!("{words}: no, the stall then asks for {:.1}", Speed::new(floor));
                self.found.push(Remedy { step, change, usable: Vec::new(), gust: Vec::new() });
            } else {
                self.keep(step, words);
            }
        }
    }

    fn otherwise(&mut self) {
        let plan = &self.file().recovery;
        let (now, wait) = (plan.failsafe_action, plan.wait);
        for failsafe_action in [FailsafeAction::WaitThenCut, FailsafeAction::Cut]
            .into_iter()
            .filter(|&failsafe_action| failsafe_action != now)
        {
            let words = match failsafe_action {
                FailsafeAction::WaitThenCut => format!("wait {wait:.0}, then cut, instead of the return"),
                _ => "cut at once instead of the return".into(),
            };
            self.keep(Step::FailsafeAction(failsafe_action), words);
        }
    }

    fn higher(&mut self) {
        let now = self.file().recovery.height;
        for height in HEIGHTS.map(|more| now.m() + more).into_iter().filter(|&height| height >= LOWEST) {
            let height = Length::new(height);
            self.keep(Step::Height(height), format!("circle at {height:.0} instead of {now:.0}"));
        }
    }
}
