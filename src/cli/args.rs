//! The words that may be typed.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser as _};
use clap::{Args, Parser, Subcommand};
use glam::DVec2;

use crate::recovery::Turn;
use crate::report::cautions::FOOT;
use crate::units::Length;

/// Where would the jet go, if its picture or its control link were lost here, now?
///
/// Without a command the window opens. Where there is no display, the recovery of that scenario is printed instead.
#[derive(Debug, Parser)]
#[command(name = "peewit", version, after_help = FOOT, args_conflicts_with_subcommands = true)]
pub(super) struct Typed {
    /// Scenario to open; the built-in one where left out
    pub(super) file: Option<PathBuf>,
    /// What to do instead of opening the window.
    #[command(subcommand)]
    pub(super) command: Option<Command>,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Says everything wrong with scenario files, and what was understood of those that can be used
    Check {
        /// Scenarios
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
    /// Flies one recovery and says how near it came to every limit
    Recover(RecoverArgs),
    /// Writes a scenario to start from
    New {
        /// Where to write it
        path: PathBuf,
        /// Replace a file that is there already
        #[arg(long)]
        force: bool,
    },
    /// Prints the JSON Schema of scenario files
    Schema,
}

/// What `recover` takes.
#[derive(Debug, Default, Args)]
pub(super) struct RecoverArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// Number of the case: 0 is the plan as written, any other a draw of the uncertain numbers
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub(super) case: u64,
    /// Fly in the gust speed all the time
    #[arg(long)]
    pub(super) gust: bool,
    /// Radius of the circle instead of the file's, such as "60 m"
    #[arg(long, value_name = "LENGTH")]
    pub(super) radius: Option<Length>,
    /// Centre of the circle instead of the file's: metres east and north of the datum, such as "0 -80"
    #[arg(long, value_name = "X Y", value_parser = place, allow_hyphen_values = true)]
    pub(super) hub: Option<DVec2>,
    /// Height of the circle above home instead of the file's, such as "200 ft"
    #[arg(long, value_name = "LENGTH")]
    pub(super) height: Option<Length>,
    /// Which way round instead of the file's
    #[arg(long, value_parser = PossibleValuesParser::new(["anticlockwise", "clockwise"]).map(turn))]
    pub(super) turn: Option<Turn>,
    /// Master seed of the draws instead of the file's
    #[arg(long, value_name = "N")]
    pub(super) seed: Option<u64>,
    /// Print JSON instead of text
    #[arg(long)]
    pub(super) json: bool,
    /// Write to a file as well; its ending decides: .txt .json .csv .geojson .gpx (may be given again)
    #[arg(long, value_name = "PATH")]
    pub(super) out: Vec<PathBuf>,
    /// Exit with code 3 where a margin is breached
    #[arg(long)]
    pub(super) strict: bool,
}

fn turn(name: String) -> Turn {
    if name == "clockwise" { Turn::Clockwise } else { Turn::Anticlockwise }
}

fn place(text: &str) -> Result<DVec2, String> {
    let numbers: Option<Vec<f64>> = text
        .split([' ', ',', ';'])
        .filter(|part| !part.is_empty() && *part != "m")
        .map(|part| part.trim_end_matches('m').parse().ok().filter(|number: &f64| number.is_finite()))
        .collect();
    match numbers.as_deref() {
        Some(&[x, y]) => Ok(DVec2::new(x, y)),
        _ => Err("write metres east and north of the datum, such as \"0 -80\"".into()),
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory as _;

    use super::*;

    #[test]
    fn the_table_of_commands_is_consistent() {
        Typed::command().debug_assert();
    }

    #[test]
    fn a_place_is_two_numbers_in_metres() {
        for text in ["0 -80", "0,-80", " 0 m, -80 m ", "0m -80m", "0.0;-80.0"] {
            assert_eq!(place(text), Ok(DVec2::new(0.0, -80.0)), "{text}");
        }
        for text in ["", "12", "1 2 3", "a b", "1 nan", "inf 0"] {
            assert!(place(text).unwrap_err().contains("such as"), "{text}");
        }
    }

    #[test]
    fn quantities_take_the_units_people_use() {
        let typed = Typed::try_parse_from(["peewit", "recover", "a.json", "--radius", "200 ft", "--hub", "-130 90"]);
        let Some(Command::Recover(args)) = typed.unwrap().command else { panic!("not recover") };
        assert_eq!(args.radius, Some("200 ft".parse().unwrap()));
        assert_eq!(args.hub, Some(DVec2::new(-130.0, 90.0)));
        let said = Typed::try_parse_from(["peewit", "recover", "a.json", "--radius", "60"]).unwrap_err().to_string();
        assert!(said.contains("no unit"), "{said}");
    }
}
