//! How far is a plan from "new" to "ready to print"? Every thing that it needs, done or open, as the draft and its trials
//! have it now.

use super::field_board::{Chosen, FieldCommand, Kind, Part, Tool};
use super::new_field::{NOBODYS_WIND, NOWHERE, UNNAMED};
use super::{AppCommand, Board, FieldSheet, Grade, Session};
use crate::brief::Stop;
use crate::field::{FieldFile, RuleName};
use crate::jet::Origin;
use crate::run::ScenarioFile;
use crate::study::verdict::Answer;

/// A thing that a plan needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Task {
    /// What the field is called and where on the globe it lies.
    Place,
    /// The land that may be flown over.
    Boundary,
    /// Ground with a rule, and what is tall.
    Areas,
    /// The ground where people are.
    People,
    /// The numbers of the jet that everything rests on.
    Jet,
    /// The wind of the day.
    Wind,
    /// Where the jet is flown.
    Circuit,
    /// What the jet does about a loss, and who allows that.
    FailsafeAction,
    /// A circle whose trials say yes.
    Circle,
    /// Whom to call.
    Contacts,
    /// Names under this version of the plan.
    Signatures,
}

/// A thing that a plan needs, and how it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChecklistLine {
    /// Which.
    pub task: Task,
    /// What is still to be done; none where it is done.
    pub open: Option<&'static str>,
}

/// All of them, in the order in which they are best done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checklist {
    /// The lines.
    pub lines: [ChecklistLine; 11],
    /// What keeps the plan from the printer all the same, by what stands in its file.
    pub stop: Option<Stop>,
}

/// The checklist of the draft as it stands.
pub fn checklist(session: &Session) -> Checklist {
    let stops = Stop::of_file(session.draft.file(), &session.today);
    let lines = Task::ALL.map(|task| {
        let wrong = || session.draft.errors().any(|fault| lies_under(&fault.place, task.places()));
        let open = task.open(session, &stops).or_else(|| wrong().then_some("something here is wrong: fix it"));
        ChecklistLine { task, open }
    });
    Checklist { lines, stop: stops.into_iter().next() }
}

/// Whether a place of the file, a JSON pointer, is one of these or inside one.
pub fn lies_under(place: &str, places: &[&str]) -> bool {
    let inside = |rest: &str| rest.is_empty() || rest.starts_with('/');
    places.iter().any(|begin| place.strip_prefix(begin).is_some_and(inside))
}

impl Checklist {
    /// How many are done.
    pub fn done(&self) -> usize {
        self.lines.iter().filter(|line| line.open.is_none()).count()
    }

    /// How far it is and what comes next, in a line.
    pub fn told(&self) -> String {
        match (self.lines.iter().find(|line| line.open.is_some()), &self.stop) {
            (Some(next), _) => format!("{} of {} done: next is {}", self.done(), self.lines.len(), next.task.name()),
            (None, Some(stop)) => stop.told(),
            (None, None) => "ready to print".into(),
        }
    }
}

