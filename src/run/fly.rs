//! From the loss to the hand-back, for one case or several side by side.

use crate::field::Ground;
use crate::jet::{Attitude, Command, JetNumbers, Lags, Loads, State, advance};
use crate::lane::{Lane, Random, Words as _};
use crate::recovery::{Perception, Pilot, PlanNumbers, stretch};
use crate::run::air::Air;
use crate::run::{Case, Ending, Recorder, Run, Sample, Scenario, Setting, Trace, Watch, WindChoice, draw, setting};
use crate::wind::{AirNumbers, ProfileNumbers};

/// Longest run, s. A jet that is not home by then is not coming.
pub const LONGEST_S: f64 = 900.0;

/// The ground under a flight, as heights above home's.
#[derive(Debug, Clone, Copy)]
pub struct Floor<'a> {
    ground: &'a Ground,
    home_m: f64,
}

impl<'a> Floor<'a> {
    /// Under a scenario's field.
    pub fn of(scenario: &'a Scenario) -> Self {
        let ground = &scenario.field.ground;
        Self { ground, home_m: ground.height_m(scenario.field.home) }
    }

    /// Height of the ground at a place, metres above home's.
    pub fn height_m(&self, at: glam::DVec2) -> f64 {
        if self.ground.is_flat() { 0.0 } else { self.ground.height_m(at) - self.home_m }
    }

    /// Height of home's ground, metres above the datum's.
    pub fn home_m(&self) -> f64 {
        self.home_m
    }

    /// Steepest slope anywhere, metres of height a metre along.
    pub fn slope(&self) -> f64 {
        self.ground.slope()
    }

    /// Whether it is all as high as home's.
    pub fn is_flat(&self) -> bool {
        self.ground.is_flat()
    }

    /// Which jets have come down. The ground's height is asked for only below its highest place.
    #[inline(always)]
    fn reached<L: Lane>(&self, state: &State<L>) -> L::Words {
        let all = L::Words::splat(u64::MAX);
        let low = all.and_not(state.height.gt(L::splat(self.ground.highest_m() - self.home_m)));
        if self.ground.is_flat() || !low.any() {
            return low;
        }
        let height = L::from_fn(|lane| self.height_m(glam::DVec2::new(state.x.lane(lane), state.y.lane(lane))));
        all.and_not(state.height.gt(height))
    }
}

/// Flies one case of a scenario: a pure function of its arguments.
pub fn fly(scenario: &Scenario, case: u64, wind: WindChoice) -> Run {
    let drawn = draw(scenario, case, wind);
    let (trace, ending) = fly_case(&setting(scenario), scenario.file.wind.turbulence, &drawn, &Floor::of(scenario));
    Run { case, drawn, trace, ending }
}

/// Flies one case.
pub fn fly_case(setting: &Setting, turbulence: bool, case: &Case, floor: &Floor<'_>) -> (Trace, Ending) {
    let mut recorder = Recorder::new(setting.step_s, 1);
    let endings = fly_lanes::<f64, _>(setting, turbulence, std::slice::from_ref(case), floor, &mut recorder);
    let trace = recorder.traces.pop().unwrap_or_default();
    (trace, endings[0])
}

