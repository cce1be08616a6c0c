//! Putting a name under a plan as it stands in a file.

use std::path::Path;

use serde_json::{Value, json};

use super::read::{bytes, read, text};
use super::{Signature, WholeFile};
use crate::error::{Error, Faults, Result, json as form};

/// Puts a name under the plan in a file as it stands now, in the place of an earlier one of the same person in the same
/// role, or as the authority for its failsafe action. Returns the plan's hash. Nothing else in the file changes.
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
    use crate::run::version::check;
    use crate::run::{Scenario, ScenarioFile, Version, template};
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
            |file| file.field.as_mut().unwrap().boundary.ring_m[0][0] -= 1.0,
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
        assert!(written.contains("\"field_file\"") && !written.contains("\"boundary\""), "{written}");
        // A line of the field moved lets the name lapse as well.
        let moved = field.replacen("\"name\": \"", "\"name\": \"new ", 1);
        assert_ne!(moved, field);
        let now = |file: &ScenarioFile| file.signed().last().unwrap().1;
        assert_eq!(now(&Scenario::load(&path).unwrap().0.file), Version::This);
        std::fs::write(folder.path().join("cotterfold-elbow.geojson"), moved).unwrap();
        assert_eq!(now(&Scenario::load(&path).unwrap().0.file), Version::Another);
    }
}
