//! The words that may be typed.

use std::path::PathBuf;

use clap::builder::{PossibleValuesParser, TypedValueParser as _};
use clap::{Args, Parser, Subcommand, value_parser};

use super::common::{Change, Effort, Output, day};
use super::series::{Series, series};
use super::sign::SignArgs;
use crate::report::prints::Print;
use crate::run::{AirframeClass, LOSS_HEIGHTS_M, LOSS_SPEEDS_MPS, RADII_M, airframe_classes};
use crate::units::{Length, Mass, Speed};
use crate::words::cautions::FOOT;

/// Where would the jet go, if its video or its control link were lost here, now?
///
/// Without a command the window opens. Where there is no display, the radius study of that scenario is printed
/// instead.
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
        /// Print JSON for other programs: what is wrong with each file, and what its jet amounts to
        #[arg(long)]
        json: bool,
    },
    /// Flies one recovery and says how near it came to every limit, and in how many trials the plan holds. With --strict: 3
    /// where a limit is crossed, or the trials do not say yes
    Recover(RecoverArgs),
    /// Which radius, which way round. With --strict: 3 unless the trials of the plan's circle say yes
    Radius(RadiusArgs),
    /// Up to what wind the plan's circle holds, by direction. With --strict: 3 unless it holds in the file's wind
    WindLimit(WindLimitArgs),
    /// From where a loss is recovered. With --strict: 3 where any flight from the cell of the plan's loss is not
    Losses(LossArgs),
    /// What goes out on paper: field card, poster, committee pack and more. With --strict: 3 where the card has an alarm
    Card(CardArgs),
    /// Plays rehearsals that were flown in the window and scores them: of one how it went, of several the table of the class.
    /// With --strict: 3 where one of them failed
    Rehearse(RehearseArgs),
    /// Holds logs of flown recoveries against the plan: wind, airspeed, what steers it, and what of the jet they correct. With
    /// --strict: 3 where no recovery is found, or one leaves the ring that should hold 90 %
    Debrief(DebriefArgs),
    /// Puts a name under the plan as it is now; any change of the plan lets it lapse
    Sign(SignArgs),
    /// Checks the program by itself, on this machine: closed forms, published figures, energy, frames, steps, threads and fresh
    /// cases, in a table. Some seconds. Exit code 3 where a check does not hold, or it was stopped
    Verify(VerifyArgs),
    /// Writes a scenario to start from
    New {
        /// Where to write it
        path: PathBuf,
        /// Class of the jet; its numbers are invented, and nobody has measured them
        #[arg(long, value_name = "CLASS", default_value = AirframeClass::usual().name, value_parser = PossibleValuesParser::new(airframe_classes().iter().map(|class| class.name)).map(class))]
        jet: &'static AirframeClass,
        /// Flying mass of the jet, such as "4 kg"; that of the class where left out. What goes with the mass is scaled
        #[arg(long, value_name = "MASS")]
        mass: Option<Mass>,
        /// Replace a file that is there already
        #[arg(long)]
        force: bool,
    },
    /// Prints the JSON Schema of scenario files
    Schema,
    /// Says all that has to be borne in mind before any of this is relied on
    Cautions,
}

/// What `recover` takes.
#[derive(Debug, Default, Args)]
pub(super) struct RecoverArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// Number of the trial: 0 is the plan as entered, any other a draw of the uncertain numbers
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub(super) trial: u64,
    /// Fly in the gust speed all the time
    #[arg(long)]
    pub(super) gust: bool,
    /// Most trials of the plan, everything uncertain drawn: what the one run is worth. 0 asks for none
    #[arg(long, value_name = "N", default_value_t = 2048, value_parser = value_parser!(u64).range(0..=MOST_TRIALS))]
    pub(super) trials: u64,
    #[command(flatten)]
    pub(super) effort: Effort,
    #[command(flatten)]
    pub(super) change: Change,
    #[command(flatten)]
    pub(super) output: Output,
}

/// What `radius` takes.
#[derive(Debug, Default, Args)]
pub(super) struct RadiusArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// Radii to fly: "60 m, 80 m", or "40 m..260 m step 10 m", which is also what is flown where left out
    #[arg(long, value_name = "LENGTHS", value_parser = |text: &str| series::<Length>(text, RADII_M))]
    pub(super) radii: Option<Series>,
    /// Most trials a radius and way round; where fewer decide, no more are flown
    #[arg(long, value_name = "N", value_parser = value_parser!(u64).range(1..=MOST_TRIALS))]
    pub(super) trials: Option<u64>,
    #[command(flatten)]
    pub(super) effort: Effort,
    #[command(flatten)]
    pub(super) change: Change,
    #[command(flatten)]
    pub(super) output: Output,
}

