//! What one recovery came to, in few numbers: what studies count, many thousand times over.

use super::flown::{Flown, position};
use super::gauge::Gauge;
use super::judge::Judge;
use super::{Figures, Gap, Limit, LimitInfo, Verdict, held_within_m};
use crate::lane::{Lane, Work, widest};
use crate::recovery::Guidance;
use crate::run::{Case, Ending, Scenario, Setting, Watched, setting, watch_wide};

/// What came of a recovery, the worst thing first; each recovery is one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Inside a patch it may not enter, or into an obstacle.
    EnteredPatch,
    /// Outside the outline, or behind the flight line.
    LeftOutline,
    /// Over the ceiling, or into the ground.
    CeilingOrGround,
    /// Slower than the stall at the load wanted at that moment.
    Stalled,
    /// Never on the circle, whatever stopped it.
    NeverSettled,
    /// Below the battery's reserve, or empty, before the hand-back.
    EnergyOut,
    /// Settled, but too late or too far off to be seen.
    LateOrUnseen,
    /// None of these.
    Recovered,
}

impl Outcome {
    /// Every outcome, the worst first.
    pub const ALL: [Self; 8] = [
        Self::EnteredPatch,
        Self::LeftOutline,
        Self::CeilingOrGround,
        Self::Stalled,
        Self::NeverSettled,
        Self::EnergyOut,
        Self::LateOrUnseen,
        Self::Recovered,
    ];

    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::EnteredPatch => "entered a patch",
            Self::LeftOutline => "left the outline",
            Self::CeilingOrGround => "ceiling or ground",
            Self::Stalled => "stalled",
            Self::NeverSettled => "never settled",
            Self::EnergyOut => "energy out",
            Self::LateOrUnseen => "late or unseen",
            Self::Recovered => "recovered",
        }
    }
}

/// What one recovery came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Score {
    /// One a limit, in the order of [`Scorer::limits`].
    pub gaps: Vec<Gap>,
    /// The worst of it.
    pub outcome: Outcome,
    /// Whether a limit was crossed, or it was still in the air when the time or the pack was over.
    pub crossed: bool,
    /// Whether nothing was crossed and every buffer kept.
    pub kept: bool,
    /// Whether the commanded circle was held in the last whole lap: see [`held_within_m`]. True where there is none to hold.
    pub held: bool,
    /// Which law guided it.
    pub guidance: Guidance,
    /// How it ended.
    pub ending: Ending,
    /// When, seconds since the loss.
    pub end_s: f64,
    /// Furthest from the hub in the last whole lap, metres; none where no whole lap was flown.
    pub outermost_m: Option<f64>,
    /// How far outside the commanded ring the join carried it, metres.
    pub join_overshoot_m: Option<f64>,
    /// How much further from the hub it still went before it turned home, metres.
    pub turn_back_m: f64,
    /// Time of the last whole lap, seconds.
    pub lap_s: Option<f64>,
    /// Share of that lap at the bank limit.
    pub saturated_share: Option<f64>,
    /// Time from the loss to the circle, seconds.
    pub home_s: Option<f64>,
    /// Energy drawn until the circle was reached, or until the end, joules.
    pub energy_home_j: f64,
    /// Laps from reaching the circle to the reserve.
    pub laps_in_hand: Option<f64>,
}

impl Score {
    /// Whether every buffer is kept and the circle held.
    pub fn meets(&self) -> bool {
        self.kept && self.held
    }

    fn new<L: Lane>(flown: &Flown<'_, L>, figures: &Figures, gaps: Vec<Option<Gap>>, limits: &[LimitInfo]) -> Self {
        let outcome = outcome(flown, figures, &gaps, limits);
        let worst = gaps.iter().flatten().map(|gap| gap.verdict).max().unwrap_or(Verdict::Clear);
        let crossed = matches!(flown.ending, Ending::Empty | Ending::OutOfTime) || worst == Verdict::Breached;
        let radius_m = flown.drawn.plan.radius;
        let holds = |outermost: f64| outermost - radius_m <= held_within_m(radius_m);
        let none = Gap { margin: f64::INFINITY, standoff: 0.0, verdict: Verdict::Clear, at_s: 0.0 };
        Self {
            gaps: gaps.into_iter().map(|gap| gap.unwrap_or(none)).collect(),
            outcome,
            crossed,
            kept: !crossed && worst < Verdict::Thin,
            held: !flown.comes_home() || figures.outermost_m.is_some_and(holds),
            guidance: flown.drawn.guidance,
            ending: flown.ending,
            end_s: position(flown.seen.last()) * flown.setting.step_s,
            outermost_m: figures.outermost_m,
            join_overshoot_m: figures.join_overshoot_m,
            turn_back_m: figures.turn_back_m,
            lap_s: figures.lap_s,
            saturated_share: figures.saturated_share,
            home_s: figures.home_s,
            energy_home_j: flown.drawn.energy_j - figures.energy_left_j,
            laps_in_hand: figures.laps_in_hand,
        }
    }
}

