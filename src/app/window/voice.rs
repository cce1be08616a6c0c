//! What the spotter says, spoken by the voice of the system where it has one. Every line is on the screen as well.

use std::process::{Child, Command, Stdio};

use bevy::prelude::*;

use super::Held;
use crate::app::session::Session;

/// The programs that speak, with what comes before the words: the first that is there does.
const VOICES: [(&str, &[&str]); 4] = [("spd-say", &["--wait"]), ("say", &[]), ("espeak-ng", &[]), ("espeak", &[])];

/// Who speaks at the moment.
#[derive(Resource, Default)]
struct Voice {
    speaking: Option<Child>,
    /// There is none: nothing is tried again.
    none: bool,
}

pub(super) fn plugin(app: &mut App) {
    app.init_resource::<Voice>();
    app.add_systems(Update, speak.after(super::AppSystems::Step));
}

/// Speaks the last line that is to be said, once the one before is over: an older one is of no use any more.
fn speak(mut session: ResMut<Held<Session>>, mut voice: ResMut<Voice>) {
    if session.rehearse.to_say.is_empty() {
        return;
    }
    if let Some(speaking) = &mut voice.speaking
        && matches!(speaking.try_wait(), Ok(None))
    {
        return;
    }
    voice.speaking = None;
    let line = session.rehearse.to_say.pop().unwrap_or_default();
    session.rehearse.to_say.clear();
    if !voice.none {
        voice.speaking = VOICES.iter().find_map(|(program, before)| spoken(program, before, &line));
        voice.none = voice.speaking.is_none();
    }
}

/// A line spoken by a program; none where there is no such program. The words are an argument, never a command.
fn spoken(program: &str, before: &[&str], line: &str) -> Option<Child> {
    let quiet = Stdio::null;
    let mut command = Command::new(program);
    command.args(before).arg(line).stdin(quiet()).stdout(quiet()).stderr(quiet());
    command.spawn().ok()
}
