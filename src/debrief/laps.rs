//! How far from the centre are the laps, by bearing, and how much do they differ from lap to lap?

use std::f64::consts::TAU;

use glam::DVec2;

/// Bearings that laps are compared at.
pub(super) const BEARINGS: usize = 36;

/// Laps about a centre.
#[derive(Debug, Clone)]
pub(super) struct Laps {
    /// Mean distance from the centre at each bearing, m; none where it never was.
    pub(super) distance_m: [Option<f64>; BEARINGS],
    /// How far one lap is off the mean of all, m, one standard deviation; none of a single lap.
    pub(super) scatter_m: Option<f64>,
    /// How many laps, with a fraction.
    pub(super) count: f64,
}

#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a handful of laps and bearings"
)]
impl Laps {
    /// Of places flown through one after the other.
    pub(super) fn of(places: &[DVec2], centre: DVec2) -> Self {
        let mut laps: Vec<[(f64, f64); BEARINGS]> = Vec::new();
        let (mut swept, mut before) = (0.0_f64, None::<DVec2>);
        for &place in places {
            let out = place - centre;
            swept += before.map_or(0.0, |before| before.angle_to(out));
            before = Some(out);
            let lap = (swept.abs() / TAU) as usize;
            if lap >= laps.len() {
                laps.resize(lap + 1, [(0.0, 0.0); BEARINGS]);
            }
            let (sum, samples) = &mut laps[lap][bearing(out)];
            *sum += out.length();
            *samples += 1.0;
        }
        let (mut squares, mut spare) = (0.0, 0.0);
        let distance_m = std::array::from_fn(|at| {
            let means: Vec<f64> =
                laps.iter().map(|lap| lap[at]).filter(|lap| lap.1 > 0.0).map(|(s, n)| s / n).collect();
            let mean = means.iter().sum::<f64>() / means.len() as f64;
            squares += means.iter().map(|lap| (lap - mean).powi(2)).sum::<f64>();
            spare += means.len().saturating_sub(1) as f64;
            (!means.is_empty()).then_some(mean)
        });
        let scatter_m = (spare >= 0.5 * BEARINGS as f64).then(|| (squares / spare).sqrt());
        Self { distance_m, scatter_m, count: swept.abs() / TAU }
    }
}

/// Number of the bearing of an offset from the centre.
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "from none to the number of bearings"
)]
fn bearing(out: DVec2) -> usize {
    ((out.to_angle().rem_euclid(TAU) / TAU * BEARINGS as f64) as usize).min(BEARINGS - 1)
}

/// Unit vector from the centre towards the middle of a bearing.
#[allow(clippy::cast_precision_loss, reason = "a handful of bearings")]
pub(super) fn outward(at: usize) -> DVec2 {
    DVec2::from_angle((at as f64 + 0.5) / BEARINGS as f64 * TAU)
}

/// The last lap of places, or all of them where they make none.
pub(super) fn last_lap(places: &[DVec2], centre: DVec2) -> &[DVec2] {
    let mut swept = 0.0_f64;
    for at in (1..places.len()).rev() {
        swept += (places[at] - centre).angle_to(places[at - 1] - centre);
        if swept.abs() >= TAU {
            return &places[at - 1..];
        }
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    /// So many laps, the first 100 m wide and each wider by `wider`.
    fn flown(count: f64, wider: f64) -> Vec<DVec2> {
        let steps = (count * 360.0) as u32;
        let at = |step: u32| (100.0 + wider * f64::from(step / 360)) * DVec2::from_angle(f64::from(step).to_radians());
        (0..steps).map(at).collect()
    }

    #[test]
    fn laps_tell_their_distance_and_what_they_differ_by() {
        let laps = Laps::of(&flown(2.0, 4.0), DVec2::ZERO);
        // By hand: 100 and 104 m are 2 m off their mean, one lap to spare of two.
        assert!(laps.distance_m.iter().all(|distance| (distance.unwrap() - 102.0).abs() < 0.2), "{laps:?}");
        approx::assert_abs_diff_eq!(laps.scatter_m.unwrap(), 8.0_f64.sqrt(), epsilon = 0.1);
        approx::assert_abs_diff_eq!(laps.count, 2.0, epsilon = 0.01);
    }

    #[test]
    fn a_single_lap_tells_no_scatter_and_half_a_lap_half_the_bearings() {
        let laps = Laps::of(&flown(0.5, 0.0), DVec2::ZERO);
        assert_eq!((laps.scatter_m, laps.distance_m.iter().flatten().count()), (None, 18));
        // From a bearing to the same again: one sample more than degrees, or two where rounding leaves the lap just open.
        assert!((361..=362).contains(&last_lap(&flown(3.0, 0.0), DVec2::ZERO).len()));
    }
}
