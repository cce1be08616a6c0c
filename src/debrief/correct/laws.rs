//! Which laws do logs rule out, and which law does the plan fly then?

use super::{Change, Correction, Evidence};
use crate::debrief::{LawFound, Steering};
use crate::recovery::{Gain, Guidance};
use crate::run::ScenarioFile;

/// Laws that the logs together rule out beside those that are; a law that is all that they leave is ruled out no more.
pub(super) fn laws(file: &ScenarioFile, all: &[Evidence<'_>]) -> Option<Correction> {
    let plan = &file.recovery;
    let told: Vec<&Steering> = all.iter().flat_map(|one| one.steering.iter().copied()).collect();
    let together = together(&told)?;
    let by_logs = together.ruled_out();
    let found = match together.law() {
        LawFound::Found(law) => Some(law),
        LawFound::CantTell(_) => None,
    };
    let is_out = |law: &Guidance| by_logs.contains(law) || plan.laws_ruled_out.contains(law) && found != Some(*law);
    let out: Vec<Guidance> = Guidance::ALL.into_iter().filter(is_out).collect();
    // Where logs and sheet between them leave nothing, the logs alone speak.
    let out = if out.len() == Guidance::ALL.len() { by_logs } else { out };
    let same = out.len() == plan.laws_ruled_out.len() && out.iter().all(|law| plan.laws_ruled_out.contains(law));
    let best = together.candidates.iter().find(|one| !out.contains(&one.guidance));
    let (law, gain) = match best {
        Some(best) if out.contains(&plan.guidance) => (best.guidance, best.gain),
        _ => (plan.guidance, plan.gain),
    };
    let sources = super::listed(all.iter().filter(|one| !one.steering.is_empty()).map(|one| one.source.as_str()));
    (!same).then(|| Correction {
        what: "laws ruled out".into(),
        before: named(&plan.laws_ruled_out),
        after: named(&out),
        note: format!("Laws ruled out by {sources}: {}.", named(&out)),
        change: Change::Laws(out, law, gain),
    })
}

/// How far the paths of each law are off all that was flown, root mean square.
fn together(told: &[&Steering]) -> Option<Steering> {
    #[allow(clippy::cast_precision_loss, reason = "a handful of flights")]
    let over_all = |get: &dyn Fn(&Steering) -> f64| {
        (told.iter().map(|one| get(one).powi(2)).sum::<f64>() / told.len() as f64).sqrt()
    };
    let mut candidates = told.first()?.candidates.clone();
    for one in &mut candidates {
        let same = |steering: &Steering| misfit_m(steering, one.guidance, one.gain);
        one.misfit_m = over_all(&same);
    }
    candidates.sort_by(|a, b| a.misfit_m.total_cmp(&b.misfit_m));
    Some(Steering { candidates, noise_m: over_all(&|steering| steering.noise_m), asks_bank_rad: None })
}

fn misfit_m(steering: &Steering, law: Guidance, gain: Gain) -> f64 {
    let is_it = |one: &&crate::debrief::Candidate| one.guidance == law && one.gain == gain;
    steering.candidates.iter().find(is_it).map_or(f64::INFINITY, |one| one.misfit_m)
}

fn named(laws: &[Guidance]) -> String {
    if laws.is_empty() { "none".into() } else { laws.iter().map(|law| law.name()).collect::<Vec<_>>().join(", ") }
}
