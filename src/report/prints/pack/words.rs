//! The standing sentences of the pack: method, limits of the answer, what the sums are checked against, and the steps in
//! sight.

/// The method, a paragraph each.
pub(super) const METHOD: [(&str, &str); 7] = [
    (
        "What is reckoned",
        "One loss, at the place, height, speed and heading written here: where the jet goes until a person has it back, \
         and how near it comes to every limit. The studies repeat that for other circles, winds and losses.",
    ),
    (
        "Jet",
        "A point with mass in three dimensions that turns by banking. Bank follows its command with a lag and no faster \
         than the roll rate; the wing carries no more than at the stall; drag grows with lift; thrust falls with speed; \
         every watt comes out of the pack.",
    ),
    (
        "Wind",
        "Alike over the field at one height, growing with height by the profile written here. A steady wind moves the \
         track and leaves the motion through the air as it is; what grows with height or comes in gusts changes the \
         airspeed. Trials fly through turbulence of the Dryden forms for low heights (MIL-F-8785C), carried along \
         with the mean wind.",
    ),
    (
        "Steering",
        "The autopilot knows a late and noisy position and never the true wind. One law of our own design stands for \
         many and is none in particular; two others, each soft, nominal and sharp, are flown beside it to show how much \
         hangs on the choice.",
    ),
    (
        "Margins",
        "What is left to a limit, at its least along the way flown, between the steps of the sum as well as at them, to \
         edges and not to corners, over the ground as it slopes. Clear: at least what was asked for. Inside the buffer: less than \
         that. Crossed: less than nothing. The gust wind is flown as if it blew all the time.",
    ),
    (
        "Draws",
        "Trial 0 draws nothing and is the plan as entered. In every other trial all uncertain numbers are drawn at once, \
         from a named generator (xoshiro256++) set by the seed and the number of the trial, so that anybody gets the same \
         draws again.",
    ),
    (
        "Counts",
        "A share is told as so many of so many, with Wilson's interval at the confidence named. It speaks of this model \
         with these inputs.",
    ),
];

/// For what the answer holds.
pub(super) const VALID: &str = "Valid for: this jet, in order and with the numbers listed; this field as surveyed; the \
                                loss, the plan and the limits listed; air over open ground; up to the review day, where one is set.";

/// For what it does not.
pub(super) const NOT_VALID: &str = "Not valid for: another jet, pack, setting or field; air behind trees, banks and \
                                    buildings, thermals, fronts; a part that fails besides the one named; losses in a \
                                    turn or a climb other than the one listed; the way in which a device of your own \
                                    steers, unless a logged circle agrees with it.";

/// What stands behind the word.
pub(super) const VERIFIED: &str = "Verified, not validated: the sums are compared with closed forms and published \
                                   figures. Whether the sky agrees only flown and logged circles \
                                   can show, and numbers once corrected by a log need another log to be tried against.";

/// What the step of the sum costs.
pub(super) const NUMERICAL: &str = "Numerical error, by cutting every step into ten, on every scenario that \
                                    ships: under 0.1 m on what any limit in metres leaves over, flown as \
                                    entered, in both winds; of trials, in winds up to 60 % of the return speed, under \
                                    0.02 m in half and under 0.1 m in 95 %. A few differ by metres, and in more wind the \
                                    way over the ground multiplies any difference: nothing is promised of a single \
                                    trial.";

/// What the sums are held against.
pub(super) const CHECKED: &str = "The command peewit verify holds the sums of this program, on the machine that it runs on, \
                                  against closed forms (circle, bank and lap in a wind, trochoid, drift, glide, energy), \
                                  against published figures (smallest radius of the procedure manual of instrument flight, \
                                  a table of shortest paths, the Dryden forms of MIL-F-8785C, Wilson's intervals, positions \
                                  of the sun by the Jet Propulsion Laboratory, its rise and set by the Naval Observatory), \
                                  against the work done over whole recoveries, against the same flights turned, in a mirror, \
                                  in finer steps and on other numbers of threads, and against fresh draws, recoveries and \
                                  logs. Before a version goes out its tests hold it against other libraries as well, and \
                                  against an integration written from the equations alone. None of that is a flight: nothing \
                                  here compares it with another program's tracks, or with a logged circle of this jet.";

/// Where no run of these checks was handed in.
pub(super) const NOT_RUN: &str = "These checks were not run for this pack. To put them here: in the window, Check this program, \
                                  which stands beside the pack; at the keyboard, peewit verify --out checks.json, then \
                                  peewit card with --print pack and --checks checks.json.";

/// What goes before the steps in sight.
pub(super) const LADDER_LEAD: &str = "Each step after the one before it has passed, with a spotter, nobody else in the \
                                      air, and a finger on the switch that ends it. After any change of weight, power, \
                                      settings or software: from the beginning. Steps 1 to 5 are for a plan that returns.";

/// The steps in sight, from the ground up.
pub(super) const LADDER: [&str; 8] = [
    "On the ground, held down, fan made harmless: switch the transmitter off. The motor does what the failsafe action says, after the failsafe delay written here.",
    "Return by switch, overhead, high, in light wind, with control of it and eyes on it all the time. It turns the right way and can be stopped at once.",
    "Return by switch from 100 m upwind, then from both sides across the wind, then from downwind. It joins without leaving the ground allowed.",
    "Three laps left alone, logged. Radius, furthest distance from the centre, lap time and wind are compared with this pack; numbers of the jet are corrected where they differ.",
    "The same in a wind 2 m/s under the wind limit of the card, where it has one.",
    "Goggles covered: the spotter calls, the pilot finds it, takes over and lands. Each stage is timed; the take-over time here becomes the one measured.",
    "Transmitter off in flight: only where association and club permit it, with nobody else in the air, and all the above passed.",
    "A second person has watched, has read this pack, and signs.",
];
