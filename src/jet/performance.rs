//! What the numbers amount to in steady flight: stall, drag, thrust, throttle, power, climb, glide, endurance.
//!
//! Level flight at a load factor `n`: lift `n m g`, drag by a parabolic polar, thrust by the momentum of the efflux. What
//! says nothing of charge is for a full pack.

use crate::jet::JetNumbers;
use crate::lane::Lane;
use crate::units::G0;

/// Share of the full efflux speed that a pack loses from full to empty. Fan speed goes with voltage, and efflux with fan
/// speed: 4.2 V a cell when full, 3.5 V under load with a tenth left (handbook 12.1, 12.3), on a straight line.
const SAG: f64 = (4.2 - 3.5) / 4.2 / 0.9;

impl<L: Lane> JetNumbers<L> {
    /// Largest load factor the wing carries at an airspeed in m/s.
    #[inline(always)]
    pub fn load_at_stall(&self, airspeed: L) -> L {
        L::splat(0.5 / G0) * self.density * airspeed * airspeed * self.area * self.lift_max * self.per_mass
    }

    /// Stall speed at a load factor, m/s.
    #[inline(always)]
    pub fn stall_speed(&self, load: L) -> L {
        let weight = self.mass * L::splat(G0);
        (L::splat(2.0) * load * weight / (self.density * self.area * self.lift_max)).sqrt()
    }

    /// Drag at an airspeed and a load factor, N, with `stopped` 1 for a stopped fan and 0 for a running one.
    #[inline(always)]
    pub fn drag(&self, airspeed: L, load: L, stopped: L) -> L {
        self.drag_over(airspeed, L::splat(1.0) / airspeed, load, stopped)
    }

    /// The same where the reciprocal of the airspeed is known.
    #[inline(always)]
    pub(crate) fn drag_over(&self, airspeed: L, per_airspeed: L, load: L, stopped: L) -> L {
        let pressure_area = L::splat(0.5) * self.density * airspeed * airspeed * self.area;
        let lift = load * self.mass * L::splat(G0) * self.per_pressure * per_airspeed * per_airspeed;
        pressure_area * (self.drag_zero + self.drag_stopped * stopped + self.drag_lift * lift * lift)
    }

    /// Most thrust at an airspeed, N: the efflux keeps its full speed, the jet gives back what it flies into.
    #[inline(always)]
    pub fn thrust_full(&self, airspeed: L) -> L {
        (self.density * self.nozzle * self.efflux_full * (self.efflux_full - airspeed)).max(L::splat(0.0))
    }

    /// The same with an energy drawn, J, since the flight began.
    #[inline(always)]
    pub fn thrust_left(&self, airspeed: L, drawn: L) -> L {
        self.worn(drawn).thrust_full(airspeed)
    }

    /// The jet with the efflux that is left after an energy drawn, J: its power and its efficiency are another's.
    #[inline(always)]
    pub(crate) fn worn(&self, drawn: L) -> Self {
        let one = L::splat(1.0);
        let left = (self.charge - drawn * self.per_pack).max(L::splat(0.0));
        Self { efflux_full: self.efflux_full * (one - L::splat(SAG) * (one - left)), ..*self }
    }

    /// Efflux speed for a thrust at an airspeed, m/s, from `T = rho A v_e (v_e - V)`.
    #[inline(always)]
    pub fn efflux(&self, airspeed: L, thrust: L) -> L {
        let half = L::splat(0.5);
        half * (airspeed + (airspeed * airspeed + L::splat(4.0) * thrust * self.per_flow).sqrt())
    }

    /// Battery power for a thrust at an airspeed, W: the gain of kinetic energy of the efflux over the efficiency, which
    /// falls as the efflux falls below the full one.
    #[inline(always)]
    pub fn power(&self, airspeed: L, thrust: L) -> L {
        let efflux = self.efflux(airspeed, thrust);
        // rho A v_e (v_e^2 - V^2) / 2 over the efficiency, times 1 + c (full / v_e - 1).
        let lost = self.part_throttle_loss * (self.efflux_full - efflux).max(L::splat(0.0));
        self.flow_power * (efflux * efflux - airspeed * airspeed) * (efflux + lost) + self.avionics
    }
}

impl JetNumbers<f64> {
    /// Throttle in level flight, as the share of full fan speed, at an airspeed.
    pub fn trim_throttle(&self, airspeed: f64) -> f64 {
        self.efflux(airspeed, self.drag(airspeed, 1.0, 0.0)) / self.efflux_full
    }

    /// Fastest level flight, m/s; 0 where it can't fly level at all.
    pub fn top_speed(&self) -> f64 {
        let excess = |speed: f64| self.thrust_full(speed) - self.drag(speed, 1.0, 0.0);
        let stall = self.stall_speed(1.0);
        // The highest speed with thrust to spare, then halving between it and the next one without.
        let step = (self.efflux_full - stall) / 400.0;
        let Some(mut low) = (0..400).rev().map(|i| stall + step * f64::from(i)).find(|&v| excess(v) > 0.0) else {
            return 0.0;
        };
        let mut high = low + step;
        for _ in 0..50 {
            let middle = f64::midpoint(low, high);
            *(if excess(middle) > 0.0 { &mut low } else { &mut high }) = middle;
        }
        low
    }

    /// Power of the efflux at full throttle, standing still, W.
    pub fn rest_power(&self) -> f64 {
        0.5 * self.density * self.nozzle * self.efflux_full.powi(3)
    }

    /// Steepest steady climb at an airspeed, rad, from the thrust left over.
    pub fn climb_angle(&self, airspeed: f64) -> f64 {
        let share = (self.thrust_full(airspeed) - self.drag(airspeed, 1.0, 0.0)) / (self.mass * G0);
        share.clamp(-1.0, 1.0).asin()
    }

    /// Airspeed of the flattest glide with the fan stopped, m/s.
    pub fn glide_speed(&self) -> f64 {
        let lift = ((self.drag_zero + self.drag_stopped) / self.drag_lift).sqrt().min(self.lift_max);
        (2.0 * self.mass * G0 / (self.density * self.area * lift)).sqrt()
    }

    /// Metres forward a metre down in that glide.
    pub fn glide_ratio(&self) -> f64 {
        self.mass * G0 / self.drag(self.glide_speed(), 1.0, 1.0)
    }

    /// How long a full pack lasts in level flight at an airspeed, s.
    pub fn endurance_s(&self, airspeed: f64) -> f64 {
        self.pack / self.power(airspeed, self.drag(airspeed, 1.0, 0.0))
    }
}
