//! Which guidance law a trial flies, and how firmly: nobody knows it of his own jet until a log has ruled the others
//! out.

use super::{Draws, Trial};
use crate::recovery::{Gain, Guidance, RecoveryPlan};

/// Gain of the nominal field from course error to course rate, 1/s.
const GAIN: f64 = 0.8;
/// Time in which the nominal field closes in on the ring, and that a nominal point ahead is away, s.
const LEAD: f64 = 3.0;

/// Law and gain: those of the plan where nothing is drawn, else each of those not ruled out as likely as the others.
pub(super) fn draw(plan: &RecoveryPlan, draws: &mut Draws) -> (Guidance, Gain) {
    let left: Vec<Guidance> = Guidance::ALL.into_iter().filter(|law| !plan.laws_ruled_out.contains(law)).collect();
    (draws.one_of(&left, plan.guidance), draws.one_of(&Gain::ALL, plan.gain))
}

impl Draws {
    /// Each of some as likely as the others; `middle` where nothing is drawn.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a handful of choices"
    )]
    fn one_of<T: Copy>(&mut self, some: &[T], middle: T) -> T {
        if self.0.is_none() {
            return middle;
        }
        let place = self.uniform(0.0, some.len() as f64) as usize;
        some.get(place).copied().unwrap_or(middle)
    }
}

impl Trial {
    /// The same draws under another law.
    ///
    /// The gain of a trial scales that of a field and draws it in; the point ahead has no gain, and comes nearer.
    pub fn under(mut self, guidance: Guidance, gain: Gain) -> Self {
        let firm = match gain {
            Gain::Soft => 2.0 / 3.0,
            Gain::Nominal => 1.0,
            Gain::Sharp => 1.5,
        };
        (self.guidance, self.gain) = (guidance, gain);
        (self.plan.law, self.plan.gain, self.plan.lead) = (guidance.number(), GAIN * firm, LEAD / firm);
        self
    }
}
