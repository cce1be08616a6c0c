//! Plain words about the jet, the plan for a loss, the rules, and what the whole model leaves out.

use super::Help;

pub(super) const SHEET: Help = Help {
    title: "Jet sheet",
    what: "The numbers of one airframe: what its owner knows from the scales, the label and the watch, and how it is set. Each has a value, a spread and an origin.",
    how: "Enter stall speed, top speed, climb and minutes of flight: wing, drag and fan are worked out from them. Or enter those instead. What is left out is that of a sport jet scaled to this mass, and told as a default.",
    not_modelled: "Flutter, trim, a loose wing and a failing servo. A sheet describes a jet in order.",
};

pub(super) const ORIGIN: Help = Help {
    title: "Origin of a number",
    what: "Measured: on this jet. Estimated: judged by somebody who knows it. Default: nobody has checked it, the tool's own number.",
    how: "You say which. Every answer lists the numbers that nobody has measured.",
    not_modelled: "Whether a measurement was a good one.",
};

pub(super) const GUIDANCE: Help = Help {
    title: "Guidance",
    what: "The way in which the autopilot steers onto its ring. Three laws stand for many; none is a particular device.",
    how: "Field of directions: follows directions that wind onto the ring. Look-ahead: turns towards a point ahead on it. Nose on the centre: steers the nose, not the path, and drifts. Each can be soft, nominal or sharp.",
    not_modelled: "Your device's own law. Where the laws differ much, trust a logged circle.",
};

pub(super) const FAILSAFE_ACTION: Help = Help {
    title: "Failsafe action",
    what: "What the jet does when it hears nothing: return and circle, wait and then cut the fan, or cut at once.",
    how: "You choose. All of them level the wings first, except the cut at once, which starts to glide.",
    not_modelled: "Whether it is permitted. A club may forbid a return by itself; the tool can then say so with every answer.",
};

pub(super) const AUTHORITY: Help = Help {
    title: "Who authorised it",
    what: "The person or committee who agreed to this failsafe action, for this jet, at this field, and when.",
    how: "You write it. While nobody is named, every answer warns of that.",
    not_modelled: "The tool can't tell who is entitled to agree.",
};

pub(super) const FAILSAFE_DELAY: Help = Help {
    title: "Failsafe delay",
    what: "Seconds from the loss of control until the jet does something about it. With a lost video it is the pilot who does: that is the reaction time, the failsafe delay where none is given.",
    how: "You give each with its spread; a bench test with a stopwatch finds it. Until then the last command is held, bank included.",
    not_modelled: "A control link that flickers: the loss here is clean, and nothing comes back.",
};

pub(super) const RULES: Help = Help {
    title: "Rules",
    what: "Numbers said to be asked for by law, association or club, each with its source and who compared it with the text in force.",
    how: "A preset fills in hearsay, none of it checked, and sets the limits it speaks of. Every rule nobody has checked is a warning with every answer.",
    not_modelled: "The law itself. A note here is a reminder to look, nothing else.",
};

pub(super) const MODEL: Help = Help {
    title: "What the model leaves out",
    what: "The jet is a point with mass in a tidy wind. It keeps to its numbers, and nothing on it breaks.",
    how: "Left out: bending wings, failing servos, air behind trees and edges, thermals, ice, satellite signals off walls, wrong compasses, and the pilot's skill. Any change to jet, settings or field needs a new answer.",
    not_modelled: "Try the recovery in sight, high and in light wind, and compare it with what was predicted, before you rely on any number.",
};

pub(super) const PART_THROTTLE: Help = Help {
    title: "Power at part throttle",
    what: "A fan that runs slowly wastes more of the battery. Without this loss a jet would seem to fly four times as long as its owner knows.",
    how: "Power grows by this number times how far the efflux is below its full speed. Better: type the power at return speed from a wattmeter, or the time of level flight until a fifth is left; then the number is worked out from it.",
    not_modelled: "A worn fan, a cold speed controller, and a pack older than its label: measure again each season.",
};

pub(super) const SPEED_HOLD: Help = Help {
    title: "What the throttle holds",
    what: "Airspeed, by a probe; a fixed throttle, which lets the speed sink in a turn; or the speed over the ground, which downwind leaves little air over the wing: 22 m/s in 8 m/s of tailwind is 14 m/s of air.",
    how: "You choose what your stabiliser does. Without a position a hold of ground speed falls back to airspeed.",
    not_modelled: "A probe that is blocked or leaks.",
};
