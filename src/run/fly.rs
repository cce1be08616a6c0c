//! From the loss to the hand-back, for one case or several side by side.

use crate::field::Ground;
use crate::jet::{Command, Gust, JetNumbers, State, load_now, step};
use crate::lane::{Lane, Random, sin_cos};
use crate::recovery::{Perception, Pilot, PlanNumbers};
use crate::run::{Case, Ending, Run, Scenario, Setting, Stretch, Trace, WindChoice, draw, setting};
use crate::wind::{ProfileNumbers, Turbulence, TurbulenceScale};

/// Longest run, s. A jet that is not home by then is not coming.
pub const LONGEST_S: f64 = 900.0;
/// Steps between two looks at how big the eddies are at the height of the moment.
const RESCALE: usize = 10;
/// Height at which the standard measures the wind that drives turbulence: 20 ft, in m.
const TWENTY_FEET: f64 = 20.0 * 0.3048;

/// Flies one case of a scenario: a pure function of its arguments.
pub fn fly(scenario: &Scenario, case: u64, wind: WindChoice) -> Run {
    let drawn = draw(scenario, case, wind);
    let (trace, ending) = fly_case(&setting(scenario), scenario.file.wind.turbulence, &drawn, &ground(scenario));
    Run { case, drawn, trace, ending }
}

/// Height of the ground above home's, at a place.
pub(super) fn ground(scenario: &Scenario) -> impl Fn(f64, f64) -> f64 {
    let ground: &Ground = &scenario.field.ground;
    let home = ground.height_m(scenario.field.home);
    move |x, y| if ground.is_flat() { 0.0 } else { ground.height_m(glam::DVec2::new(x, y)) - home }
}

/// Flies one case, over ground of a height that `ground(x, y)` tells.
pub fn fly_case(
    setting: &Setting,
    turbulence: bool,
    case: &Case,
    ground: &impl Fn(f64, f64) -> f64,
) -> (Trace, Ending) {
    let mut flights = fly_lanes::<f64>(setting, turbulence, std::slice::from_ref(case), ground);
    flights.pop().unwrap_or((Trace::default(), Ending::OutOfTime))
}

/// Flies as many cases as there are lanes, or fewer.
#[inline(always)]
pub(crate) fn fly_lanes<L: Lane>(
    setting: &Setting,
    turbulence: bool,
    cases: &[Case],
    ground: &impl Fn(f64, f64) -> f64,
) -> Vec<(Trace, Ending)> {
    let gather = |part: fn(&Case) -> JetNumbers<f64>| cases.iter().map(part).collect::<Vec<_>>();
    let jet = JetNumbers::<L>::gather(&gather(|case| case.jet));
    let plan = PlanNumbers::<L>::gather(&cases.iter().map(|case| case.plan).collect::<Vec<_>>());
    let wind = ProfileNumbers::<L>::gather(&cases.iter().map(|case| case.wind).collect::<Vec<_>>());
    let mut state = State::<L>::gather(&cases.iter().map(|case| case.start).collect::<Vec<_>>());

    let seeds: Vec<[u64; 4]> = cases.iter().map(|case| case.noise.unwrap_or([1, 0, 0, 0])).collect();
    let noisy = cases.iter().any(|case| case.noise.is_some());
    let mut random = Random::<L>::new(&seeds);
    let mut air = Air::new(setting, &wind, &state, noisy && turbulence, &mut random);

    let mut command = Command { bank: state.bank, climb: state.climb, thrust: state.thrust, stopped: L::splat(0.0) };
    let mut pilot = Pilot::new(command);
    #[allow(clippy::cast_precision_loss, reason = "a handful of steps")]
    let interval = setting.step_s * setting.steps_per_fix as f64;
    let [ground_x, ground_y] = over_ground(&state, &air.gust);
    let mut perception = Perception::new(setting.fix_age, interval, [state.x, state.y, ground_x, ground_y]);
    if noisy {
        perception.stir(&plan, &mut random);
    }

    let mut flights: Vec<Flight> = cases.iter().map(|case| Flight::new(setting.step_s, case.energy_j)).collect();
    let mut index = 0_usize;
    loop {
        #[allow(clippy::cast_precision_loss, reason = "a run has few steps")]
        let time = index as f64 * setting.step_s;
        if index.is_multiple_of(setting.steps_per_fix) {
            let noise = noisy.then(|| {
                let ([a, b], [c, d]) = (random.normals(), random.normals());
                [a, b, c, d]
            });
            let percept = perception.look(&state, over_ground(&state, &air.gust), &plan, noise);
            command = pilot.command(&setting.standing, &percept, &jet, &plan, time, interval);
        }
        let load = load_now(&jet, &state, &command);
        let mut alive = false;
        for (lane, flight) in flights.iter_mut().enumerate() {
            alive |= flight.record(lane, &state, load, pilot.stretch(), time, ground);
        }
        if !alive {
            break;
        }
        air.draw(setting, &state, &mut random, index);
        let parts = f64::from(setting.substeps);
        let dt = setting.step_s / parts;
        let mut gust = air.begin();
        for part in 0..setting.substeps {
            if part > 0 {
                gust = air.at(setting, &wind, &state, f64::from(part) * dt);
            }
            state = step(&jet, &state, &command, &gust, dt);
        }
        air.arrive(setting, &wind, &state);
        index += 1;
    }
    flights.into_iter().map(|flight| (flight.trace, flight.ending.unwrap_or(Ending::OutOfTime))).collect()
}

