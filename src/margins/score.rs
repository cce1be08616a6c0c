//! What one recovery came to, in few numbers: what studies count, many thousand times over.

use super::clock::{Clock, position};
use super::flown::Flown;
use super::judge::Judge;
use super::outcome::{Outcome, outcome};
use super::seen::Seen;
use super::{Figures, Gap, LimitInfo, Verdict, held_within_m};
use crate::lane::{Lane, LaneWork, widest};
use crate::recovery::Guidance;
use crate::run::{Ending, Scenario, Setting, Trial, Watched, setting, watch_wide};

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
    /// Furthest from the centre in the last whole lap, metres; none where no whole lap was flown.
    pub furthest_m: Option<f64>,
    /// How far outside the commanded ring joining carried it, metres.
    pub joining_overshoot_m: Option<f64>,
    /// How much further from the centre it still went before it turned home, metres.
    pub turn_back_m: f64,
    /// Time of the last whole lap, seconds.
    pub lap_s: Option<f64>,
    /// Share of that lap at the maximum bank.
    pub saturated_share: Option<f64>,
    /// Time from the loss to the circle, seconds.
    pub home_s: Option<f64>,
    /// Energy drawn until the circle was reached, or until the end, joules.
    pub energy_home_j: f64,
    /// Laps from reaching the circle to the reserve.
    pub laps_to_reserve: Option<f64>,
}

impl Score {
    /// Whether every buffer is kept and the circle held.
    pub fn meets(&self) -> bool {
        self.kept && self.held
    }

    fn new<L: Lane>(
        flown: &Flown<'_, L>,
        ending: Ending,
        figures: &Figures,
        gaps: Vec<Option<Gap>>,
        limits: &[LimitInfo],
    ) -> Self {
        let outcome = outcome(flown, ending, figures, &gaps, limits);
        let worst = gaps.iter().flatten().map(|gap| gap.verdict).max().unwrap_or(Verdict::Clear);
        let crossed = matches!(ending, Ending::Empty | Ending::OutOfTime) || worst == Verdict::Crossed;
        let radius_m = flown.drawn.plan.radius;
        let holds = |furthest: f64| furthest - radius_m <= held_within_m(radius_m);
        let none = Gap { margin: f64::INFINITY, buffer: 0.0, verdict: Verdict::Clear, at_s: 0.0 };
        Self {
            gaps: gaps.into_iter().map(|gap| gap.unwrap_or(none)).collect(),
            outcome,
            crossed,
            kept: !crossed && worst < Verdict::InsideBuffer,
            held: !flown.comes_home() || figures.furthest_m.is_some_and(holds),
            guidance: flown.drawn.guidance,
            ending,
            end_s: flown.clock.at_s(position(flown.seen.last())),
            furthest_m: figures.furthest_m,
            joining_overshoot_m: figures.joining_overshoot_m,
            turn_back_m: figures.turn_back_m,
            lap_s: figures.lap_s,
            saturated_share: figures.saturated_share,
            home_s: figures.home_s,
            energy_home_j: flown.drawn.energy_j - figures.energy_left_j,
            laps_to_reserve: figures.laps_to_reserve,
        }
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
    /// For a scenario as entered.
    pub fn new(scenario: &'a Scenario) -> Self {
        Self { scenario, setting: setting(scenario), judge: Judge::new(scenario) }
    }

    /// What all trials share.
    pub fn setting(&self) -> &Setting {
        &self.setting
    }

    /// The limits, in the order of every score's gaps.
    pub fn limits(&self) -> &[LimitInfo] {
        &self.judge.limits
    }

    /// Flies and judges trials, as many side by side as the processor can. Each gives the same bits as alone.
    pub fn score(&self, trials: &[Trial]) -> Vec<Score> {
        widest(Scoring { scorer: self, trials })
    }

    /// The same at a width of the caller's choice.
    #[inline(always)]
    pub fn score_wide<L: Lane>(&self, trials: &[Trial]) -> Vec<Score> {
        let flight = Watched::of(self.scenario, &self.setting);
        let mut gauge = self.judge.gauge::<L>(self.setting.step_s);
        let mut scores = vec![None; trials.len()];
        for places in alike(trials).chunks(L::WIDTH) {
            let few: Vec<Trial> = places.iter().map(|&place| trials[place]).collect();
            gauge.clear();
            let endings = watch_wide(&flight, &few, &mut gauge);
            for (lane, (&place, drawn)) in places.iter().zip(&few).enumerate() {
                scores[place] = Some(self.note(drawn, endings[lane], gauge.lane(lane)));
            }
        }
        scores.into_iter().flatten().collect()
    }

    fn note<L: Lane>(&self, drawn: &Trial, ending: Ending, seen: Seen<'_, L>) -> Score {
        let flown = self.judge.flown(&self.setting, drawn, seen, Clock::Steps(self.setting.step_s));
        let (figures, gaps) = self.judge.measure(&flown);
        Score::new(&flown, ending, &figures, gaps, &self.judge.limits)
    }
}

/// The places of trials in an order in which those side by side fly by the same law and for about as long: nobody waits
/// for the longest flight, and what nobody follows is not worked out.
fn alike(trials: &[Trial]) -> Vec<usize> {
    let lasts = |trial: &Trial| {
        let (plan, start, speed) = (&trial.plan, &trial.start, trial.jet.return_speed);
        let home = (start.x - plan.centre_x).hypot(start.y - plan.centre_y) / speed;
        plan.failsafe_delay + home + (plan.sweep * plan.radius / speed).max(plan.take_over)
    };
    let keys: Vec<_> = trials.iter().map(|trial| (trial.guidance.number(), lasts(trial))).collect();
    let mut places: Vec<usize> = (0..trials.len()).collect();
    places.sort_by(|&a, &b| keys[a].0.total_cmp(&keys[b].0).then(keys[a].1.total_cmp(&keys[b].1)));
    places
}

/// Trials to be flown and judged at whatever width there is.
struct Scoring<'a, 'b> {
    scorer: &'a Scorer<'b>,
    trials: &'a [Trial],
}

impl LaneWork for Scoring<'_, '_> {
    type Output = Vec<Score>;

