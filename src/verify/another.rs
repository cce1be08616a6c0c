//! Circles in wind that nothing of the program has flown: a point mass with another guidance law, another integration,
//! another wind. What tells the wind from a log is tried on these.
//!
//! The truth is the profile's mean at the height of the circle: gusts come on top, a first-order process with mean zero.

use glam::DVec2;
use rand::{RngExt as _, SeedableRng as _};
use rand_distr::StandardNormal;
use rand_xoshiro::Xoshiro256PlusPlus;

use crate::run::{Channels, Track};

/// Step of the integration, seconds.
const STEP_S: f64 = 0.1;

/// Standard gravity, m/s^2.
const G0: f64 = 9.806_65;

/// What is flown, in metres and seconds.
#[derive(Debug, Clone, Copy)]
pub struct Flight {
    /// Airspeed that thrust brings back.
    pub airspeed: f64,
    /// Anticlockwise, clockwise where below nothing.
    pub radius: f64,
    /// About which the jet bobs.
    pub height: f64,
    /// How long is logged.
    pub seconds: f64,
    /// Mean at the height of the circle.
    pub wind: DVec2,
    /// It grows as height to this power.
    pub power: f64,
    /// Standard deviation of gusts in each direction, and how long they hold.
    pub gust: (f64, f64),
    /// Time in which thrust brings the airspeed back.
    pub thrust_s: f64,
    /// By how much later the guidance sees all.
    pub delay_s: f64,
    /// Standard deviation of the error of position in each direction, and how long it holds.
    pub noise: (f64, f64),
    /// A sample in so many steps.
    pub every: usize,
    /// Nothing was logged between these.
    pub gap_s: (f64, f64),
}

impl Default for Flight {
    /// No gust, no noise, no gap.
    fn default() -> Self {
        Self {
            airspeed: 22.0,
            radius: 60.0,
            height: 60.0,
            seconds: 45.0,
            wind: DVec2::new(4.0, -3.0),
            power: 0.0,
            gust: (0.0, 2.0),
            thrust_s: 1.0,
            delay_s: 0.0,
            noise: (0.0, 5.0),
            every: 1,
            gap_s: (0.0, 0.0),
        }
    }
}

/// Place, velocity over the ground, bank to the left.
type State = (DVec2, DVec2, f64);

/// A first-order process alike in both directions.
struct Process {
    value: DVec2,
    keeps: f64,
    fresh: f64,
}

impl Process {
    fn new((deviation, holds_s): (f64, f64), rng: &mut Xoshiro256PlusPlus) -> Self {
        let keeps = (-STEP_S / holds_s).exp();
        Self { value: normal(rng) * deviation, keeps, fresh: deviation * (1.0 - keeps * keeps).sqrt() }
    }

    fn next(&mut self, rng: &mut Xoshiro256PlusPlus) {
        self.value = self.value * self.keeps + normal(rng) * self.fresh;
    }
}

fn normal(rng: &mut Xoshiro256PlusPlus) -> DVec2 {
    DVec2::new(rng.sample(StandardNormal), rng.sample(StandardNormal))
}

impl Flight {
    /// Any flight of two to three laps, 1 or 10 samples a second, one in three with a gap.
    pub fn any(rng: &mut Xoshiro256PlusPlus) -> Self {
        let mut between = |low: f64, high: f64| rng.random_range(low..high);
        let airspeed = between(16.0, 30.0);
        let radius = between(40.0, 100.0);
        let laps = between(2.0, 3.0);
        let seconds = laps * std::f64::consts::TAU * radius / airspeed;
        let (strength, way) = (between(0.0, 0.4 * airspeed), between(0.0, std::f64::consts::TAU));
        let gap = between(0.2, 0.8) * seconds;
        let gap_s = if between(0.0, 3.0) < 1.0 { (gap, gap + between(2.0, 5.0)) } else { (0.0, 0.0) };
        Self {
            airspeed,
            radius: if between(0.0, 1.0) < 0.5 { radius } else { -radius },
            height: between(30.0, 110.0),
            seconds,
            wind: DVec2::from_angle(way) * strength,
            power: between(0.1, 0.3),
            gust: (between(0.05, 0.25) * strength + between(0.1, 0.7), between(0.8, 6.0)),
            thrust_s: between(0.5, 2.0),
            delay_s: between(0.0, 0.4),
            noise: (between(0.2, 1.2), between(2.0, 10.0)),
            every: if between(0.0, 1.0) < 0.5 { 1 } else { 10 },
            gap_s,
        }
    }

