//! `peewit sign`: somebody's name under the plan as it is now.

use super::args::SignArgs;
use super::{Outcome, say};
use crate::Result;
use crate::run::{Signature, sign as put_under, today};

pub(super) fn sign(args: &SignArgs) -> Result<Outcome> {
    let on = args.on.clone().unwrap_or_else(today);
    let one = Signature { name: args.name.clone(), role: args.role.clone(), on, version: String::new() };
    let hash = put_under(&args.file, one, args.authorise)?;
    let what = if args.authorise { "authorised the policy of" } else { "signed" };
    say(&format!(
        "{}: {} {what} version {hash}; any change of the plan lets that lapse",
        args.file.display(),
        args.name.trim()
    ));
    Ok(Outcome::Done)
}
