//! The numbers of one airframe as the step uses them, one or several side by side.

use std::f64::consts::PI;

use super::JetSheet;
use crate::lane::lanes;

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
        /// Share of battery power in the efflux.
        efficiency,
        /// Time constant of the fan, s.
        fan_lag,
        /// Power of everything but the fan, W.
        avionics,
        /// Time constant of the bank, s.
        roll_lag,
        /// Fastest roll, rad/s.
        roll_rate,
        /// Steepest bank commanded, rad.
        bank_limit,
        /// Its tangent.
        bank_limit_tan,
        /// Steepest climb or descent commanded, rad.
        climb_limit,
        /// Speed held on the way home, m/s.
        return_speed,
        /// Energy that may be drawn from a full pack, J.
        pack,
        /// 1 / mass. This and the reciprocals below spare the step its divisions; [`JetNumbers::ready`] keeps them.
        per_mass,
        /// 1 / (time constant of the bank).
        per_roll_lag,
        /// 1 / (time constant of the fan).
        per_fan_lag,
        /// 1 / (2 efficiency).
        half_per_efficiency,
        /// 1 / (density times nozzle area).
        per_flow,
        /// 1 / (half of density times wing area).
        per_pressure,
    }
}

impl JetNumbers<f64> {
    /// From a sheet's values, in air of a density in kg/m^3.
    pub fn new(sheet: &JetSheet, density: f64) -> Self {
        let area = sheet.wing_area.value.m2();
        let span = sheet.span.value.m();
        let nozzle = sheet.nozzle_area.value.m2();
        let efficiency = sheet.fan_efficiency.value.share();
        // Standing still, the power of the efflux is half of density, area and speed cubed (momentum theory).
        let efflux_full = (2.0 * efficiency * sheet.full_power.value.w() / (density * nozzle)).cbrt();
        let bank_limit = sheet.bank_limit.value.rad();
        Self {
            mass: sheet.mass.value.kg(),
            area,
            lift_max: sheet.lift_max.value,
            drag_zero: sheet.drag_zero_lift.value,
            drag_stopped: sheet.drag_fan_stopped.value,
            drag_lift: area / (PI * sheet.span_efficiency.value * span * span),
            density,
            nozzle,
            efflux_full,
            efficiency,
            fan_lag: sheet.fan_lag.value.s(),
            avionics: sheet.avionics_power.value.w(),
            roll_lag: sheet.roll_lag.value.s(),
            roll_rate: sheet.roll_rate.value.rad_per_s(),
            bank_limit,
            bank_limit_tan: bank_limit.tan(),
            climb_limit: sheet.climb_limit.value.rad(),
            return_speed: sheet.return_speed.value.mps(),
            pack: pack_energy_j(sheet),
            per_mass: 0.0,
            per_roll_lag: 0.0,
            per_fan_lag: 0.0,
            half_per_efficiency: 0.0,
            per_flow: 0.0,
            per_pressure: 0.0,
        }
        .ready()
    }

    /// The same with the reciprocals that belong to it; to be called after a change of what they come from.
    pub fn ready(self) -> Self {
        Self {
            per_mass: 1.0 / self.mass,
            per_roll_lag: 1.0 / self.roll_lag,
            per_fan_lag: 1.0 / self.fan_lag,
            half_per_efficiency: 0.5 / self.efficiency,
            per_flow: 1.0 / (self.density * self.nozzle),
            per_pressure: 2.0 / (self.density * self.area),
            ..self
        }
    }
}

/// Rated energy of the pack, J: cells in series at 3.7 V (nominal voltage of a lithium-polymer cell).
pub(super) fn pack_energy_j(sheet: &JetSheet) -> f64 {
    f64::from(sheet.cells) * 3.7 * sheet.capacity.value.c()
}
