//! Everything with files: what is opened, saved and imported, what is asked before work is lost, and what is kept aside
//! for the day the program ends without a word.
//!
//! [`Files`] obeys one [`FileCommand`] after another on a session. It has the disk; the dialogs of the system are behind
//! [`Dialogs`], so that all of it can be tried without a window.

mod dialogs;
mod jets;
mod keeper;
mod logs;
mod names;
mod open;
mod pictures;
mod place;
mod prints;
mod put_in;
mod rehearsals;
#[cfg(test)]
mod tests;
mod unsaved;

use std::path::{Path, PathBuf};
use std::sync::Arc;

pub use dialogs::{ChosenFile, Dialogs, PICTURES, SHAPES, SystemDialogs, WORLD};
pub use keeper::Keeper;
pub use place::{Left, StateFolder};

use logs::Reader;
use names::{at_home, file_name, name_of, with_ending};
use open::sample_field;
use pictures::{Album, Laid, Pictures};
use prints::Press;

use crate::app::session::{Ask, FileCommand, Purpose, Reply, Session, Settings};
use crate::run::ScenarioFile;

/// Whoever has the disk.
pub struct Files {
    dialogs: Box<dyn Dialogs>,
    keeper: Option<Keeper>,
    /// The folder of the program's own.
    folder: Option<PathBuf>,
    /// Where this window's draft is kept.
    own: Option<PathBuf>,
    /// Counts the dialogs, so that one that was given up can't answer for the next.
    ticket: u64,
    /// What is to be done once the draft is saved.
    then: Option<FileCommand>,
    /// A draft left behind that waits, and where it is.
    waiting: Option<(Left, PathBuf)>,
    /// The draft that is kept aside at the moment.
    kept: Option<ScenarioFile>,
    /// The settings that are on the disk.
    settings: Settings,
    /// Whoever decodes pictures.
    pictures: Pictures,
    /// Whoever writes prints.
    press: Press,
    /// Whoever reads logs.
    reader: Reader,
    /// How pictures lay, by scenario.
    album: Album,
    /// The scenario under which a picture lies at the moment.
    laid: Option<PathBuf>,
    /// Whether a person has been told that nothing can be kept aside.
    troubled: bool,
}

impl Files {
    /// Files that ask through `dialogs`, call `wake` when something has come that was waited for, and keep nothing aside
    /// until [`Files::start`].
    pub fn new(dialogs: impl Dialogs, wake: impl Fn() + Send + Sync + 'static) -> Self {
        let wake: Arc<dyn Fn() + Send + Sync> = Arc::new(wake);
        Self {
            dialogs: Box::new(dialogs),
            keeper: None,
            folder: None,
            own: None,
            ticket: 0,
            then: None,
            waiting: None,
            kept: None,
            settings: Settings::default(),
            pictures: Pictures::new(Arc::clone(&wake)),
            press: Press::new(Arc::clone(&wake)),
            reader: Reader::new(wake),
            album: Album::default(),
            laid: None,
            troubled: false,
        }
    }

    /// Obeys one command.
    pub fn obey(&mut self, session: &mut Session, command: FileCommand) {
        if leaves_the_draft(&command) && session.is_unsaved() {
            session.front.ask = Some(Ask::Unsaved { then: Box::new(command) });
            return;
        }
        self.obey_now(session, command);
    }

