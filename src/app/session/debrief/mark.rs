//! Which moments of a recovery can be moved, and what becomes of the others?

use crate::debrief::Marks;

/// A moment of a recovery that can be moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Mark {
    /// The loss.
    Lost,
    /// Where it begins to turn home.
    TurnedHome,
    /// Where it joins.
    Joined,
    /// Where the circle begins.
    CircleFrom,
    /// Where it ends.
    TakenOver,
}

impl Mark {
    /// All of them, in order.
    pub const ALL: [Self; 5] = [Self::Lost, Self::TurnedHome, Self::Joined, Self::CircleFrom, Self::TakenOver];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lost => "lost",
            Self::TurnedHome => "heading home",
            Self::Joined => "joining",
            Self::CircleFrom => "on the circle",
            Self::TakenOver => "taken over",
        }
    }

    /// Its sample.
    pub fn of(self, marks: &Marks) -> Option<usize> {
        match self {
            Self::Lost => Some(marks.lost),
            Self::TurnedHome => marks.turned_home,
            Self::Joined => marks.joined,
            Self::CircleFrom => marks.circling.as_ref().map(|range| range.start),
            Self::TakenOver => Some(marks.taken_over),
        }
    }

    /// The marks with it at a sample, the others pushed along so that all stay in order.
    pub(super) fn moved(self, marks: &Marks, to: usize) -> Marks {
        let mut all = Self::ALL.map(|mark| mark.of(marks));
        let own = Self::ALL.iter().position(|mark| *mark == self).unwrap_or_default();
        all[own] = Some(to);
        for (index, at) in all.iter_mut().enumerate() {
            *at = at.map(|at| if index < own { at.min(to) } else { at.max(to) });
        }
        let [lost, turned_home, joined, circle, taken_over] = all;
        let taken_over = taken_over.unwrap_or(marks.taken_over);
        Marks {
            lost: lost.unwrap_or(marks.lost),
            turned_home,
            joined,
            circling: circle.map(|from| from..(taken_over + 1).max(from + 1)),
            taken_over,
            ..marks.clone()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_that_is_moved_pushes_the_others_along() {
        let marks = Marks {
            take_off: None,
            lost: 10,
            turned_home: Some(20),
            joined: Some(30),
            circling: Some(40..101),
            taken_over: 100,
            landed: None,
        };
        let moved = Mark::Joined.moved(&marks, 50);
        assert_eq!((moved.lost, moved.turned_home, moved.joined), (10, Some(20), Some(50)));
        assert_eq!((moved.circling, moved.taken_over), (Some(50..101), 100));
        let moved = Mark::TakenOver.moved(&marks, 5);
        assert_eq!((moved.lost, moved.turned_home, moved.taken_over), (5, Some(5), 5));
    }
}
