//! `peewit [FILE]`: the window, or the recovery in words where there can be none.

use std::path::PathBuf;

use super::{Outcome, recover, say};
use crate::Result;
use crate::run::Scenario;

pub(super) fn open(path: Option<PathBuf>) -> Result<Outcome> {
    #[cfg(feature = "app")]
    let why = match display::missing() {
        None => match show(path.clone()) {
            Ok(()) => return Ok(Outcome::Done),
            Err(error) => error.to_string(),
        },
        Some(why) => why,
    };
    #[cfg(not(feature = "app"))]
    let why = "this build has none (it was made without the feature \"app\")";
    let (scenario, warnings) = match &path {
        Some(path) => Scenario::load(path)?,
        None => (Scenario::demo(), Vec::new()),
    };
    let name = path.map_or("the built-in scenario".into(), |path| path.display().to_string());
    say(&format!("No window: {why}. The recovery of {name}, in words:"));
    recover::plain(scenario, warnings)
}

#[cfg(feature = "app")]
fn show(path: Option<PathBuf>) -> Result<()> {
    use crate::Error;
    match path.as_deref().map(Scenario::load) {
        None => crate::app::open(Scenario::demo(), Vec::new(), None),
        Some(Ok((scenario, warnings))) => crate::app::open(scenario, warnings, path),
        Some(Err(Error::Input(input))) => crate::app::open_faulty(path, input.faults),
        Some(Err(error)) => Err(error),
    }
}

#[cfg(feature = "app")]
mod display {
    /// Why no window can open, in words; none where one should.
    #[cfg(not(target_os = "linux"))]
    pub(super) fn missing() -> Option<String> {
        None
    }

    /// Why no window can open, in words; none where one should. The windowing library would end the program instead.
    #[cfg(target_os = "linux")]
    pub(super) fn missing() -> Option<String> {
        let display = std::env::var("DISPLAY").unwrap_or_default();
        if display.is_empty() {
            return Some("there is no display (DISPLAY is not set)".into());
        }
        (!answers(&display)).then(|| format!("nothing answers at the display {display}"))
    }

    /// Whether an X server listens at a display such as ":0", ":0.1" or "desk:0".
    #[cfg(target_os = "linux")]
    fn answers(display: &str) -> bool {
        use std::net::TcpStream;
        use std::os::linux::net::SocketAddrExt as _;
        use std::os::unix::net::{SocketAddr, UnixStream};

        let Some((host, number)) = display.rsplit_once(':') else { return false };
        let Ok(number) = number.split('.').next().unwrap_or_default().parse::<u16>() else { return false };
        if host.is_empty() || host == "unix" {
            let socket = format!("/tmp/.X11-unix/X{number}");
            let hidden = SocketAddr::from_abstract_name(&socket).and_then(|at| UnixStream::connect_addr(&at));
            hidden.is_ok() || UnixStream::connect(socket).is_ok()
        } else {
            TcpStream::connect((host, 6000_u16.saturating_add(number))).is_ok()
        }
    }
}
