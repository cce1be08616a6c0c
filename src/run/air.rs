//! The air along the way: mean wind by height, and turbulence that changes linearly within a step.

use crate::jet::{Gust, State};
use crate::lane::{Lane, Random, Words as _};
use crate::run::Setting;
use crate::wind::{AirNumbers, ProfileNumbers, Turbulence};

/// Steps between two looks at whether the eddies are still those of the height and the airspeed of the moment.
const RESCALE: usize = 10;
/// Shares by which height and airspeed may differ from those that the eddies are of: lengths are then within 5 %,
/// intensities within 2 %, and what is flown of an eddy in a step within 10 % (judgement: no forecast is as good).
const OFF: [f64; 2] = [0.05, 0.1];
/// Height at which the standard measures the wind that drives turbulence: 20 ft, in m.
const TWENTY_FEET: f64 = 20.0 * 0.3048;

/// The air along the way: mean wind by height, and turbulence that changes linearly within a step.
#[derive(Debug, Clone)]
pub(super) struct Air<L: Lane> {
    /// At the start of the present step.
    gust: Gust<L>,
    turbulence: Option<Turbulence<L>>,
    /// Height and airspeed that its eddies are of.
    eddies_of: [L; 2],
    /// In which lanes it blows.
    stirred: L::Words,
    wind_20ft: L,
    /// How rough it is.
    rough: AirNumbers<L>,
    /// Turbulent motion now, at the end of the step, and its rate of change over it: east, north, up.
    now: [L; 3],
    next: [L; 3],
    rate: [L; 3],
}

impl<L: Lane> Air<L> {
    #[inline(always)]
    pub(super) fn new(
        setting: &Setting,
        wind: &ProfileNumbers<L>,
        rough: AirNumbers<L>,
        state: &State<L>,
        stirred: L::Words,
        random: &mut Random<L>,
    ) -> Self {
        let zero = L::splat(0.0);
        // The standard goes by the mean, without what blows on top of it.
        let low = wind.at(setting.profile, L::splat(TWENTY_FEET));
        let (low_x, low_y) = (low.x - wind.excess_x, low.y - wind.excess_y);
        let wind_20ft = (low_x * low_x + low_y * low_y).sqrt();
        let turbulence = stirred.any().then(|| {
            let scale = rough.scale(state.height, wind_20ft);
            let mut turbulence = Turbulence::new(scale, state.airspeed, setting.step_s);
            turbulence.stir(random);
            turbulence
        });
        let (gust, eddies_of) = (calm(state), [state.height, state.airspeed]);
        let mut air = Self {
            gust,
            turbulence,
            eddies_of,
            stirred,
            wind_20ft,
            rough,
            now: [zero; 3],
            next: [zero; 3],
            rate: [zero; 3],
        };
        air.next = air.motion();
        air.arrive(setting, wind, state);
        air
    }

    /// The air at the start of the step.
    #[inline(always)]
    pub(super) fn now(&self) -> &Gust<L> {
        &self.gust
    }

    /// Turbulent motion in the frame of the field, and none where nothing is stirred.
    #[inline(always)]
    fn motion(&self) -> [L; 3] {
        let Some(turbulence) = &self.turbulence else { return [L::splat(0.0); 3] };
        let [along, left, up] = turbulence.motion();
        let (x, y) = (self.rough.to_x, self.rough.to_y);
        let zero = L::splat(0.0);
        [
            L::select(self.stirred, along * x - left * y, zero),
            L::select(self.stirred, along * y + left * x, zero),
            L::select(self.stirred, up, zero),
        ]
    }

    /// Draws the turbulence at the end of the step.
    #[inline(always)]
    pub(super) fn draw(&mut self, setting: &Setting, state: &State<L>, random: &mut Random<L>, index: usize) {
        let Some(turbulence) = &mut self.turbulence else { return };
        if index.is_multiple_of(RESCALE) && index > 0 {
            let [height, airspeed] = self.eddies_of;
            let off = |now: L, then: L, share: f64| (now - then).abs().gt(then.abs() * L::splat(share));
            let lanes = off(state.height, height, OFF[0]).or(off(state.airspeed, airspeed, OFF[1]));
            if lanes.any() {
                let scale = self.rough.scale(state.height, self.wind_20ft);
                turbulence.rescale(lanes, scale, state.airspeed, setting.step_s);
                self.eddies_of = [L::select(lanes, state.height, height), L::select(lanes, state.airspeed, airspeed)];
            }
        }
        turbulence.update(random.five_normals());
        self.next = self.motion();
        let per_step = L::splat(1.0 / setting.step_s);
        let [x, y, z] = self.now;
        let [next_x, next_y, next_z] = self.next;
        self.rate = [(next_x - x) * per_step, (next_y - y) * per_step, (next_z - z) * per_step];
    }

    /// The air at the start of the step, with the turbulence drawn for its end.
    #[inline(always)]
    pub(super) fn begin(&self) -> Gust<L> {
        Gust { rate_x: self.rate[0], rate_y: self.rate[1], rate_z: self.rate[2], ..self.gust }
    }

    /// The air at a part of the step, `elapsed` s after its start.
    #[inline(always)]
    pub(super) fn at(&self, setting: &Setting, wind: &ProfileNumbers<L>, state: &State<L>, elapsed: f64) -> Gust<L> {
        let mean = wind.at(setting.profile, state.height);
        let since = L::splat(elapsed);
        let ([x, y, z], [rate_x, rate_y, rate_z]) = (self.now, self.rate);
        Gust {
            x: mean.x + x + rate_x * since,
            y: mean.y + y + rate_y * since,
            z: z + rate_z * since,
            shear_x: mean.shear_x,
            shear_y: mean.shear_y,
            rate_x,
            rate_y,
            rate_z,
            height: state.height,
        }
    }

    /// Takes the state at the end of a step as the start of the next.
    #[inline(always)]
    pub(super) fn arrive(&mut self, setting: &Setting, wind: &ProfileNumbers<L>, state: &State<L>) {
        if self.turbulence.is_some() {
            self.now = self.next;
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wind::TurbulenceScale;

    /// The standard's closed forms, between its lowest and its highest height.
    #[test]
    fn eddies_of_a_height_that_is_off_are_as_much_off_as_is_said() {
        let mut height = 10.0 * 0.3048;
        while height < 950.0 * 0.3048 {
            let [here, above] = [height, height * (1.0 + OFF[0])].map(|height| TurbulenceScale::at(height, 10.0));
            let parts: [(fn(&TurbulenceScale<f64>) -> f64, f64); 4] = [
                (|scale| scale.length_h, 0.05),
                (|scale| scale.length_v, 0.05),
                (|scale| scale.sigma_h, 0.02),
                (|scale| scale.sigma_v, 0.02),
            ];
            for (part, most) in parts {
                let off = (part(&above) / part(&here) - 1.0).abs();
                assert!(off <= most + 1e-9, "{height}: {off}");
            }
            height *= 1.1;
        }
    }
}
