//! Which version of a plan people have put their names under: after any change of the plan, no name counts any more.

use super::{ScenarioFile, Signature};
use crate::error::Fault;

/// The version that a name stands under.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Version {
    /// The plan as it is: the name counts.
    This,
    /// The plan as it was before some change.
    Another,
    /// It is not said which.
    Unsaid,
}

impl Version {
    fn of(said: &str, plan: &str) -> Self {
        match said.trim() {
            "" => Self::Unsaid,
            said if said == plan => Self::This,
            _ => Self::Another,
        }
    }

    /// Whether the name counts.
    pub fn counts(self) -> bool {
        self == Self::This
    }

    /// What stands behind a name that does not count; nothing behind one that does.
    pub const fn words(self) -> &'static str {
        match self {
            Self::This => "",
            Self::Another => "signed for another version",
            Self::Unsaid => "signed for no version that is named",
        }
    }

    /// A name as it is printed, with what keeps it from counting.
    pub fn mark(self, name: &str) -> String {
        if self.counts() { name.into() } else { format!("{name} ({})", self.words()) }
    }
}

/// Who authorised the failsafe action.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Authority<'a> {
    /// Nobody is named.
    Nobody,
    /// Somebody, for a version of the plan.
    By(&'a str, Version),
}

impl Authority<'_> {
    /// Whether somebody authorised the plan as it is.
    pub fn counts(self) -> bool {
        matches!(self, Self::By(_, Version::This))
    }

    /// The end of a sentence, such as "authorised by nobody yet".
    pub fn words(self) -> String {
        match self {
            Self::Nobody => "authorised by nobody yet".into(),
            Self::By(name, version) => format!("authorised by {}", version.mark(name)),
        }
    }
}

impl ScenarioFile {
    /// Names the plan without what people have put under it: twelve hexadecimal digits that any change of the plan
    /// changes, and no signature does.
    pub fn plan_hash(&self) -> String {
        let mut plan = self.clone();
        plan.field_file = None;
        plan.brief.signed.clear();
        plan.recovery.authorised_by.clear();
        plan.recovery.authorised_for.clear();
        plan.named()
    }

    /// Who signed, each with the version that they signed.
    pub fn signed(&self) -> Vec<(&Signature, Version)> {
        let signed = &self.brief.signed;
        let plan = if signed.is_empty() { String::new() } else { self.plan_hash() };
        signed.iter().map(|one| (one, Version::of(&one.version, &plan))).collect()
    }

    /// Who authorised the failsafe action, and for which version.
    pub fn authority(&self) -> Authority<'_> {
        match self.recovery.authorised_by.trim() {
            "" => Authority::Nobody,
            by => Authority::By(by, Version::of(&self.recovery.authorised_for, &self.plan_hash())),
        }
    }
}

/// Names that do not count.
pub(super) fn check(file: &ScenarioFile) -> Vec<Fault> {
    const WAY_OUT: &str = "Once they have checked it as it is now, write it with `peewit sign`";
    let lapsed = |place: String, what: &str, version: Version| {
        (!version.counts()).then(|| {
            let problem =
                format!("{what} does not count: {} of the plan, this one is {}", version.words(), file.plan_hash());
            Fault::warning(place, problem, WAY_OUT)
        })
    };
    let signed = file.signed().into_iter().enumerate().filter_map(|(index, (one, version))| {
        lapsed(format!("/brief/signed/{index}"), &format!("the signature of {}", one.name), version)
    });
    let authority = match file.authority() {
        Authority::Nobody => None,
        Authority::By(by, version) => {
            lapsed("/recovery/authorised_for".into(), &format!("the authority of {by}"), version)
        }
    };
    signed.chain(authority).collect()
}
