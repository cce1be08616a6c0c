//! Plain words beside each number: what it is, how it is found, and what is not in it.

mod brief;
mod circle;
mod debrief;
mod field;
mod glossary;
mod jet;
mod margins;
mod rehearsal;
mod studies;
mod wind;

#[cfg(test)]
mod tests;

pub use glossary::glossary;

/// The words beside one number or one thing to set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Help {
    /// What it is called.
    pub title: &'static str,
    /// What it is.
    pub what: &'static str,
    /// How it is found, or what it does.
    pub how: &'static str,
    /// What is not in it.
    pub not_modelled: &'static str,
}

macro_rules! topics {
    ($($(#[$doc:meta])* $name:ident = $help:path;)+) => {
        /// What there are plain words for.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Topic {
            $($(#[$doc])* $name,)+
        }

        impl Topic {
            /// Every topic, those of a kind together.
            pub const ALL: &'static [Self] = &[$(Self::$name,)+];
        }

        /// The plain words.
        pub fn help(topic: Topic) -> &'static Help {
            match topic {
                $(Topic::$name => &$help,)+
            }
        }
    };
}

topics! {
    /// Commanded radius.
    CircleRadius = circle::RADIUS;
    /// Commanded height.
    CircleHeight = circle::HEIGHT;
    /// Airspeed of the return.
    ReturnSpeed = circle::RETURN_SPEED;
    /// Least radius the maximum bank holds.
    SmallestRadius = circle::SMALLEST_RADIUS;
    /// Furthest distance from the centre against radius.
    UCurve = circle::U_CURVE;
    /// Furthest distance from the centre.
    Furthest = circle::FURTHEST;
    /// How far outside the ring joining goes.
    JoiningOvershoot = circle::JOINING_OVERSHOOT;
    /// How far beyond the loss the jet goes.
    TurnBack = circle::TURN_BACK;
    /// Time of a lap.
    Lap = circle::LAP;
    /// Steepest bank.
    MaximumBank = circle::MAXIMUM_BANK;
    /// Airspeeds that hold the radius.
    SpeedWindow = circle::SPEED_WINDOW;
    /// Mean wind as measured.
    WindSpeed = wind::SPEED;
    /// Direction of the wind.
    WindFrom = wind::FROM;
    /// Speed in the gusts.
    Gust = wind::GUST;
    /// Wind at circle height.
    WindAtHeight = wind::AT_HEIGHT;
    /// Most wind that the circle holds in.
    WindLimit = wind::WIND_LIMIT;
    /// Strength of the thermals.
    Thermals = wind::THERMALS;
    /// How dense the air is.
    Air = wind::AIR;
    /// A pasted report.
    Metar = wind::METAR;
    /// Wind by flags and trees.
    Beaufort = wind::BEAUFORT;
    /// Wind by the sock.
    Windsock = wind::WINDSOCK;
    /// The table of margins.
    Margins = margins::MARGINS;
    /// What is left.
    Margin = margins::MARGIN;
    /// What is asked to be left.
    Buffer = margins::BUFFER;
    /// Highest height.
    HeightLimit = margins::HEIGHT_LIMIT;
    /// Speed over the stall.
    StallMargin = margins::STALL;
    /// The speed held over seconds.
    SpeedHeld = margins::SPEED_HELD;
    /// Share of the trials that may cross a limit.
    CrossedAtMost = margins::CROSSED_AT_MOST;
    /// Share of them that has to keep the buffers.
    KeptAtLeast = margins::KEPT_AT_LEAST;
    /// Seconds from the loss to the circle.
    TimeHome = margins::TIME_HOME;
    /// Laps before the reserve.
    LapsToReserve = margins::LAPS_TO_RESERVE;
    /// What is never planned for.
    Reserve = margins::RESERVE;
    /// How far one sees.
    Visibility = margins::VISIBILITY;
    /// The sun behind the circle.
    SunGlare = margins::SUN_GLARE;
    /// Where what falls may land.
    FallsFromHere = margins::FALLS;
    /// Radii that meet every margin.
    UsableRadii = studies::USABLE_RADII;
    /// The room budget.
    RoomBudget = studies::ROOM_BUDGET;
    /// What would help.
    WhatWouldHelp = studies::WHAT_WOULD_HELP;
    /// The best centre.
    BestCentre = studies::BEST_CENTRE;
    /// Which input moves the answer.
    Sensitivity = studies::SENSITIVITY;
    /// Draws of the uncertain numbers.
    Trials = studies::TRIALS;
    /// So many of so many.
    Share = studies::SHARE;
    /// Where the drawn flights went.
    Envelope = studies::ENVELOPE;
    /// From where a loss is recovered.
    LossMap = studies::LOSS_MAP;
    /// Inside which line it is.
    KeepInside = studies::KEEP_INSIDE;
    /// From where the energy no longer reaches home.
    NoReturn = studies::NO_RETURN;
    /// The numbers of the airframe.
    JetSheet = jet::SHEET;
    /// Where a number came from.
    Origin = jet::ORIGIN;
    /// What the fan loses when it runs slowly.
    PartThrottle = jet::PART_THROTTLE;
    /// What the throttle holds.
    SpeedHold = jet::SPEED_HOLD;
    /// How the jet is guided.
    Guidance = jet::GUIDANCE;
    /// What it does about a loss.
    FailsafeAction = jet::FAILSAFE_ACTION;
    /// Who agreed to that.
    Authority = jet::AUTHORITY;
    /// Time until something acts.
    FailsafeDelay = jet::FAILSAFE_DELAY;
    /// Rules and who checked them.
    Rules = jet::RULES;
    /// What the whole model leaves out.
    Model = jet::MODEL;
    /// Until when a plan holds.
    ReviewDay = brief::REVIEW_DAY;
    /// Whom to call.
    Emergency = brief::EMERGENCY;
    /// Where to look for the jet.
    LookCue = brief::LOOK_CUE;
    /// Where to take over.
    TakeOverArc = brief::TAKE_OVER_ARC;
    /// The land.
    Boundary = field::BOUNDARY;
    /// Ground with a rule.
    Area = field::AREA;
    /// Where people are.
    People = field::PEOPLE;
    /// Tall things.
    Obstacle = field::OBSTACLE;
    /// The line of the other flyers.
    FlightLine = field::FLIGHT_LINE;
    /// Origin of the metres.
    Datum = field::DATUM;
    /// How far a compass points off true north.
    MagneticDeclination = field::MAGNETIC_DECLINATION;
    /// Where the jet is flown.
    Circuit = field::CIRCUIT;
    /// Where the pilot stands.
    Pilot = field::PILOT;
    /// What the jet took for home.
    Home = field::HOME;
    /// Centre of the circle.
    Centre = field::CENTRE;
    /// The ground's shape.
    GroundHeights = field::GROUND;
    /// Flying it by hand, losing it, taking it over.
    Rehearsal = rehearsal::REHEARSAL;
    /// What is rehearsed.
    Exercise = rehearsal::EXERCISE;
    /// How it went.
    RehearsalScore = rehearsal::REHEARSAL_SCORE;
    /// How the sticks reach the jet.
    Hands = rehearsal::HANDS;
    /// When each stage of the drill was done.
    DrillTimes = rehearsal::DRILL_TIMES;
    /// What was flown against what was said.
    Debrief = debrief::DEBRIEF;
    /// The wind that a ground track tells.
    WindFlown = debrief::WIND_FLOWN;
    /// Which law fits what was flown.
    SteeredBy = debrief::STEERED_BY;
}

impl Topic {
    /// The plain words.
    pub fn help(self) -> &'static Help {
        help(self)
    }
}
