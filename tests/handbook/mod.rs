//! Numbers from outside, each with its source beside it, against what the program computes.
//!
//! "Read there": the figure stands in the publication named. "As quoted": it stands in a second text that quotes the
//! publication. "Value from memory": not found in print. "Closed form": worked out by hand. "Common practice, no source":
//! a fact of the trade.

mod guidance;
mod paths;
mod reach;
mod ring;
mod statistics;
mod trade;
mod turbulence;
mod turn;
mod wind;
