//! The autopilot: which stretch of the recovery it is in, and what it therefore commands.

use std::f64::consts::TAU;

use super::guide::{Laws, Relative, bank_tangent};
use super::hold::{LEAST_UPRIGHT, carried, gliding, powered};
use crate::jet::{Command, JetNumbers};
use crate::lane::{Lane, Words as _, atan, sin_cos};
use crate::recovery::{FailsafeAction, Percept, PlanNumbers};

/// Wings count as level below this bank, rad.
const LEVEL: f64 = 0.087;
/// Joining begins within this many radii of the centre.
pub(crate) const JOINING_RADII: f64 = 1.5;
/// On the circle within this share of the radius, and at least [`ON_RING_M`]: as wide as a circle is drawn on a card
/// (judgement).
pub const ON_RING: f64 = 0.05;
/// On the circle within this distance, m, whatever the radius: what a satellite fix is off by (judgement).
pub const ON_RING_M: f64 = 3.0;
/// And with the path within this cosine of the ring's direction (10 degrees).
const ALONG_RING: f64 = 0.985;

/// Numbers of the stretches, in the order of the run's own list.
pub(crate) mod stretch {
    pub(crate) const BEFORE_FAILSAFE: f64 = 0.0;
    pub(crate) const LEVELLING: f64 = 1.0;
    pub(crate) const CLIMB: f64 = 2.0;
    pub(crate) const HEADING_HOME: f64 = 3.0;
    pub(crate) const JOINING: f64 = 4.0;
    pub(crate) const CIRCLING: f64 = 5.0;
    pub(crate) const WAITING: f64 = 6.0;
    pub(crate) const GLIDING: f64 = 7.0;
    pub(crate) const DRIFTING: f64 = 8.0;
    pub(crate) const TAKEN_OVER: f64 = 9.0;
    /// No stretch of the autopilot's: hands fly.
    pub(crate) const BY_HAND: f64 = 10.0;
}

/// What every trial of a scenario shares: the standing orders.
#[derive(Debug, Clone, Copy)]
pub struct Orders {
    /// What the jet does about a loss.
    pub failsafe_action: FailsafeAction,
    /// Whether it still knows where it is.
    pub has_position: bool,
}

/// The autopilot of one jet, or of several.
#[derive(Debug, Clone, Copy)]
pub struct Autopilot<L> {
    stretch: L,
    /// What the sticks said at the loss.
    before: Command<L>,
    /// Angle flown about the centre since joining or the circle began, rad.
    swept: L,
    /// When the circle was reached, s.
    circle_at: L,
    laws: Laws,
    /// Load that the elevator carries.
    carried: L,
}

impl<L: Lane> Autopilot<L> {
    /// At the moment of the loss, with the commands that were flown until then, in trim for their bank.
    #[inline(always)]
    pub fn new(before: Command<L>, plan: &PlanNumbers<L>) -> Self {
        let zero = L::splat(0.0);
        let carried = L::splat(1.0) / sin_cos(before.bank).1.max(L::splat(LEAST_UPRIGHT));
        Self {
            stretch: L::splat(stretch::BEFORE_FAILSAFE),
            before,
            swept: zero,
            circle_at: zero,
            laws: Laws::of(plan),
            carried,
        }
    }

    /// The stretch, by its number.
    pub fn stretch(&self) -> L {
        self.stretch
    }

    /// The command at `time` s after the loss, `interval` s after the one before.
    #[inline(always)]
    pub fn command(
        &mut self,
        standing: &Orders,
        percept: &Percept<L>,
        jet: &JetNumbers<L>,
        plan: &PlanNumbers<L>,
        time: f64,
        interval: f64,
    ) -> Command<L> {
        let relative = Relative::new(percept, plan);
        self.advance(standing, percept, &relative, plan, time, interval);
        let zero = L::splat(0.0);

        let wanted = bank_tangent(self.laws, percept, &relative, plan);
        // The arc tangent is good to its last digits only, and the limit is the limit.
        let ring_bank = atan(wanted.within(jet.maximum_bank_tan)).within(jet.maximum_bank);
        let homing = self.is(stretch::HEADING_HOME).or(self.is(stretch::JOINING)).or(self.is(stretch::CIRCLING));
        let drifting = self.is(stretch::DRIFTING);
        let bank = L::select(homing, ring_bank, L::select(drifting, plan.drift_bank.within(jet.maximum_bank), zero));
        let climbing = homing.or(drifting).or(self.is(stretch::CLIMB));

        self.carried = carried(self.carried, percept, plan, interval);
        let over_ground = if standing.has_position { relative.speed } else { percept.airspeed };
        let command = powered(bank, climbing, over_ground, self.carried, percept, jet, plan);
        let command = choose(self.is(stretch::GLIDING), &gliding(percept, jet, plan), &command);
        choose(self.is(stretch::BEFORE_FAILSAFE), &self.before, &command)
    }

