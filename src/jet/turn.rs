//! Turns and circles in closed form: radius, rate, load, bank, lap time, and what the maximum bank cannot hold.
//!
//! Speeds are m/s, lengths m, angles rad. `airspeed` is V, `wind` is W.

use crate::units::G0;

/// Radius of a level turn: `V^2 / (g tan bank)`.
pub fn radius(airspeed: f64, bank: f64) -> f64 {
    airspeed * airspeed / (G0 * bank.tan())
}

/// Rate of a level turn, rad/s: `g tan bank / V`.
pub fn rate(airspeed: f64, bank: f64) -> f64 {
    G0 * bank.tan() / airspeed
}

/// Load factor in a level turn: `1 / cos bank`.
pub fn load(bank: f64) -> f64 {
    1.0 / bank.cos()
}

/// Smallest circle over the ground that a maximum bank holds in a wind: `(V + W)^2 / (g tan bank)`.
pub fn smallest_radius(airspeed: f64, wind: f64, maximum_bank: f64) -> f64 {
    radius(airspeed + wind, maximum_bank)
}

/// Most wind in which a maximum bank holds a circle: `sqrt(g R tan bank) - V`; negative where none does.
pub fn wind_limit(airspeed: f64, radius: f64, maximum_bank: f64) -> f64 {
    (G0 * radius * maximum_bank.tan()).sqrt() - airspeed
}

/// Ground speed and bank on a circle held exactly, where the course is `from_downwind` off the way the wind blows to.
pub fn on_circle(airspeed: f64, wind: f64, radius: f64, from_downwind: f64) -> (f64, f64) {
    let ratio = wind / airspeed;
    let crab_cos = (1.0 - (ratio * from_downwind.sin()).powi(2)).sqrt();
    let ground = wind * from_downwind.cos() + airspeed * crab_cos;
    (ground, (ground * ground / (G0 * radius * crab_cos)).atan())
}

/// Time of one lap of a circle held exactly: `4 R V E(m) / (V^2 - W^2)` with `m = (W / V)^2`; none unless `W < V`.
pub fn lap_time(airspeed: f64, wind: f64, radius: f64) -> Option<f64> {
    let below = airspeed * airspeed - wind * wind;
    (below > 0.0).then(|| 4.0 * radius * airspeed * elliptic_e((wind / airspeed).powi(2)) / below)
}

/// Complete elliptic integral of the second kind for a parameter `m` in 0..1, by the arithmetic-geometric mean.
fn elliptic_e(m: f64) -> f64 {
    let (mut a, mut b, mut c) = (1.0_f64, (1.0 - m).sqrt(), m.sqrt());
    let (mut weight, mut sum) = (0.5, 1.0 - 0.5 * c * c);
    while c.abs() > 1e-16 {
        (a, b, c) = (f64::midpoint(a, b), (a * b).sqrt(), (a - b) / 2.0);
        weight *= 2.0;
        sum -= weight * c * c;
    }
    std::f64::consts::FRAC_PI_2 / a * sum
}

/// Furthest distance from the centre when a circle is followed until the maximum bank is reached and the limit is held.
///
/// In the air mass that is a circle of radius `V^2 / (g tan bank)`; over the ground it is a trochoid, and the first
/// maximum of its distance is the answer. Equals `radius` where the limit is never reached; none unless `W < V`.
pub fn blown_wide(airspeed: f64, wind: f64, radius: f64, maximum_bank: f64) -> Option<f64> {
    if wind >= airspeed {
        return None;
    }
    let wanted = |off: f64| on_circle(airspeed, wind, radius, off).1;
    if wanted(0.0) <= maximum_bank {
        return Some(radius);
    }
    if wanted(std::f64::consts::PI) >= maximum_bank {
        // The limit binds all the way round: there is no place to start from.
        return Some(f64::INFINITY);
    }
    // Bank falls steadily from downwind to upwind, so that halving finds where the limit is reached on the way in.
    let (mut low, mut high) = (0.0, std::f64::consts::PI);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        *(if wanted(middle) > maximum_bank { &mut low } else { &mut high }) = middle;
    }
    // Left circle, wind along +x, course `c = -low`: the place is 90 degrees to the right of the course.
    let course = -low;
    let (mut x, mut y) = (radius * course.sin(), -radius * course.cos());
    let mut heading = course - (wind / airspeed * (-course.sin())).asin();
    let turn = rate(airspeed, maximum_bank);
    // Exact positions along the trochoid, a millisecond apart: the maximum is flat, so that is far below a millimetre.
    let (dt, mut best) = (1e-3, 0.0_f64);
    loop {
        let next = heading + turn * dt;
        x += airspeed / turn * (next.sin() - heading.sin()) + wind * dt;
        y -= airspeed / turn * (next.cos() - heading.cos());
        heading = next;
        let distance = x.hypot(y);
        if distance < best && distance > radius {
            return Some(best);
        }
        if heading > 8.0 * std::f64::consts::PI {
            return Some(best);
        }
        best = best.max(distance);
    }
}
