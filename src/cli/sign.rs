//! `peewit sign`: somebody's name under the plan as it is now.

use std::path::PathBuf;

use clap::Args;

use super::common::day;
use super::{Outcome, say};
use crate::Result;
use crate::run::{Signature, sign as put_under, today};

/// What `sign` takes.
#[derive(Debug, Default, Args)]
pub(super) struct SignArgs {
    /// Scenario
    pub(super) file: PathBuf,
    /// Who
    #[arg(long, value_name = "NAME", value_parser = somebody)]
    pub(super) name: String,
    /// As what, such as "second person"
    #[arg(long, value_name = "ROLE", default_value = "")]
    pub(super) role: String,
    /// Day, such as 2026-04-18; today (by UTC) where left out
    #[arg(long, value_name = "DAY", value_parser = day)]
    pub(super) on: Option<String>,
    /// Write it as the authority for what the jet does about a loss, not as a signature
    #[arg(long)]
    pub(super) authorise: bool,
}

pub(super) fn sign(args: &SignArgs) -> Result<Outcome> {
    let on = args.on.clone().unwrap_or_else(today);
    let one = Signature { name: args.name.clone(), role: args.role.clone(), on, version: String::new() };
    let hash = put_under(&args.file, one, args.authorise)?;
    let what = if args.authorise { "authorised the failsafe action of" } else { "signed" };
    say(&format!(
        "{}: {} {what} version {hash}; any change of the plan lets that lapse",
        args.file.display(),
        args.name.trim()
    ));
    Ok(Outcome::Done)
}

fn somebody(text: &str) -> Result<String, String> {
    let name = text.trim();
    if name.is_empty() { Err("write who signs".into()) } else { Ok(name.into()) }
}