    /// Flies it, by Runge's and Kutta's four slopes, and logs it; none where there is nothing to log.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few steps")]
    pub fn log(&self, seed: u64) -> Option<Track> {
        let mut rng = Xoshiro256PlusPlus::seed_from_u64(seed);
        let mut gust = Process::new(self.gust, &mut rng);
        let mut noise = Process::new(self.noise, &mut rng);
        let out = DVec2::from_angle(rng.random_range(0.0..std::f64::consts::TAU));
        let round = out.perp() * self.radius.signum();
        let mut state: State = (out * self.radius.abs(), round * self.airspeed + self.wind, 0.0);
        let mut seen = vec![state];
        let (mut time_s, mut place, mut height_m) = (vec![], vec![], vec![]);
        // It has some seconds to find its circle before the log begins.
        let settle_s = 8.0;
        let bob = rng.random_range(5.0..15.0);
        for step in 0_u32.. {
            let now = f64::from(step) * STEP_S - settle_s;
            if now > self.seconds {
                break;
            }
            let height = self.height + 1.5 * (std::f64::consts::TAU * now / bob).sin();
            let in_gap = self.gap_s.0 < now && now < self.gap_s.1;
            if now >= 0.0 && (step as usize).is_multiple_of(self.every) && !in_gap {
                time_s.push(now);
                place.push(state.0 + noise.value);
                height_m.push(height);
            }
            let wind = self.wind * (height / self.height).powf(self.power) + gust.value;
            let late = seen[seen.len().saturating_sub(1 + (self.delay_s / STEP_S).round() as usize)];
            let wanted = self.bank(late);
            let slope = |at: State| self.slope(at, wind, wanted);
            let first = slope(state);
            let second = slope(along(state, first, STEP_S / 2.0));
            let third = slope(along(state, second, STEP_S / 2.0));
            let fourth = slope(along(state, third, STEP_S));
            for (part, weight) in [(first, 1.0), (second, 2.0), (third, 2.0), (fourth, 1.0)] {
                state = along(state, part, STEP_S * weight / 6.0);
            }
            seen.push(state);
            gust.next(&mut rng);
            noise.next(&mut rng);
        }
        Track::new(time_s, place, height_m, Channels::default())
    }

    /// The bank that is asked for: what holds the circle at this speed, and in proportion to the error of the radius and
    /// to how fast it grows.
    fn bank(&self, (place, velocity, _): State) -> f64 {
        let out = place.normalize();
        let (off, off_rate) = (place.length() - self.radius.abs(), velocity.dot(out));
        let round = velocity.dot(out.perp());
        let inward = round * round / place.length() + 0.2 * off + 0.8 * off_rate;
        (inward / G0).atan().clamp(-1.1, 1.1) * self.radius.signum()
    }

    /// A turn square to the way through the air, and thrust along it that brings the airspeed back; the bank follows in
    /// 0.3 s.
    fn slope(&self, (_, velocity, bank): State, wind: DVec2, wanted: f64) -> State {
        let air = velocity - wind;
        let nose = air.normalize();
        let thrust = (self.airspeed - air.length()) / self.thrust_s;
        (velocity, nose.perp() * G0 * bank.tan() + nose * thrust, (wanted - bank) / 0.3)
    }
}

fn along(state: State, slope: State, time_s: f64) -> State {
    (state.0 + slope.0 * time_s, state.1 + slope.1 * time_s, state.2 + slope.2 * time_s)
}
