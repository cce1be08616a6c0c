//! Plain words about the wind: what was measured, what was seen, and what blows at the circle.

use super::Help;

pub(super) const SPEED: Help = Help {
    title: "Wind speed",
    what: "The mean wind at the height it was measured at: what a meter shows over some minutes.",
    how: "You give it. Trials spread it by a share of itself and by a little that stays in light wind.",
    not_modelled: "A wind that changes along the field: behind trees, over an edge, near the sea. Here it blows alike everywhere at one height.",
};

pub(super) const FROM: Help = Help {
    title: "Wind from",
    what: "The direction the wind comes out of, against true north. A wind from 270 blows towards the east.",
    how: "You give it. Trials spread it by its standard deviation: 15 degrees where nothing else is written, 25 in light wind and among woods.",
    not_modelled: "A compass shows magnetic north: correct it first. The direction does not turn with height here.",
};

pub(super) const GUST: Help = Help {
    title: "Gust",
    what: "The wind's speed in the gusts, where the mean was measured. It is not what the gusts add.",
    how: "Trials fly through turbulence as strong as the gust asks for: what it adds to the mean, divided by 2.8, is the least standard deviation. A gust that nobody reported is taken as 1.5 times the mean. It is also flown as if it blew all the time, as a bound.",
    not_modelled: "Single squalls and the eddies behind trees and barns. Thermals only as turbulence, where their strength is written.",
};

pub(super) const AT_HEIGHT: Help = Help {
    title: "Wind at circle height",
    what: "The wind where the jet circles. It is mostly stronger than at your face: often by half, up to twice.",
    how: "The measured mean times height over measured height, to a small power; what gusts add stays as it is. The range of the power goes by the land upwind. The plan takes its middle, every trial draws its own. A profile by roughness, or none, can be chosen instead.",
    not_modelled: "Hills, cliffs, woods and warm or cold air that lies in layers. It is worked out, not measured.",
};

pub(super) const WIND_LIMIT: Help = Help {
    title: "Wind limit",
    what: "The most wind at circle height in which this circle still meets what you asked for, from each direction. Above it, do not rely on the circle.",
    how: "Winds are flown one by one, up to the first that fails, then finer, to half a metre a second. Beside it stands the sum for the maximum bank alone: the root of gravity, radius and its tangent multiplied, less the return speed. Gusts grow with the wind, in the plan's proportion.",
    not_modelled: "Winds that differ over the field. The figure at 2 m is worked back down and is no better than the profile.",
};

pub(super) const METAR: Help = Help {
    title: "Weather report",
    what: "A line of code from an aerodrome, called METAR or SPECI. Wind, gust, direction and the sector it varies in are taken from it, and the air's temperature and pressure.",
    how: "Paste it: each group is shown with what was understood, and nothing is used when a part makes no sense. Without a gust in it the gust is taken as 1.5 times the mean; a variable direction widens the spread.",
    not_modelled: "It is another place, a mast of 10 m on open ground, and perhaps an hour old. Forecasts are not read.",
};

pub(super) const BEAUFORT: Help = Help {
    title: "Beaufort number",
    what: "The wind judged by what it does to smoke, leaves, branches and people, from 0 to 8.",
    how: "Each number has a band of speeds at 10 m over open ground. The likely one is 0.836 times the number to the power of one and a half; the gust is taken as 1.5 times that, or as the top of the band where that is more.",
    not_modelled: "Shelter: signs near the ground in the lee of trees show less wind than there is above.",
};

pub(super) const WINDSOCK: Help = Help {
    title: "Windsock",
    what: "The wind judged by the sock: how many of its five stripes stand out, or how far it hangs below level.",
    how: "Each stripe counts 3 knots, and a sock that is level 15 knots or more. By angle: 30 degrees below level is 6 knots, 5 degrees is 10.",
    not_modelled: "A wet, torn or home-made sock. Above 15 knots it tells nothing more.",
};

pub(super) const THERMALS: Help = Help {
    title: "Thermals",
    what: "How strongly warm air rises and sinks, as one speed for the whole layer: some 1 to 2 m/s on a sunny summer day, even in next to no wind.",
    how: "Left empty there are none. It adds to the turbulence of the wind, along it and up and down; up and down it grows with height.",
    not_modelled: "Single thermals with an edge, and dust devils. It is the scale that meteorologists call w*, which nobody reads off a meter.",
};

pub(super) const AIR: Help = Help {
    title: "Air density",
    what: "How thick the air is. In thin air, hot or high, the same wing stalls faster and the same jet turns wider.",
    how: "Field elevation, temperature there and pressure reduced to sea level (QNH) as an ideal gas. What is left empty is that of the standard atmosphere; a weather report fills it in.",
    not_modelled: "Moisture: it takes off up to one per cent on a hot wet day.",
};
