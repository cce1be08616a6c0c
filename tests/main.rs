//! Everything that is tested from outside, in one program.

#![allow(clippy::unwrap_used, clippy::cast_possible_truncation, reason = "a test may panic")]

mod doors;
mod doors_faults;
mod doors_geojson;
mod mutations;
