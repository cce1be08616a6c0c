//! One numbered draw of every uncertain input.
//!
//! Trial 0 draws nothing: it is the plan as entered. Every other trial is drawn from a generator seeded by the master
//! seed and the number of the trial, so that it is the same on any machine, alone or among many.

mod circuit;
mod draws;
mod law;
mod nudge;

use rand::Rng as _;

use crate::jet::{JetNumbers, JetSheet, State};
use crate::recovery::{FailsafeAction, Gain, Guidance, Orders, PlanNumbers, Turn};
use crate::run::{Loss, LossKind, Scenario};
use crate::units::Speed;
use crate::wind::{AirNumbers, INTENSITY, PEAK, Profile, ProfileNumbers};

use draws::{Draws, draw_sheet, generator};
pub use nudge::{Input, nudged};

/// Longest step of the integration, s.
const LONGEST_STEP: f64 = 0.1;

/// How far over the slowest speed asked for a glide aims: its pitch holds the speed only loosely.
const GLIDE_SPARE: f64 = 1.05;

/// Which of the two winds of the sheet a run flies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum WindChoice {
    /// The mean.
    #[default]
    Mean,
    /// The gust, all the time: a bound, which no wind blows. The mean grows with height, what the gust adds does not.
    Gust,
}

/// What all trials of a scenario share.
#[derive(Debug, Clone, Copy)]
pub struct Setting {
    /// The standing orders.
    pub standing: Orders,
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

/// One trial, ready to fly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trial {
    /// The jet.
    pub jet: JetNumbers<f64>,
    /// The wind.
    pub wind: ProfileNumbers<f64>,
    /// How rough the air is.
    pub air: AirNumbers<f64>,
    /// The plan.
    pub plan: PlanNumbers<f64>,
    /// Where the jet is at the loss.
    pub start: State<f64>,
    /// Energy that can still be drawn at the loss, J.
    pub energy_j: f64,
    /// Which law guides it.
    pub guidance: Guidance,
    /// How firmly.
    pub gain: Gain,
    /// State of its generator, and whether anything is drawn from it in flight.
    pub noise: Option<[u64; 4]>,
}

/// What all trials of a scenario share.
pub fn setting(scenario: &Scenario) -> Setting {
    let file = &scenario.file;
    let perception = &file.recovery.perception;
    let interval = 1.0 / perception.fix_rate.hz();
    let steps_per_fix = (interval / LONGEST_STEP - 1e-9).ceil().max(1.0);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small positive counts")]
    let count = |value: f64| value as usize;
    Setting {
        standing: Orders {
            failsafe_action: file.recovery.failsafe_action,
            has_position: file.loss.kind != LossKind::Position,
        },
        profile: file.wind.profile,
        step_s: interval / steps_per_fix,
        steps_per_fix: count(steps_per_fix),
        fix_age: count((perception.delay.s() / interval).round()),
        substeps: 1,
    }
}