/// Ground velocity.
#[inline(always)]
fn over_ground<L: Lane>(state: &State<L>, gust: &Gust<L>) -> [L; 2] {
    let (_, climb_cos) = sin_cos(state.climb);
    let through_air = state.airspeed * climb_cos;
    [through_air * state.nose_x + gust.x, through_air * state.nose_y + gust.y]
}

/// The air along the way: mean wind by height, and turbulence that changes linearly within a step.
struct Air<L: Lane> {
    /// At the start of the present step.
    gust: Gust<L>,
    turbulence: Option<Turbulence<L>>,
    wind_20ft: L,
    /// Direction the wind blows to.
    downwind: [L; 2],
    /// Turbulent motion now, and its rate of change over the step: east, north, up.
    now: [L; 3],
    rate: [L; 3],
}

impl<L: Lane> Air<L> {
    #[inline(always)]
    fn new(
        setting: &Setting,
        wind: &ProfileNumbers<L>,
        state: &State<L>,
        turbulent: bool,
        random: &mut Random<L>,
    ) -> Self {
        let zero = L::splat(0.0);
        let speed = |x: L, y: L| (x * x + y * y).sqrt();
        let low = wind.at(setting.profile, L::splat(TWENTY_FEET));
        let wind_20ft = speed(low.x, low.y);
        let measured = speed(wind.x, wind.y).max(L::splat(1e-9));
        let turbulence = turbulent.then(|| {
            let scale = TurbulenceScale::at(state.height, wind_20ft);
            let mut turbulence = Turbulence::new(scale, state.airspeed, setting.step_s);
            turbulence.stir(random);
            turbulence
        });
        let mut air = Self {
            gust: calm(state),
            turbulence,
            wind_20ft,
            downwind: [wind.x / measured, wind.y / measured],
            now: [zero; 3],
            rate: [zero; 3],
        };
        air.now = air.motion();
        air.arrive(setting, wind, state);
        air
    }

    /// Turbulent motion in the frame of the field.
    #[inline(always)]
    fn motion(&self) -> [L; 3] {
        self.turbulence.as_ref().map_or([L::splat(0.0); 3], |turbulence| {
            let [along, left, up] = turbulence.motion();
            let [x, y] = self.downwind;
            [along * x - left * y, along * y + left * x, up]
        })
    }

