//! What leaves the laptop: the card for the flight line, the poster, the pack for a committee, the sheet for today, the
//! spotter's phrases, and the briefing for those who are new to it.
//!
//! Every print is a pure function of a [`Plan`]: no clock, no machine. What is told on more than one of them is worked out
//! in `facts` and worded in `words`, once.

#[cfg(test)]
mod answers;
mod card;
mod cues;
mod facts;
mod gates;
mod key;
mod lesson;
mod pack;
mod paper;
mod phrases;
mod plan;
mod plot;
mod poster;
mod print;
#[cfg(test)]
mod tests;
mod today;
mod told;
mod words;

pub use facts::{Ceilings, Facts};
pub use gates::{Gate, Said};
pub use lesson::{Live, Step};
pub use plan::{Plan, Studies};
pub use print::Print;
pub use words::{LossBox, Phrase, capital};