/// Draws a trial of a scenario.
pub fn draw(scenario: &Scenario, trial: u64, wind: WindChoice) -> Trial {
    let file = &scenario.file;
    let (sheet, plan, limits) = (&file.jet, &file.recovery, &file.limits);
    let mut draws = Draws((trial > 0).then(|| generator(file.seed, trial)));

    let drawn = draw_sheet(sheet, &mut draws);
    // What was measured was measured at the speed written, whatever speed is held today.
    let written = JetSheet { return_speed: sheet.return_speed, ..drawn.clone() };
    let jet =
        JetNumbers { return_speed: drawn.return_speed.value.mps(), ..JetNumbers::new(&written, file.air.density()) };

    let (profile, to) = draw_wind(scenario, wind, &mut draws);
    let turn = sign(plan.turn);
    let (perception, delay) = (&plan.perception, file.delay());
    let home_error = perception.home_spread().m();
    let drift = perception.height_drift.m();
    let slowest = limits.stall_factor * jet.stall_speed(1.0 / plan.glide_bank.rad().cos());
    let glide_speed = jet.glide_speed().max(GLIDE_SPARE * slowest);
    let numbers = PlanNumbers {
        centre_x: scenario.field.centre.x,
        centre_y: scenario.field.centre.y,
        radius: plan.radius.m(),
        height: plan.height.m(),
        turn,
        law: 0.0,
        gain: 0.0,
        lead: 0.0,
        speed_hold: plan.speed_hold.number(),
        trim_thrust: jet.drag(jet.return_speed, 1.0, 0.0),
        load_lag: plan.load_lag.s(),
        failsafe_delay: draws.even(delay.value.s(), delay.spread.s()).max(0.0),
        turn_above: plan.turn_above.m(),
        wait: plan.wait.s(),
        glide_bank: turn * plan.glide_bank.rad(),
        drift_bank: turn * plan.drift_bank.rad(),
        // The laps that are promised are flown.
        sweep: plan.laps.max(limits.laps_to_reserve) * std::f64::consts::TAU,
        take_over: draws.log_normal(limits.take_over.value.s(), limits.take_over.spread.s()),
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
    let air = draw_air(scenario, &profile, to, &mut draws);
    let (guidance, gain) = law::draw(plan, &mut draws);
    let noise = draws.0.as_mut().map(|random| [(); 4].map(|()| random.next_u64()));
    let loss = circuit::loss(scenario, trial, &jet, &profile).unwrap_or(file.loss);
    let jet = JetNumbers { charge: loss.charge.share(), ..jet };
    let start = start(&loss, &jet);
    let energy_j = jet.charge * jet.pack;
    Trial { jet, wind: profile, air, plan: numbers, start, energy_j, guidance, gain, noise }.under(guidance, gain)
}

/// The mean wind, in the gust wind with what the gust adds on top, and the direction it blows to.
fn draw_wind(scenario: &Scenario, wind: WindChoice, draws: &mut Draws) -> (ProfileNumbers<f64>, glam::DVec2) {
    let sheet = &scenario.file.wind;
    let speed = draws.truncated(sheet.mean.mps(), sheet.mean_spread_mps());
    let from = draws.normal(sheet.from.deg(), sheet.from_spread().rad().to_degrees());
    let to = -crate::units::Bearing::from_deg(from).unit();
    let mean = sheet.grown(to.x * speed, to.y * speed, draws.uniform(0.0, 1.0));
    let excess = match wind {
        WindChoice::Mean => 0.0,
        WindChoice::Gust => sheet.excess_mps(),
    };
    (ProfileNumbers { excess_x: to.x * excess, excess_y: to.y * excess, ..mean }, to)
}

/// How rough the air is: what the gust asks for, or a drawn share of the mean wind at the circle.
fn draw_air(scenario: &Scenario, mean: &ProfileNumbers<f64>, to: glam::DVec2, draws: &mut Draws) -> AirNumbers<f64> {
    let (sheet, height) = (&scenario.file.wind, scenario.file.recovery.height.m());
    let calm = ProfileNumbers { excess_x: 0.0, excess_y: 0.0, ..*mean };
    let aloft = calm.at(sheet.profile, height);
    let [low, high] = INTENSITY;
    let drawn = draws.uniform(low, high) * aloft.x.hypot(aloft.y);
    AirNumbers {
        to_x: to.x,
        to_y: to.y,
        least: drawn.max(sheet.excess_mps() / PEAK),
        convection: sheet.convection.map_or(0.0, Speed::mps),
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
        thrust: trim.clamp(0.0, jet.thrust_left(airspeed, 0.0)),
        energy: 0.0,
        heave: 0.0,
    }
}

/// 1 to the right, -1 to the left.
const fn sign(turn: Turn) -> f64 {
    match turn {
        Turn::Clockwise => 1.0,
        Turn::Anticlockwise => -1.0,
    }
}

impl Trial {
    /// The same draws with another commanded circle: its radius in metres and its way round.
    pub fn circling(mut self, radius_m: f64, turn: Turn) -> Self {
        let turned = sign(turn) * self.plan.turn;
        self.plan.radius = radius_m;
        self.plan.turn = sign(turn);
        self.plan.glide_bank *= turned;
        self.plan.drift_bank *= turned;
        self
    }

    /// The same draws about another centre.
    pub fn about(mut self, centre: glam::DVec2) -> Self {
        (self.plan.centre_x, self.plan.centre_y) = (centre.x, centre.y);
        self
    }

    /// The same draws after another loss. What is lost does not change.
    pub fn lost(self, loss: &Loss) -> Self {
        let jet = JetNumbers { charge: loss.charge.share(), ..self.jet };
        Self { jet, start: start(loss, &jet), energy_j: jet.charge * jet.pack, ..self }
    }
}

impl Setting {
    /// Whether the run is meant to end on the ground.
    pub fn cuts(&self) -> bool {
        self.standing.failsafe_action != FailsafeAction::Return && self.standing.has_position
    }
}
