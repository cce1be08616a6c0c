//! One numbered draw of every uncertain input.
//!
//! Case 0 draws nothing: it is the plan as written. Every other case is drawn from a generator seeded by the master
//! seed and the number of the case, so that it is the same on any machine, alone or among many.

mod law;
mod nudge;

use rand::{Rng as _, SeedableRng as _};
use rand_distr::{Distribution as _, StandardNormal};
use rand_xoshiro::Xoshiro256PlusPlus;

use crate::jet::{Entry, JetNumbers, JetSheet, PlainEntry, State};
use crate::recovery::{Firmness, Guidance, PlanNumbers, Policy, Standing, Turn};
use crate::run::{Loss, LossKind, Scenario};
use crate::units::Quantity;
use crate::wind::{Profile, ProfileNumbers, isa_density};

pub use nudge::{Input, nudged};

/// Longest step of the integration, s.
const LONGEST_STEP: f64 = 0.1;

/// How far over the slowest speed asked for a glide aims: its pitch holds the speed only loosely.
const GLIDE_SPARE: f64 = 1.05;

/// Least share of its value that a number of the sheet is drawn at.
const LEAST_SHARE: f64 = 0.05;

/// Which of the two winds of the sheet a run flies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum WindChoice {
    /// The mean.
    #[default]
    Mean,
    /// The gust, all the time.
    Gust,
}

/// What all cases of a scenario share.
#[derive(Debug, Clone, Copy)]
pub struct Setting {
    /// The standing orders.
    pub standing: Standing,
    /// How the wind grows with height.
    pub profile: Profile,
    /// Step of the integration and of the trace, s.
    pub step_s: f64,
    /// Steps between fixes.
    pub steps_per_fix: usize,
    /// Fixes between one being taken and being used.
    pub fix_age: usize,
    /// Parts each step is cut into; 1 as shipped, more only to see what the step costs.
    pub substeps: u32,
}

/// One case, ready to fly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Case {
    /// The jet.
    pub jet: JetNumbers<f64>,
    /// The wind.
    pub wind: ProfileNumbers<f64>,
    /// The plan.
    pub plan: PlanNumbers<f64>,
    /// Where the jet is at the loss.
    pub start: State<f64>,
    /// Energy that can still be drawn at the loss, J.
    pub energy_j: f64,
    /// Which law guides it.
    pub guidance: Guidance,
    /// How firmly.
    pub firmness: Firmness,
    /// State of its generator, and whether anything is drawn from it in flight.
    pub noise: Option<[u64; 4]>,
}

/// What all cases of a scenario share.
pub fn setting(scenario: &Scenario) -> Setting {
    let file = &scenario.file;
    let perception = &file.recovery.perception;
    let interval = 1.0 / perception.fix_rate.hz();
    let steps_per_fix = (interval / LONGEST_STEP - 1e-9).ceil().max(1.0);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small positive counts")]
    let count = |value: f64| value as usize;
    Setting {
        standing: Standing { policy: file.recovery.policy, has_fix: file.loss.kind != LossKind::Fix },
        profile: file.wind.profile,
        step_s: interval / steps_per_fix,
        steps_per_fix: count(steps_per_fix),
        fix_age: count((perception.delay.s() / interval).round()),
        substeps: 1,
    }
}

/// A source of draws that gives the middle of everything for case 0.
struct Draws(Option<Xoshiro256PlusPlus>);

impl Draws {
    fn normal(&mut self, mean: f64, sd: f64) -> f64 {
        let z: f64 = self.0.as_mut().map_or(0.0, |random| StandardNormal.sample(random));
        mean + sd * z
    }

    /// Normal, cut at three standard deviations.
    fn capped(&mut self, mean: f64, sd: f64) -> f64 {
        self.normal(mean, sd).clamp(mean - 3.0 * sd, mean + 3.0 * sd)
    }

    /// A number of the sheet, never less than a twentieth of its value: none of them can be nothing.
    fn entry<Q: Quantity>(&mut self, entry: Entry<Q>) -> Entry<Q> {
        let (value, spread) = (entry.value.si(), entry.spread.si());
        Entry { value: Q::from_si(self.capped(value, spread).max(LEAST_SHARE * value)), ..entry }
    }

