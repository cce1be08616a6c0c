//! The words beside what prints tell.

use super::Help;

pub(super) const REVIEW_DAY: Help = Help {
    title: "Review day",
    what: "The last day on which the plan holds without being checked again.",
    how: "You set it: before the trees are in leaf, before the sheep come back, before the committee meets. From the day after it, every print says DO NOT FLY.",
    not_modelled: "Whatever changes sooner. A new mast or a felled hedge ends the plan on the day you see it.",
};

pub(super) const EMERGENCY: Help = Help {
    title: "When something has happened",
    what: "Whom to call, and how help gets to you: it stands in a box of its own on the card, the poster and the pack.",
    how: "Write numbers as they are dialled on the field, each with whose it is. Say the gate by which a vehicle comes in, and what to tell them the place is.",
    not_modelled: "Whether the telephone has a signal there. Try it once.",
};

pub(super) const LOOK_CUE: Help = Help {
    title: "Look cue",
    what: "Where to look for the circling jet from the pilot position: a bearing, an hour of the clock and a height in fists at arm's length.",
    how: "It is the middle of the take-over arc as seen from the pilot position, or the centre where there is none. Twelve o'clock is square across the runway or the flight line.",
    not_modelled: "Haze, trees in the way and the sun; the sun has a line of its own.",
};

pub(super) const TAKE_OVER_ARC: Help = Help {
    title: "Take-over arc",
    what: "The part of the lap on which to take the jet over: slow over the ground, not at the maximum bank, and if possible flying away from you.",
    how: "The last whole lap is searched for the longest such part. Where none leads away for three seconds, it is the longest slow one. It is drawn thick.",
    not_modelled: "Your practice. Fly the take-over often, in sight and high.",
};
