//! The stated equations, written down once more: a point mass in coordinated flight, integrated by Runge's and Kutta's four
//! slopes in steps of a few milliseconds, with directions as angles.
//!
//! Taken from the physics of the design contract and the documentation of the public items; the numbers of jet, plan and wind
//! are those of the trial. Nothing of the step, its lags, the lanes or their trigonometry is used.

use peewit::run::Trial;
use peewit::wind::Profile;

pub(super) const G0: f64 = 9.806_65;
/// Time constant of the climb angle, s.
const PITCH_S: f64 = 0.5;
/// Most load, upward.
const MOST_LOAD: f64 = 6.0;
/// Share of the full efflux that a pack loses from full to empty: 4.2 V a cell when full, 3.5 V with a tenth left.
const SAG: f64 = (4.2 - 3.5) / 4.2 / 0.9;

/// East, north, height, airspeed, nose (radians anticlockwise from east), climb, bank (to the right), thrust, energy drawn.
pub(super) type State = [f64; 9];
pub(super) const X: usize = 0;
pub(super) const Y: usize = 1;
pub(super) const HEIGHT: usize = 2;
pub(super) const SPEED: usize = 3;
pub(super) const NOSE: usize = 4;
pub(super) const CLIMB: usize = 5;
pub(super) const BANK: usize = 6;
pub(super) const THRUST: usize = 7;
pub(super) const ENERGY: usize = 8;

/// What is asked of the jet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Asked {
    pub(super) bank: f64,
    pub(super) climb: f64,
    pub(super) thrust: f64,
    pub(super) fan_stopped: bool,
}

/// A trial and how its wind grows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Jet<'a> {
    pub(super) trial: &'a Trial,
    pub(super) profile: Profile,
}

