//! What a circle needs around it and how much hangs on the law that steers, as a study of the radius has them.

use crate::study::radius::RadiusStudy;
use crate::words::{self, met, number};

/// The radius and all that it needs around it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct RoomBudget<'a> {
    /// What takes room, the radius first.
    pub(crate) parts: Vec<RoomPart<'a>>,
    /// All together, metres.
    pub(crate) sum_m: f64,
    /// Whether there is as much, in words.
    pub(crate) told: String,
}

/// What takes room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RoomPart<'a> {
    /// What.
    pub(crate) name: &'static str,
    /// How much, metres.
    pub(crate) takes_m: f64,
    /// Where the number comes from.
    pub(crate) origin: &'a str,
}

/// A law that steers, on the circle of the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Law {
    /// Which.
    pub(crate) guidance: &'static str,
    /// How hard it corrects.
    pub(crate) gain: &'static str,
    /// Furthest from the centre; none where no whole lap is flown.
    pub(crate) furthest: Option<String>,
    /// What it does not meet in the mean wind; none where it meets everything.
    pub(crate) missed: Option<String>,
}

/// The room budget of the circle that a study looked at.
pub(crate) fn room_budget(study: &RadiusStudy) -> RoomBudget<'_> {
    let radius = RoomPart {
        name: "commanded radius",
        takes_m: study.looked_at.0,
        origin: "of the plan, or the one recommended",
    };
    let rest = study.budget.iter().map(|part| RoomPart { name: part.name, takes_m: part.metres, origin: &part.origin });
    let parts: Vec<RoomPart> = std::iter::once(radius).chain(rest).collect();
    let sum_m: f64 = parts.iter().map(|part| part.takes_m).sum();
    let spare = match study.free_m - sum_m {
        spare if spare >= 0.0 => format!("{} m to spare", number(spare)),
        over => format!("{} m too much", number(-over)),
    };
    let told = format!(
        "The radius and what it needs around it, {} m together, against {} m from the centre to the nearest limit in the \
         plane ({}): {spare}. Beside these: what falls from the circle may land {} m on.",
        number(sum_m),
        number(study.free_m),
        if study.free_to.is_empty() { "none named" } else { &study.free_to },
        number(study.falls_m),
    );
    RoomBudget { parts, sum_m, told }
}

/// Every law that was flown.
pub(crate) fn laws(study: &RadiusStudy) -> Vec<Law> {
    let law = |one: &crate::study::radius::Family| Law {
        guidance: words::guidance(one.guidance),
        gain: words::gain(one.gain),
        furthest: one.mean.furthest_m.map(|metres| format!("{metres:.0} m")),
        missed: met(&study.limits, &one.mean),
    };
    study.family.iter().map(law).collect()
}

/// How far apart the laws are, metres, those that fly a lap; none where fewer than two do.
pub(super) fn laws_apart_m(study: &RadiusStudy) -> Option<[f64; 2]> {
    let all: Vec<f64> = study.family.iter().filter_map(|one| one.mean.furthest_m).collect();
    let fold = |pick: fn(f64, f64) -> f64| all.iter().copied().reduce(pick);
    (all.len() > 1).then(|| Some([fold(f64::min)?, fold(f64::max)?])).flatten()
}
