//! A flight, one step at a time: with commands from the autopilot or from somebody's hands, with a loss that may come at
//! any step. A copy of it goes on from where it was, to the same bits.

use crate::jet::{Attitude, Command, JetNumbers, Lags, Loads, State, advance};
use crate::lane::{Lane, Random, Words as _};
use crate::recovery::{Autopilot, Perception, PlanNumbers, stretch};
use crate::run::air::Air;
use crate::run::{Ending, Floor, Sample, Setting, Trial};
use crate::wind::{AirNumbers, ProfileNumbers};

/// Longest flight after a loss, s. A jet that is not home by then is not coming.
pub const LONGEST_S: f64 = 900.0;

/// Jets in the air, one a lane.
#[derive(Debug, Clone)]
pub struct Flight<L: Lane> {
    jet: JetNumbers<L>,
    lags: Lags<L>,
    plan: PlanNumbers<L>,
    wind: ProfileNumbers<L>,
    air: Air<L>,
    random: Random<L>,
    /// In which lanes there are errors of the instruments.
    noisy: L::Words,
    perception: Perception<L>,
    /// Seconds between fixes.
    interval: f64,
    autopilot: Autopilot<L>,
    command: Command<L>,
    /// Energy that the pack held at the start, J.
    energy: L,
    state: State<L>,
    attitude: Attitude<L>,
    next: State<L>,
    loads: Loads<L>,
    /// Number of the present step since the start, and that of the step at which the link or the picture was lost.
    index: usize,
    lost_at: Option<usize>,
    pub(super) flying: L::Words,
    pub(super) endings: Vec<Ending>,
}

impl<L: Lane> Flight<L> {
    /// Trials as they begin, as many as there are lanes or fewer. Nothing is lost yet.
    #[inline(always)]
    pub fn new(setting: &Setting, turbulence: bool, trials: &[Trial]) -> Self {
        let jet = JetNumbers::<L>::gather_by(trials, |trial| &trial.jet);
        let plan = PlanNumbers::<L>::gather_by(trials, |trial| &trial.plan);
        let wind = ProfileNumbers::<L>::gather_by(trials, |trial| &trial.wind);
        let rough = AirNumbers::<L>::gather_by(trials, |trial| &trial.air);
        let state = State::<L>::gather_by(trials, |trial| &trial.start);
        let energy = L::from_fn(|lane| trials[lane.min(trials.len() - 1)].energy_j);

        let seeds: Vec<[u64; 4]> = trials.iter().map(|trial| trial.noise.unwrap_or([1, 0, 0, 0])).collect();
        // A trial without draws flies in quiet air and with quiet senses, whoever flies beside it.
        let is_noisy = |lane: usize| trials[lane.min(trials.len() - 1)].noise.is_some();
        let noisy = L::Words::from_fn(|lane| if is_noisy(lane) { u64::MAX } else { 0 });
        let stirred = if turbulence { noisy } else { L::Words::splat(0) };
        let mut random = Random::<L>::new(&seeds);
        let air = Air::new(setting, &wind, rough, &state, stirred, &mut random);

        let command = Command { bank: state.bank, climb: state.climb, thrust: state.thrust, stopped: L::splat(0.0) };
        #[allow(clippy::cast_precision_loss, reason = "a handful of steps")]
        let interval = setting.step_s * setting.steps_per_fix as f64;
        let attitude = Attitude::of(&state);
        let [ground_x, ground_y] = attitude.over_ground(&state, air.now());
        let mut perception = Perception::new(setting.fix_age, interval, [state.x, state.y, ground_x, ground_y]);
        if noisy.any() {
            perception.stir(&plan, &mut random);
        }
        Self {
            lags: Lags::of(&jet, setting.step_s / f64::from(setting.substeps)),
            autopilot: Autopilot::new(command, &plan),
            flying: L::Words::from_fn(|lane| if lane < trials.len() { u64::MAX } else { 0 }),
            endings: vec![Ending::OutOfTime; trials.len()],
            loads: Loads { flown: L::splat(1.0), wanted: L::splat(1.0) },
            next: state,
            jet,
            plan,
            wind,
            air,
            random,
            noisy,
            perception,
            interval,
            command,
            energy,
            state,
            attitude,
            index: 0,
            lost_at: None,
        }
    }

