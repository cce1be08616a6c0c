//! One binary for every test that looks at the program from outside: each more would link the window again.

#![allow(clippy::unwrap_used, clippy::print_stderr, reason = "the helpers of tests are tests too")]

mod commands;
mod formats;
mod house_rules;
