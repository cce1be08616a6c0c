//! One binary for every test that looks at the program from outside: each more would link the window again.

mod commands;
mod formats;
mod handbook;
mod house_rules;
mod support;
mod verify;
