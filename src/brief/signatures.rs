//! Who signs a plan: those the file names, and who is wanted besides.

use super::Plan;
use crate::run::{Signature, Version};

/// A line to sign on; what is not known is empty.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct SignLine<'a> {
    /// As what.
    pub(crate) role: &'a str,
    /// Who.
    pub(crate) name: &'a str,
    /// Why the signature does not count; empty where it does.
    pub(crate) lapsed: String,
    /// On what day.
    pub(crate) on: &'a str,
}

/// Whose signatures are wanted, and words of the role by which they are found in the file.
const ROLES: [(&str, &[&str]); 4] = [
    ("author", &["author", "pilot"]),
    ("second person", &["second", "spotter", "checker"]),
    ("committee", &["committee", "secretary", "chair"]),
    ("landowner", &["landowner", "owner", "farmer", "grazier", "tenant"]),
];

impl Plan<'_> {
    /// A line for each role that is wanted, then one for everybody who signed besides.
    pub(crate) fn sign_lines(&self) -> Vec<SignLine<'_>> {
        let signed = self.scenario.file.signed();
        let wanted = ROLES.map(|(role, words)| {
            let fits = |one: &Signature| words.iter().any(|word| one.role.to_lowercase().contains(word));
            let found = signed.iter().position(|(one, version)| version.counts() && fits(one));
            found.map_or_else(|| (SignLine { role, ..SignLine::default() }, None), |at| (line(signed[at]), Some(at)))
        });
        let besides = signed.iter().enumerate().filter(|(at, _)| wanted.iter().all(|(_, found)| *found != Some(*at)));
        let besides: Vec<_> = besides.map(|(_, one)| line(*one)).collect();
        wanted.into_iter().map(|(line, _)| line).chain(besides).collect()
    }
}

fn line((one, version): (&Signature, Version)) -> SignLine<'_> {
    let lapsed = match version {
        Version::Another => format!("{}: {}", version.words(), one.version),
        Version::This | Version::Unsaid => version.words().into(),
    };
    SignLine { role: one.role.trim(), name: &one.name, lapsed, on: &one.on }
}
