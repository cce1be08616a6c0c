//! Plain words about the studies: many flights, and what is said about all of them.

use super::Help;

pub(super) const USABLE_RADII: Help = Help {
    title: "Usable radii",
    what: "The radii that meet every margin you asked for, with the reason written at each end. Often there is none.",
    how: "Radii are flown at most 2.5 m apart, and the ends found to a metre by halving. A circle counts as held when the jet stays within 3 m, or 5 % of the radius if that is more, of its outside.",
    not_modelled: "One loss, that of the plan. Look at the loss map for all the others.",
};

pub(super) const ROOM_BUDGET: Help = Help {
    title: "Room budget",
    what: "What lies between the circle and the nearest limit, in metres, so that you see which one takes most.",
    how: "Position and home errors at 1.645 spreads, how far 95 of 100 drawn circles stray outside, what the gust wind adds to the furthest distance from the centre, and the buffer you chose. Set against the distance from the centre.",
    not_modelled: "The survey's error has no number in the file: put it into the buffer.",
};

pub(super) const WHAT_WOULD_HELP: Help = Help {
    title: "What would help",
    what: "Single changes that make radii usable where none are, each with the radii that it gives.",
    how: "Each is flown: slower return, another centre, another place of the loss, less wind, more bank, another failsafe action, another height. Those that do not help are listed too.",
    not_modelled: "Two changes at once, and what your rules and your jet say about each.",
};

pub(super) const BEST_CENTRE: Help = Help {
    title: "Best centre",
    what: "The place inside the boundary about which a circle leaves most over what was asked for.",
    how: "The roomiest places of a grid are flown, and from the best of them the search goes on step by step, to a metre, over place, radius and way round.",
    not_modelled: "A better place may be missed. People, sun and the line of sight are yours to weigh.",
};

pub(super) const SENSITIVITY: Help = Help {
    title: "What moves the answer",
    what: "Which of the uncertain numbers matters most: measure that one first.",
    how: "Each number alone is moved one spread down and up, or to the end of its range, all others staying at their middle. Listed first is what moves a distance furthest.",
    not_modelled: "Two numbers that are wrong together. Trials have all of them at once.",
};

pub(super) const TRIALS: Help = Help {
    title: "Trials",
    what: "Flights of the same plan, each with another draw of every number that is not known exactly.",
    how: "Wind, jet, errors and delays are drawn from their spreads, always alike for one seed and number. Trial 0 draws nothing: it is the plan as entered.",
    not_modelled: "A spread that is wrong. Trials know no more about your jet than the spreads you gave.",
};

pub(super) const SHARE: Help = Help {
    title: "So many of so many",
    what: "In how many of the trials something held, and between which shares the truth may lie.",
    how: "The interval is Wilson's, at the confidence shown; more trials make it narrower. A radius is usable by its trials when its lower bound reaches the share you ask for.",
    not_modelled: "It speaks of this model with these inputs. It proves nothing about a flight.",
};

pub(super) const ENVELOPE: Help = Help {
    title: "Envelope",
    what: "The ground over which a named share of whole recoveries stays, from when the jet acts on the loss, way home included.",
    how: "Half of the trials give the ring its shape, the other half its size: so large that a fresh trial stays inside all the way round with the named share. It bulges towards where losses are likely.",
    not_modelled: "Flights outside the line are rare, not impossible.",
};

pub(super) const LOSS_MAP: Help = Help {
    title: "Loss map",
    what: "From where in the field a loss is recovered. Each cell shows the worst that happened on any heading.",
    how: "From the middle of each cell the plan is flown on every heading, then a few trials on each. More are flown where the answer is in doubt or changes next door.",
    not_modelled: "Losses in a turn or a climb: every loss starts level, with wings level.",
};

pub(super) const KEEP_INSIDE: Help = Help {
    title: "Keep-inside line",
    what: "The line inside which a loss is recovered: of the losses there no more than the share allowed cross a limit, at the speed and on the headings named.",
    how: "In every direction from the circle's centre trials are flown from place to place. Known inside and known outside are told apart from what is not known.",
    not_modelled: "Places between the directions and the steps, and losses in a turn or a climb.",
};

pub(super) const NO_RETURN: Help = Help {
    title: "Point of no return",
    what: "The line beyond which the energy no longer brings the jet home with its reserve and laps.",
    how: "Energy at the loss less reserve, laps asked for and climb, over the power of level flight, times the speed over the ground towards the centre.",
    not_modelled: "Turns, gusts and detours. In a wind as fast as the jet there is no line, for nothing comes home against it.",
};
