//! Where in a track is a recovery, and where do its stretches begin?

use std::ops::Range;

/// The moments of one recovery: numbers of samples of a track.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Marks {
    /// The first sample in the air; none where the log begins there.
    pub take_off: Option<usize>,
    /// The loss, or the switch.
    pub lost: usize,
    /// Where it has begun to turn home; none where it never did.
    pub turned_home: Option<usize>,
    /// Where it joins the circle.
    pub joined: Option<usize>,
    /// Where it is on the circle: from the first sample on it to the last.
    pub circling: Option<Range<usize>>,
    /// Where somebody has it again, or the end of the log.
    pub taken_over: usize,
    /// Where it is on the ground again.
    pub landed: Option<usize>,
}
