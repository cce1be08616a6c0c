//! Rehearsals from outside: recordings flown through the whole drill, handling against the numbers of the sheet.

mod handling;
pub(crate) mod pilot;
mod scored;
