//! What do the numbers that people know amount to? Wing, drag and fan from stall speed, top speed and climb, and what is
//! left out by the mass.
//!
//! In standard air at sea level, `W = m g`, `q(V) = rho V^2 / 2`, drag of the lift `i(V) = k W^2 / (q(V) S)` with `k = S /
//! (pi e b^2)`, thrust `T(V) = rho A v (v - V)` of an efflux `v`, which at rest takes the power `rho A v^3 / 2`:
//!
//! * stall: `W = q(Vs) S CLmax`. It gives `CLmax`, or `S` where that is left out.
//! * top speed: `T(Vt) = q(Vt) S CD0 + i(Vt)`. It gives `CD0`. A nozzle left out is that of a fan matched to the top speed,
//!   `v = 1.66 Vt`.
//! * climb at a rate `w`, at the return speed: `T(Vr) = q(Vr) S CD0 + i(Vr) + W w / Vr`. It gives `v`, and so the fan's
//!   efficiency, or full power where that is left out.
//! * climb and top speed together, with `s = Vr / Vt`: the drag at no lift falls out of `T(Vr) - s^2 T(Vt)`, and
//!   `rho A (1 - s) ((1 + s) v^2 - Vr v) = i(Vr) - s^2 i(Vt) + W w / Vr` gives `v`, or `A`.
//!
//! What is neither known nor to be worked out is that of a sport jet of the same shape and density, flown alike: lengths go
//! with the cube root of the mass, areas with its power 2/3, speeds with 1/6, power with 7/6 (Froude's law of similarity).

use std::f64::consts::PI;

use super::sheet::{Entry, JetSheet, Origin, PlainEntry};
use crate::units::{G0, Quantity};
use crate::wind::isa_density;

/// Mass of the jet that others are scaled from, kg: a sport fan jet (invented, as are the numbers below: judgement).
pub(crate) const MASS_KG: f64 = 2.1;
const AREA_M2: f64 = 0.228;
const NOZZLE_M2: f64 = 0.0047;
const POWER_W: f64 = 1900.0;
/// Span squared over wing area.
const ASPECT: f64 = 5.3;
const LIFT_MAX: f64 = 1.0;
const DRAG: f64 = 0.045;
const EFFICIENCY: f64 = 0.5;
/// Efflux at full throttle over top speed: three quarters of the efflux's power then move the jet (Froude efficiency `2 /
/// (1 + 1.66)`, closed form; the number is judgement).
const MATCH: f64 = 1.66;
/// No jet has less drag: where the numbers as drawn ask for it.
pub(crate) const LEAST_DRAG: f64 = 0.005;
/// Most of its top speed that a jet returns at where its climb there says something of its fan.
pub(crate) const MOST_OF_TOP: f64 = 0.95;

/// Wing, drag and fan, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Airframe {
    pub(super) area: f64,
    pub(super) span: f64,
    pub(super) lift_max: f64,
    pub(super) drag_zero: f64,
    pub(super) nozzle: f64,
    pub(super) power: f64,
    pub(super) efficiency: f64,
}

/// What of a jet of the sport jet's mass has a number has it at another mass, going with a power of it.
fn scaled(number: f64, mass_kg: f64, power: f64) -> f64 {
    number * (mass_kg / MASS_KG).powf(power)
}

fn si<Q: Quantity>(entry: Option<Entry<Q>>) -> Option<f64> {
    entry.map(|entry| entry.value.si())
}

