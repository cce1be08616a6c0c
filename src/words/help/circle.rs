//! Plain words about the circle: its size, its speed, and how the jet really flies it.

use super::Help;

pub(super) const RADIUS: Help = Help {
    title: "Circle radius",
    what: "The radius the jet is told to fly about the centre. What it really flies may be larger: see furthest from the centre.",
    how: "You set it. It is flown as far as the maximum bank allows; a larger radius needs less bank, and more field.",
    not_modelled: "Real stabilisers round, lag or limit this number in ways of their own. Compare it with a logged circle.",
};

pub(super) const HEIGHT: Help = Help {
    title: "Circle height",
    what: "How high above home the jet circles. It climbs or sinks to it on the way back.",
    how: "You set it. The wind there, the height limit and what lies below decide whether it is a good one.",
    not_modelled: "The pressure that sets zero height drifts during the day. Trials carry that error, the plan as entered has none.",
};

pub(super) const RETURN_SPEED: Help = Help {
    title: "Return speed",
    what: "The speed through the air that the jet holds on the way home and on the circle.",
    how: "You give it with its spread. Slower needs a smaller circle, but must stay above the stall and beat the wind.",
    not_modelled: "A speed sensor's own error, and a pack that sags until the speed can't be held.",
};

pub(super) const SMALLEST_RADIUS: Help = Help {
    title: "Smallest radius",
    what: "The least circle that the maximum bank can hold all the way round in a wind. Ask for less, and the jet is blown wide.",
    how: "Return speed plus wind at circle height, squared, over gravity times the tangent of the maximum bank. It is shown for still air, mean wind and gusts.",
    not_modelled: "Time to roll and gusts are not in this sum. The flown circles have them.",
};

pub(super) const U_CURVE: Help = Help {
    title: "The U-curve",
    what: "How far out the jet really goes, against the radius it is told. Going smaller first helps; beyond a point the wind blows the jet further out.",
    how: "Every radius is flown in the mean wind and in the gust wind, and the furthest distance from the centre is read off. The lowest point lies near the smallest radius the maximum bank holds.",
    not_modelled: "It shows steady winds without turbulence. What gusts that come and go do is in the trials.",
};

pub(super) const FURTHEST: Help = Help {
    title: "Furthest from the centre",
    what: "The furthest that the jet gets from the centre once it has settled on its circle.",
    how: "The largest distance from the centre in the last whole lap of the run. Without a whole lap there is none.",
    not_modelled: "The way there is not in it: joining and turn-back may reach further out.",
};

pub(super) const JOINING_OVERSHOOT: Help = Help {
    title: "Overshoot while joining",
    what: "How far outside the ring the jet swings while it gets onto the circle.",
    how: "The furthest it gets from the centre after it has come nearer and before the last lap, less the radius.",
    not_modelled: "It belongs to this one loss. From elsewhere the jet arrives in another direction and swings otherwise.",
};

pub(super) const TURN_BACK: Help = Help {
    title: "Turn-back distance",
    what: "How far the jet still goes out after the loss before it comes nearer. Flying fast and away with the wind it is longest.",
    how: "Of a flight: how much further from the centre it gets than at the loss. On the loss map: the time until the jet acts, and a turn at the maximum bank with the wind, on the heading and the way round that go furthest.",
    not_modelled: "The line on the map is a check in closed form: it leaves out slowing down and what the numbers may be off. The keep-inside line has both.",
};

pub(super) const LAP: Help = Help {
    title: "Lap time",
    what: "Seconds for once round the circle. Wind makes a lap longer, and most of it is spent on the side that flies into the wind.",
    how: "The time of the last whole lap of the run.",
    not_modelled: "Later laps on a weaker pack: the motor gives what is asked for until the pack is empty.",
};

pub(super) const MAXIMUM_BANK: Help = Help {
    title: "Maximum bank",
    what: "The steepest lean that the stabiliser commands. More bank turns tighter, and raises the speed at which the wing stalls.",
    how: "You give it with its spread. The jet never leans further, and rolls there with a lag and at a limited rate.",
    not_modelled: "A gust that tips the wing: turbulence moves the jet here, it does not roll it.",
};

pub(super) const SPEED_WINDOW: Help = Help {
    title: "Speed window",
    what: "The slowest and the fastest airspeed at which this radius is held in this wind. When the slowest is above the fastest, no speed will do.",
    how: "Below: the stall at full bank times the stall factor, and at least 2 m/s more than the wind. Above: the root of gravity, radius and tangent of the maximum bank multiplied, less the wind.",
    not_modelled: "A sum for a steady circle in the mean wind. Gusts, roll and joining are not in it.",
};
