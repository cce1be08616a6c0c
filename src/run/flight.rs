//! A flight, one step at a time: with commands from the autopilot or from somebody's hands, with a loss that may come at
//! any step. A copy of it goes on from where it was, to the same bits.

use crate::jet::{Attitude, Command, JetNumbers, Lags, Loads, State, advance};
use crate::lane::{Lane, Random, Words as _};
use crate::recovery::{Autopilot, Perception, PlanNumbers, stretch};
use crate::run::air::Air;
use crate::run::{Ending, Floor, Sample, Setting, Trial, Watch};
use crate::wind::{AirNumbers, ProfileNumbers};

/// Longest flight after a loss, s. A jet that is not home by then is not coming.
pub const LONGEST_S: f64 = 900.0;

/// Jets in the air, one a lane.
#[derive(Debug, Clone)]
pub struct Flight<L: Lane> {
    setting: Setting,
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
    /// Number of the present step since the start, and that of the step at which control or video was lost.
    index: usize,
    lost_at: Option<usize>,
    flying: L::Words,
    endings: Vec<Ending>,
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
            setting: *setting,
            lags: Lags::of(&jet, setting.step_s / f64::from(setting.substeps)),
            autopilot: Autopilot::new(command, &plan),
            flying: L::Words::from_fn(|lane| if lane < trials.len() { u64::MAX } else { 0 }),
            endings: vec![Ending::OutOfTime; trials.len()],
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

    /// Control or video is lost now: from here on the autopilot has it, as the plan says, from the commands flown last.
    /// What is lost already stays lost since then.
    #[inline(always)]
    pub fn lose(&mut self) {
        if self.lost_at.is_none() {
            self.autopilot = Autopilot::new(self.command, &self.plan);
            self.lost_at = Some(self.index);
        }
    }

    /// The return is commanded now: nothing has to be noticed first. Without a jet that has lost anything the same as
    /// [`Flight::lose`] at the end of the failsafe delay.
    pub fn return_now(&mut self) {
        self.plan.failsafe_delay = L::splat(0.0);
        self.lose();
    }

    /// Somebody has it again: hands command, until it is lost once more.
    pub fn take_over(&mut self) {
        self.autopilot = Autopilot::new(self.command, &self.plan);
        self.lost_at = None;
    }

    /// Seconds since the loss; none before it.
    #[inline(always)]
    pub fn since_loss_s(&self) -> Option<f64> {
        #[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
        self.lost_at.map(|lost| (self.index - lost) as f64 * self.setting.step_s)
    }

    /// Where the jets are now.
    pub fn state(&self) -> &State<L> {
        &self.state
    }

    /// What the jet can do.
    pub fn jet(&self) -> &JetNumbers<L> {
        &self.jet
    }

    /// How the air moves where the jet is: to the east and to the north, m/s.
    pub fn air(&self) -> [L; 2] {
        [self.air.now().x, self.air.now().y]
    }

    /// The stretch it is in, by its number.
    #[inline(always)]
    pub fn stretch(&self) -> L {
        if self.lost_at.is_some() { self.autopilot.stretch() } else { L::splat(stretch::BY_HAND) }
    }

    /// How those that have ended did so.
    pub fn endings(&self) -> &[Ending] {
        &self.endings
    }

    /// Flies one step, which the watch sees the beginning of, and tells whether any jet flies on.
    ///
    /// `hands` command where nothing is lost; left out, their last command stands. The stretch that is seen before a loss
    /// is the first one.
    #[inline(always)]
    pub fn step<W: Watch<L>>(&mut self, floor: &Floor<'_>, hands: Option<Command<L>>, watch: &mut W) -> bool {
        self.decide(hands);
        self.air.draw(&self.setting, &self.state, &mut self.random, self.index);
        let (next, loads) = self.cross();
        let sample = Sample {
            index: self.index,
            state: &self.state,
            load: loads.flown,
            wanted_load: loads.wanted,
            stretch: self.stretch(),
        };
        watch.see(&sample, self.flying);
        if self.ends(floor) {
            return false;
        }
        self.state = next;
        self.attitude = Attitude::of(&self.state);
        self.air.arrive(&self.setting, &self.wind, &self.state);
        self.index += 1;
        true
    }

    /// What is commanded for the present step.
    #[inline(always)]
    fn decide(&mut self, hands: Option<Command<L>>) {
        if self.index.is_multiple_of(self.setting.steps_per_fix) {
            let noise = if self.noisy.any() { Some((self.random.five_normals(), self.noisy)) } else { None };
            let percept = self.perception.look(&self.state, &self.attitude, self.air.now(), &self.plan, noise);
            if let Some(since_loss) = self.since_loss_s() {
                let jet = self.jet.worn(self.state.energy);
                let orders = &self.setting.standing;
                self.command = self.autopilot.command(orders, &percept, &jet, &self.plan, since_loss, self.interval);
            }
        }
        if let (None, Some(hands)) = (self.lost_at, hands) {
            self.command = hands;
        }
    }

