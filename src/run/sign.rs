//! Which version of a plan people have put their names under: after any change of the plan, no name counts any more.

use std::path::Path;

use serde_json::{Value, json};

use super::read::{bytes, read, text};
use super::{ScenarioFile, Signature, WholeFile};
use crate::error::{Error, Fault, Faults, Result, json as form};

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

/// Who authorised the policy.
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

    /// Who authorised the policy, and for which version.
    pub fn authority(&self) -> Authority<'_> {
        match self.recovery.authorised_by.trim() {
            "" => Authority::Nobody,
            by => Authority::By(by, Version::of(&self.recovery.authorised_for, &self.plan_hash())),
        }
    }
}

/// Names that do not count.
pub(super) fn check(file: &ScenarioFile) -> Vec<Fault> {
    const WAY_OUT: &str = "Once they have looked at it as it is now, write it with `peewit sign`";
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

/// Puts a name under the plan in a file as it stands now, in the place of an earlier one of the same person in the same
/// role, or as the authority for its policy. Returns the plan's hash. Nothing else in the file changes.
///
/// # Errors
///
/// Where the file can't be used, read or written.
pub fn sign(path: &Path, mut one: Signature, authorises: bool) -> Result<String> {
    let reading = read(path)?;
    let refused = |faults| Error::Input(Faults { file: path.into(), faults });
    let Some(scenario) = reading.scenario else { return Err(refused(reading.faults)) };
    one.version = scenario.file.plan_hash();
    let bytes = bytes(path).map_err(|source| Error::Read { path: path.into(), source })?;
    let value = text(bytes).and_then(|text| form::parse(&text));
    let mut value = value.map_err(|fault| refused(vec![fault]))?;
    if authorises {
        let who = [&one.name, &one.role, &one.on].map(|part| part.trim()).into_iter().filter(|part| !part.is_empty());
        value["recovery"]["authorised_by"] = Value::from(who.collect::<Vec<_>>().join(", "));
        value["recovery"]["authorised_for"] = Value::from(&*one.version);
    } else {
        let same = |other: &Signature| (&other.name, &other.role) == (&one.name, &one.role);
        let mut signed = scenario.file.brief.signed;
        signed.retain(|other| !same(other));
        signed.push(one.clone());
        if value.get("brief").is_none() {
            value["brief"] = json!({});
        }
        value["brief"]["signed"] = serde_json::to_value(signed).unwrap_or_default();
    }
    WholeFile::open(path)?.write(form::print(&value).as_bytes())?;
    Ok(one.version)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::Datum;
    use crate::run::{Scenario, template};
    use crate::units::Length;

    fn somebody() -> Signature {
        Signature { name: "B. Member".into(), role: "pilot".into(), on: "2026-04-02".into(), version: String::new() }
    }

    /// A file on the disk, signed and authorised.
    fn signed() -> (tempfile::TempDir, std::path::PathBuf, ScenarioFile) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("strip.json");
        template("Strip", "2026-04-18", Datum { latitude_deg: 44.0, longitude_deg: -30.0 }).save(&path).unwrap();
        sign(&path, somebody(), false).unwrap();
        let hash = sign(&path, somebody(), true).unwrap();
        let file = Scenario::load(&path).unwrap().0.file;
        assert_eq!(file.plan_hash(), hash);
        (folder, path, file)
    }

    #[test]
    fn a_name_counts_for_the_plan_as_it_was_signed() {
        let (_folder, path, file) = signed();
        assert!(file.authority().counts() && file.signed()[0].1.counts());
        assert_eq!(file.authority().words(), "authorised by B. Member, pilot, 2026-04-02");
        assert_eq!(check(&file), []);
        // Who signs again stands there once, and a second person beside them.
        sign(&path, somebody(), false).unwrap();
        sign(&path, Signature { name: "C. Other".into(), ..somebody() }, false).unwrap();
        let file = Scenario::load(&path).unwrap().0.file;
        assert_eq!(
            file.signed().iter().map(|(one, version)| (&*one.name, version.counts())).collect::<Vec<_>>(),
            [("B. Member", true), ("C. Other", true)]
        );
    }

    #[test]
    fn after_any_change_of_the_plan_no_name_counts() {
        let changes: [fn(&mut ScenarioFile); 6] = [
            |file| file.recovery.radius = Length::new(99.0),
            |file| file.field.as_mut().unwrap().outline.ring_m[0][0] -= 1.0,
            |file| file.date = "2026-05-18".into(),
            |file| file.brief.review_by = Some("2027-01-01".into()),
            |file| file.limits.no_automatic_return = true,
            |file| file.seed += 1,
        ];
        for change in changes {
            let (_folder, _, mut file) = signed();
            change(&mut file);
            assert!(!file.authority().counts());
            assert_eq!(
                file.authority().words(),
                "authorised by B. Member, pilot, 2026-04-02 (signed for another version)"
            );
            assert_eq!(file.signed()[0].1, Version::Another);
            let places: Vec<_> = check(&file).into_iter().map(|fault| fault.place).collect();
            assert_eq!(places, ["/brief/signed/0", "/recovery/authorised_for"]);
        }
    }

    #[test]
    fn a_name_without_a_version_counts_for_none() {
        let (_folder, _, mut file) = signed();
        file.brief.signed[0].version.clear();
        file.recovery.authorised_for.clear();
        assert_eq!(file.signed()[0].1, Version::Unsaid);
        assert!(!file.authority().counts());
    }

    #[test]
    fn signing_keeps_a_field_of_its_own_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("elbow.json");
        std::fs::write(&path, include_str!("../../scenarios/cotterfold-elbow.json")).unwrap();
        let field = include_str!("../../scenarios/cotterfold-elbow.geojson");
        std::fs::write(folder.path().join("cotterfold-elbow.geojson"), field).unwrap();
        sign(&path, somebody(), false).unwrap();
        let written = std::fs::read_to_string(&path).unwrap();
        assert!(written.contains("\"field_file\"") && !written.contains("\"outline\""), "{written}");
        // A line of the field moved lets the name lapse as well.
        let moved = field.replacen("\"name\": \"", "\"name\": \"new ", 1);
        assert_ne!(moved, field);
        let now = |file: &ScenarioFile| file.signed().last().unwrap().1;
        assert_eq!(now(&Scenario::load(&path).unwrap().0.file), Version::This);
        std::fs::write(folder.path().join("cotterfold-elbow.geojson"), moved).unwrap();
        assert_eq!(now(&Scenario::load(&path).unwrap().0.file), Version::Another);
    }
}
