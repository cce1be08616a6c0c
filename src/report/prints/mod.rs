//! What leaves the laptop: the card for the flight line, the poster, the pack for a committee, the sheet for today, the
//! spotter's phrases, and the briefing for those who are new to it.
//!
//! Every print is a pure function of a [`Plan`](crate::brief::Plan): no clock, no machine. What they tell is worked out in
//! `brief` and worded in `words`, once.

#[cfg(test)]
mod agree;
#[cfg(test)]
mod answers;
mod card;
mod class;
mod debrief;
mod key;
mod lesson;
mod pack;
mod paper;
mod phrases;
mod plot;
mod poster;
mod print;
mod stopped;
#[cfg(test)]
mod tests;
mod today;
mod told;

pub(super) use print::DOTS_AN_INCH;
pub use print::Print;
