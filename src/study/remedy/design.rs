//! What a person can decide about a recovery without another jet or another field, as one point to search among.

use glam::DVec2;

use crate::recovery::Turn;
use crate::run::{Scenario, ScenarioFile};
use crate::units::{Angle, Length, Speed};

/// One way to set a recovery up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Design {
    /// Which way round.
    pub turn: Turn,
    /// Radius of the circle, metres.
    pub radius_m: f64,
    /// Its centre, metres.
    pub centre: DVec2,
    /// Return speed, m/s.
    pub return_mps: f64,
    /// Height of the circle over home, metres.
    pub height_m: f64,
    /// Maximum bank, degrees.
    pub bank_deg: f64,
    /// Height over home of the written loss, metres; the circuit is flown as much higher or lower.
    pub loss_m: f64,
}

/// One thing by which two designs differ.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// Another way round.
    Turn(Turn),
    /// Another radius, metres: from, to.
    Radius([f64; 2]),
    /// Another centre, metres: from, to.
    Centre([DVec2; 2]),
    /// Another return speed, m/s: from, to.
    ReturnSpeed([f64; 2]),
    /// Another height of the circle over home, metres: from, to.
    Height([f64; 2]),
    /// The circuit flown so much higher (or lower, negative), metres.
    Circuit(f64),
    /// Another maximum bank, degrees: from, to. The airframe has to carry it.
    Bank([f64; 2]),
}

impl Design {
    /// The plan of a scenario as it is.
    pub fn of(scenario: &Scenario) -> Self {
        let (plan, jet) = (&scenario.file.recovery, &scenario.file.jet);
        Self {
            turn: plan.turn,
            radius_m: plan.radius.m(),
            centre: scenario.field.centre,
            return_mps: jet.return_speed.value.mps(),
            height_m: plan.height.m(),
            bank_deg: jet.maximum_bank.value.rad().to_degrees(),
            loss_m: scenario.file.loss.height.m(),
        }
    }

    /// The scenario with this design instead of its own. Only what differs is touched, so that a number that stays is the
    /// one that was written.
    pub fn take(&self, scenario: &Scenario) -> Scenario {
        let mut changed = scenario.clone();
        for change in Self::of(scenario).changes(self) {
            change.take(&mut changed.file);
            match change {
                Change::Centre([_, to]) => changed.field.centre = to,
                Change::Circuit(up) => {
                    if let Some(circuit) = &mut changed.field.circuit {
                        circuit.heights_m = circuit.heights_m.map(|height| height + up);
                    }
                }
                _ => {}
            }
        }
        changed
    }

    /// By what another design differs from this one, what a person would decide first coming first.
    pub fn changes(&self, to: &Self) -> Vec<Change> {
        let numbers = [
            (self.radius_m, to.radius_m, Change::Radius as fn([f64; 2]) -> Change),
            (self.return_mps, to.return_mps, Change::ReturnSpeed),
            (self.height_m, to.height_m, Change::Height),
            (self.bank_deg, to.bank_deg, Change::Bank),
        ];
        let mut changes = Vec::new();
        if self.centre != to.centre {
            changes.push(Change::Centre([self.centre, to.centre]));
        }
        let changed = numbers.iter().filter(|(from, to, _)| from != to);
        changes.extend(changed.map(|&(from, to, change)| change([from, to])));
        if self.turn != to.turn {
            changes.push(Change::Turn(to.turn));
        }
        if self.loss_m != to.loss_m {
            changes.push(Change::Circuit(to.loss_m - self.loss_m));
        }
        changes
    }

    /// This design with one change of another taken back to what `from` has.
    #[must_use]
    pub(super) fn without(self, change: Change, from: &Self) -> Self {
        match change {
            Change::Turn(_) => Self { turn: from.turn, ..self },
            Change::Radius(_) => Self { radius_m: from.radius_m, ..self },
            Change::Centre(_) => Self { centre: from.centre, ..self },
            Change::ReturnSpeed(_) => Self { return_mps: from.return_mps, ..self },
            Change::Height(_) => Self { height_m: from.height_m, ..self },
            Change::Circuit(_) => Self { loss_m: from.loss_m, ..self },
            Change::Bank(_) => Self { bank_deg: from.bank_deg, ..self },
        }
    }
}

impl Change {
    /// Makes it in a scenario's file. What it says of the field needs a field that is written there.
    pub fn take(&self, file: &mut ScenarioFile) {
        match *self {
            Self::Turn(turn) => file.recovery.turn = turn,
            Self::Radius([_, to]) => file.recovery.radius = Length::new(to),
            Self::Height([_, to]) => file.recovery.height = Length::new(to),
            Self::ReturnSpeed([_, to]) => file.jet = file.jet.returning_at(Speed::new(to), file.air.density()),
            Self::Bank([_, to]) => file.jet.maximum_bank.value = Angle::new(to.to_radians()),
            Self::Centre([_, to]) => {
                if let Some(field) = &mut file.field {
                    field.centre_m = Some(to.to_array());
                }
            }
            Self::Circuit(up) => {
                file.loss.height = raised(file.loss.height, up);
                if let Some(circuit) = file.field.as_mut().and_then(|field| field.circuit.as_mut()) {
                    [circuit.lowest, circuit.highest] =
                        [circuit.lowest, circuit.highest].map(|height| raised(height, up));
                }
            }
        }
    }
}

fn raised(height: Length, up: f64) -> Length {
    Length::new(height.m() + up)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_design_changes_what_it_says_and_nothing_else() {
        let scenario = Scenario::tight_strip();
        let own = Design::of(&scenario);
        assert!(own.changes(&own).is_empty() && own.take(&scenario).file == scenario.file);
        let other = Design {
            turn: Turn::Clockwise,
            radius_m: own.radius_m + 5.0,
            centre: own.centre + DVec2::new(3.0, 4.0),
            return_mps: own.return_mps - 1.0,
            height_m: own.height_m + 10.0,
            bank_deg: own.bank_deg + 5.0,
            loss_m: own.loss_m - 10.0,
        };
        let changes = own.changes(&other);
        assert_eq!(changes.len(), 7);
        let there = Design::of(&other.take(&scenario));
        assert!((there.bank_deg - other.bank_deg).abs() < 1e-9);
        assert_eq!(Design { bank_deg: other.bank_deg, ..there }, other);
        let back = changes.iter().fold(other, |design, change| design.without(*change, &own));
        assert_eq!(back, own);
    }
}
