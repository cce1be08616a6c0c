//! One binary for every test that looks at the program from outside: each more would link the window again.

mod commands;
mod formats;
mod house_rules;
#[cfg(feature = "app")]
mod panels;
#[cfg(feature = "app")]
mod pictures;