    /// Link or picture is lost now: from here on the autopilot has it, as the plan says, from the commands flown last.
    #[inline(always)]
    pub fn lose(&mut self) {
        self.autopilot = Autopilot::new(self.command, &self.plan);
        self.lost_at = Some(self.index);
    }

    /// Somebody has it again: hands command, until it is lost once more.
    pub fn take_over(&mut self) {
        self.lost_at = None;
    }

    /// Works the present step out: what is commanded, by the hands where they have the jet, and where that leads.
    ///
    /// Hands command only where nothing is lost; left out, the last command stands.
    #[inline(always)]
    pub fn begin(&mut self, setting: &Setting, hands: Option<Command<L>>) {
        if self.index.is_multiple_of(setting.steps_per_fix) {
            let noise = if self.noisy.any() { Some((self.random.five_normals(), self.noisy)) } else { None };
            let percept = self.perception.look(&self.state, &self.attitude, self.air.now(), &self.plan, noise);
            if let Some(since_loss) = self.since_loss_s(setting) {
                let jet = self.jet.worn(self.state.energy);
                self.command =
                    self.autopilot.command(&setting.standing, &percept, &jet, &self.plan, since_loss, self.interval);
            }
        }
        if let (None, Some(hands)) = (self.lost_at, hands) {
            self.command = hands;
        }
        self.air.draw(setting, &self.state, &mut self.random, self.index);
        (self.next, self.loads) = self.cross(setting);
    }

    /// Seconds since the loss; none before it.
    #[inline(always)]
    pub fn since_loss_s(&self, setting: &Setting) -> Option<f64> {
        #[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
        self.lost_at.map(|lost| (self.index - lost) as f64 * setting.step_s)
    }

