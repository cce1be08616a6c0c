//! What becomes of work that nobody has saved: kept aside while it grows, brought back after the program ended without a
//! word, and let go when a person says so.

use std::path::{Path, PathBuf};

use time::{OffsetDateTime, UtcOffset};

use super::{Files, Keeper, Laid, Left, StateFolder, jets, name_of, place, show_news};
use crate::app::session::tour::Tour;
use crate::app::session::{Board, Brought, Change, Draft, Session};
use crate::run::Scenario;

impl Files {
    /// Reads the settings and brings back what a window left behind, from the folder that the system sets aside or from
    /// another. Where there is no such folder nothing is kept, and the session says so.
    pub fn start(&mut self, session: &mut Session, folder: Option<PathBuf>) {
        let Some(folder) = folder else { return };
        let place = match StateFolder::open(&folder) {
            Ok(place) => place,
            Err(error) => {
                session.word = format!("nothing can be kept aside in {}: {error}", folder.display());
                return;
            }
        };
        session.settings = place.read_settings();
        self.settings = session.settings.clone();
        let (jets, unread) = jets::read(&folder);
        session.jets.kept = jets;
        if !unread.is_empty() {
            session.word = format!("can't be read as a jet: {}", unread.join(", "));
        }
        self.folder = Some(folder);
        self.own = Some(place.draft());
        self.album = place.read_album();
        if let Some(path) = session.path.clone() {
            session.settings.remember(std::path::absolute(&path).unwrap_or(path));
        }
        self.bring_back_from(&place, session);
        if session.path.is_none() && !session.is_unsaved() && session.refused.is_none() {
            self.open_last(session);
        }
        if session.front.brought.as_ref().is_none_or(|brought| !brought.shown) {
            self.picture_again(session);
        }
        match Keeper::start(place) {
            Ok(keeper) => self.keeper = Some(keeper),
            Err(error) => session.word = format!("nothing can be kept aside: {error}"),
        }
    }

    /// Brings back what was left behind of the file asked for, or of any where none was; what else there is waits.
    fn bring_back_from(&mut self, place: &StateFolder, session: &mut Session) {
        let mut found = place.left_behind();
        let of_this = |left: &Left| left.path.as_deref().is_some_and(|path| is_same(path, session));
        let at = found.iter().position(|(left, _)| of_this(left));
        let Some((left, draft)) = (!found.is_empty()).then(|| found.swap_remove(at.unwrap_or(0))) else { return };
        if (at.is_some() || session.path.is_none()) && place::take_over(&draft, &place.draft()) {
            self.show(session, left);
        } else {
            session.front.brought = Some(Brought { shown: false, ..brought(&left) });
            self.waiting = Some((left, draft));
        }
    }

    /// Keeps aside what has changed. Whether something went wrong that the session now says.
    pub fn keep(&mut self, session: &mut Session) -> bool {
        let Some(keeper) = &self.keeper else { return false };
        if self.settings != session.settings {
            self.settings = session.settings.clone();
            keeper.settings(self.settings.clone());
        }
        let draft = &session.draft;
        let worth = session.is_unsaved() && !session.front.leaving;
        if worth && self.kept.as_ref() != Some(draft.file()) {
            self.kept = Some(draft.file().clone());
            let path = session.path.clone();
            let at_s = place::now().as_secs();
            let picture = Laid::of(session);
            keeper.keep(Left { path, at_s, saved: draft.saved().clone(), file: draft.file().clone(), picture });
        } else if !worth && self.kept.is_some() {
            self.kept = None;
            keeper.keep_nothing();
        }
        if let Some(scenario) = &session.path {
            let laid = Laid::of(session);
            // A picture that is still being opened has not been closed.
            let known = self.album.get(scenario);
            if laid.as_ref() != known && (laid.is_some() || self.laid.as_ref() == Some(scenario)) {
                keeper.picture(scenario.clone(), laid.clone());
                match laid.clone() {
                    Some(laid) => drop(self.album.insert(scenario.clone(), laid)),
                    None => drop(self.album.remove(scenario)),
                }
            }
            self.laid = laid.is_some().then(|| scenario.clone());
        }
        match keeper.trouble() {
            // Once is enough: it is tried again with every edit.
            Some(trouble) if !self.troubled && session.front.ask.is_none() => {
                self.troubled = true;
                show_news(session, "Nothing is kept aside", &format!("{trouble}. Save your work often."));
                true
            }
            _ => false,
        }
    }