impl Jet<'_> {
    /// At the loss.
    pub(super) fn start(&self) -> State {
        let start = &self.trial.start;
        let nose = start.nose_y.atan2(start.nose_x);
        [start.x, start.y, start.height, start.airspeed, nose, start.climb, start.bank, start.thrust, start.energy]
    }

    /// Wind to the east and to the north at a height, and what each gains a metre higher. Below 1 m it stays as it is there.
    pub(super) fn wind(&self, height: f64) -> [f64; 4] {
        let wind = &self.trial.wind;
        let (h, grows) = (height.max(1.0), if height < 1.0 { 0.0 } else { 1.0 });
        let (factor, slope) = match self.profile {
            Profile::Uniform => (1.0, 0.0),
            Profile::Power => {
                let factor = (h / wind.measured_at).powf(wind.exponent);
                (factor, wind.exponent * factor / h)
            }
            Profile::Log => {
                let whole = (wind.measured_at / wind.roughness).ln();
                (((h / wind.roughness).ln() / whole).max(0.0), 1.0 / (whole * h))
            }
        };
        let slope = slope * grows;
        [wind.x * factor + wind.excess_x, wind.y * factor + wind.excess_y, wind.x * slope, wind.y * slope]
    }

    fn dynamic_lift(&self, speed: f64) -> f64 {
        0.5 * self.trial.jet.density * speed * speed * self.trial.jet.area
    }

    /// Drag by a parabolic polar at a load.
    pub(super) fn drag(&self, speed: f64, load: f64, fan_stopped: bool) -> f64 {
        let jet = &self.trial.jet;
        let lift = load * jet.mass * G0 / self.dynamic_lift(speed);
        let stopped = if fan_stopped { jet.drag_stopped } else { 0.0 };
        self.dynamic_lift(speed) * (jet.drag_zero + stopped + jet.drag_lift * lift * lift)
    }

    /// Stall speed in level flight.
    pub(super) fn stall(&self) -> f64 {
        let jet = &self.trial.jet;
        (2.0 * jet.mass * G0 / (jet.density * jet.area * jet.lift_max)).sqrt()
    }

    /// Efflux at full throttle with what is left in the pack.
    fn full_efflux(&self, drawn: f64) -> f64 {
        let jet = &self.trial.jet;
        let left = (jet.charge - drawn / jet.pack).max(0.0);
        jet.efflux_full * (1.0 - SAG * (1.0 - left))
    }

    /// Most thrust at a speed, with so much drawn.
    pub(super) fn most_thrust(&self, speed: f64, drawn: f64) -> f64 {
        let (jet, efflux) = (&self.trial.jet, self.full_efflux(drawn));
        (jet.density * jet.nozzle * efflux * (efflux - speed)).max(0.0)
    }

    /// Power of the pack for a thrust: the gain of kinetic energy of the efflux over the efficiency, which falls below the
    /// full efflux.
    fn power(&self, speed: f64, thrust: f64) -> f64 {
        let jet = &self.trial.jet;
        let flow = jet.density * jet.nozzle;
        let efflux = 0.5 * (speed + (speed * speed + 4.0 * thrust / flow).sqrt());
        let lost = 1.0 + jet.part_throttle_loss * (jet.efflux_full / efflux - 1.0).max(0.0);
        0.5 * flow * efflux * (efflux * efflux - speed * speed) / jet.efficiency * lost + jet.avionics
    }

    /// What each part of the state gains a second.
    fn slopes(&self, state: &State, asked: &Asked) -> State {
        let jet = &self.trial.jet;
        let [_, _, height, speed, nose, climb, bank, thrust, drawn] = *state;
        let [wind_x, wind_y, grows_x, grows_y] = self.wind(height);
        let (nose_x, nose_y) = (nose.cos(), nose.sin());
        let rise = speed * climb.sin();
        // The air that it climbs into moves faster by this, along the nose and to its right.
        let gain = [grows_x * rise, grows_y * rise];
        let along = gain[0] * nose_x + gain[1] * nose_y;
        let right = gain[0] * nose_y - gain[1] * nose_x;

        let pull = speed / (G0 * PITCH_S) * (asked.climb - climb);
        let stalls = self.dynamic_lift(speed) * jet.lift_max / (jet.mass * G0);
        let load = ((climb.cos() + pull) / bank.cos().max(0.1)).clamp(0.0, stalls.min(MOST_LOAD));
        let drag = self.drag(speed, load, asked.fan_stopped);
        let available = asked.thrust.min(self.most_thrust(speed, drawn));
        [
            speed * climb.cos() * nose_x + wind_x,
            speed * climb.cos() * nose_y + wind_y,
            rise,
            (thrust - drag) / jet.mass - G0 * climb.sin() - along * climb.cos(),
            // A turn to the right makes the angle smaller.
            -(G0 * load * bank.sin() - right) / (speed * climb.cos()),
            (G0 * (load * bank.cos() - climb.cos()) + along * climb.sin()) / speed,
            ((asked.bank - bank) / jet.roll_lag).clamp(-jet.roll_rate, jet.roll_rate),
            (available - thrust) / jet.fan_lag,
            self.power(speed, thrust),
        ]
    }

    /// The state some seconds later under one order, in so many parts.
    pub(super) fn after(&self, mut state: State, asked: &Asked, seconds: f64, parts: u32) -> State {
        let dt = seconds / f64::from(parts);
        let along = |from: &State, by: &State, time: f64| -> State { std::array::from_fn(|i| from[i] + by[i] * time) };
        for _ in 0..parts {
            let first = self.slopes(&state, asked);
            let second = self.slopes(&along(&state, &first, dt / 2.0), asked);
            let third = self.slopes(&along(&state, &second, dt / 2.0), asked);
            let fourth = self.slopes(&along(&state, &third, dt), asked);
            let mean: State = std::array::from_fn(|i| (first[i] + 2.0 * (second[i] + third[i]) + fourth[i]) / 6.0);
            state = along(&state, &mean, dt);
        }
        state
    }
}