    /// The moment at which the present step begins.
    #[inline(always)]
    pub fn sample(&self) -> Sample<'_, L> {
        Sample {
            index: self.index,
            state: &self.state,
            load: self.loads.flown,
            wanted_load: self.loads.wanted,
            stretch: self.autopilot.stretch(),
        }
    }

    /// Notes which jets have come down, been taken over, run empty or out of time; true once all have.
    #[inline(always)]
    pub fn ends(&mut self, setting: &Setting, floor: &Floor<'_>) -> bool {
        let down = floor.reached(&self.state);
        let lost = self.since_loss_s(setting);
        let none = L::Words::splat(0);
        let taken_over = if lost.is_some() { self.autopilot.is(stretch::TAKEN_OVER) } else { none };
        let empty = L::Words::splat(u64::MAX).and_not(self.energy.gt(self.state.energy));
        let late = L::Words::splat(if lost.is_some_and(|time| time >= LONGEST_S) { u64::MAX } else { 0 });
        let over = self.flying.and(down.or(taken_over).or(empty).or(late));
        if !over.any() {
            return false;
        }
        for (lane, ending) in self.endings.iter_mut().enumerate().filter(|(lane, _)| over.lane(*lane) != 0) {
            let reasons = [(down, Ending::Landed), (taken_over, Ending::TakenOver), (empty, Ending::Empty)];
            let reason = reasons.into_iter().find(|(mask, _)| mask.lane(lane) != 0);
            *ending = reason.map_or(Ending::OutOfTime, |(_, ending)| ending);
        }
        self.flying = self.flying.and_not(over);
        !self.flying.any()
    }

    /// Goes on to the end of the present step.
    #[inline(always)]
    pub fn arrive(&mut self, setting: &Setting) {
        self.state = self.next;
        self.attitude = Attitude::of(&self.state);
        self.air.arrive(setting, &self.wind, &self.state);
        self.index += 1;
    }

    /// One step of the trace, in one part as shipped; and the load factors at its start.
    #[inline(always)]
    fn cross(&self, setting: &Setting) -> (State<L>, Loads<L>) {
        let (jet, lags, command) = (&self.jet, &self.lags, &self.command);
        let dt = setting.step_s / f64::from(setting.substeps);
        let (mut next, loads) = advance(jet, lags, &self.state, &self.attitude, command, &self.air.begin(), dt);
        for part in 1..setting.substeps {
            let gust = self.air.at(setting, &self.wind, &next, f64::from(part) * dt);
            next = advance(jet, lags, &next, &Attitude::of(&next), command, &gust, dt).0;
        }
        (next, loads)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::{Scenario, WindChoice, draw, fly_trial, setting};

    /// A flight of a trial in turbulence, with errors of the instruments.
    fn flight(scenario: &Scenario, trial: u64) -> Flight<f64> {
        Flight::new(&setting(scenario), true, &[draw(scenario, trial, WindChoice::Mean)])
    }

    fn place(flight: &Flight<f64>) -> [f64; 2] {
        [flight.state.x, flight.state.y]
    }

    /// Flown on for so many steps, or until it ends; where that is.
    fn on(flight: &mut Flight<f64>, scenario: &Scenario, steps: usize, hands: Option<Command<f64>>) -> [f64; 2] {
        let (setting, floor) = (setting(scenario), Floor::of(scenario));
        for _ in 0..steps {
            flight.begin(&setting, hands);
            if flight.ends(&setting, &floor) {
                break;
            }
            flight.arrive(&setting);
        }
        place(flight)
    }

    #[test]
    fn a_copy_goes_on_to_the_same_bits() {
        let scenario = Scenario::demo();
        let mut first = flight(&scenario, 7);
        first.lose();
        on(&mut first, &scenario, 333, None);
        let mut copy = first.clone();
        let there = on(&mut first, &scenario, 400, None);
        assert_eq!(on(&mut copy, &scenario, 400, None).map(f64::to_bits), there.map(f64::to_bits));
        let (trace, _) =
            fly_trial(&setting(&scenario), true, &draw(&scenario, 7, WindChoice::Mean), &Floor::of(&scenario));
        assert_eq!([trace.x_m[733], trace.y_m[733]].map(f64::to_bits), there.map(f64::to_bits));
    }

    #[test]
    fn hands_have_it_until_the_loss_and_again_once_taken_over() {
        let scenario = Scenario::demo();
        let mut flown = flight(&scenario, 0);
        // Level, no bank: 20 s in the mean wind lead straight on.
        let level = Command { bank: 0.0, climb: 0.0, thrust: flown.state.thrust, stopped: 0.0 };
        let (from, nose) = (place(&flown), [flown.state.nose_x, flown.state.nose_y]);
        let steps = (20.0 / setting(&scenario).step_s).round() as usize;
        on(&mut flown, &scenario, steps, Some(level));
        assert_eq!(flown.since_loss_s(&setting(&scenario)), None);
        let turned = nose[0] * flown.state.nose_y - nose[1] * flown.state.nose_x;
        assert!(turned.abs() < 1e-9 && (place(&flown)[0] - from[0]).hypot(place(&flown)[1] - from[1]) > 300.0);
        // Lost there, hands move nothing: with or without them it is the same flight.
        flown.lose();
        let mut other = flown.clone();
        let hard = Command { bank: 1.0, ..level };
        let there = on(&mut flown, &scenario, 600, Some(hard));
        assert_eq!(on(&mut other, &scenario, 600, None), there);
        assert!(flown.autopilot.stretch() > stretch::BEFORE_FAILSAFE);
        flown.take_over();
        on(&mut flown, &scenario, 60, Some(hard));
        assert!(flown.state.bank > 0.9, "{}", flown.state.bank);
    }
}
