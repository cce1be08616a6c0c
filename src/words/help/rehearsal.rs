//! Plain words about rehearsals: what is flown, how the drill is timed, how it is scored.

use super::Help;

pub(super) const REHEARSAL: Help = Help {
    title: "Rehearsal",
    what: "You fly the jet of this plan on this field by hand, lose something, and go through the drill: notice, call, goggles off, hear where to look, find it, say how it flies, take over.",
    how: "The same model as the studies, step by step, with your sticks before the loss and after the take-over. What you did is kept in a small file that plays to the same flight again.",
    not_modelled: "Your nerves, the sun in your eyes, the weight of the goggles. It trains the order of things, and is no stand-in for flying in sight.",
};

pub(super) const EXERCISE: Help = Help {
    title: "Exercise",
    what: "What is lost, when, from where, in how much of the wind, and with which way of flying. Eleven of them lead from a calm first flight to a rough day.",
    how: "Of each the trial is fixed: everybody in a class gets the same flight. Each says what is new in it and what a good run looks like.",
    not_modelled: "A landing among other traffic, and a second thing that goes wrong.",
};

pub(super) const REHEARSAL_SCORE: Help = Help {
    title: "Points of a rehearsal",
    what: "A crossed limit, a crash, an empty pack, or a jet that nobody has at the end: any one fails it and is named. Else 0 to 100 points from six parts, each with its moment.",
    how: "Boundary 30, areas and people 30, height 15, time until the attitude is said 10, place of the take-over 5, landing or flying on 10. Each is a straight line from nothing at the limit to all at what was asked for.",
    not_modelled: "Whether anybody may fly: the weights are judgement, for discussion, and a score is no licence.",
};

pub(super) const HANDS: Help = Help {
    title: "How the sticks fly it",
    what: "Through the stabiliser, which levels the jet when the sticks are let go, or straight through, where nothing levels it.",
    how: "Through the stabiliser a stick points at a bank and a climb, up to the limits of the jet sheet. Straight through it rolls the jet at its rate and pulls on the wing.",
    not_modelled: "Rudder, flaps, trim and the delay of a radio. Straight through there is no roll beyond 75 degrees.",
};

pub(super) const DRILL_TIMES: Help = Help {
    title: "Times of the drill",
    what: "Seconds from the loss until each stage was done. The one that counts is the attitude said: then somebody is ready to take over.",
    how: "Taken from the recording, to the step. The attitude counts once it fits what is seen; between two words either is right. Eight tries or more give the club numbers of its own.",
    not_modelled: "A stage that somebody says without doing it, and a spotter who is slow to answer.",
};
