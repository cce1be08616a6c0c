//! What one recovery came to, in few numbers: what studies count, many thousand times over.

use super::{Limit, Row, Verdict, judge};
use crate::field::Rule;
use crate::recovery::Standing;
use crate::run::{Case, Ending, Run, Scenario, Setting, fly_batch, setting};

/// What came of a recovery, the worst thing first; each recovery is one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Inside a patch it may not enter, or into an obstacle.
    EnteredPatch,
    /// Outside the outline, or behind the flight line.
    LeftOutline,
    /// Over the ceiling, or into the ground.
    CeilingOrGround,
    /// Slower than the stall at the load of the moment.
    Stalled,
    /// Never settled on the circle.
    NeverSettled,
    /// Into the battery's reserve before the circle was reached, or empty.
    EnergyOut,
    /// Settled, but too late or too far off to be seen.
    LateOrUnseen,
    /// None of these.
    Recovered,
}

impl Outcome {
    /// Every outcome, the worst first.
    pub const ALL: [Self; 8] = [
        Self::EnteredPatch,
        Self::LeftOutline,
        Self::CeilingOrGround,
        Self::Stalled,
        Self::NeverSettled,
        Self::EnergyOut,
        Self::LateOrUnseen,
        Self::Recovered,
    ];

    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::EnteredPatch => "entered a patch",
            Self::LeftOutline => "left the outline",
            Self::CeilingOrGround => "ceiling or ground",
            Self::Stalled => "stalled",
            Self::NeverSettled => "never settled",
            Self::EnergyOut => "energy out",
            Self::LateOrUnseen => "late or unseen",
            Self::Recovered => "recovered",
        }
    }
}

/// A limit that every recovery of a scenario is measured against.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitInfo {
    /// Which.
    pub limit: Limit,
    /// Its name in print, such as "outline" or "never: goat paddock".
    pub name: String,
    /// Unit of its margins.
    pub unit: &'static str,
}

/// A margin without its words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// What is left, in the unit of the limit; negative is a breach. Infinite where the limit did not apply.
    pub margin: f64,
    /// What was asked for.
    pub standoff: f64,
    /// What that amounts to.
    pub verdict: Verdict,
    /// When, seconds since the loss.
    pub at_s: f64,
}

/// What one recovery came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Score {
    /// One a limit, in the order of [`Scorer::limits`].
    pub gaps: Vec<Gap>,
    /// The worst of it.
    pub outcome: Outcome,
    /// Whether every margin asked for was met.
    pub met: bool,
    /// How it ended.
    pub ending: Ending,
    /// When, seconds since the loss.
    pub end_s: f64,
    /// Furthest from the hub in the last whole lap, metres; none where no whole lap was flown.
    pub outermost_m: Option<f64>,
    /// How far outside the commanded ring the join carried it, metres.
    pub join_overshoot_m: Option<f64>,
    /// How much further from the hub it still went before it turned home, metres.
    pub turn_back_m: f64,
    /// Time of the last whole lap, seconds.
    pub lap_s: Option<f64>,
    /// Share of that lap at the bank limit.
    pub saturated_share: Option<f64>,
    /// Time from the loss to the circle, seconds.
    pub home_s: Option<f64>,
    /// Energy drawn until the circle was reached, or until the end, joules.
    pub energy_home_j: f64,
    /// Laps from reaching the circle to the reserve.
    pub laps_in_hand: Option<f64>,
}

/// Judges recoveries of one scenario, many at a time.
#[derive(Debug, Clone)]
pub struct Scorer<'a> {
    scenario: &'a Scenario,
    setting: Setting,
    limits: Vec<LimitInfo>,
}

impl<'a> Scorer<'a> {
    /// For a scenario as written.
    pub fn new(scenario: &'a Scenario) -> Self {
        Self { scenario, setting: setting(scenario), limits: limits(scenario) }
    }

    /// The same under other standing orders.
    pub fn under(self, standing: Standing) -> Self {
        Self { setting: Setting { standing, ..self.setting }, ..self }
    }

    /// What all cases share.
    pub fn setting(&self) -> &Setting {
        &self.setting
    }

    /// The limits, in the order of every score's gaps.
    pub fn limits(&self) -> &[LimitInfo] {
        &self.limits
    }

    /// Flies and judges cases, several side by side. Each gives the same bits as alone.
    pub fn score(&self, cases: &[Case]) -> Vec<Score> {
        let flights = fly_batch(self.scenario, cases);
        flights
            .into_iter()
            .zip(cases)
            .map(|((trace, ending), &drawn)| self.one(Run { case: 0, drawn, trace, ending }))
            .collect()
    }