fn outcome<L: Lane>(flown: &Flown<'_, L>, figures: &Figures, gaps: &[Option<Gap>], limits: &[LimitInfo]) -> Outcome {
    let breached = |which: fn(Limit) -> bool| {
        let mut pairs = limits.iter().zip(gaps);
        pairs.any(|(info, gap)| gap.is_some_and(|gap| gap.margin < 0.0) && which(info.limit))
    };
    let unsettled = flown.comes_home() && figures.home_s.is_none();
    if breached(|limit| matches!(limit, Limit::Patch(_) | Limit::Obstacle(_))) {
        Outcome::EnteredPatch
    } else if breached(|limit| matches!(limit, Limit::Outline | Limit::FlightLine)) {
        Outcome::LeftOutline
    } else if breached(|limit| matches!(limit, Limit::Ceiling | Limit::Ground)) {
        Outcome::CeilingOrGround
    } else if breached(|limit| limit == Limit::Stall) {
        Outcome::Stalled
    } else if flown.ending == Ending::OutOfTime || unsettled {
        Outcome::NeverSettled
    } else if flown.ending == Ending::Empty || breached(|limit| limit == Limit::Energy) {
        Outcome::EnergyOut
    } else if breached(|_| true) {
        Outcome::LateOrUnseen
    } else {
        Outcome::Recovered
    }
}

/// Judges recoveries of one scenario, many at a time.
#[derive(Debug, Clone)]
pub struct Scorer<'a> {
    scenario: &'a Scenario,
    setting: Setting,
    judge: Judge<'a>,
}

impl<'a> Scorer<'a> {
    /// For a scenario as written.
    pub fn new(scenario: &'a Scenario) -> Self {
        Self { scenario, setting: setting(scenario), judge: Judge::new(scenario) }
    }

    /// What all cases share.
    pub fn setting(&self) -> &Setting {
        &self.setting
    }

    /// The limits, in the order of every score's gaps.
    pub fn limits(&self) -> &[LimitInfo] {
        &self.judge.limits
    }

    /// Flies and judges cases, as many side by side as the processor can. Each gives the same bits as alone.
    pub fn score(&self, cases: &[Case]) -> Vec<Score> {
        widest(Scoring { scorer: self, cases })
    }

    /// The same at a width of the caller's choice.
    #[inline(always)]
    pub fn score_wide<L: Lane>(&self, cases: &[Case]) -> Vec<Score> {
        let flight = Watched::of(self.scenario, &self.setting);
        let mut gauge = self.judge.gauge::<L>(self.setting.step_s);
        let mut scores = Vec::with_capacity(cases.len());
        for few in cases.chunks(L::WIDTH) {
            gauge.clear();
            let endings = watch_wide(&flight, few, &mut gauge);
            self.note(few, &endings, &gauge, &mut scores);
        }
        scores
    }

    fn note<L: Lane>(&self, cases: &[Case], endings: &[Ending], gauge: &Gauge<L>, scores: &mut Vec<Score>) {
        scores.extend(cases.iter().zip(endings).enumerate().map(|(lane, (drawn, &ending))| {
            let flown = self.judge.flown(&self.setting, drawn, gauge.lane(lane), ending);
            let (figures, gaps) = self.judge.measure(&flown);
            Score::new(&flown, &figures, gaps, &self.judge.limits)
        }));
    }
}

/// Cases to be flown and judged at whatever width there is.
struct Scoring<'a, 'b> {
    scorer: &'a Scorer<'b>,
    cases: &'a [Case],
}

impl Work for Scoring<'_, '_> {
    type Output = Vec<Score>;

