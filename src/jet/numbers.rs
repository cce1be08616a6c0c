//! The numbers of one airframe as the step uses them, one or several side by side.

use std::f64::consts::PI;

use super::JetSheet;
use super::airframe::{Airframe, solve};
use super::sheet::pack_energy_j;
use crate::lane::lanes;

/// Most loss at part throttle: beyond it a fan would draw less for more thrust (standing, closed form).
pub const MOST_LOSS: f64 = 3.0;
/// Share of its lift slope that a wing has in a gust: the limit of 14 CFR 23.341's alleviation factor, `0.88 mu / (5.3 +
/// mu)`, for a heavy aeroplane. The rest of that factor is the aeroplane's own heave, which the step flies.
const GUST_SHARE: f64 = 0.88;
lanes! {
    /// An airframe in SI, with what follows from its sheet and never changes in flight.
    pub struct JetNumbers {
        /// Mass, kg.
        mass,
        /// Wing area, m^2.
        area,
        /// Largest lift coefficient.
        lift_max,
        /// Drag coefficient at no lift, fan running.
        drag_zero,
        /// Drag coefficient added by a stopped fan.
        drag_stopped,
        /// Drag coefficient a squared lift coefficient: `1 / (pi e b^2 / S)`.
        drag_lift,
        /// Air density, kg/m^3.
        density,
        /// Nozzle area, m^2.
        nozzle,
        /// Efflux speed at full throttle, m/s.
        efflux_full,
        /// Share of battery power in the efflux at full throttle.
        efficiency,
        /// How its loss grows towards part throttle; see [`JetSheet::part_throttle_loss`].
        part_throttle_loss,
        /// Lift coefficient a radian of angle of attack.
        lift_slope,
        /// Time constant of the fan, s; 0 follows at once.
        fan_lag,
        /// Power of everything but the fan, W.
        avionics,
        /// Time constant of the bank, s; 0 follows at once.
        roll_lag,
        /// Fastest roll, rad/s.
        roll_rate,
        /// Steepest bank commanded, rad.
        maximum_bank,
        /// Its tangent.
        maximum_bank_tan,
        /// Steepest climb or descent commanded, rad.
        climb_limit,
        /// Speed held on the way home, m/s.
        return_speed,
        /// Energy that may be drawn from a full pack, J.
        pack,
        /// Share of that which is left where the flight begins.
        charge,
        /// 1 / mass. This and what is below spare the step its divisions; [`JetNumbers::ready`] keeps them.
        per_mass,
        /// 1 / pack.
        per_pack,
        /// Density times nozzle area / (2 efficiency).
        flow_power,
        /// Share of a vertical gust taken on a metre flown, 1/m.
        heave,
        /// 1 / (density times nozzle area).
        per_flow,
        /// 1 / (half of density times wing area).
        per_pressure,
    }
}

impl JetNumbers<f64> {
    /// From a sheet's values, in air of a density in kg/m^3.
    pub fn new(sheet: &JetSheet, density: f64) -> Self {
        let Airframe { area, span, lift_max, drag_zero, nozzle, power, efficiency } = solve(sheet);
        let aspect = span * span / area;
        // Standing still, the power of the efflux is half of density, area and speed cubed (momentum theory).
        let efflux_full = (2.0 * efficiency * power / (density * nozzle)).cbrt();
        let maximum_bank = sheet.maximum_bank.value.rad();
        let plain = Self {
            mass: sheet.mass.value.kg(),
            area,
            lift_max,
            drag_zero,
            drag_stopped: sheet.drag_fan_stopped.value,
            drag_lift: area / (PI * sheet.span_efficiency.value * span * span),
            density,
            nozzle,
            efflux_full,
            efficiency,
            fan_lag: sheet.fan_lag.value.s(),
            part_throttle_loss: sheet.part_throttle_loss.value,
            // Lifting line with an elliptic load (textbooks; value from memory).
            lift_slope: 2.0 * PI * aspect / (aspect + 2.0),
            avionics: sheet.avionics_power.value.w(),
            roll_lag: sheet.roll_lag.value.s(),
            roll_rate: sheet.roll_rate.value.rad_per_s(),
            maximum_bank,
            maximum_bank_tan: maximum_bank.tan(),
            climb_limit: sheet.climb_limit.value.rad(),
            return_speed: sheet.return_speed.value.mps(),
            pack: pack_energy_j(sheet),
            charge: 1.0,
            per_mass: 0.0,
            per_pack: 0.0,
            flow_power: 0.0,
            heave: 0.0,
            per_flow: 0.0,
            per_pressure: 0.0,
        }
        .ready();
        match sheet.measured_power() {
            Some(power) => plain.drawing(power.value.w()),
            None => plain,
        }
    }

    /// The loss at part throttle that makes it draw a power, in W, in level flight at its return speed.
    pub fn part_throttle_loss_at(&self, power: f64) -> f64 {
        let speed = self.return_speed;
        let efflux = self.efflux(speed, self.drag(speed, 1.0, 0.0));
        let lossless = self.flow_power * (efflux * efflux - speed * speed);
        ((power - self.avionics) / lossless - efflux) / (self.efflux_full - efflux).max(1e-3 * self.efflux_full)
    }

    /// The same jet drawing a measured power at its return speed: by its loss at part throttle, and where no such loss
    /// makes sense, by its efficiency. Its thrust stays.
    fn drawing(self, power: f64) -> Self {
        let loss = self.part_throttle_loss_at(power).clamp(0.0, MOST_LOSS);
        let lossy = Self { part_throttle_loss: loss, ..self };
        let speed = self.return_speed;
        let found = lossy.power(speed, self.drag(speed, 1.0, 0.0)) - self.avionics;
        Self { efficiency: self.efficiency * found / (power - self.avionics).max(1.0), ..lossy }.ready()
    }

    /// The same with the reciprocals that belong to it; to be called after a change of what they come from.
    pub fn ready(self) -> Self {
        Self {
            per_mass: 1.0 / self.mass,
            per_pack: 1.0 / self.pack,
            flow_power: 0.5 * self.density * self.nozzle / self.efficiency,
            heave: 0.5 * GUST_SHARE * self.lift_slope * self.density * self.area / self.mass,
            per_flow: 1.0 / (self.density * self.nozzle),
            per_pressure: 2.0 / (self.density * self.area),
            ..self
        }
    }
}