    fn one(&self, run: Run) -> Score {
        let ledger = judge(self.scenario, &run);
        let nothing = Gap { margin: f64::INFINITY, standoff: 0.0, verdict: Verdict::Clear, at_s: 0.0 };
        let gaps: Vec<Gap> = self
            .limits
            .iter()
            .map(|info| ledger.rows.iter().find(|row| row.limit == info.limit).map_or(nothing, gap))
            .collect();
        let figures = &ledger.figures;
        let outcome = outcome(
            &ledger.rows,
            ledger.ending,
            figures.lap_s.is_some() || self.setting.cuts() || !self.setting.standing.has_fix,
        );
        let home_ends = !matches!(ledger.ending, Ending::Empty | Ending::OutOfTime);
        Score {
            outcome,
            met: home_ends && gaps.iter().all(|gap| matches!(gap.verdict, Verdict::Clear | Verdict::Counted)),
            gaps,
            ending: ledger.ending,
            end_s: ledger.end_s,
            outermost_m: figures.outermost_m,
            join_overshoot_m: figures.join_overshoot_m,
            turn_back_m: figures.turn_back_m,
            lap_s: figures.lap_s,
            saturated_share: figures.saturated_share,
            home_s: figures.home_s,
            energy_home_j: run.drawn.energy_j - figures.energy_left_j,
            laps_in_hand: figures.laps_in_hand,
        }
    }
}

fn gap(row: &Row) -> Gap {
    Gap { margin: row.margin, standoff: row.standoff, verdict: row.verdict, at_s: row.at_s }
}

fn outcome(rows: &[Row], ending: Ending, settled: bool) -> Outcome {
    let breached =
        |which: fn(Limit) -> bool| rows.iter().any(|row| row.verdict == Verdict::Breached && which(row.limit));
    if breached(|limit| matches!(limit, Limit::Patch(_) | Limit::Obstacle(_))) {
        Outcome::EnteredPatch
    } else if breached(|limit| matches!(limit, Limit::Outline | Limit::FlightLine)) {
        Outcome::LeftOutline
    } else if breached(|limit| matches!(limit, Limit::Ceiling | Limit::Ground)) {
        Outcome::CeilingOrGround
    } else if breached(|limit| limit == Limit::Stall) {
        Outcome::Stalled
    } else if ending == Ending::Empty || breached(|limit| limit == Limit::Energy) {
        Outcome::EnergyOut
    } else if ending == Ending::OutOfTime || !settled {
        Outcome::NeverSettled
    } else if breached(|_| true) {
        Outcome::LateOrUnseen
    } else {
        Outcome::Recovered
    }
}

/// The limits of a scenario, in the order of [`Limit`].
fn limits(scenario: &Scenario) -> Vec<LimitInfo> {
    let field = &scenario.field;
    let info = |limit, name: &str, unit| LimitInfo { limit, name: name.into(), unit };
    let mut limits = vec![info(Limit::Outline, "outline", "m")];
    limits.extend(field.patches.iter().enumerate().filter_map(|(index, patch)| {
        let (name, unit) = match patch.rule {
            Rule::Idle => return None,
            Rule::Never => (format!("never: {}", patch.name), "m"),
            Rule::Above(height_m) => (format!("above {height_m:.0} m: {}", patch.name), "m"),
            Rule::Avoid => (format!("avoid: {}", patch.name), "s"),
        };
        Some(LimitInfo { limit: Limit::Patch(index), name, unit })
    }));
    limits.extend(field.flight_line.map(|_| info(Limit::FlightLine, "flight line", "m")));
    limits.extend(scenario.file.limits.ceiling.map(|_| info(Limit::Ceiling, "ceiling", "m")));
    let cuts = setting(scenario).cuts();
    limits.extend((!cuts).then(|| info(Limit::Ground, "height over the ground", "m")));
    limits.extend(field.obstacles.iter().enumerate().map(|(index, obstacle)| LimitInfo {
        limit: Limit::Obstacle(index),
        name: format!("obstacle: {}", obstacle.name),
        unit: "m",
    }));
    limits.extend([info(Limit::Stall, "stall speed", "m/s"), info(Limit::Bank, "bank limit", "deg")]);
    limits.extend((!cuts).then(|| info(Limit::TimeHome, "time home", "s")));
    limits.extend([
        info(Limit::Energy, "energy over reserve", "Wh"),
        info(Limit::SightDistance, "attitude seen from the stand", "m"),
        info(Limit::SightAngle, "size seen from the stand", "deg"),
    ]);
    limits
}