impl Task {
    /// All of them.
    pub const ALL: [Self; 11] = [
        Self::Place,
        Self::Boundary,
        Self::Areas,
        Self::People,
        Self::Jet,
        Self::Wind,
        Self::Circuit,
        Self::FailsafeAction,
        Self::Circle,
        Self::Contacts,
        Self::Signatures,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Place => "place",
            Self::Boundary => "boundary",
            Self::Areas => "areas",
            Self::People => "people",
            Self::Jet => "jet",
            Self::Wind => "wind",
            Self::Circuit => "circuit",
            Self::FailsafeAction => "failsafe action",
            Self::Circle => "circle",
            Self::Contacts => "contacts",
            Self::Signatures => "signatures",
        }
    }

    /// Where in the file it stands, as the beginnings of JSON pointers.
    const fn places(self) -> &'static [&'static str] {
        match self {
            Self::Place => &["/name", "/date", "/field/datum", "/field/magnetic_declination"],
            Self::Boundary => &["/field/boundary"],
            Self::Areas | Self::People => &["/field/areas", "/field/obstacles"],
            Self::Jet => &["/jet"],
            Self::Wind => &["/wind", "/air"],
            Self::Circuit => &["/field/circuit"],
            Self::FailsafeAction => &["/recovery", "/loss"],
            Self::Circle => &["/limits", "/field/centre_m"],
            Self::Contacts => &["/brief/emergency"],
            Self::Signatures => &["/brief/signed"],
        }
    }

    /// What is still to be done about it; none where it is done.
    fn open(self, session: &Session, stops: &[Stop]) -> Option<&'static str> {
        let file = session.draft.file();
        let field = file.field.as_ref();
        let unless = |done: bool, open: &'static str| (!done).then_some(open);
        match self {
            Self::Place => unless(is_somewhere(file), "name it, and say where on the globe it is"),
            Self::Boundary => unless(
                field.is_some_and(|field| field.boundary.ring_m.len() >= 3),
                "draw the land whose overflight is allowed",
            ),
            Self::Areas => unless(
                field.is_some_and(|field| !field.areas.is_empty() || !field.obstacles.is_empty()),
                "draw ground with a rule, and what is tall",
            ),
            Self::People => unless(
                field.is_some_and(|field| people(field).is_some()),
                "draw pits, cars and spectators as an area with the rule people",
            ),
            Self::Jet => unless(is_somebodys(file), "weigh it; enter speed, bank and battery as they are"),
            Self::Wind => unless(file.wind != *NOBODYS_WIND, "read a meter, or take a report"),
            Self::Circuit => unless(field.is_some_and(|field| field.circuit.is_some()), "draw where you fly"),
            Self::FailsafeAction if stops.contains(&Stop::NotPermitted) => Some("a return is not permitted here"),
            Self::FailsafeAction => {
                unless(!file.recovery.authorised_by.trim().is_empty(), "choose it, and enter who authorised it")
            }
            Self::Circle => circle(session),
            Self::Contacts => unless(
                !file.brief.emergency.call.is_empty() && !file.brief.emergency.gate.trim().is_empty(),
                "enter numbers to call, and the gate by which help comes in",
            ),
            Self::Signatures if stops.contains(&Stop::OtherVersion) => {
                Some("the plan has changed since: sign it again")
            }
            Self::Signatures if stops.contains(&Stop::NotAuthorised) => Some("the failsafe action is not authorised"),
            Self::Signatures => unless(
                !stops.iter().any(|stop| matches!(stop, Stop::NotSigned(_))),
                "two people read and sign this version",
            ),
        }
    }

    /// What is asked for to do it, or to see what was done.
    pub fn opens(self, session: &Session) -> Vec<AppCommand> {
        let file = session.draft.file();
        let sheet = |sheet| vec![AppCommand::Sheet(sheet)];
        let drawn = |part: Option<Part>, kind| {
            let command = match part.filter(|part| part.points(file).len() > 1) {
                Some(part) => FieldCommand::Choose(Some(Chosen { part, corner: None })),
                None => FieldCommand::Tool(Tool::Draw(kind)),
            };
            vec![AppCommand::Sheet(FieldSheet::Field), AppCommand::Field(command)]
        };
        match self {
            Self::Place => sheet(FieldSheet::Field),
            Self::Boundary => drawn(Some(Part::Boundary), Kind::Boundary),
            Self::Areas => drawn(Some(Part::Area(0)), Kind::Area),
            Self::People => drawn(file.field.as_ref().and_then(people).map(Part::Area), Kind::Area),
            Self::Jet => sheet(FieldSheet::Jet),
            Self::Wind => sheet(FieldSheet::Wind),
            Self::Circuit => drawn(Some(Part::Circuit), Kind::Circuit),
            Self::FailsafeAction => sheet(FieldSheet::Loss),
            Self::Circle => vec![AppCommand::Board(Board::Circle)],
            Self::Signatures if !file.authority().counts() => sheet(FieldSheet::Loss),
            Self::Contacts | Self::Signatures => sheet(FieldSheet::Brief),
        }
    }
}

fn is_somewhere(file: &ScenarioFile) -> bool {
    let named = !["", UNNAMED].contains(&file.name.trim());
    named && file.field.as_ref().is_some_and(|field| field.datum != NOWHERE)
}

/// The first area with people on it, at any time of the year.
fn people(field: &FieldFile) -> Option<usize> {
    field.areas.iter().position(|area| area.rule == RuleName::People || area.otherwise == Some(RuleName::People))
}

/// Whether the numbers that everybody can find out are no longer the tool's own.
fn is_somebodys(file: &ScenarioFile) -> bool {
    let jet = &file.jet;
    let origins = [jet.mass.origin, jet.return_speed.origin, jet.maximum_bank.origin, jet.capacity.origin];
    !origins.contains(&Origin::Default)
}

/// What the trials of the plan's own circle leave to be done.
fn circle(session: &Session) -> Option<&'static str> {
    if !session.is_current() {
        return Some("the plan can't be flown yet");
    }
    let known = session.answers.own_circle.as_ref();
    let known = known.filter(|known| known.edition == session.edition && known.grade == Grade::Refined);
    match known.and_then(|known| known.found.plan).map(|verdict| verdict.answer) {
        Some(Answer::Yes) => None,
        Some(Answer::No) => Some("it does not hold: change it until its trials say yes"),
        Some(Answer::Undecided) => Some("its trials have not decided: leave it more room"),
        None => Some("its trials are being flown"),
    }
}

#[cfg(test)]
mod tests;
