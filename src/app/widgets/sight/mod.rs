//! The two pictures of a rehearsal: what the pilot sees from where one stands, and what comes in from the jet's nose.

mod dark;
mod forward;
mod jet;
mod land;
mod names;
mod pane;
mod scene;
mod shades;
mod sky;
mod stand;
mod tall;
#[cfg(test)]
mod tests;

pub use forward::forward;
pub use scene::{Dark, Looking, Scene, sun_over};
pub use stand::{StandPicture, direction, pos, stand};
