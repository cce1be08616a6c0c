//! Which circle lies nearest to some points? Two answers that are published: one to begin with, and the truest.

use glam::{DMat3, DVec2, DVec3};

/// How thin points may lie, as a share of how far they spread: thinner, and they are a line.
const THINNEST: f64 = 1e-6;

/// How many times as far as the points spread a radius may be: larger, and they are a line.
const WIDEST: f64 = 1e5;

/// A circle through points, in the unit that they are in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circle {
    /// Its middle.
    pub centre: DVec2,
    /// Its radius.
    pub radius: f64,
    /// Root of the mean square of how far off it the points are.
    pub rms: f64,
}

/// G. Taubin (IEEE Trans. Pattern Anal. Mach. Intell. 13, 1991, 1115-1138), by Newton's method from below on the
/// characteristic equation, as in N. Chernov (Circular and Linear Regression, 2010, section 5.10).
///
/// None, as of both, for fewer than three points, points that are one, points on a line, and what is not a number.
pub fn taubin(points: &[DVec2]) -> Option<Circle> {
    let moments = Moments::of(points)?;
    moments.circle(points, root(moments.characteristic()))
}

/// Least sum of the squares of the distances from the circle itself, by Levenberg's and Marquardt's steps from Taubin's
/// circle (W. Gander, G. H. Golub, R. Strebel, BIT 34, 1994, 558-578).
pub fn geometric(points: &[DVec2]) -> Option<Circle> {
    let start = taubin(points)?;
    let (mut circle, mut damping) = (start, 1e-3);
    for _ in 0..200 {
        let (mut curvature, mut slope) = (DMat3::ZERO, DVec3::ZERO);
        for &point in points {
            let from_centre = point - circle.centre;
            let distance = from_centre.length();
            let row = (from_centre / distance.max(f64::MIN_POSITIVE)).extend(1.0);
            slope += row * (distance - circle.radius);
            curvature += DMat3::from_cols(row * row.x, row * row.y, row * row.z);
        }
        let damped = curvature + DMat3::from_diagonal(DVec3::splat(damping * points.len() as f64));
        let step = damped.inverse() * slope;
        let next = Circle::about(points, circle.centre + step.truncate(), circle.radius + step.z);
        if !step.is_finite() || next.radius > WIDEST * start.radius {
            return None;
        }
        if next.rms <= circle.rms {
            circle = next;
            damping *= 0.1;
        } else {
            damping *= 10.0;
        }
        if step.length() <= 1e-12 * circle.radius {
            break;
        }
    }
    Some(circle)
}

impl Circle {
    fn about(points: &[DVec2], centre: DVec2, radius: f64) -> Self {
        let off = |point: &DVec2| (point.distance(centre) - radius).powi(2);
        let rms = (points.iter().map(off).sum::<f64>() / points.len() as f64).sqrt();
        Self { centre, radius, rms }
    }
}

/// Mean products of the points about their mean, in units of how far they spread; z stands for x^2 + y^2.
struct Moments {
    mean: DVec2,
    spread: f64,
    xx: f64,
    yy: f64,
    xy: f64,
    xz: f64,
    yz: f64,
    zz: f64,
    /// xx + yy: 1 but for rounding.
    z: f64,
    /// xx yy - xy^2: nothing for points on a line.
    thin: f64,
}

impl Moments {
    fn of(points: &[DVec2]) -> Option<Self> {
        let count = points.len() as f64;
        let mean = points.iter().sum::<DVec2>() / count;
        let spread = (points.iter().map(|point| point.distance_squared(mean)).sum::<f64>() / count).sqrt();
        let rounding = 1e-12 * mean.length();
        if points.len() < 3 || !spread.is_finite() || spread <= rounding {
            return None;
        }
        let average =
            |of: &dyn Fn(DVec2) -> f64| points.iter().map(|point| of((*point - mean) / spread)).sum::<f64>() / count;
        let (xx, yy, xy) = (average(&|p| p.x * p.x), average(&|p| p.y * p.y), average(&|p| p.x * p.y));
        let (xz, yz) = (average(&|p| p.x * p.length_squared()), average(&|p| p.y * p.length_squared()));
        let zz = average(&|p| p.length_squared().powi(2));
        let thin = xx * yy - xy.powi(2);
        (thin > THINNEST * THINNEST).then_some(Self { mean, spread, xx, yy, xy, xz, yz, zz, z: xx + yy, thin })
    }

    /// Terms of the characteristic equation, from the one without its root to the cube.
    fn characteristic(&self) -> [f64; 4] {
        let Self { xx, yy, xy, xz, yz, zz, z, thin, .. } = *self;
        let varied = zz - z * z;
        [
            xz * (xz * yy - yz * xy) + yz * (yz * xx - xz * xy) - varied * thin,
            varied * z + 4.0 * thin * z - xz * xz - yz * yz,
            -3.0 * z * z - zz,
            4.0 * z,
        ]
    }

    /// The circle that belongs to a root of the characteristic equation.
    fn circle(&self, points: &[DVec2], root: f64) -> Option<Circle> {
        let Self { mean, spread, xx, yy, xy, xz, yz, z, thin, .. } = *self;
        let scale = 2.0 * (root * (root - z) + thin);
        let centre = DVec2::new(xz * (yy - root) - yz * xy, yz * (xx - root) - xz * xy) / scale;
        let radius = (centre.length_squared() + z).sqrt();
        let found = radius.is_finite() && radius < WIDEST;
        found.then(|| Circle::about(points, mean + centre * spread, radius * spread))
    }
}

/// The least root that is not below nothing, by Newton's method, which comes to it from nothing and never steps over it.
fn root([constant, linear, square, cube]: [f64; 4]) -> f64 {
    let (mut at, mut value) = (0.0, constant);
    for _ in 0..99 {
        let slope = linear + at * (2.0 * square + at * 3.0 * cube);
        let next = at - value / slope;
        let there = constant + next * (linear + next * (square + next * cube));
        if !next.is_finite() || next == at || there.abs() >= value.abs() {
            break;
        }
        (at, value) = (next, there);
    }
    at
}
