//! The words that several commands take, and how what is typed behind them is read.

use std::path::PathBuf;

use clap::{Args, value_parser};
use glam::DVec2;

use crate::error::{Fault, Severity};
use crate::recovery::Turn;
use crate::run::is_day;
use crate::units::{Length, Ratio};

/// What is asked for instead of what the scenario's file says.
#[derive(Debug, Default, Args)]
pub(super) struct Change {
    /// Radius of the circle instead of the file's, such as "60 m"
    #[arg(long, value_name = "LENGTH")]
    pub(super) radius: Option<Length>,
    /// Centre of the circle instead of the file's: metres east and north of the datum, such as "0 -80"
    #[arg(long, value_name = "X Y", value_parser = place, allow_hyphen_values = true)]
    pub(super) centre: Option<DVec2>,
    /// Height of the circle above home instead of the file's, such as "200 ft"
    #[arg(long, value_name = "LENGTH")]
    pub(super) height: Option<Length>,
    /// Which way round instead of the file's: anticlockwise (left, ccw) or clockwise (right, cw)
    #[arg(long, value_name = "WAY", value_parser = clap::builder::ValueParser::new(str::parse::<Turn>))]
    pub(super) turn: Option<Turn>,
    /// Largest share of trials that may cross a limit instead of the file's, such as "1 %"
    #[arg(long, value_name = "SHARE", value_parser = share)]
    pub(super) crossed_at_most: Option<f64>,
    /// Smallest share of trials that has to keep every buffer instead of the file's, such as "90 %". A buffer is for what
    /// is not simulated: survey error and what the model leaves out. Position error is simulated already
    #[arg(long, value_name = "SHARE", value_parser = share)]
    pub(super) kept_at_least: Option<f64>,
    /// Master seed of the draws instead of the file's
    #[arg(long, value_name = "N")]
    pub(super) seed: Option<u64>,
}

/// Where the answer goes.
#[derive(Debug, Default, Args)]
pub(super) struct Output {
    /// Print JSON instead of text
    #[arg(long)]
    pub(super) json: bool,
    /// Write to a file as well; its ending decides: .txt .json .csv, and where they fit .geojson .gpx .kml .svg .png .pdf
    /// .html (may be given again)
    #[arg(long, value_name = "PATH")]
    pub(super) out: Vec<PathBuf>,
    /// Replace files that are there already, whatever they are; what Peewit has written itself is replaced without
    #[arg(long)]
    pub(super) force: bool,
    /// Exit with code 3 where the answer is no: see the command's own words
    #[arg(long)]
    pub(super) strict: bool,
}

/// How much is flown, and by how many.
#[derive(Debug, Default, Args)]
pub(super) struct Effort {
    /// Confidence of every interval, such as "95 %"
    #[arg(long, value_name = "SHARE", value_parser = share)]
    pub(super) confidence: Option<f64>,
    /// Threads to work with; as many as the processor has where left out. The answer is the same with any number
    #[arg(long, value_name = "N", value_parser = value_parser!(u32).range(1..=1024))]
    pub(super) threads: Option<u32>,
}

fn share(text: &str) -> Result<f64, String> {
    let share = text.parse::<Ratio>().map_err(|why| why.to_string())?.share();
    if share > 0.0 && share < 1.0 {
        Ok(share)
    } else {
        Err("a share lies between 0 and 100 %, such as \"95 %\"".into())
    }
}

pub(super) fn day(text: &str) -> Result<String, String> {
    if is_day(text) {
        Ok(text.into())
    } else {
        Err("write a day of the calendar as year-month-day, such as 2026-04-18".into())
    }
}

fn place(text: &str) -> Result<DVec2, String> {
    let numbers: Option<Vec<f64>> = text
        .split([' ', ',', ';'])
        .filter(|part| !part.is_empty() && *part != "m")
        .map(|part| part.trim_end_matches('m').parse().ok().filter(|number: &f64| number.is_finite()))
        .collect();
    match numbers.as_deref() {
        Some(&[x, y]) => Ok(DVec2::new(x, y)),
        _ if text.contains(',') => {
            Err("write metres east and north of the datum, decimals after a point, such as \"12.5 -80\"".into())
        }
        _ => Err("write metres east and north of the datum, such as \"0 -80\"".into()),
    }
}

/// What a new scenario's notes ask for, and everything else that is wrong with it.
pub(super) fn asked_for(faults: &[Fault]) -> (Vec<&Fault>, Vec<&Fault>) {
    faults.iter().partition(|fault| fault.place.starts_with("/notes/") && fault.severity == Severity::Warning)
}

/// What to type where the two numbers of a place stand as two words, as a shell leaves them without quotes.
pub(super) fn unquoted(words: impl Iterator<Item = String>) -> Option<String> {
    let number = |word: &str| {
        let point = word.trim_end_matches(',').trim_end_matches('m').replace(',', ".");
        point.parse::<f64>().is_ok().then_some(point)
    };
    let apart = words.flat_map(|word| match word.strip_prefix("--centre=") {
        Some(place) => vec!["--centre".into(), place.to_owned()],
        None => vec![word],
    });
    let words: Vec<String> = apart.collect();
    words.windows(3).filter(|three| three[0] == "--centre").find_map(|three| {
        let (east, north) = (number(&three[1])?, number(&three[2])?);
        Some(format!("put the two numbers in one pair of quotes: --centre \"{east} {north}\""))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_in_two_words_is_told_how_to_quote_it() {
        let typed = |words: &[&str]| unquoted(words.iter().map(|word| (*word).to_owned()));
        let quoted = |place: &str| Some(format!("put the two numbers in one pair of quotes: --centre \"{place}\""));
        assert_eq!(typed(&["recover", "a.json", "--centre", "0", "-80"]), quoted("0 -80"));
        assert_eq!(typed(&["recover", "--centre", "0,5", "80m,", "a.json"]), quoted("0.5 80"));
        assert_eq!(typed(&["recover", "--centre=12", "80", "a.json"]), quoted("12 80"));
        for fine in [&["--centre", "0 -80", "a.json"][..], &["--centre", "0", "--gust"], &["--seed", "1", "2"]] {
            assert_eq!(typed(fine), None, "{fine:?}");
        }
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
}