    /// Notes which jets have come down, been taken over, run empty or out of time; true once all have.
    #[inline(always)]
    fn ends(&mut self, floor: &Floor<'_>) -> bool {
        let down = floor.reached(&self.state);
        let lost = self.since_loss_s();
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

    /// One step of the trace, in one part as shipped; and the load factors at its start.
    #[inline(always)]
    fn cross(&self) -> (State<L>, Loads<L>) {
        let (setting, jet, lags, command) = (&self.setting, &self.jet, &self.lags, &self.command);
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

    /// Sees nothing.
    struct Nobody;

    impl Watch<f64> for Nobody {
        fn see(&mut self, _: &Sample<'_, f64>, _: u64) {}
    }

    /// A trial of the built-in plan in turbulence, with errors of the instruments; trial 0 without.
    fn flight(scenario: &Scenario, setting: &Setting, trial: u64) -> Flight<f64> {
        Flight::new(setting, true, &[draw(scenario, trial, WindChoice::Mean)])
    }

    /// Flown on for so many seconds, or until it ends; where that is.
    fn on(flight: &mut Flight<f64>, scenario: &Scenario, seconds: f64, hands: Option<Command<f64>>) -> [u64; 2] {
        let (floor, begun) = (Floor::of(scenario), flight.index);
        while ((flight.index - begun) as f64 * flight.setting.step_s) < seconds {
            if !flight.step(&floor, hands, &mut Nobody) {
                break;
            }
        }
        [flight.state.x, flight.state.y].map(f64::to_bits)
    }

    /// What hands command in a bank, the throttle where it was.
    fn banked(flight: &Flight<f64>, bank: f64) -> Option<Command<f64>> {
        Some(Command { bank, climb: 0.0, thrust: flight.state.thrust, stopped: 0.0 })
    }

    #[test]
    fn a_copy_goes_on_to_the_same_bits() {
        let scenario = Scenario::demo();
        let setting = setting(&scenario);
        let mut first = flight(&scenario, &setting, 7);
        first.lose();
        on(&mut first, &scenario, 16.0, None);
        let mut copy = first.clone();
        let there = on(&mut first, &scenario, 20.0, None);
        assert_eq!(on(&mut copy, &scenario, 20.0, None), there);
        let (trace, _) = fly_trial(&setting, true, &draw(&scenario, 7, WindChoice::Mean), &Floor::of(&scenario));
        assert_eq!([trace.x_m[first.index], trace.y_m[first.index]].map(f64::to_bits), there);
    }

    #[test]
    fn hands_fly_it_until_the_loss_and_again_once_taken_over() {
        let scenario = Scenario::demo();
        let setting = setting(&scenario);
        let mut flown = flight(&scenario, &setting, 7);
        let (nose_x, nose_y) = (flown.state.nose_x, flown.state.nose_y);
        // To the right: the nose goes clockwise, by V / r = g tan(bank) / V, 0.12 rad/s at 25 m/s.
        let right = banked(&flown, 0.3);
        on(&mut flown, &scenario, 3.0, right);
        assert!(nose_x * flown.state.nose_y - nose_y * flown.state.nose_x < -0.1, "it has not turned right");
        assert_eq!(flown.since_loss_s(), None);
        // Lost there, hands move nothing, and a second loss begins nothing anew.
        flown.lose();
        let mut other = flown.clone();
        let hard = banked(&flown, 1.0);
        let there = on(&mut flown, &scenario, 20.0, hard);
        on(&mut other, &scenario, 10.0, None);
        other.lose();
        assert_eq!(on(&mut other, &scenario, 10.0, None), there);
        assert!(flown.since_loss_s().unwrap() >= 20.0 && flown.autopilot.stretch() > stretch::BEFORE_FAILSAFE);
        flown.take_over();
        on(&mut flown, &scenario, 3.0, hard);
        assert!(flown.state.bank > 0.9, "{}", flown.state.bank);
        assert_eq!(flown.autopilot.stretch().to_bits(), stretch::BEFORE_FAILSAFE.to_bits());
    }

    #[test]
    fn the_delay_and_the_longest_flight_count_from_the_loss() {
        let scenario = Scenario::demo();
        let setting = setting(&scenario);
        let mut flown = flight(&scenario, &setting, 0);
        let level = banked(&flown, 0.0);
        // Between two fixes.
        let floor = Floor::of(&scenario);
        for _ in 0..10 * setting.steps_per_fix + 1 {
            flown.step(&floor, level, &mut Nobody);
        }
        flown.lose();
        let delay = scenario.file.recovery.failsafe_delay.value.s();
        on(&mut flown, &scenario, delay - 0.2, None);
        assert_eq!(flown.autopilot.stretch().to_bits(), stretch::BEFORE_FAILSAFE.to_bits());
        on(&mut flown, &scenario, 0.4, None);
        assert!(flown.autopilot.stretch() > stretch::BEFORE_FAILSAFE);
    }
}
