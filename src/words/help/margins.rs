//! Plain words about the margins: what is kept off what, and by how much.

use super::Help;

pub(super) const MARGINS: Help = Help {
    title: "Margins",
    what: "The table of everything the flight must keep to: what is left, what you asked for, and when and where it was least.",
    how: "Each line is the least along the way flown, between the steps of the sum too, measured to edges and not to corners. A tall thing is passed beside it or over it: the better of the two ways counts, and it is crossed only where neither leaves anything.",
    not_modelled: "It holds for one flight in one wind. Other losses and other winds have margins of their own.",
};

pub(super) const MARGIN: Help = Help {
    title: "Margin",
    what: "What is left to a limit, in its unit. A limit is crossed, or the flight is inside its buffer, or it is clear.",
    how: "Clear: at least the buffer asked for. Inside the buffer: less than that. Crossed: less than nothing, and never coming home. Speed held, bank, a late time home and sight can only be inside the buffer, and seconds over caution areas are counted.",
    not_modelled: "A margin is not permission, and none of it covers what the model leaves out.",
};

pub(super) const BUFFER: Help = Help {
    title: "Buffer",
    what: "The margin you ask to be left. One number for distances from boundary, areas, obstacles and flight line, one from people, one for heights.",
    how: "You set each. Put into them what the survey of your field may be off, and what your rules ask for.",
    not_modelled: "People who move. Draw where they may be as an area of people.",
};

pub(super) const HEIGHT_LIMIT: Help = Help {
    title: "Height limit",
    what: "The highest height allowed, over the ground below the jet or over home.",
    how: "The highest point of the way flown against it, over sloping ground too.",
    not_modelled: "An altimeter of the jet that is wrong: only trials have that error. Airspace and notices are yours to look up.",
};

pub(super) const STALL: Help = Help {
    title: "Stall margin",
    what: "How much faster the jet is than the speed at which its wing stops carrying. In a turn and in a gust from below that speed is higher. Slower than it, the wing is stalled: a limit crossed.",
    how: "Airspeed less stall speed at the load wanted at that moment, gusts included, where that is least. The buffer is a factor for a moment, 1.1 unless set: a fifth more lift than wanted before the wing stalls. A speed that is held is judged by itself.",
    not_modelled: "What happens in a stall: the wing here carries no more than its limit, and does not drop.",
};

pub(super) const SPEED_HELD: Help = Help {
    title: "Speed held",
    what: "How much faster the jet flies than the stall over seconds, and not at the worst moment of a gust.",
    how: "The means of squared airspeed and wanted load over 3 seconds, unless set otherwise: as long as a reported gust lasts. Asked for are 1.3 stall speeds, unless set, as of any speed held near the ground. It can only be inside its buffer; a stall is the other line.",
    not_modelled: "The seconds before the loss: the first mean begins with it.",
};

pub(super) const TIME_HOME: Help = Help {
    title: "Time home",
    what: "Seconds from the loss until the jet is on its circle.",
    how: "Read off where the jet is, not what its autopilot believes: from the first moment that it stays within 5 % of the radius, and at least 3 m, of its ring for a quarter of a lap. One that is blown wide has no time home, and that counts as crossed. Late is inside the buffer.",
    not_modelled: "The time people need to find it and take over comes after that.",
};

pub(super) const LAPS_TO_RESERVE: Help = Help {
    title: "Laps to the reserve",
    what: "How many laps the pack still gives before it reaches its reserve, counted from the circle.",
    how: "Energy left on reaching the circle, less the reserve, over the energy of the last lap flown.",
    not_modelled: "A cold or tired pack: give it a smaller charge, or a wider spread.",
};

pub(super) const RESERVE: Help = Help {
    title: "Reserve",
    what: "The share of the pack's rated energy that is never planned for.",
    how: "You set it; a fifth is common practice. Below it at the take-over it is crossed. The buffer is on the circle: what is over the reserve there must last for the laps you ask for, at the energy of a lap as flown; shown is what of them is not flown yet at the take-over.",
    not_modelled: "The voltage that sinks under load. Rated energy is taken as 3.7 volts a cell.",
};

pub(super) const VISIBILITY: Help = Help {
    title: "Seen by the pilot",
    what: "How far from the pilot position the jet may be for its attitude to be seen, and how small it may look to be found again.",
    how: "The lesser of 490 spans plus 30 m and three tenths of the ground visibility, 5 km of that at most. And the angle that the span fills against the smallest you allow.",
    not_modelled: "Sun, haze, a blank sky, colour of the jet and tired eyes. The spotter decides, not this number.",
};

pub(super) const SUN_GLARE: Help = Help {
    title: "Sun and glare",
    what: "The share of a lap, by time, in which the jet is within 15 degrees of the sun as seen from the pilot position, and when that ends.",
    how: "The sun's place by day, clock and datum, to a tenth of a degree, against the lap as flown in the mean wind, from eyes 1.7 m above the pilot position. Every minute of the day, over a flat horizon.",
    not_modelled: "Clouds, haze, hills and trees before the sun, dark glasses, and light off water or snow. Never look for the jet in the sun: wait, fly a smaller circle or go home.",
};

pub(super) const FALLS: Help = Help {
    title: "Falls from here",
    what: "How far away the jet may land if it breaks or stops over the edge of its circle.",
    how: "The larger of two: its height, and how far it would fall at return speed plus wind from that height without lift or drag.",
    not_modelled: "A glide carries further, and this buffer is kept apart from the others.",
};

pub(super) const CROSSED_AT_MOST: Help = Help {
    title: "Crossed in at most",
    what: "The largest share of trials that may cross a limit: the edge, never over it, people, height limit, ground, a tall thing, the stall, the pack's reserve.",
    how: "One in a hundred unless you set it, by judgement: behind each of these is somebody, or the jet is gone. The answer is yes only where even the upper end of the interval is below it.",
    not_modelled: "A share of trials in this model is no promise about a day at the field.",
};

pub(super) const KEPT_AT_LEAST: Help = Help {
    title: "Buffers kept in at least",
    what: "The smallest share of trials that has to keep every buffer you asked for. Inside the buffer is no crossing: the buffer is there for what the trials do not draw.",
    how: "Nine in ten unless you set it, by judgement. The answer is yes only where even the lower end of the interval is above it.",
    not_modelled: "Which buffer the flights are inside, and how often, stands in the margins and the room budget, not in this share.",
};
