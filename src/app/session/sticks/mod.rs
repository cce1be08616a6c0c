//! What is a person flying a rehearsal by hand doing with the sticks: with the keyboard, with the mouse, or with a gamepad
//! or transmitter that is plugged in. Nothing here knows where its samples come from.

mod desk;
mod finding;
mod keys;
mod map;
mod mode;
mod raw;

pub use desk::{StickCommand, StickDesk, Way};
pub use finding::{Asked, Finding};
pub use keys::{Keys, KeysHeld};
pub use map::{AxisMap, StickMap, SwitchMap};
pub use mode::{Function, StickMode};
pub use raw::RawSticks;