    #[inline(always)]
    fn run<L: Lane>(self) -> Vec<Score> {
        self.scorer.score_wide::<L>(self.trials)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recovery::Turn;
    use crate::run::{ScenarioFile, Trace, WindChoice, draw, fly};
    use crate::units::{Length, Ratio, Speed, Time};

    #[track_caller]
    fn check(edit: impl FnOnce(&mut ScenarioFile), expected: Outcome) {
        let mut file = Scenario::tight_strip().file;
        edit(&mut file);
        let scenario = Scenario::from_file(file).unwrap();
        let score = Scorer::new(&scenario).score(&[draw(&scenario, 0, WindChoice::Mean)]).remove(0);
        assert_eq!(score.outcome, expected, "{score:?}");
    }

    /// The tight strip's recovery with its trace edited, judged.
    fn scored(edit: impl FnOnce(&mut Trace)) -> Score {
        scored_over(&Scenario::tight_strip(), edit)
    }

    fn scored_over(scenario: &Scenario, edit: impl FnOnce(&mut Trace)) -> Score {
        let mut run = fly(scenario, 0, WindChoice::Mean);
        edit(&mut run.trace);
        let (judge, setting) = (Judge::new(scenario), setting(scenario));
        let mut gauge = judge.gauge::<f64>(setting.step_s);
        run.trace.show(&mut gauge);
        let flown = judge.flown(&setting, &run.drawn, gauge.lane(0), Clock::Steps(setting.step_s));
        let (figures, gaps) = judge.measure(&flown);
        Score::new(&flown, run.ending, &figures, gaps, &judge.limits)
    }

    /// The wing of 2.1 kg on 0.228 m2 at CL 1 and 1.225 kg/m3 stalls at 12.14 m/s in level flight, times the root of the
    /// load.
    #[test]
    fn a_stalled_wing_is_crossed_and_a_slow_one_uses_its_buffer() {
        let moment = |airspeed: f64, load: f64| {
            scored(|trace| (trace.airspeed_mps[100], trace.wanted_load[100]) = (airspeed, load))
        };
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
            trace.wanted_load.fill(1.0);
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
        // Blown wide all the time, over land that goes on and on: shown to the judge as a flight that is twice as far from
        // the centre as flown.
        let mut file = Scenario::tight_strip().file;
        let field = file.field.as_mut().unwrap();
        field.boundary.ring_m = vec![[-2e3, -2e3], [2e3, -2e3], [2e3, 2e3], [-2e3, 2e3]];
        (field.areas, field.obstacles) = (vec![], vec![]);
        let open = Scenario::from_file(file).unwrap();
        let centre = open.field.centre;
        let wide = scored_over(&open, |trace| {
            trace.x_m.iter_mut().for_each(|x| *x += *x - centre.x);
            trace.y_m.iter_mut().for_each(|y| *y += *y - centre.y);
        });
        assert!(
            !wide.crossed && !wide.kept && !wide.held && wide.home_s.is_none() && wide.laps_to_reserve.is_none(),
            "{wide:?}"
        );
    }

    #[test]
    fn a_recovery_is_the_worst_thing_that_happened_to_it() {
        let wide = |file: &mut ScenarioFile| file.recovery.radius = Length::new(230.0);
        let charge = |share: f64| move |file: &mut ScenarioFile| file.loss.charge = Ratio::new(share);
        check(|_| (), Outcome::Recovered);
        // A circle of 230 m leaves the boundary as well as entering the paddock, and the paddock is worse.
        check(wide, Outcome::EnteredArea);
        check(
            |file| {
                wide(file);
                file.field.as_mut().unwrap().areas.clear();
                file.recovery.turn = Turn::Clockwise;
            },
            Outcome::LeftBoundary,
        );
        check(|file| file.recovery.height = Length::new(130.0), Outcome::HeightLimitOrGround);
        // On a circle of 40 m at 12.5 m/s the bank is 21.7 deg, where the wing asks for 12.6 m/s: the root of 1.076 times 12.14.
        check(
            |file| {
                file.jet.return_speed.value = Speed::new(12.5);
                file.recovery.radius = Length::new(40.0);

                file.loss.speed = Speed::new(12.5);
            },
            Outcome::Stalled,
        );
        // A pack of 111 Wh: half a percent is gone on the way, and that is worse than 20.5 %, which are less than the
        // reserve of 20 % once it is home.
        check(charge(0.005), Outcome::NeverSettled);
        check(charge(0.205), Outcome::EnergyOut);
    }
}
