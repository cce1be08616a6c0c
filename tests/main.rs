//! One binary for every test that looks at the program from outside: each more would link the window again.

#![allow(
    clippy::unwrap_used,
    clippy::cast_possible_truncation,
    clippy::print_stderr,
    reason = "a test may panic and may talk; the helpers of tests are tests too"
)]

#[cfg(feature = "app")]
mod board_brief;
#[cfg(feature = "app")]
mod board_brief_checks;
#[cfg(feature = "app")]
mod board_brief_pictures;
#[cfg(feature = "app")]
mod board_circle;
#[cfg(feature = "app")]
mod board_circle_answer;
#[cfg(feature = "app")]
mod board_circle_pictures;
#[cfg(feature = "app")]
mod board_debrief;
#[cfg(feature = "app")]
mod board_field;
#[cfg(feature = "app")]
mod board_losses;
#[cfg(feature = "app")]
mod board_rehearse;
mod commands;
mod commands_prints;
mod commands_rehearse;
mod commands_studies;
mod commands_verify;
#[cfg(feature = "app")]
mod compare;
mod debrief;
mod debrief_loop;
mod debrief_steer;
mod doors;
mod doors_faults;
mod doors_geojson;
#[cfg(feature = "app")]
mod field_circuit;
#[cfg(feature = "app")]
mod field_sheets;
mod formats;
#[cfg(feature = "app")]
mod front;
mod handbook;
mod hostile;
mod house_rules;
mod import;
mod import_faults;
mod lessons;
mod mutations;
#[cfg(feature = "app")]
mod new_user;
mod outside;
#[cfg(feature = "app")]
mod panels;
#[cfg(feature = "app")]
mod pictures;
#[cfg(feature = "app")]
mod pictures_field;
#[cfg(feature = "app")]
mod random_presses;
mod rehearsal;
mod study;
mod study_map;
mod support;
mod verify;