/// What a sheet amounts to. A number that is known goes before what would be worked out from it.
pub(super) fn solve(sheet: &JetSheet) -> Airframe {
    let mass = sheet.mass.value.kg();
    let (density, weight, home) = (isa_density(0.0), mass * G0, sheet.return_speed.value.mps());
    let pressure = |speed: f64| 0.5 * density * speed * speed;

    let lift_max = sheet.lift_max.map_or(LIFT_MAX, |lift| lift.value);
    let (area, lift_max) = match (si(sheet.stall_speed), si(sheet.wing_area)) {
        (Some(stall), Some(area)) => (area, weight / (pressure(stall) * area)),
        (Some(stall), None) => (weight / (pressure(stall) * lift_max), lift_max),
        (None, area) => (area.unwrap_or_else(|| scaled(AREA_M2, mass, 2.0 / 3.0)), lift_max),
    };
    let span = si(sheet.span).unwrap_or_else(|| (ASPECT * area).sqrt());
    let of_lift = |speed: f64| weight * weight / (PI * sheet.span_efficiency.value * span * span * pressure(speed));

    let rate = si(sheet.climb);
    // Trials may draw a top speed below the return speed.
    let top = si(sheet.top_speed).map(|top| if rate.is_some() { top.max(home / MOST_OF_TOP) } else { top });
    let drag_zero = sheet.drag_zero_lift.map_or(DRAG, |drag| drag.value);
    let power = si(sheet.full_power);
    let nozzle = si(sheet.nozzle_area);
    let by_mass = || scaled(NOZZLE_M2, mass, 2.0 / 3.0);
    let efficiency = si(sheet.fan_efficiency).unwrap_or(EFFICIENCY);
    let (nozzle, efflux) = match (rate, top) {
        (None, top) => {
            let useful = efficiency * power.unwrap_or_else(|| scaled(POWER_W, mass, 7.0 / 6.0));
            let matched = |top: f64| 2.0 * useful / (density * (MATCH * top).powi(3));
            let nozzle = nozzle.unwrap_or_else(|| top.map_or_else(by_mass, matched));
            (nozzle, (2.0 * useful / (density * nozzle)).cbrt())
        }
        (Some(rate), None) => {
            let nozzle = nozzle.unwrap_or_else(by_mass);
            let thrust = pressure(home) * area * drag_zero + of_lift(home) + weight * rate / home;
            (nozzle, 0.5 * (home + (home * home + 4.0 * thrust / (density * nozzle)).sqrt()))
        }
        (Some(rate), Some(top)) => {
            let s = home / top;
            let spare = (of_lift(home) - s * s * of_lift(top) + weight * rate / home) / (density * (1.0 - s));
            match nozzle {
                Some(nozzle) => {
                    let root = (home * home + 4.0 * (1.0 + s) * spare / nozzle).sqrt();
                    (nozzle, (home + root) / (2.0 * (1.0 + s)))
                }
                None => {
                    let efflux = MATCH * top;
                    (spare / (efflux * ((1.0 + s) * efflux - home)), efflux)
                }
            }
        }
    };
    let useful = 0.5 * density * nozzle * efflux.powi(3);
    let (power, efficiency) = match (rate, power) {
        (Some(_), Some(power)) => (power, useful / power),
        (Some(_), None) => (useful / efficiency, efficiency),
        (None, power) => (power.unwrap_or_else(|| scaled(POWER_W, mass, 7.0 / 6.0)), efficiency),
    };
    let drag_zero = top.map_or(drag_zero, |top| {
        let thrust = density * nozzle * efflux * (efflux - top);
        ((thrust - of_lift(top)) / (pressure(top) * area)).max(LEAST_DRAG)
    });
    Airframe { area, span, lift_max, drag_zero, nozzle, power, efficiency }
}

/// A number of the sheet that others follow from.
trait Cause {
    /// Its value and spread in SI, and its origin.
    fn told(&self) -> (f64, f64, Origin);
    /// Puts another value in.
    fn put(&mut self, si: f64);
}

impl<Q: Quantity> Cause for Entry<Q> {
    fn told(&self) -> (f64, f64, Origin) {
        (self.value.si(), self.spread.si(), self.origin)
    }

    fn put(&mut self, si: f64) {
        self.value = Q::from_si(si);
    }
}

impl Cause for PlainEntry {
    fn told(&self) -> (f64, f64, Origin) {
        (self.value, self.spread, self.origin)
    }

    fn put(&mut self, si: f64) {
        self.value = si;
    }
}

/// Every number written that wing, drag and fan follow from.
fn causes(sheet: &mut JetSheet) -> Vec<&mut dyn Cause> {
    fn one<C: Cause>(entry: &mut Option<C>) -> Option<&mut dyn Cause> {
        entry.as_mut().map(|entry| entry as &mut dyn Cause)
    }
    let mut all: Vec<&mut dyn Cause> = vec![&mut sheet.mass, &mut sheet.span_efficiency];
    all.extend([one(&mut sheet.stall_speed), one(&mut sheet.top_speed), one(&mut sheet.climb)].into_iter().flatten());
    all.extend([one(&mut sheet.wing_area), one(&mut sheet.nozzle_area)].into_iter().flatten());
    all.extend([one(&mut sheet.lift_max), one(&mut sheet.drag_zero_lift)].into_iter().flatten());
    all.extend(
        [one(&mut sheet.span), one(&mut sheet.full_power), one(&mut sheet.fan_efficiency)].into_iter().flatten(),
    );
    all
}

