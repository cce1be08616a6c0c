//! One binary for every test that looks at the program from outside: each more would link the window again.

#![allow(clippy::unwrap_used, clippy::cast_possible_truncation, reason = "a test may panic")]

mod commands;
mod doors;
mod doors_faults;
mod doors_geojson;
mod formats;
mod house_rules;
mod mutations;