    fn plain(&mut self, entry: PlainEntry) -> PlainEntry {
        PlainEntry { value: self.capped(entry.value, entry.spread).max(LEAST_SHARE * entry.value), ..entry }
    }

    fn uniform(&mut self, low: f64, high: f64) -> f64 {
        let share = self.0.as_mut().map_or(0.5, rand::RngExt::random::<f64>);
        low + (high - low) * share
    }

    /// Uniform with a standard deviation.
    fn even(&mut self, mean: f64, sd: f64) -> f64 {
        let half = 3.0_f64.sqrt() * sd;
        self.uniform(mean - half, mean + half)
    }

    /// Log-normal with a mean and a standard deviation.
    fn log_normal(&mut self, mean: f64, sd: f64) -> f64 {
        let variance = (sd / mean).powi(2).ln_1p();
        match &self.0 {
            Some(_) => self.normal(mean.ln() - variance / 2.0, variance.sqrt()).exp(),
            None => mean,
        }
    }
}

/// Draws a case of a scenario.
pub fn draw(scenario: &Scenario, case: u64, wind: WindChoice) -> Case {
    let file = &scenario.file;
    let (sheet, plan, limits) = (&file.jet, &file.recovery, &file.limits);
    let mut draws = Draws((case > 0).then(|| generator(file.seed, case)));

    let mut jet = JetNumbers::new(&draw_sheet(sheet, &mut draws), isa_density(0.0));
    // What lags less than half a step can't be told from what doesn't lag, and the step would not stay stable.
    let shortest = setting(scenario).step_s / 2.0;
    jet.roll_lag = jet.roll_lag.max(shortest);
    jet.fan_lag = jet.fan_lag.max(shortest);
    let jet = jet.ready();

    let profile = draw_wind(scenario, wind, &mut draws);
    let turn = sign(plan.turn);
    let perception = &plan.perception;
    let home_error = perception.home_spread().m();
    let drift = perception.height_drift.m();
    let slowest = limits.stall_factor * jet.stall_speed(1.0 / plan.glide_bank.rad().cos());
    let glide_speed = jet.glide_speed().max(GLIDE_SPARE * slowest);
    let numbers = PlanNumbers {
        hub_x: scenario.field.hub.x,
        hub_y: scenario.field.hub.y,
        radius: plan.radius.m(),
        height: plan.height.m(),
        turn,
        law: 0.0,
        gain: 0.0,
        lead: 0.0,
        speed_hold: plan.speed_hold.number(),
        trim_thrust: jet.drag(jet.return_speed, 1.0, 0.0),
        load_lag: plan.load_lag.s(),
        recognition: draws.even(plan.recognition.value.s(), plan.recognition.spread.s()).max(0.0),
        turn_above: plan.turn_above.m(),
        wait: plan.wait.s(),
        glide_bank: turn * plan.glide_bank.rad(),
        fix_bank: turn * plan.fix_bank.rad(),
        // The laps that are promised are flown.
        sweep: plan.laps.max(limits.laps_in_hand) * std::f64::consts::TAU,
        hand_back: draws.log_normal(limits.hand_back.value.s(), limits.hand_back.spread.s()),
        glide_speed,
        glide_angle: (1.0 / jet.glide_ratio()).atan(),
        stall_factor: limits.stall_factor,
        home_error_x: draws.normal(0.0, home_error),
        home_error_y: draws.normal(0.0, home_error),
        height_error: draws.normal(0.0, perception.height_error.m()) + draws.uniform(-drift, drift),
        static_error: draws.normal(0.0, perception.static_error.share()),
        height_wander: perception.height_wander.m(),
        height_wander_over: perception.height_wander_over.s(),
        position_noise: perception.position_noise.m(),
        velocity_noise: perception.velocity_noise.mps(),
    };
    let (guidance, firmness) = law::draw(plan, &mut draws);
    let noise = draws.0.as_mut().map(|random| [(); 4].map(|()| random.next_u64()));
    let start = start(&file.loss, &jet);
    let energy_j = file.loss.charge.share() * jet.pack;
    Case { jet, wind: profile, plan: numbers, start, energy_j, guidance, firmness, noise }.under(guidance, firmness)
}

/// The generator of one case: the master seed and the case, mixed so that neighbours have nothing in common.
fn generator(seed: u64, case: u64) -> Xoshiro256PlusPlus {
    Xoshiro256PlusPlus::seed_from_u64(seed ^ case.wrapping_mul(0x9e37_79b9_7f4a_7c15))
}

