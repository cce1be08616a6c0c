#![doc = include_str!("../README.md")]

pub mod brief;
pub mod debrief;
pub mod draw;
pub mod error;
pub mod field;
pub mod geometry;
pub mod jet;
pub mod lane;
pub mod log;
pub mod margins;
pub mod recovery;
pub mod rehearsal;
pub mod report;
pub mod run;
pub mod study;
pub mod sun;
pub mod units;
pub mod verify;
pub mod wind;
pub mod words;

#[cfg(feature = "app")]
pub mod app;
pub mod cli;

pub use error::{Error, Result};

/// This program's version.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");