    #[inline(always)]
    fn run<L: Lane>(self) -> Vec<Score> {
        self.scorer.score_wide::<L>(self.cases)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recovery::Turn;
    use crate::run::{ScenarioFile, Trace, WindChoice, draw, fly};
    use crate::units::{Length, Ratio, Time};

    #[track_caller]
    fn check(edit: impl FnOnce(&mut ScenarioFile), expected: Outcome) {
        let mut file = Scenario::tight_strip().file;
        edit(&mut file);
        let scenario = Scenario::from_file(file).unwrap();
        let score = Scorer::new(&scenario).score(&[draw(&scenario, 0, WindChoice::Mean)]).remove(0);
        assert_eq!(score.outcome, expected, "{score:?}");
    }

    /// The demo's recovery with its trace edited, judged.
    fn scored(edit: impl FnOnce(&mut Trace)) -> Score {
        let scenario = Scenario::tight_strip();
        let mut run = fly(&scenario, 0, WindChoice::Mean);
        edit(&mut run.trace);
        let (judge, setting) = (Judge::new(&scenario), setting(&scenario));
        let mut gauge = judge.gauge::<f64>(setting.step_s);
        run.trace.show(&mut gauge);
        let flown = judge.flown(&setting, &run.drawn, gauge.lane(0), run.ending);
        let (figures, gaps) = judge.measure(&flown);
        Score::new(&flown, &figures, gaps, &judge.limits)
    }

    /// The wing of 2.1 kg on 0.228 m2 at CL 1 and 1.225 kg/m3 stalls at 12.14 m/s in level flight, times the root of the
    /// load.
    #[test]
    fn a_stalled_wing_is_crossed_and_a_slow_one_uses_its_buffer() {
        let moment =
            |airspeed: f64, load: f64| scored(|trace| (trace.airspeed_mps[100], trace.load[100]) = (airspeed, load));
        // 1.556 g in 50 deg of bank: 15.14 m/s. 1.2 g where a climb begins: 13.30 m/s.
        let banked = 1.0 / 50.0_f64.to_radians().cos();
        for (airspeed, load) in [(15.0, banked), (13.0, 1.2)] {
            let score = moment(airspeed, load);
            assert_eq!((score.outcome, score.crossed, score.kept, score.held), (Outcome::Stalled, true, false, true));
        }
        // A tenth over 15.14 is 16.65 m/s, and a moment is not held.
        for (airspeed, kept) in [(15.2, false), (16.6, false), (16.7, true)] {
            let score = moment(airspeed, banked);
            assert_eq!((score.outcome, score.crossed, score.kept), (Outcome::Recovered, false, kept), "{airspeed}");
        }
        // 14 m/s with wings level all the time is more than a tenth over, and less than three tenths.
        let slow = scored(|trace| {
            trace.airspeed_mps.fill(14.0);
            trace.load.fill(1.0);
        });
        assert_eq!((slow.outcome, slow.crossed, slow.kept), (Outcome::Recovered, false, false));
    }

    #[test]
    fn neither_late_nor_wide_of_the_circle_is_a_crossing() {
        let mut file = Scenario::tight_strip().file;
        file.limits.home_within = Some(Time::new(1.0));
        let scenario = Scenario::from_file(file).unwrap();
        let late = Scorer::new(&scenario).score(&[draw(&scenario, 0, WindChoice::Mean)]).remove(0);
        assert_eq!((late.outcome, late.crossed, late.kept), (Outcome::LateOrUnseen, false, false));
        // Blown wide all the time: shown to the judge as a flight that is twice as far from the hub as flown.
        let hub = Scenario::tight_strip().field.hub;
        let wide = scored(|trace| {
            trace.x_m.iter_mut().for_each(|x| *x += *x - hub.x);
            trace.y_m.iter_mut().for_each(|y| *y += *y - hub.y);
        });
        assert!(
            !wide.crossed && !wide.kept && !wide.held && wide.home_s.is_none() && wide.laps_in_hand.is_none(),
            "{wide:?}"
        );
    }

    #[test]
    fn a_recovery_is_the_worst_thing_that_happened_to_it() {
        let wide = |file: &mut ScenarioFile| file.recovery.radius = Length::new(230.0);
        let charge = |share: f64| move |file: &mut ScenarioFile| file.loss.charge = Ratio::new(share);
        check(|_| (), Outcome::Recovered);
        // A circle of 230 m leaves the outline as well as entering the paddock, and the paddock is worse.
        check(wide, Outcome::EnteredPatch);
        check(
            |file| {
                wide(file);
                file.field.as_mut().unwrap().patches.clear();
                file.recovery.turn = Turn::Clockwise;
            },
            Outcome::LeftOutline,
        );
        check(|file| file.recovery.height = Length::new(130.0), Outcome::CeilingOrGround);
        // A pack of 111 Wh: half a percent is gone on the way, and that is worse than 20.5 %, which are less than the
        // reserve of 20 % once it is home.
        check(charge(0.005), Outcome::NeverSettled);
        check(charge(0.205), Outcome::EnergyOut);
    }
}