/// The sheet of one case: every number drawn with its spread.
fn draw_sheet(sheet: &JetSheet, draws: &mut Draws) -> JetSheet {
    JetSheet {
        name: String::new(),
        mass: draws.entry(sheet.mass),
        wing_area: draws.entry(sheet.wing_area),
        span: draws.entry(sheet.span),
        lift_max: draws.plain(sheet.lift_max),
        drag_zero_lift: draws.plain(sheet.drag_zero_lift),
        drag_fan_stopped: draws.plain(sheet.drag_fan_stopped),
        span_efficiency: draws.plain(sheet.span_efficiency),
        nozzle_area: draws.entry(sheet.nozzle_area),
        full_power: draws.entry(sheet.full_power),
        fan_efficiency: draws.entry(sheet.fan_efficiency),
        fan_lag: draws.entry(sheet.fan_lag),
        avionics_power: draws.entry(sheet.avionics_power),
        cells: sheet.cells,
        capacity: draws.entry(sheet.capacity),
        bank_limit: draws.entry(sheet.bank_limit),
        roll_lag: draws.entry(sheet.roll_lag),
        roll_rate: draws.entry(sheet.roll_rate),
        climb_limit: draws.entry(sheet.climb_limit),
        return_speed: draws.entry(sheet.return_speed),
    }
}

fn draw_wind(scenario: &Scenario, wind: WindChoice, draws: &mut Draws) -> ProfileNumbers<f64> {
    let sheet = &scenario.file.wind;
    let speed = match wind {
        WindChoice::Mean => sheet.mean.mps(),
        WindChoice::Gust => sheet.gust.mps(),
    };
    let spread = sheet.mean_spread.share() * speed + sheet.mean_floor.mps();
    let speed = draws.normal(speed, spread).max(0.0);
    let from = draws.normal(sheet.from.deg(), sheet.from_spread.rad().to_degrees());
    let to = -crate::units::Bearing::from_deg(from).unit();
    ProfileNumbers {
        x: to.x * speed,
        y: to.y * speed,
        measured_at: sheet.measured_at.m(),
        exponent: draws.uniform(sheet.exponent_low, sheet.exponent_high),
        roughness: sheet.roughness.m(),
    }
}

/// The state at the loss, in trim.
fn start(loss: &Loss, jet: &JetNumbers<f64>) -> State<f64> {
    let nose = loss.heading.unit();
    let (airspeed, climb, bank) = (loss.speed.mps(), loss.climb.rad(), loss.bank.rad());
    let load = climb.cos() / bank.cos().max(0.2);
    let trim = jet.drag(airspeed, load, 0.0) + jet.mass * crate::units::G0 * climb.sin();
    State {
        x: loss.at_m[0],
        y: loss.at_m[1],
        height: loss.height.m(),
        airspeed,
        nose_x: nose.x,
        nose_y: nose.y,
        climb,
        bank,
        thrust: trim.clamp(0.0, jet.thrust_full(airspeed)),
        energy: 0.0,
    }
}

/// 1 to the right, -1 to the left.
const fn sign(turn: Turn) -> f64 {
    match turn {
        Turn::Clockwise => 1.0,
        Turn::Anticlockwise => -1.0,
    }
}

impl Case {
    /// The same draws with another commanded circle: its radius in metres and its way round.
    pub fn circling(mut self, radius_m: f64, turn: Turn) -> Self {
        let turned = sign(turn) * self.plan.turn;
        self.plan.radius = radius_m;
        self.plan.turn = sign(turn);
        self.plan.glide_bank *= turned;
        self.plan.fix_bank *= turned;
        self
    }

    /// The same draws about another hub.
    pub fn about(mut self, hub: glam::DVec2) -> Self {
        (self.plan.hub_x, self.plan.hub_y) = (hub.x, hub.y);
        self
    }

    /// The same draws after another loss. What is lost does not change.
    pub fn lost(self, loss: &Loss) -> Self {
        Self { start: start(loss, &self.jet), energy_j: loss.charge.share() * self.jet.pack, ..self }
    }
}

impl Setting {
    /// Whether the run is meant to end on the ground.
    pub fn cuts(&self) -> bool {
        self.standing.policy != Policy::Return && self.standing.has_fix
    }
}