    /// In which lanes it is in the stretch of a number.
    #[inline(always)]
    pub(crate) fn is(&self, number: f64) -> L::Words {
        (self.stretch - L::splat(number)).abs().lt(L::splat(0.5))
    }

    /// Goes on to the next stretch where the present one is over.
    #[inline(always)]
    fn advance(
        &mut self,
        standing: &Orders,
        percept: &Percept<L>,
        relative: &Relative<L>,
        plan: &PlanNumbers<L>,
        time: f64,
        interval: f64,
    ) {
        let now = L::splat(time);
        let around = relative.around;
        self.swept += around * relative.per_distance * L::splat(interval);

        let after_failsafe = match standing.failsafe_action {
            FailsafeAction::Cut => stretch::GLIDING,
            FailsafeAction::Return | FailsafeAction::WaitThenCut => stretch::LEVELLING,
        };
        self.go(stretch::BEFORE_FAILSAFE, plan.failsafe_delay.gt(now), after_failsafe);

        let banked = percept.bank.abs().gt(L::splat(LEVEL));
        let low = plan.turn_above.gt(percept.height);
        match standing.failsafe_action {
            _ if !standing.has_position => {
                self.go(stretch::LEVELLING, banked, stretch::DRIFTING);
            }
            FailsafeAction::Return => {
                self.go(stretch::LEVELLING, banked, stretch::CLIMB);
                self.go(stretch::CLIMB, low, stretch::HEADING_HOME);
            }
            FailsafeAction::WaitThenCut | FailsafeAction::Cut => {
                self.go(stretch::LEVELLING, banked, stretch::WAITING);
            }
        }
        self.go(stretch::WAITING, (plan.failsafe_delay + plan.wait).gt(now), stretch::GLIDING);
        self.go(stretch::DRIFTING, (plan.failsafe_delay + plan.take_over).gt(now), stretch::TAKEN_OVER);

        let far = relative.distance.gt(L::splat(JOINING_RADII) * plan.radius);
        let joined = self.go(stretch::HEADING_HOME, far, stretch::JOINING);
        self.swept = L::select(joined, L::splat(0.0), self.swept);

        let tolerance = (L::splat(ON_RING) * plan.radius).max(L::splat(ON_RING_M));
        let off = (relative.distance - plan.radius).abs().gt(tolerance);
        let astray = off.or((L::splat(ALONG_RING) * relative.speed).gt(around));
        let one_lap = L::splat(TAU);
        let circling = self.go(stretch::JOINING, astray.and(one_lap.gt(self.swept)), stretch::CIRCLING);
        self.swept = L::select(circling, L::splat(0.0), self.swept);
        self.circle_at = L::select(circling, now, self.circle_at);

        let early = plan.sweep.gt(self.swept).or((self.circle_at + plan.take_over).gt(now));
        self.go(stretch::CIRCLING, early, stretch::TAKEN_OVER);
    }

    /// From one stretch to another unless held there; tells who went.
    #[inline(always)]
    fn go(&mut self, from: f64, held: L::Words, to: f64) -> L::Words {
        let goes = self.is(from).and_not(held);
        self.stretch = L::select(goes, L::splat(to), self.stretch);
        goes
    }
}

#[inline(always)]
fn choose<L: Lane>(mask: L::Words, yes: &Command<L>, no: &Command<L>) -> Command<L> {
    Command {
        bank: L::select(mask, yes.bank, no.bank),
        climb: L::select(mask, yes.climb, no.climb),
        thrust: L::select(mask, yes.thrust, no.thrust),
        stopped: L::select(mask, yes.stopped, no.stopped),
    }
}
