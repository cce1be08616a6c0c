//! Every integration test, in one binary, since each binary more would link bevy once more.

#[cfg(feature = "app")]
mod pictures;
