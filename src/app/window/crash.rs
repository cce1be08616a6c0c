//! Did the window crash, or could it not be opened at all? And with what words?

use std::panic::{self, AssertUnwindSafe, PanicHookInfo, catch_unwind};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use bevy::prelude::*;

/// Why the window is gone without anybody having closed it.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Crash {
    /// It never was on the screen: the windowing and graphics libraries give up by panicking, for example where the
    /// display refuses the connection.
    Start,
    /// It was, and a panic ended it: what was said, and where in the source.
    Open(String),
}

/// Whether a frame has been drawn.
#[derive(Debug, Clone, Default, Resource)]
pub(super) struct Opened(Arc<AtomicBool>);

/// Notes that a frame has been drawn.
pub(super) fn opened(opened: Res<Opened>) {
    opened.0.store(true, Ordering::Relaxed);
}

/// Runs a window. The first panic of any thread is taken down, since those that follow from it say less. What the window
/// owns is dropped on the way out, and with it the thread that keeps the draft, once that is on the disk.
pub(super) fn caught<T>(window: impl FnOnce(Opened) -> T) -> Result<T, Crash> {
    let opened = Opened::default();
    let said = Arc::new(Mutex::new(None));
    let before = panic::take_hook();
    let first = Arc::clone(&said);
    panic::set_hook(Box::new(move |info| {
        first.lock().unwrap_or_else(PoisonError::into_inner).get_or_insert_with(|| panic_text(info));
    }));
    let end = catch_unwind(AssertUnwindSafe(|| window(opened.clone())));
    panic::set_hook(before);
    end.map_err(|_| {
        let said = said.lock().unwrap_or_else(PoisonError::into_inner).take();
        match opened.0.load(Ordering::Relaxed) {
            true => Crash::Open(said.unwrap_or_else(|| "nothing was said".into())),
            false => Crash::Start,
        }
    })
}

fn panic_text(info: &PanicHookInfo<'_>) -> String {
    let what = info.payload_as_str().unwrap_or("nothing was said");
    info.location().map_or_else(|| what.into(), |place| format!("{what} ({}:{})", place.file(), place.line()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crash_says_what_it_was_and_a_window_that_never_opened_is_none() {
        // One test, as the hook is the whole program's.
        assert_eq!(caught(|_| 7), Ok(7));
        assert_eq!(caught(|_| panic!("no display")), Err::<(), _>(Crash::Start));
        let crash = caught(|opened| {
            opened.0.store(true, Ordering::Relaxed);
            panic!("least above most");
        });
        let Err::<(), _>(Crash::Open(said)) = crash else { panic!("{crash:?}") };
        assert!(said.starts_with("least above most (") && said.contains("crash.rs:"), "{said}");
    }
}
