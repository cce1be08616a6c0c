//! What an agent, a parish council and an insurer ask of a plan: what its file says to it, or the question that is left.

use super::Plan;

/// Something they ask.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Asked {
    /// About what.
    pub(crate) about: &'static str,
    /// What the plan says to it; may be empty.
    pub(crate) told: String,
    /// What people have to answer, where the file says nothing.
    pub(crate) question: Option<String>,
}

impl Asked {
    /// What a file says in words of its own, else a question.
    fn of(about: &'static str, said: &str, question: impl Into<String>) -> Self {
        let question = said.trim().is_empty().then(|| question.into());
        Self { about, told: said.trim().into(), question }
    }

    /// The same with what the plan knows of it by itself.
    fn after(mut self, known: &str) -> Self {
        self.told =
            [self.told.as_str(), known].into_iter().filter(|told| !told.is_empty()).collect::<Vec<_>>().join(" ");
        self
    }
}

impl Plan<'_> {
    /// What they ask about the place and its people.
    pub(crate) fn asked_by_others(&self) -> [Asked; 6] {
        let (facts, brief) = (self.facts(), &self.scenario.file.brief);
        let said = &brief.neighbours;
        let reach = facts.keep_off.map_or_else(|| "reach of it".into(), |metres| format!("{metres} of the centre"));
        let date = &self.scenario.file.date;
        let hours =
            self.hours().map_or_else(String::new, |hours| format!("{hours} by the clock on the field, on {date}."));
        let months = if self.no_months() { "" } else { " Months of each area: page 2." };
        let gate = match brief.emergency.gate.trim() {
            "" => String::new(),
            gate => format!("Gate: {gate}."),
        };
        [
            Asked::of(
                "Footpaths",
                &said.footpaths,
                format!("Which paths and roads lie within {reach}, and who watches them?"),
            ),
            Asked {
                about: "Stock",
                told: format!("{}{months} Landowner: {}.", self.over_caution(), self.landowner()),
                question: self
                    .no_months()
                    .then(|| "Which animals stand where, in which months, and who moves them?".into()),
            },
            Asked::of("Noise", &said.noise, "How loud is it at the nearest house, measured where and how?"),
            Asked::of("Hours", &hours, "On which days, from when to when, and how often?"),
            Asked::of("Complaints", &said.complaints, "Whom do neighbours ring, and what happens then?"),
            Asked::of(
                "Access",
                &said.access,
                "Who may come onto the ground, and fetch a jet from land that is not ours?",
            )
            .after(&gate),
        ]
    }

    /// Whether no area of the field has months, so that it is not said where animals stand.
    fn no_months(&self) -> bool {
        let field = self.scenario.file.field.as_ref();
        field.is_none_or(|field| field.areas.iter().all(|area| area.months.is_empty()))
    }

    /// The landowner, or that none is named.
    pub(super) fn landowner(&self) -> &str {
        match self.scenario.file.brief.emergency.landowner.trim() {
            "" => "not named in the file",
            owner => owner,
        }
    }

    /// How exact the drawing of the field is, and what the buffer makes of that.
    pub(crate) fn survey(&self) -> Asked {
        let file = &self.scenario.file;
        let buffer = file.limits.buffer;
        match file.brief.survey_error {
            Some(off) => {
                let enough = if off.m() > buffer.m() { "which is LESS" } else { "which is to hold that" };
                let told =
                    format!("A corner may be off by {off}, as stated in the file. The buffer is {buffer}, {enough}.");
                Asked { about: "Survey accuracy", told, question: None }
            }
            None => Asked {
                about: "Survey accuracy",
                told: format!(
                    "NOT STATED. Measure the distance between two corners on the ground, twice, and compare it with this \
                     plan. What it is off belongs in the buffer, which is {buffer}."
                ),
                question: Some("Off by how much, measured by whom, on what day?".into()),
            },
        }
    }

    /// Whom to ring and where they come, each with what the file says; empty where it says nothing.
    pub(crate) fn to_ring(&self) -> [(&'static str, String); 5] {
        let help = &self.scenario.file.brief.emergency;
        let (latitude, longitude) = self.scenario.field.plane.to_degrees(self.scenario.field.pilot);
        let degrees = format!("pilot position {latitude:.5}, {longitude:.5}");
        let place = match help.grid_reference.trim() {
            "" => degrees,
            grid => format!("{grid}; {degrees}"),
        };
        [
            ("Ring first", help.call.join("; ")),
            ("Landowner", help.landowner.clone()),
            ("Gate", help.gate.clone()),
            ("Place", place),
            ("Fire kit", help.fire_kit.clone()),
        ]
    }
}
