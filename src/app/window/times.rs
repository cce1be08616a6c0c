//! How long it takes until a person sees the first picture: written to the file that `PEEWIT_TIMES` names.

use std::path::PathBuf;
use std::time::Instant;

use bevy::prelude::{Local, Res, Resource};

use super::frame::Shown;

/// Frames after the first picture was made until it is surely on the screen: it is drawn one frame later.
const SHOWN_AFTER: u32 = 2;

/// When the window was asked for, and where to write.
#[derive(Debug, Resource)]
pub(super) struct Times {
    asked: Instant,
    path: PathBuf,
}

impl Times {
    /// Starts the clock, where somebody wants to know.
    pub(super) fn start() -> Option<Self> {
        let path = std::env::var_os("PEEWIT_TIMES").filter(|path| !path.is_empty())?;
        #[allow(clippy::disallowed_methods, reason = "it is the start that is measured; no answer depends on it")]
        let asked = Instant::now();
        Some(Self { asked, path: path.into() })
    }
}

/// Writes the time of the first picture, once.
pub(super) fn note(times: Res<Times>, shown: Res<Shown>, mut frames: Local<u32>) {
    if !shown.any || *frames > SHOWN_AFTER {
        return;
    }
    *frames += 1;
    if *frames == SHOWN_AFTER {
        let text = format!("first picture after {} ms\n", times.asked.elapsed().as_millis());
        // Whoever measures sees a missing file.
        let _ = std::fs::write(&times.path, text);
    }
}
