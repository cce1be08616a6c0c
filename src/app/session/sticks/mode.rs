//! Which stick has which function in each of the four stick modes?

use serde::{Deserialize, Serialize};

/// What an axis or a switch is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Function {
    /// Fan speed, from closed to full.
    Throttle,
    /// Nose up and down.
    Pitch,
    /// Left and right.
    Roll,
    /// The return is commanded.
    Switch,
}

impl Function {
    /// All of them, in the order in which they are asked for.
    pub const ALL: [Self; 4] = [Self::Throttle, Self::Pitch, Self::Roll, Self::Switch];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Throttle => "throttle",
            Self::Pitch => "pitch",
            Self::Roll => "roll",
            Self::Switch => "return switch",
        }
    }
}

/// Which hand has which function (trade knowledge). The fourth axis is yaw in each of them, which does nothing here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum StickMode {
    /// Pitch left; throttle and roll right.
    One,
    /// Throttle left; pitch and roll right.
    #[default]
    Two,
    /// Pitch and roll left; throttle right.
    Three,
    /// Throttle and roll left; pitch right.
    Four,
}

impl StickMode {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::One, Self::Two, Self::Three, Self::Four];

    /// Its number.
    pub const fn name(self) -> &'static str {
        match self {
            Self::One => "mode 1",
            Self::Two => "mode 2",
            Self::Three => "mode 3",
            Self::Four => "mode 4",
        }
    }

    /// What each hand has.
    pub const fn hands(self) -> &'static str {
        match self {
            Self::One => "left: pitch and yaw; right: throttle and roll",
            Self::Two => "left: throttle and yaw; right: pitch and roll",
            Self::Three => "left: pitch and roll; right: throttle and yaw",
            Self::Four => "left: throttle and roll; right: pitch and yaw",
        }
    }

    /// Axes for throttle, pitch and roll, by the names under which gamepads report their two sticks.
    pub const fn axes(self) -> [&'static str; 3] {
        let (left_x, left_y, right_x, right_y) = ("left stick x", "left stick y", "right stick x", "right stick y");
        match self {
            Self::One => [right_y, left_y, right_x],
            Self::Two => [left_y, right_y, right_x],
            Self::Three => [right_y, left_y, left_x],
            Self::Four => [left_y, right_y, left_x],
        }
    }
}
