//! One binary for every test that looks at the program from outside: each more would link the window again.

#![allow(
    clippy::unwrap_used,
    clippy::cast_possible_truncation,
    clippy::print_stderr,
    reason = "a test may panic and may talk; the helpers of tests are tests too"
)]

#[cfg(feature = "app")]
mod board_circle;
#[cfg(feature = "app")]
mod board_circle_pictures;
mod commands;
mod commands_studies;
mod doors;
mod doors_faults;
mod doors_geojson;
mod formats;
mod handbook;
mod house_rules;
mod lessons;
mod mutations;
#[cfg(feature = "app")]
mod panels;
#[cfg(feature = "app")]
mod pictures;
mod study;
mod study_map;
mod support;
mod verify;