/// What `wind-limit` takes.
#[derive(Debug, Default, Args)]
pub(super) struct WindLimitArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// Directions of the wind, the first from north
    #[arg(long, value_name = "N", value_parser = value_parser!(u32).range(1..=360))]
    pub(super) directions: Option<u32>,
    /// Most trials a wind; where fewer decide, no more are flown
    #[arg(long, value_name = "N", value_parser = value_parser!(u64).range(1..=MOST_TRIALS))]
    pub(super) trials: Option<u64>,
    #[command(flatten)]
    pub(super) effort: Effort,
    #[command(flatten)]
    pub(super) change: Change,
    #[command(flatten)]
    pub(super) output: Output,
}

/// What `losses` takes.
#[derive(Debug, Default, Args)]
pub(super) struct LossArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// Cells along the longer side of the boundary
    #[arg(long, value_name = "N", value_parser = value_parser!(u32).range(1..=500))]
    pub(super) cells: Option<u32>,
    /// Headings, the first north
    #[arg(long, value_name = "N", value_parser = value_parser!(u32).range(1..=72))]
    pub(super) headings: Option<u32>,
    /// Heights of the loss above home, such as "40 m, 70 m"; the file's where left out
    #[arg(long, value_name = "LENGTHS", value_parser = |text: &str| series::<Length>(text, LOSS_HEIGHTS_M))]
    pub(super) heights: Option<Series>,
    /// Airspeeds at the loss, such as "22 m/s, 40 m/s"; the file's where left out
    #[arg(long, value_name = "SPEEDS", value_parser = |text: &str| series::<Speed>(text, LOSS_SPEEDS_MPS))]
    pub(super) speeds: Option<Series>,
    /// Most trials a cell and heading, flown only where the answer is uncertain; 0 flies only the plan as entered
    #[arg(long, value_name = "N", value_parser = value_parser!(u64).range(0..=MOST_TRIALS))]
    pub(super) trials: Option<u64>,
    #[command(flatten)]
    pub(super) effort: Effort,
    #[command(flatten)]
    pub(super) change: Change,
    #[command(flatten)]
    pub(super) output: Output,
}

/// What `card` takes.
#[derive(Debug, Default, Args)]
pub(super) struct CardArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// What to print to the files of --out; on the screen stands what the field card says
    #[arg(long, value_name = "NAME", default_value = "card", value_parser = PossibleValuesParser::new(Print::ALL.map(Print::name)).map(print))]
    pub(super) print: Print,
    /// Page of a print of several pages that .svg and .png show
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = value_parser!(u32).range(1..=999))]
    pub(super) page: u32,
    /// Folder to write every print to, as PDF; it is made where it is not there
    #[arg(long, value_name = "FOLDER")]
    pub(super) into: Option<PathBuf>,
    /// Day of the print, such as 2026-04-18; today (by UTC) where left out. A plan past its review day prints DO NOT FLY
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub(super) on: Option<String>,
    /// What `peewit verify --out checks.json` has written, for the committee pack
    #[arg(long, value_name = "PATH")]
    pub(super) checks: Option<PathBuf>,
    /// Most trials a circle and a wind
    #[arg(long, value_name = "N", value_parser = value_parser!(u64).range(1..=MOST_TRIALS))]
    pub(super) trials: Option<u64>,
    #[command(flatten)]
    pub(super) effort: Effort,
    #[command(flatten)]
    pub(super) change: Change,
    #[command(flatten)]
    pub(super) output: Output,
}

/// What `rehearse` takes.
#[derive(Debug, Default, Args)]
pub(super) struct RehearseArgs {
    /// Scenario that was flown on
    #[arg(required_unless_present = "list")]
    pub(super) file: Option<PathBuf>,
    /// Recordings that the window has kept, one a flight
    #[arg(long, value_name = "RECORDED", num_args = 1.., conflicts_with = "list")]
    pub(super) inputs: Vec<PathBuf>,
    /// Say which exercises there are, what is new in each and what a good run looks like
    #[arg(long, conflicts_with_all = ["out", "strict"])]
    pub(super) list: bool,
    /// Page that .svg and .png show of the table of a class
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = value_parser!(u32).range(1..=999))]
    pub(super) page: u32,
    #[command(flatten)]
    pub(super) output: Output,
}