/// Four digits: more than anybody knows here.
pub(super) fn people_write(number: f64) -> f64 {
    format!("{number:.3e}").parse().unwrap_or(number)
}

fn put<Q: Quantity>(slot: &mut Option<Entry<Q>>, (value, spread, origin): (f64, f64, Origin)) {
    slot.get_or_insert(Entry::si(value, spread, origin));
}

fn put_plain(slot: &mut Option<PlainEntry>, (value, spread, origin): (f64, f64, Origin)) {
    slot.get_or_insert(PlainEntry { value, spread, origin });
}

impl JetSheet {
    /// The sheet with what is neither known nor worked out from what is: the default by its mass, with a wide spread
    /// (judgement). What is left open then follows from the rest.
    pub fn filled(&self) -> Self {
        let (found, mut filled) = (solve(self), self.clone());
        let by_default = |value: f64, share: f64| (value, share * value, Origin::Default);
        if self.stall_speed.is_none() {
            put(&mut filled.wing_area, by_default(found.area, 0.15));
        }
        if self.stall_speed.is_none() || self.wing_area.is_none() {
            put_plain(&mut filled.lift_max, by_default(found.lift_max, 0.1));
        }
        put(&mut filled.span, by_default(found.span, 0.08));
        if self.top_speed.is_none() {
            put_plain(&mut filled.drag_zero_lift, by_default(found.drag_zero, 0.25));
            put(&mut filled.nozzle_area, by_default(found.nozzle, 0.15));
        }
        if self.climb.is_none() {
            put(&mut filled.full_power, by_default(found.power, 0.2));
        }
        if self.climb.is_none() || self.full_power.is_none() {
            put(&mut filled.fan_efficiency, by_default(found.efficiency, 0.1));
        }
        filled
    }

    /// The sheet with every number of wing, drag and fan: as entered, worked out, or by default. A spread that is worked out
    /// adds up those of its causes as if each were a small error by itself; its origin is a default where one of them is,
    /// and an estimate otherwise.
    pub fn whole(&self) -> Self {
        let mut whole = self.filled();
        let numbers = |sheet: &Self| {
            let found = solve(sheet);
            [found.area, found.lift_max, found.drag_zero, found.nozzle, found.power, found.efficiency]
        };
        let values = numbers(&whole);
        let (mut variances, mut origins) = ([0.0; 6], [Origin::Estimated; 6]);
        for index in 0..causes(&mut whole.clone()).len() {
            let mut moved = whole.clone();
            let mut all = causes(&mut moved);
            let (value, spread, origin) = all[index].told();
            let step = 1e-4 * value;
            all[index].put(value + step);
            for (number, after) in numbers(&moved).into_iter().enumerate() {
                let slope = (after - values[number]) / step;
                variances[number] += (slope * spread).powi(2);
                if origin == Origin::Default && (slope * value).abs() > 1e-6 * values[number].abs() {
                    origins[number] = Origin::Default;
                }
            }
        }
        let found =
            |number: usize| (people_write(values[number]), people_write(f64::sqrt(variances[number])), origins[number]);
        // What is by default reads as people write it, too.
        let mut told = self.clone();
        put(&mut told.wing_area, found(0));
        put_plain(&mut told.lift_max, found(1));
        put_plain(&mut told.drag_zero_lift, found(2));
        put(&mut told.nozzle_area, found(3));
        put(&mut told.full_power, found(4));
        put(&mut told.fan_efficiency, found(5));
        whole.span = whole.span.map(|span| match self.span {
            Some(_) => span,
            None => Entry::si(people_write(span.value.si()), people_write(span.spread.si()), span.origin),
        });
        Self { span: whole.span, ..told }
    }

    /// Wing span, m.
    pub fn span_m(&self) -> f64 {
        solve(self).span
    }

    /// The same with a largest lift coefficient in the place of what is known of the stall.
    pub fn with_lift_max(&self, lift_max: PlainEntry) -> Self {
        let whole = self.whole();
        Self { stall_speed: None, wing_area: whole.wing_area, lift_max: Some(lift_max), ..self.clone() }
    }
}
