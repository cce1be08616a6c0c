//! What do many runs say together: how sure is a share, how wide is a spread, when has enough been flown?

pub mod stats;
pub mod work;
