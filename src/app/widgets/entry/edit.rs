//! From a value entered to an edit of the scenario, with words for taking it back.

use crate::app::session::{AppCommand, Change, View};
use crate::run::ScenarioFile;

/// Asks for an edit. `what` says what is done, such as "set the wing area"; edits of the same words that follow one another
/// without [`AppCommand::Settle`] are one step back.
pub fn change(
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    what: impl Into<String>,
    edit: impl FnOnce(&mut ScenarioFile),
) {
    let mut file = latest(view, out).clone();
    edit(&mut file);
    out.push(AppCommand::Edit(Box::new(Change { what: what.into(), file })));
}

/// Asks for an edit that a function makes of the scenario, with its own words; none, and nothing is asked.
pub fn edited(view: &View<'_>, out: &mut Vec<AppCommand>, edit: impl FnOnce(&ScenarioFile) -> Option<Change>) {
    let change = edit(latest(view, out));
    out.extend(change.map(|change| AppCommand::Edit(Box::new(change))));
}

/// The scenario with what was asked for in this frame: leaving one box by pressing a button is two edits, and the second
/// builds on the first.
fn latest<'a>(view: &View<'a>, out: &'a [AppCommand]) -> &'a ScenarioFile {
    let asked = out.iter().rev().find_map(|command| match command {
        AppCommand::Edit(change) => Some(&change.file),
        _ => None,
    });
    asked.unwrap_or_else(|| view.session.draft.file())
}

/// Asks for an edit that puts an entered value where it belongs; nothing was entered, nothing is asked.
pub fn set<T>(
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    what: &str,
    entered: Option<T>,
    edit: impl FnOnce(&mut ScenarioFile, T),
) {
    if let Some(value) = entered {
        change(view, out, format!("set the {what}"), |file| edit(file, value));
    }
}

/// The same for what is done by one press: it is a step of its own.
pub(super) fn press(out: &mut Vec<AppCommand>) {
    out.push(AppCommand::Settle);
}