/// Flies as many cases as there are lanes, or fewer, and tells how each ended.
#[inline(always)]
pub(crate) fn fly_lanes<L: Lane, W: Watch<L>>(
    setting: &Setting,
    turbulence: bool,
    cases: &[Case],
    floor: &Floor<'_>,
    watch: &mut W,
) -> Vec<Ending> {
    let jet = JetNumbers::<L>::gather_by(cases, |case| &case.jet);
    let plan = PlanNumbers::<L>::gather_by(cases, |case| &case.plan);
    let wind = ProfileNumbers::<L>::gather_by(cases, |case| &case.wind);
    let rough = AirNumbers::<L>::gather_by(cases, |case| &case.air);
    let lags = Lags::of(&jet, setting.step_s / f64::from(setting.substeps));
    let mut state = State::<L>::gather_by(cases, |case| &case.start);
    let energy = L::from_fn(|lane| cases[lane.min(cases.len() - 1)].energy_j);

    let seeds: Vec<[u64; 4]> = cases.iter().map(|case| case.noise.unwrap_or([1, 0, 0, 0])).collect();
    // A case without draws flies in quiet air and with quiet senses, whoever flies beside it.
    let is_noisy = |lane: usize| cases[lane.min(cases.len() - 1)].noise.is_some();
    let noisy = L::Words::from_fn(|lane| if is_noisy(lane) { u64::MAX } else { 0 });
    let stirred = if turbulence { noisy } else { L::Words::splat(0) };
    let mut random = Random::<L>::new(&seeds);
    let mut air = Air::new(setting, &wind, rough, &state, stirred, &mut random);

    let mut command = Command { bank: state.bank, climb: state.climb, thrust: state.thrust, stopped: L::splat(0.0) };
    let mut pilot = Pilot::new(command, &plan);
    #[allow(clippy::cast_precision_loss, reason = "a handful of steps")]
    let interval = setting.step_s * setting.steps_per_fix as f64;
    let mut attitude = Attitude::of(&state);
    let [ground_x, ground_y] = attitude.over_ground(&state, air.now());
    let mut perception = Perception::new(setting.fix_age, interval, [state.x, state.y, ground_x, ground_y]);
    let any_noise = noisy.any();
    if any_noise {
        perception.stir(&plan, &mut random);
    }

    let mut endings = vec![Ending::OutOfTime; cases.len()];
    let mut flying = L::Words::from_fn(|lane| if lane < cases.len() { u64::MAX } else { 0 });
    let mut index = 0_usize;
    loop {
        #[allow(clippy::cast_precision_loss, reason = "a run has few steps")]
        let time = index as f64 * setting.step_s;
        if index.is_multiple_of(setting.steps_per_fix) {
            let noise = if any_noise { Some((random.five_normals(), noisy)) } else { None };
            let percept = perception.look(&state, &attitude, air.now(), &plan, noise);
            command = pilot.command(&setting.standing, &percept, &jet.worn(state.energy), &plan, time, interval);
        }
        air.draw(setting, &state, &mut random, index);
        let (next, loads) = cross(setting, (&jet, &lags), &wind, &state, &attitude, &command, &air);
        let (load, wanted_load) = (loads.flown, loads.wanted);
        watch.see(&Sample { index, state: &state, load, wanted_load, stretch: pilot.stretch() }, flying);

        let down = floor.reached(&state);
        let handed = pilot.is(stretch::HANDED_BACK);
        let empty = L::Words::splat(u64::MAX).and_not(energy.gt(state.energy));
        let late = L::Words::splat(if time >= LONGEST_S { u64::MAX } else { 0 });
        let over = flying.and(down.or(handed).or(empty).or(late));
        if over.any() {
            for (lane, ending) in endings.iter_mut().enumerate().filter(|(lane, _)| over.lane(*lane) != 0) {
                let reasons = [(down, Ending::Landed), (handed, Ending::HandedBack), (empty, Ending::Empty)];
                let reason = reasons.into_iter().find(|(mask, _)| mask.lane(lane) != 0);
                *ending = reason.map_or(Ending::OutOfTime, |(_, ending)| ending);
            }
            flying = flying.and_not(over);
            if !flying.any() {
                return endings;
            }
        }
        state = next;
        attitude = Attitude::of(&state);
        air.arrive(setting, &wind, &state);
        index += 1;
    }
}

/// One step of the trace, in one part as shipped; and the load factors at its start.
#[inline(always)]
fn cross<L: Lane>(
    setting: &Setting,
    (jet, lags): (&JetNumbers<L>, &Lags<L>),
    wind: &ProfileNumbers<L>,
    state: &State<L>,
    attitude: &Attitude<L>,
    command: &Command<L>,
    air: &Air<L>,
) -> (State<L>, Loads<L>) {
    let dt = setting.step_s / f64::from(setting.substeps);
    let (mut next, loads) = advance(jet, lags, state, attitude, command, &air.begin(), dt);
    for part in 1..setting.substeps {
        let gust = air.at(setting, wind, &next, f64::from(part) * dt);
        next = advance(jet, lags, &next, &Attitude::of(&next), command, &gust, dt).0;
    }
    (next, loads)
}
