//! The field, true to scale, with the flight over it: layers that any board may show.
//!
//! Each takes what it draws as an argument, and none asks which board is open. The ground is one bevy mesh under the
//! panels; whatever moves or carries words is painted over it by egui through the same [`Lens`](super::look::lens::Lens), so
//! that words stay crisp and the two never part.

pub mod circuit;
pub mod envelope;
pub mod flight;
pub mod flying;
pub mod furniture;
pub mod ground;
pub mod jet;
pub mod keep_inside;
pub mod marks;
pub mod pan;
pub mod places;
pub mod plain;
pub mod sketch;
