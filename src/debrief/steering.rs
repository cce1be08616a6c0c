//! Which guidance law steered a recovery that was flown, and how firmly? Each is flown again from where the jet turned
//! home, in the wind as flown, and held against the join and the laps.

use glam::DVec2;

use super::Marks;
use super::again::Again;
use crate::recovery::{Gain, Guidance};
use crate::run::{Scenario, Track};

/// A law is ruled out where its path misses by so many times what the best one misses by, and by more than the noise
/// (judgement; held to flights of this tool in `tests/debrief_steer.rs`).
const TIMES_WORSE: f64 = 2.0;
/// What errors of the wind as fitted and of the jet's numbers move a path by, m (judgement, held to the same flights).
const MODEL_M: f64 = 2.0;
/// What one lap is off the others where only one was flown, m (judgement: a moderate wind).
const USUAL_M: f64 = 3.0;

/// One law and gain, and how far its path is off the one flown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The law.
    pub guidance: Guidance,
    /// How firmly.
    pub gain: Gain,
    /// Root mean square distance between its path and the one flown, across the path, m.
    pub misfit_m: f64,
}

/// What a track tells of the law that steered it.
#[derive(Debug, Clone, PartialEq)]
pub struct Steering {
    /// Every law under every gain, the best first.
    pub candidates: Vec<Candidate>,
    /// What the path may be off by without the law's doing, m: what one lap is off the others, by turbulence and the wander
    /// of the fixes, and what wind and jet are not known better than.
    pub noise_m: f64,
    /// Steepest bank that the law asks for on the way home, rad, whatever the jet gives; the least of the laws that
    /// are left, none where none is.
    pub asks_bank_rad: Option<f64>,
}

/// The law, as far as a track tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LawFound {
    /// All others are ruled out.
    Found(Guidance),
    /// These are left, the best first.
    CantTell(Vec<Guidance>),
}

impl Steering {
    /// The best misfit of a law, m.
    pub fn misfit_m(&self, law: Guidance) -> f64 {
        self.candidates.iter().find(|one| one.guidance == law).map_or(f64::INFINITY, |one| one.misfit_m)
    }

    /// Laws whose best path is off by more than twice what the best of all is off by, and by more than
    /// that and the noise.
    pub fn ruled_out(&self) -> Vec<Guidance> {
        let Some(best) = self.candidates.first() else { return Vec::new() };
        let most = (TIMES_WORSE * best.misfit_m).max(best.misfit_m + self.noise_m);
        Guidance::ALL.into_iter().filter(|&law| self.misfit_m(law) > most).collect()
    }

    /// The law, or those that are left.
    pub fn law(&self) -> LawFound {
        let ruled_out = self.ruled_out();
        let mut left: Vec<Guidance> = Guidance::ALL.into_iter().filter(|law| !ruled_out.contains(law)).collect();
        left.sort_by(|a, b| self.misfit_m(*a).total_cmp(&self.misfit_m(*b)));
        match left[..] {
            [law] => LawFound::Found(law),
            _ => LawFound::CantTell(left),
        }
    }
}

/// What steered a recovery, flown in a wind in m/s, the way it blows, at the height of the circle, and held at an airspeed
/// in m/s; or why nothing can be told.
pub fn steering(
    track: &Track,
    marks: &Marks,
    scenario: &Scenario,
    wind: DVec2,
    airspeed_mps: f64,
) -> Result<Steering, &'static str> {
    let again = Again::new(track, marks, scenario, wind, airspeed_mps)?;
    let noise_m = again.scatter_m().unwrap_or(USUAL_M).hypot(MODEL_M);
    let all = Guidance::ALL.into_iter().flat_map(|law| Gain::ALL.map(|gain| (law, gain)));
    let candidate = |(guidance, gain)| Candidate { guidance, gain, misfit_m: again.misfit_m(guidance, gain) };
    let mut candidates: Vec<Candidate> = all.map(candidate).collect();
    candidates.sort_by(|a, b| a.misfit_m.total_cmp(&b.misfit_m));
    let found = Steering { candidates, noise_m, asks_bank_rad: None };
    let ruled_out = found.ruled_out();
    let left = Guidance::ALL.into_iter().filter(|law| !ruled_out.contains(law));
    let best = left.filter_map(|law| found.candidates.iter().find(|one| one.guidance == law));
    let asks = best.map(|one| again.asks_bank_rad(one.guidance, one.gain));
    let asks_bank_rad = asks.reduce(f64::min);
    Ok(Steering { asks_bank_rad, ..found })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn missing(misfits: [f64; 3], noise_m: f64) -> Steering {
        let candidate = |(guidance, misfit_m)| Candidate { guidance, gain: Gain::Nominal, misfit_m };
        let mut candidates: Vec<_> = Guidance::ALL.into_iter().zip(misfits).map(candidate).collect();
        candidates.sort_by(|a, b| a.misfit_m.total_cmp(&b.misfit_m));
        Steering { candidates, noise_m, asks_bank_rad: None }
    }

    #[test]
    fn a_law_is_ruled_out_by_a_factor_and_by_more_than_the_noise() {
        let [field, ahead, nose] = Guidance::ALL;
        assert_eq!(missing([2.0, 6.0, 9.0], 1.0).law(), LawFound::Found(field));
        // Many times worse, but within the noise.
        assert_eq!(missing([0.5, 2.0, 9.0], 3.0).law(), LawFound::CantTell(vec![field, ahead]));
        // Beyond the noise, but every law is about as bad.
        assert_eq!(missing([23.0, 20.0, 41.0], 1.0).law(), LawFound::CantTell(vec![ahead, field]));
        assert_eq!(missing([23.0, 20.0, 41.0], 1.0).ruled_out(), [nose]);
    }
}
