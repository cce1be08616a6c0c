//! Pictures of pages, kept from frame to frame and drawn on a thread of their own, so that a frame costs nothing while
//! nothing changes and the window never waits for a page.

use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use bevy_egui::egui::{Context, Id, TextureOptions};

use super::order::{DrawnPages, Known, PageSketch, What};
use crate::app::session::{Answers, Session};
use crate::verify::Checked;

/// Pictures that are kept: going a few steps back must not draw anew.
const MOST: usize = 10;

/// What a picture depends on.
#[derive(Debug, Clone)]
struct Key {
    edition: u64,
    today: String,
    answers: Answers,
    checks: Option<Arc<Checked>>,
    what: What,
    room: [u32; 2],
}

impl Key {
    fn is(&self, other: &Self) -> bool {
        self.what == other.what
            && self.room == other.room
            && self.edition == other.edition
            && self.today == other.today
            && self.answers.is(&other.answers)
            && self.checks.as_ref().map(Arc::as_ptr) == other.checks.as_ref().map(Arc::as_ptr)
    }
}

struct Order {
    key: Key,
    known: Known,
}

/// A thread that draws, the newest order first.
struct Hand {
    orders: Sender<Order>,
    ready: Receiver<(Key, PageSketch)>,
    /// What it was asked for last.
    asked: Option<Key>,
}

#[derive(Default)]
struct Kept {
    /// The newest first.
    all: Vec<(Key, Arc<DrawnPages>)>,
    hand: Option<Hand>,
}

/// Where the pictures are. By itself it draws at once, for pictures and tests.
#[derive(Clone, Default)]
pub struct Shelf(Arc<Mutex<Kept>>);

/// What there is to be shown.
#[derive(Clone, Default)]
pub struct Seen {
    /// The picture with its words; none until a first one is drawn.
    pub drawn: Option<Arc<DrawnPages>>,
    /// Whether it is what was asked for, and not what stood in its place before.
    pub fresh: bool,
}

impl Shelf {
    /// A shelf whose pictures are drawn on a thread; `wake` is called when one is ready.
    ///
    /// # Errors
    /// The system gives no thread.
    pub fn aside(wake: impl Fn() + Send + 'static) -> std::io::Result<Self> {
        let ((orders, waiting), (done, ready)) = (channel::<Order>(), channel());
        thread::Builder::new().name("pages".into()).spawn(move || {
            while let Ok(first) = waiting.recv() {
                let Order { key, known } = waiting.try_iter().last().unwrap_or(first);
                let sketch = PageSketch::of(&known, key.what, key.room);
                if done.send((key, sketch)).is_err() {
                    return;
                }
                wake();
            }
        })?;
        let hand = Some(Hand { orders, ready, asked: None });
        Ok(Self(Arc::new(Mutex::new(Kept { all: Vec::new(), hand }))))
    }

    /// Makes this the shelf of a window.
    pub fn put_up(&self, ctx: &Context) {
        ctx.data_mut(|data| data.insert_temp(Id::new("shelf"), self.clone()));
    }

    /// The shelf of a window.
    pub fn of(ctx: &Context) -> Self {
        ctx.data_mut(|data| data.get_temp_mut_or_default::<Self>(Id::new("shelf")).clone())
    }

    /// A picture of the plan on the screen in a room of so many dots: as it is, or until then as it was before.
    pub fn look(&self, ctx: &Context, session: &Session, what: What, room: [u32; 2]) -> Seen {
        let key = Key {
            edition: session.edition,
            today: session.today.clone(),
            answers: session.answers.carried(session.edition, session.edition),
            checks: session.checks.made.clone(),
            what,
            room: room.map(|dots| dots.max(1)),
        };
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.take_what_is_ready(ctx);
        if let Some(drawn) = kept.exactly(&key) {
            return Seen { drawn: Some(drawn), fresh: true };
        }
        let Kept { all, hand } = &mut *kept;
        match hand {
            Some(hand) if hand.asked.as_ref().is_some_and(|asked| asked.is(&key)) => {}
            Some(hand) => {
                if let Some(known) = Known::of(session) {
                    hand.asked = Some(key.clone());
                    // The thread ends only with this.
                    let _ = hand.orders.send(Order { key, known });
                }
            }
            None => {
                if let Some(known) = Known::of(session) {
                    let sketch = PageSketch::of(&known, what, key.room);
                    put(all, ctx, key, sketch);
                    return Seen { drawn: all.first().map(|(_, drawn)| Arc::clone(drawn)), fresh: true };
                }
            }
        }
        let before = all.iter().find(|(key, _)| key.what == what);
        Seen { drawn: before.map(|(_, drawn)| Arc::clone(drawn)), fresh: false }
    }
}

