//! Plain words about debriefs: logs, the wind they tell, what steers the jet.

use super::Help;

pub(super) const DEBRIEF: Help = Help {
    title: "Debrief",
    what: "The log of a flown recovery beside the one that the plan predicts from the same loss, in the wind as flown.",
    how: "The recovery is found in the log: three quarters of a lap or more on the ring, and from there back to the join, the way home and the loss. Its moments can be moved. Every margin is measured as for a run, as far as the log tells.",
    not_modelled: "What the log does not have. A few recoveries say little: until ten were compared the model here counts as verified, not validated.",
};

pub(super) const WIND_FLOWN: Help = Help {
    title: "Wind and airspeed as flown",
    what: "What the ground track alone tells: nothing on board has to measure wind or airspeed.",
    how: "The velocities over the ground of a jet that turns lie on a circle. Its middle is the wind, its radius the airspeed. The interval holds the true mean in 95 of 100 logs; gusts that last for seconds make it wider.",
    not_modelled: "Less than most of a turn gives no answer. Airspeed that changes round the lap is left over, and can be looked at.",
};

pub(super) const STEERED_BY: Help = Help {
    title: "What steers it",
    what: "Which guidance law and gain fit the join and the laps that were flown. Laws that a log rules out are no longer drawn in trials.",
    how: "The recovery is flown again with every law and gain in the wind as flown, and held against the flown path. A law is ruled out where it fits worse by more than wind and fixes can explain.",
    not_modelled: "Other laws than the three. In light wind they fly alike, and nothing is ruled out.",
};