    /// Draws the turbulence at the end of the step.
    #[inline(always)]
    fn draw(&mut self, setting: &Setting, state: &State<L>, random: &mut Random<L>, index: usize) {
        let Some(turbulence) = &mut self.turbulence else { return };
        if index.is_multiple_of(RESCALE) && index > 0 {
            let scale = TurbulenceScale::at(state.height, self.wind_20ft);
            turbulence.rescale(scale, state.airspeed, setting.step_s);
        }
        let ([a, b], [c, d], [e, _]) = (random.normals(), random.normals(), random.normals());
        turbulence.update([a, b, c, d, e]);
        let next = self.motion();
        let per_step = L::splat(1.0 / setting.step_s);
        self.rate = [0, 1, 2].map(|i| (next[i] - self.now[i]) * per_step);
    }

    /// The air at the start of the step, with the turbulence drawn for its end.
    #[inline(always)]
    fn begin(&self) -> Gust<L> {
        Gust { rate_x: self.rate[0], rate_y: self.rate[1], rate_z: self.rate[2], ..self.gust }
    }

    /// The air at a part of the step, `elapsed` s after its start.
    #[inline(always)]
    fn at(&self, setting: &Setting, wind: &ProfileNumbers<L>, state: &State<L>, elapsed: f64) -> Gust<L> {
        let mean = wind.at(setting.profile, state.height);
        let since = L::splat(elapsed);
        let [x, y, z] = [0, 1, 2].map(|i| self.now[i] + self.rate[i] * since);
        Gust {
            x: mean.x + x,
            y: mean.y + y,
            z,
            shear_x: mean.shear_x,
            shear_y: mean.shear_y,
            rate_x: self.rate[0],
            rate_y: self.rate[1],
            rate_z: self.rate[2],
            height: state.height,
        }
    }

    /// Takes the state at the end of a step as the start of the next.
    #[inline(always)]
    fn arrive(&mut self, setting: &Setting, wind: &ProfileNumbers<L>, state: &State<L>) {
        if self.turbulence.is_some() {
            self.now = self.motion();
            self.rate = [L::splat(0.0); 3];
        }
        self.gust = self.at(setting, wind, state, 0.0);
    }
}

fn calm<L: Lane>(state: &State<L>) -> Gust<L> {
    let zero = L::splat(0.0);
    Gust {
        x: zero,
        y: zero,
        z: zero,
        shear_x: zero,
        shear_y: zero,
        rate_x: zero,
        rate_y: zero,
        rate_z: zero,
        height: state.height,
    }
}

/// The record of one lane.
struct Flight {
    trace: Trace,
    energy_j: f64,
    ending: Option<Ending>,
}

impl Flight {
    fn new(step_s: f64, energy_j: f64) -> Self {
        Self { trace: Trace::with_room(step_s), energy_j, ending: None }
    }

    /// Writes a sample down, unless the run is over; tells whether it goes on.
    #[inline(always)]
    fn record<L: Lane>(
        &mut self,
        lane: usize,
        state: &State<L>,
        load: L,
        stretch: L,
        time: f64,
        ground: &impl Fn(f64, f64) -> f64,
    ) -> bool {
        if self.ending.is_some() {
            return false;
        }
        let (x, y, height) = (state.x.lane(lane), state.y.lane(lane), state.height.lane(lane));
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a whole number from 0 to 9")]
        let stretch = Stretch::ALL[stretch.lane(lane) as usize];
        let trace = &mut self.trace;
        trace.x_m.push(x);
        trace.y_m.push(y);
        trace.height_m.push(height);
        trace.airspeed_mps.push(state.airspeed.lane(lane));
        trace.nose_x.push(state.nose_x.lane(lane));
        trace.nose_y.push(state.nose_y.lane(lane));
        trace.bank_rad.push(state.bank.lane(lane));
        trace.load.push(load.lane(lane));
        trace.energy_j.push(state.energy.lane(lane));
        trace.stretch.push(stretch);
        self.ending = if height <= ground(x, y) {
            Some(Ending::Landed)
        } else if stretch == Stretch::HandedBack {
            Some(Ending::HandedBack)
        } else if state.energy.lane(lane) >= self.energy_j {
            Some(Ending::Empty)
        } else if time >= LONGEST_S {
            Some(Ending::OutOfTime)
        } else {
            None
        };
        self.ending.is_none()
    }
}
