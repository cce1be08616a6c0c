//! The exercises that there are, one after the other: what each is, what is new in it, what a good run looks like.

use serde_json::json;

use crate::rehearsal::ladder;
use crate::report::json::written;
use crate::report::layout::paragraph;
use crate::report::text::foot;
use crate::words::{Units, cautions, rehearsal as words};
use crate::{Result, VERSION};

/// The ladder in words.
pub fn ladder_text() -> String {
    let rungs = ladder().into_iter().map(|rung| {
        let told = words::exercise(&rung.exercise, &Units::default());
        format!("{}\n", rung.exercise.name)
            + &paragraph("  what        ", &told)
            + &paragraph("  new in it   ", rung.new)
            + &paragraph("  a good run  ", rung.good)
            + "\n"
    });
    format!("Peewit {VERSION}: what is rehearsed, one step after the other\n\n{}{}", rungs.collect::<String>(), foot())
}

/// The ladder for other programs.
///
/// # Errors
///
/// Where it can't be written as JSON.
pub fn ladder_json() -> Result<String> {
    let rungs = ladder().into_iter().map(|rung| {
        let told = words::exercise(&rung.exercise, &Units::default());
        json!({ "exercise": rung.exercise, "told": told, "new": rung.new, "good": rung.good })
    });
    written(&json!({
        "report": "rehearsal-ladder",
        "peewit_version": VERSION,
        "exercises": rungs.collect::<Vec<_>>(),
        "cautions": cautions::ALL,
    }))
}
