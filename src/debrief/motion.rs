//! How does the jet move at a sample of a track: velocity and acceleration over the ground, by a parabola through the
//! samples around it?

use glam::{DMat3, DVec2, DVec3};

use crate::run::Track;

/// Fewest samples that a parabola is laid through: two more than it goes through in any case.
const FEWEST: usize = 5;

/// Motion over the ground at one moment.
#[derive(Debug, Clone, Copy)]
pub(super) struct Motion {
    /// m/s.
    pub(super) velocity: DVec2,
    /// m/s^2.
    pub(super) acceleration: DVec2,
}

impl Motion {
    /// At a sample, from those within `half_s` seconds of it; none where a track has too few samples.
    pub(super) fn at(track: &Track, index: usize, half_s: f64) -> Option<Self> {
        let (times, places) = (track.time_s(), track.place());
        let (now, here) = (*times.get(index)?, places[index]);
        let first = times.partition_point(|&time| time < now - half_s);
        let after = times.partition_point(|&time| time <= now + half_s);
        let missing = FEWEST.saturating_sub(after - first).div_ceil(2);
        let (first, after) = (first.saturating_sub(missing), (after + missing).min(times.len()));
        if after - first < FEWEST {
            return None;
        }
        let mut powers = [0.0; 5];
        let (mut east, mut north) = (DVec3::ZERO, DVec3::ZERO);
        for at in first..after {
            let since = times[at] - now;
            let row = DVec3::new(1.0, since, since * since);
            let off = places[at] - here;
            (east, north) = (east + row * off.x, north + row * off.y);
            let mut power = 1.0;
            for sum in &mut powers {
                *sum += power;
                power *= since;
            }
        }
        let [s0, s1, s2, s3, s4] = powers;
        let solve = DMat3::from_cols_array(&[s0, s1, s2, s1, s2, s3, s2, s3, s4]).inverse();
        let (x, y) = (solve * east, solve * north);
        let motion = Self { velocity: DVec2::new(x.y, y.y), acceleration: DVec2::new(2.0 * x.z, 2.0 * y.z) };
        (motion.velocity.is_finite() && motion.acceleration.is_finite()).then_some(motion)
    }

    /// Velocity through air that moves steadily, m/s.
    pub(super) fn through(&self, wind: DVec2) -> DVec2 {
        self.velocity - wind
    }

    /// Bank of the level turn that is flown in that air, rad, positive to the right: `tan bank = V q / g`, whose `V q` is
    /// the acceleration across the way through the air.
    pub(super) fn bank(&self, wind: DVec2) -> f64 {
        let along = self.through(wind).normalize_or_zero();
        (-along.perp_dot(self.acceleration) / crate::units::G0).atan()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Channels;

    /// A turn to the right of 100 m radius at 20 m/s through air that moves at 5 m/s to the north.
    #[test]
    fn a_turn_in_moving_air_has_the_speed_and_the_bank_of_the_air() {
        let wind = DVec2::new(0.0, 5.0);
        let time_s: Vec<f64> = (0..100).map(|index| f64::from(index) * 0.2).collect();
        let place = time_s.iter().map(|time| 100.0 * DVec2::from_angle(-0.2 * time) + wind * *time).collect();
        let track = Track::new(time_s, place, vec![50.0; 100], Channels::default()).unwrap();
        let motion = Motion::at(&track, 40, 1.0).unwrap();
        approx::assert_abs_diff_eq!(motion.through(wind).length(), 20.0, epsilon = 0.15);
        // V^2 / (g r) by hand: 0.4079.
        approx::assert_abs_diff_eq!(motion.bank(wind).tan(), 0.4079, epsilon = 0.01);
    }

    #[test]
    fn too_few_samples_tell_nothing() {
        let track = Track::new(vec![0.0, 1.0], vec![DVec2::ZERO; 2], vec![0.0; 2], Channels::default()).unwrap();
        assert!(Motion::at(&track, 0, 1.0).is_none());
    }
}