    /// Obeys one command, whatever becomes of the draft.
    fn obey_now(&mut self, session: &mut Session, command: FileCommand) {
        match command {
            FileCommand::New => self.new_field(session),
            FileCommand::Demo => self.demo(session),
            FileCommand::Sample(sample) => sample_field(session, sample),
            FileCommand::Open => self.ask_for(session, Purpose::Open),
            FileCommand::OpenThis(path) => self.open(session, &path),
            FileCommand::Dropped(path) => self.take(session, &path),
            FileCommand::Save => match session.path.clone() {
                Some(path) => self.save(session, &path),
                None => self.ask_for(session, Purpose::SaveAs),
            },
            FileCommand::SaveAs => self.ask_for(session, Purpose::SaveAs),
            FileCommand::Print(paper) => self.ask_for(session, Purpose::Print(paper)),
            FileCommand::SaveRehearsal(file) => self.ask_for(session, Purpose::Rehearsal(file)),
            FileCommand::OpenLog => self.ask_for(session, Purpose::Log),
            FileCommand::OpenLogs => self.ask_for(session, Purpose::Logs),
            FileCommand::ReadAgain => Self::read_again(session),
            FileCommand::SaveDebrief(format) => self.ask_for(session, Purpose::Debrief(format)),
            FileCommand::OpenRehearsal => self.ask_for(session, Purpose::Recording),
            FileCommand::PutOnPaper(paper) => self.put_on_paper(session, paper),
            FileCommand::Launch(path) => self.launch(session, &path),
            FileCommand::Import => self.ask_for(session, Purpose::Import),
            FileCommand::Typed(text) => self.typed(session, &text),
            FileCommand::PathBox => {
                if let Some(Ask::System(purpose)) = session.front.ask {
                    self.path_box(session, purpose, String::new());
                }
            }
            FileCommand::Reply(reply) => self.reply(session, reply),
            FileCommand::KeepRecovered => self.keep_recovered(session),
            FileCommand::BringBack => self.bring_back(session),
            FileCommand::DropRecovered => self.drop_recovered(session),
            FileCommand::PutIn { whole } => put_in::put_in(session, whole),
            FileCommand::KeepJet => self.keep_jet(session),
            FileCommand::DropJet(name) => self.drop_jet(session, &name),
            FileCommand::BringJetBack => self.bring_jet_back(session),
            FileCommand::Tour => self.tour(session),
            FileCommand::EndTour => self.end_tour(session),
            FileCommand::Quit => {
                session.front.leaving = true;
                self.keep_nothing();
            }
        }
    }

    /// Obeys what the panels asked for, and takes what dialogs and pictures have brought. Whether there was anything.
    pub fn step(&mut self, session: &mut Session, commands: Vec<FileCommand>) -> bool {
        let mut any = !commands.is_empty();
        for command in commands {
            self.obey(session, command);
        }
        while let Some((ticket, chosen)) = self.dialogs.chosen() {
            self.chosen(session, ticket, chosen);
            any = true;
        }
        // All have to be asked.
        let (laid, printed, read) = (self.lay(session), self.printed(session), self.logs_read(session));
        laid || printed || read || any
    }

    fn ask_for(&mut self, session: &mut Session, purpose: Purpose) {
        self.ticket += 1;
        let used = || session.path.clone().or_else(|| session.settings.recent.first().cloned());
        let near = self.written(session, purpose).or_else(used);
        session.front.ask = Some(Ask::System(purpose));
        self.dialogs.open(self.ticket, purpose, near.as_deref());
    }

    /// A name for what is to be written; none where something is to be read.
    fn written(&self, session: &Session, purpose: Purpose) -> Option<PathBuf> {
        match purpose {
            Purpose::SaveAs => Some(session.path.clone().unwrap_or_else(|| self.beside(session))),
            Purpose::Print(paper) => Some(self.beside_the_scenario(session, paper)),
            Purpose::Rehearsal(file) => Some(self.rehearsal_name(session, file)),
            Purpose::Debrief(format) => Some(self.debrief_name(session, format)),
            Purpose::Open | Purpose::Import | Purpose::Recording | Purpose::Log | Purpose::Logs => None,
        }
    }

    /// A name for a draft that has none, in the folder used last.
    fn beside(&self, session: &Session) -> PathBuf {
        let folder = session.settings.recent.first().and_then(|path| path.parent()).map(Path::to_owned);
        folder.unwrap_or_default().join(file_name(&session.draft.file().name))
    }

    fn chosen(&mut self, session: &mut Session, ticket: u64, chosen: ChosenFile) {
        let Some(Ask::System(purpose)) = session.front.ask else { return };
        if ticket != self.ticket {
            return;
        }
        session.front.ask = None;
        match chosen {
            ChosenFile::Path(path) => self.take_path(session, purpose, path),
            ChosenFile::Nothing => self.then = None,
            ChosenFile::NoService(why) => self.path_box(session, purpose, why),
        }
    }