/// What `debrief` takes.
#[derive(Debug, Default, Args)]
pub(super) struct DebriefArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// Logs: GPX, CSV, NMEA 0183 or IGC; a folder stands for all in it
    #[arg(required = true, value_name = "LOG")]
    pub(super) logs: Vec<PathBuf>,
    /// What the columns of a CSV file are, as JSON, where they can't be guessed from its head
    #[arg(long, value_name = "PATH")]
    pub(super) columns: Option<PathBuf>,
    /// Leave out of everything that is written where it was flown
    #[arg(long)]
    pub(super) no_places: bool,
    /// Write the plan with what the logs correct, measured, to another scenario file
    #[arg(long, value_name = "PATH")]
    pub(super) correct: Option<PathBuf>,
    #[command(flatten)]
    pub(super) output: Output,
}

/// What `verify` takes.
#[derive(Debug, Default, Args)]
pub(super) struct VerifyArgs {
    /// Seed of the fresh cases; from the clock where left out, and told in the table
    #[arg(long, value_name = "N")]
    pub(super) seed: Option<u64>,
    /// A tenth of the fresh cases; all the other checks are the same
    #[arg(long)]
    pub(super) quick: bool,
    /// Threads to work with; as many as the processor has where left out
    #[arg(long, value_name = "N", value_parser = value_parser!(u32).range(1..=1024))]
    pub(super) threads: Option<u32>,
    /// Print JSON instead of text
    #[arg(long)]
    pub(super) json: bool,
    /// Write to a file as well; its ending decides: .txt .json (may be given again)
    #[arg(long, value_name = "PATH")]
    pub(super) out: Vec<PathBuf>,
    /// Replace files that are there already, whatever they are; what Peewit has written itself is replaced without
    #[arg(long)]
    pub(super) force: bool,
}

/// Most trials that may be asked for: more takes days.
const MOST_TRIALS: u64 = 1_000_000;

fn class(name: String) -> &'static AirframeClass {
    airframe_classes().iter().find(|class| class.name == name).unwrap_or(AirframeClass::usual())
}

fn print(name: String) -> Print {
    Print::ALL.into_iter().find(|print| print.name() == name).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory as _;
    use glam::DVec2;

    use super::*;
    use crate::recovery::Turn;

    #[test]
    fn the_table_of_commands_is_consistent() {
        Typed::command().debug_assert();
    }

    #[test]
    fn a_way_round_is_what_people_call_it_and_never_turned_about() {
        let typed = |word: &str| {
            let typed = Typed::try_parse_from(["peewit", "recover", "a.json", "--turn", word])?;
            let Some(Command::Recover(args)) = typed.command else { panic!("not recover") };
            Ok::<_, clap::Error>(args.change.turn)
        };
        for word in
            ["anticlockwise", "counterclockwise", "counter-clockwise", "ccw", "left", "acw", "CCW", "anti-clockwise"]
        {
            assert_eq!(typed(word).unwrap(), Some(Turn::Anticlockwise), "{word}");
        }
        for word in ["clockwise", "cw", "right", "Right"] {
            assert_eq!(typed(word).unwrap(), Some(Turn::Clockwise), "{word}");
        }
        for word in ["counterclock", "anticlock", "widdershins", "l"] {
            let said = typed(word).unwrap_err().to_string();
            assert!(said.contains("counterclockwise") && !said.contains("similar"), "{said}");
        }
    }

    #[test]
    fn quantities_take_the_units_people_use() {
        let typed = Typed::try_parse_from(["peewit", "recover", "a.json", "--radius", "200 ft", "--centre", "-130 90"]);
        let Some(Command::Recover(args)) = typed.unwrap().command else { panic!("not recover") };
        assert_eq!(args.change.radius, Some("200 ft".parse().unwrap()));
        assert_eq!(args.change.centre, Some(DVec2::new(-130.0, 90.0)));
        let said = Typed::try_parse_from(["peewit", "recover", "a.json", "--radius", "60"]).unwrap_err().to_string();
        assert!(said.contains("no unit"), "{said}");
    }
}