impl Kept {
    fn take_what_is_ready(&mut self, ctx: &Context) {
        let Self { all, hand } = self;
        for (key, sketch) in hand.iter().flat_map(|hand| hand.ready.try_iter()) {
            put(all, ctx, key, sketch);
        }
    }

    /// What was drawn for a key, which is then the last to be let go.
    fn exactly(&mut self, key: &Key) -> Option<Arc<DrawnPages>> {
        let at = self.all.iter().position(|(known, _)| known.is(key))?;
        let found = self.all.remove(at);
        let drawn = Arc::clone(&found.1);
        self.all.insert(0, found);
        Some(drawn)
    }
}

fn put(all: &mut Vec<(Key, Arc<DrawnPages>)>, ctx: &Context, key: Key, sketch: PageSketch) {
    let PageSketch { told, image, about, pages } = sketch;
    let picture = image.map(|image| ctx.load_texture(about.clone(), image, TextureOptions::LINEAR));
    let edition = key.edition;
    all.insert(0, (key, Arc::new(DrawnPages { edition, told, picture, about, pages })));
    all.truncate(MOST);
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use super::*;
    use crate::app::look::lens::Lens;
    use crate::app::session::{AppCommand, Knob};
    use crate::report::prints::Print;
    use crate::run::Scenario;
    use crate::study::work::Work;
    use crate::verify::{Depth, verify};

    /// Looks, two milliseconds apart, after which nothing comes any more.
    const PATIENCE: u32 = 15_000;
    const ROOM: [u32; 2] = [190, 146];

    #[track_caller]
    fn wait_for(shelf: &Shelf, ctx: &Context, session: &Session, what: What) -> Arc<DrawnPages> {
        for _ in 0..PATIENCE {
            match shelf.look(ctx, session, what, ROOM) {
                Seen { drawn: Some(drawn), fresh: true } => return drawn,
                _ => thread::sleep(Duration::from_millis(2)),
            }
        }
        panic!("it never came");
    }

    #[test]
    fn pages_are_drawn_aside_and_the_one_before_stays_until_then() {
        let (ctx, what) = (Context::default(), What::Step(0));
        let shelf = Shelf::aside(|| ()).unwrap();
        let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        assert!(shelf.look(&ctx, &session, what, ROOM).drawn.is_none());
        let first = wait_for(&shelf, &ctx, &session, what);
        assert!(first.edition == session.edition && first.picture.is_some() && first.told.steps.len() == 8);
        session.apply(AppCommand::Turn(Knob::Radius, 77.0), Lens::default());
        let meanwhile = shelf.look(&ctx, &session, what, ROOM);
        assert!(!meanwhile.fresh && Arc::ptr_eq(&meanwhile.drawn.unwrap(), &first));
        let second = wait_for(&shelf, &ctx, &session, what);
        assert_eq!(second.edition, session.edition);
        wait_for(&shelf, &ctx, &session, What::Words);
        // Going back draws nothing anew.
        assert!(Arc::ptr_eq(&wait_for(&shelf, &ctx, &session, what), &second));
    }

    #[test]
    fn a_run_of_the_checks_draws_the_page_anew() {
        let (ctx, shelf, what) = (Context::default(), Shelf::default(), What::Page(Print::Card, 0));
        let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        let first = shelf.look(&ctx, &session, what, ROOM).drawn.unwrap();
        let work = Work::default();
        work.stop();
        session.checks.hear(Ok(verify(7, &Depth::brief(), &work)));
        let second = shelf.look(&ctx, &session, what, ROOM).drawn.unwrap();
        assert!(!Arc::ptr_eq(&first, &second));
        assert!(Arc::ptr_eq(&shelf.look(&ctx, &session, what, ROOM).drawn.unwrap(), &second));
    }

    #[test]
    fn what_is_drawn_at_once_is_the_same_and_no_more_is_kept_than_is_of_use() {
        let (ctx, shelf) = (Context::default(), Shelf::default());
        let session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        for wide in 0..MOST as u32 + 3 {
            let seen = shelf.look(&ctx, &session, What::Step(5), [190 + wide, 146 + wide]);
            assert!(seen.fresh && seen.drawn.unwrap().picture.is_some());
        }
        assert_eq!(shelf.0.lock().unwrap().all.len(), MOST);
    }
}