    fn path_box(&mut self, session: &mut Session, purpose: Purpose, why: String) {
        self.ticket += 1;
        let start = self.written(session, purpose).map(|path| path.display().to_string()).unwrap_or_default();
        session.front.ask = Some(Ask::Path { purpose, why, start });
    }

    fn typed(&mut self, session: &mut Session, text: &str) {
        let Some(Ask::Path { purpose, .. }) = session.front.ask else { return };
        let text = text.trim().trim_matches(['"', '\'']);
        if text.is_empty() {
            return;
        }
        session.front.ask = None;
        let mut path = at_home(text);
        if let Some(ending) = purpose.writes() {
            path = with_ending(path, ending);
            let own = purpose == Purpose::SaveAs && session.path.as_deref() == Some(&*path);
            if path.exists() && !own {
                session.front.ask = Some(Ask::Replace { purpose, path });
                return;
            }
        }
        self.take_path(session, purpose, path);
    }

    fn take_path(&mut self, session: &mut Session, purpose: Purpose, path: PathBuf) {
        // The dialog has asked before it replaces a file, but not the one we make by adding the ending.
        let whole = purpose.writes().map_or_else(|| path.clone(), |ending| with_ending(path.clone(), ending));
        if whole != path && whole.exists() {
            session.front.ask = Some(Ask::Replace { purpose, path: whole });
            return;
        }
        self.take_now(session, purpose, &whole);
    }

    fn take_now(&mut self, session: &mut Session, purpose: Purpose, path: &Path) {
        match purpose {
            Purpose::Open => self.open(session, path),
            Purpose::SaveAs => self.save(session, path),
            Purpose::Import => self.import(session, path),
            Purpose::Print(paper) => self.print(session, paper, path),
            Purpose::Rehearsal(file) => Self::save_rehearsal(session, file, path),
            Purpose::Recording => Self::open_rehearsal(session, path),
            Purpose::Log | Purpose::Logs => Self::open_logs(session, path),
            Purpose::Debrief(format) => Self::save_debrief(session, format, path),
        }
    }

    fn reply(&mut self, session: &mut Session, reply: Reply) {
        match (session.front.ask.take(), reply) {
            (Some(Ask::Unsaved { then }), Reply::Save) => {
                self.then = Some(*then);
                self.obey_now(session, FileCommand::Save);
            }
            (Some(Ask::Unsaved { then }), Reply::DoNotSave) => self.obey_now(session, *then),
            (Some(Ask::Replace { purpose, path }), Reply::Save) => self.take_now(session, purpose, &path),
            (Some(Ask::Replace { purpose, .. }), _) => self.path_box(session, purpose, String::new()),
            _ => self.then = None,
        }
    }

    fn save(&mut self, session: &mut Session, path: &Path) {
        let then = self.then.take();
        let path = std::path::absolute(path).unwrap_or_else(|_| path.into());
        if let Err(error) = session.draft.file().save(&path) {
            let way_out = "Nothing has been changed. Choose another place with \u{201c}Save as\u{201d}.";
            show_news(session, "It could not be saved", &format!("{error}. {way_out}"));
            return;
        }
        session.draft.mark_saved();
        session.word = format!("saved as {}", name_of(&path));
        session.front.brought = None;
        session.settings.remember(path.clone());
        session.path = Some(path);
        if let Some(then) = then {
            self.obey_now(session, then);
        }
    }
}

/// Whether a command puts something else in the draft's place.
const fn leaves_the_draft(command: &FileCommand) -> bool {
    matches!(
        command,
        FileCommand::New
            | FileCommand::Demo
            | FileCommand::Sample(_)
            | FileCommand::Open
            | FileCommand::OpenThis(_)
            | FileCommand::BringBack
            | FileCommand::Tour
            | FileCommand::Quit
    )
}

/// Says that something went wrong.
fn show_news(session: &mut Session, title: &str, text: &str) {
    session.front.ask = Some(Ask::Told { title: title.into(), text: text.into() });
}