    /// Puts a draft left behind on the screen, as changes of what was saved.
    fn show(&self, session: &mut Session, left: Left) {
        let brought = brought(&left);
        let faults = Scenario::from_file(left.saved.clone()).map_or_else(|faults| faults, |good| good.warnings());
        session.load(Draft::new(left.saved, faults), left.path);
        session.edit(Change { what: "bring back unsaved changes".into(), file: left.file });
        session.draft.settle();
        session.front.brought = Some(brought);
        if let Some(laid) = left.picture {
            self.pictures.open(session.path.clone(), laid.path().to_owned(), Some(laid));
        }
    }

    pub(super) fn keep_nothing(&mut self) {
        self.kept = None;
        if let Some(keeper) = &self.keeper {
            keeper.keep_nothing();
        }
    }

    pub(super) fn keep_recovered(&mut self, session: &mut Session) {
        // Waiting changes go on waiting: they are asked about again at the next start.
        session.front.brought = None;
    }

    pub(super) fn bring_back(&mut self, session: &mut Session) {
        let Some((left, draft)) = self.waiting.take() else { return };
        session.front.brought = None;
        if self.own.as_deref().is_some_and(|own| place::take_over(&draft, own)) {
            self.show(session, left);
        } else {
            session.word = "another window has brought these changes back".into();
        }
    }

    pub(super) fn drop_recovered(&mut self, session: &mut Session) {
        let Some(brought) = session.front.brought.take() else { return };
        if brought.shown {
            let (path, saved) = (session.path.clone(), session.draft.saved().clone());
            let faults = Scenario::from_file(saved.clone()).map_or_else(|faults| faults, |good| good.warnings());
            session.load(Draft::new(saved, faults), path);
            self.keep_nothing();
        } else if let Some((_, draft)) = self.waiting.take() {
            place::let_go(&draft);
        }
    }

    /// Starts the tour, which plays on the demo.
    pub(super) fn tour(&mut self, session: &mut Session) {
        let before = session.path.clone();
        self.demo(session);
        session.board = Board::Circle;
        session.settings.tour_seen = true;
        session.front.tour = Some(Tour { before, ..Tour::default() });
    }

    /// Ends the tour and goes back to what was open before it, unless the person has begun work of their own.
    pub(super) fn end_tour(&mut self, session: &mut Session) {
        let work = session.is_unsaved();
        let Some(tour) = session.front.tour.take() else { return };
        match tour.before {
            _ if work => {}
            Some(path) => self.open(session, &path),
            None if session.path.is_none() => self.demo(session),
            None => {}
        }
    }
}

fn is_same(path: &Path, session: &Session) -> bool {
    let whole = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.into());
    session.path.as_deref().is_some_and(|open| whole(open) == whole(path))
}

fn brought(left: &Left) -> Brought {
    let name = left.path.as_deref().map_or_else(|| left.file.name.clone(), name_of);
    Brought { name, when: when(left.at_s, place::now().as_secs()), shown: true }
}

/// The time of day of some seconds since 1970, with the date where that was another day. In the time of the place, or in
/// UTC where the system does not tell it.
fn when(at_s: u64, now_s: u64) -> String {
    let moment = |s: u64| OffsetDateTime::from_unix_timestamp(s.try_into().unwrap_or(0)).ok();
    let (Some(at), Some(now)) = (moment(at_s), moment(now_s)) else { return "an unknown time".into() };
    let (offset, zone) = UtcOffset::local_offset_at(at).map_or((UtcOffset::UTC, " UTC"), |offset| (offset, ""));
    let (at, now) = (at.to_offset(offset), now.to_offset(offset));
    let time = format!("{:02}:{:02}{zone}", at.hour(), at.minute());
    if at.date() == now.date() { time } else { format!("{} at {time}", at.date()) }
}
