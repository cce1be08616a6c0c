//! Plain words about the field: the land, what stands and lives on it, and its four points.

use super::Help;

pub(super) const BOUNDARY: Help = Help {
    title: "Boundary",
    what: "The edge of the land that you may fly over. Holes in it are land that you may not.",
    how: "The margin is the least distance from the way flown to the edge, from inside; outside it is crossed.",
    not_modelled: "An edge drawn wrong. Put what your survey may be off into the buffer.",
};

pub(super) const AREA: Help = Help {
    title: "Area",
    what: "Ground with a rule. No-fly and people: keep off at any height. Above: only over a height. Caution: seconds over it are counted.",
    how: "An area may have months in which its rule holds; the day of the flight decides. Above is kept by height or by staying beside it, whichever leaves more.",
    not_modelled: "Animals and people that leave their area, and the noise they hear.",
};

pub(super) const PEOPLE: Help = Help {
    title: "People",
    what: "Pits, cars, spectators, a road, a path: ground with people, kept off at any height, with a buffer of its own. The pilot position is one without being drawn.",
    how: "The margin is the distance over the ground, however high the jet is; less than nothing is a crossing. A fall goes on as fast as the jet flew, without drag. A glide goes any way from there, with the wind.",
    not_modelled: "People who walk about, cars that stop, a fall with a wing still carrying. Law, association and club come before the buffer.",
};

pub(super) const OBSTACLE: Help = Help {
    title: "Obstacle",
    what: "Something tall: a tree, a mast, a barn, with its height.",
    how: "It is kept by distance beside it or by height over it, whichever leaves more.",
    not_modelled: "Branches that grow, wires between masts unless you draw them, and the air behind it.",
};

pub(super) const FLIGHT_LINE: Help = Help {
    title: "Flight line",
    what: "The line that the jet must stay in front of; behind it are people.",
    how: "It goes on straight beyond both of its ends. The margin is the least distance in front of it.",
    not_modelled: "Other flyers in front of the line.",
};

pub(super) const DATUM: Help = Help {
    title: "Datum",
    what: "The point of the survey from which all metres are counted, east and north. A peg that stays is best.",
    how: "Its latitude and longitude tie the drawing to the earth. Moving it moves the whole field.",
    not_modelled: "The error of its position: a phone is some metres off.",
};

pub(super) const MAGNETIC_DECLINATION: Help = Help {
    title: "Magnetic declination",
    what: "How far a compass points off true north here: east is positive, west negative. It stands on good maps, with its yearly change.",
    how: "Where it is entered, each bearing is also told as a compass reads it: true less declination. Every answer stays in true bearings.",
    not_modelled: "Its change over the years, and iron near the compass.",
};

pub(super) const PILOT: Help = Help {
    title: "Pilot position",
    what: "Where the pilot and the spotter stand.",
    how: "How far one sees and how small the jet looks is measured from here. Whoever stands within 3 m of it counts as people.",
    not_modelled: "People who walk about.",
};

pub(super) const HOME: Help = Help {
    title: "Home",
    what: "The position that the jet captured as its home. Heights are counted from its ground.",
    how: "You set where it should be captured. Trials shift the circle by the error of that capture.",
    not_modelled: "A home captured in the wrong place, or again in the air. Check it before take-off.",
};

pub(super) const CENTRE: Help = Help {
    title: "Circle centre",
    what: "The middle of the circle, about which the jet flies. It need not be home: a circle over the car park helps nobody.",
    how: "You set it; without one it is home.",
    not_modelled: "Devices that can only circle about home. If yours is one, leave it there.",
};

pub(super) const GROUND: Help = Help {
    title: "Ground heights",
    what: "Heights of the ground at some places. On a hill the jet may be far higher over the slope than over home.",
    how: "Between the places the ground is flat triangles; without any it is level. Height limit and clearance are measured over it.",
    not_modelled: "Bumps between the places, crops and hedges. Draw what is tall as an obstacle.",
};

pub(super) const CIRCUIT: Help = Help {
    title: "Circuit",
    what: "Where the jet is really flown: a closed line with its way round, or an area. Nobody knows where the video will fail, but it will be here.",
    how: "Each trial draws place, heading, height, airspeed, bank of the turn and charge from it. The spread to the side is one standard deviation. The plan as entered keeps its one loss.",
    not_modelled: "Aerobatics, take-off and landing, unless they are drawn too; and a day on which you fly elsewhere.",
};
