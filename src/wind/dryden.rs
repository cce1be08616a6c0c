//! Turbulence: the low-altitude Dryden forms, by their exact discrete update.
//!
//! Lengths and intensities after MIL-F-8785C 3.7.3.4, with height in feet where the standard has feet, from 10 to
//! 1000 ft. The horizontal parts lie along and across the mean wind. The field is frozen: the jet flies through it at
//! its airspeed.

use crate::lane::{Lane, Random, exp, lanes, ln};

const FOOT: f64 = 0.3048;

lanes! {
    /// How big the eddies are and how strong.
    pub struct TurbulenceScale {
        /// Length of the horizontal eddies, m.
        length_h,
        /// Length of the vertical eddies, m.
        length_v,
        /// Intensity of the horizontal parts, m/s.
        sigma_h,
        /// Intensity of the vertical part, m/s.
        sigma_v,
    }
}

impl<L: Lane> TurbulenceScale<L> {
    /// At a height in metres, for a wind speed at 20 ft in m/s.
    #[inline(always)]
    pub fn at(height: L, wind_20ft: L) -> Self {
        let feet = (height / L::splat(FOOT)).max(L::splat(10.0)).min(L::splat(1000.0));
        let base = ln(L::splat(0.177) + L::splat(0.000_823) * feet);
        let sigma_v = L::splat(0.1) * wind_20ft;
        Self {
            length_h: feet * exp(L::splat(-1.2) * base) * L::splat(FOOT),
            length_v: feet * L::splat(FOOT),
            sigma_h: sigma_v * exp(L::splat(-0.4) * base),
            sigma_v,
        }
    }

    /// Another one in some lanes.
    #[inline(always)]
    fn changed(&self, lanes: L::Words, to: &Self) -> Self {
        let pick = |to, from| L::select(lanes, to, from);
        Self {
            length_h: pick(to.length_h, self.length_h),
            length_v: pick(to.length_v, self.length_v),
            sigma_h: pick(to.sigma_h, self.sigma_h),
            sigma_v: pick(to.sigma_v, self.sigma_v),
        }
    }
}

/// Coefficients of one exact update over a way `r`, in eddy lengths.
#[derive(Debug, Clone, Copy)]
struct Update<L> {
    /// What stays of a state.
    keep: L,
    /// How much of the first state moves into the second.
    mix: L,
    /// Lower triangle of the square root of the noise's covariance.
    noise: [L; 3],
}

impl<L: Lane> Update<L> {
    #[inline(always)]
    fn new(r: L) -> Self {
        let (one, half) = (L::splat(1.0), L::splat(0.5));
        let keep = exp(-r);
        let e = keep * keep;
        let q11 = one - e;
        let q12 = half - e * (r + half);
        let q22 = half - e * (r * r + r + half);
        let first = q11.sqrt();
        let cross = q12 / first;
        let second = (q22 - cross * cross).max(L::splat(0.0)).sqrt();
        Self { keep, mix: keep * r, noise: [first, cross, second] }
    }

    /// Another one in some lanes.
    #[inline(always)]
    fn changed(&self, lanes: L::Words, to: &Self) -> Self {
        let pick = |to, from| L::select(lanes, to, from);
        let [first, cross, second] = self.noise;
        Self {
            keep: pick(to.keep, self.keep),
            mix: pick(to.mix, self.mix),
            noise: [pick(to.noise[0], first), pick(to.noise[1], cross), pick(to.noise[2], second)],
        }
    }
}

/// Turbulent air motion along the wind, across it and upward, with unit intensity inside.
#[derive(Debug, Clone, Copy)]
pub struct Turbulence<L> {
    along: L,
    across: [L; 2],
    up: [L; 2],
    scale: TurbulenceScale<L>,
    horizontal: Update<L>,
    vertical: Update<L>,
}

impl<L: Lane> Turbulence<L> {
    /// Air at rest, ready to be stirred.
    #[inline(always)]
    pub fn new(scale: TurbulenceScale<L>, airspeed: L, dt: f64) -> Self {
        let zero = L::splat(0.0);
        let flown = airspeed * L::splat(dt);
        Self {
            along: zero,
            across: [zero; 2],
            up: [zero; 2],
            scale,
            horizontal: Update::new(flown / scale.length_h),
            vertical: Update::new(flown / scale.length_v),
        }
    }

    /// Draws the first state from the stationary distribution, so that no run starts in calm air.
    #[inline(always)]
    pub fn stir(&mut self, random: &mut Random<L>) {
        let [n0, n1, n2, n3, n4] = random.five_normals();
        let half = L::splat(0.5);
        // Square root of the stationary covariance [[1, 1/2], [1/2, 1/2]].
        self.along = n0;
        self.across = [n1, half * (n1 + n2)];
        self.up = [n3, half * (n3 + n4)];
    }

    /// Takes a new height, wind or speed into account, in some lanes.
    #[inline(always)]
    pub fn rescale(&mut self, lanes: L::Words, scale: TurbulenceScale<L>, airspeed: L, dt: f64) {
        let flown = airspeed * L::splat(dt);
        self.scale = self.scale.changed(lanes, &scale);
        self.horizontal = self.horizontal.changed(lanes, &Update::new(flown / scale.length_h));
        self.vertical = self.vertical.changed(lanes, &Update::new(flown / scale.length_v));
    }

    /// The air one update later, from five standard normal draws.
    #[inline(always)]
    pub fn update(&mut self, normals: [L; 5]) {
        let [n0, n1, n2, n3, n4] = normals;
        self.along = self.horizontal.keep * self.along + self.horizontal.noise[0] * n0;
        self.across = transverse(&self.horizontal, self.across, n1, n2);
        self.up = transverse(&self.vertical, self.up, n3, n4);
    }

    /// Air motion along the mean wind, across it to the left, and upward, m/s.
    #[inline(always)]
    pub fn motion(&self) -> [L; 3] {
        [
            self.scale.sigma_h * self.along,
            self.scale.sigma_h * output(self.across),
            self.scale.sigma_v * output(self.up),
        ]
    }
}

#[inline(always)]
fn transverse<L: Lane>(update: &Update<L>, [a, b]: [L; 2], n1: L, n2: L) -> [L; 2] {
    [
        update.keep * a + update.noise[0] * n1,
        update.keep * b + update.mix * a + update.noise[1] * n1 + update.noise[2] * n2,
    ]
}

/// `(sqrt 3 x1 + (1 - sqrt 3) x2) / sqrt 2`: the transverse Dryden filter's output at unit intensity.
#[inline(always)]
fn output<L: Lane>([a, b]: [L; 2]) -> L {
    const ROOT_3: f64 = 1.732_050_807_568_877_2;
    L::splat(ROOT_3 / std::f64::consts::SQRT_2) * a + L::splat((1.0 - ROOT_3) / std::f64::consts::SQRT_2) * b
}
