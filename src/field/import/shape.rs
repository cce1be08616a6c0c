//! A shape without a role, and the way from a line that comes round to a ring and back.

use glam::DVec2;

use super::{Form, Role};
use crate::field::Metres;
use crate::geometry::ring_area_m2;
use crate::units::Length;

/// Ends of a line no further apart than this, metres, or than this share of its length, nearly meet. Chosen for a walk
/// with a phone, which wanders by several metres.
const GAP_M: f64 = 15.0;
const GAP_SHARE: f64 = 0.05;
/// Area over length squared of a line that goes round something: a circle has 0.08, a strip ten times as long as wide
/// 0.02, a way there and back nearly nothing.
const ROUND: f64 = 0.01;

/// Something drawn, in metres about the datum of its [`Import`](super::Import).
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// What the file calls it, or its number there. Two may have the same.
    pub name: String,
    /// What it is made of.
    pub form: Form,
    /// The place, the places in order, or the corners anticlockwise without the first repeated.
    pub points_m: Vec<Metres>,
    /// Ground inside a ring that is no part of it, corners clockwise.
    pub holes_m: Vec<Vec<Metres>>,
    /// What it stands for, where the file says so in our own words. A person decides.
    pub role: Option<Role>,
    /// The height that comes with that role.
    pub height: Option<Length>,
}

impl Shape {
    /// The ring whose edge the line is; none where there are no three corners around any ground.
    pub fn closed(&self) -> Option<Self> {
        if self.form != Form::Line {
            return None;
        }
        let points_m = turned(open(&self.points_m), true);
        let ring = Self { form: Form::Ring, points_m, role: None, ..self.clone() };
        (ring.points_m.len() >= 3 && area_m2(&ring.points_m) > 0.0).then_some(ring)
    }

    /// The edge of the ring as a line that ends where it begins; holes are left out. None where it is no ring.
    pub fn opened(&self) -> Option<Self> {
        let points = self.points_m.iter().chain(self.points_m.first()).copied().collect();
        let line = || Self { form: Form::Line, points_m: points, holes_m: vec![], role: None, ..self.clone() };
        (self.form == Form::Ring).then(line)
    }
}

/// How far apart the ends of a line are, metres, where they nearly meet and it goes round something.
pub(super) fn gap_m(line: &[Metres]) -> Option<f64> {
    let (first, last) = (line.first()?, line.last()?);
    let length: f64 = line.windows(2).map(|pair| distance(pair[0], pair[1])).sum();
    let gap = distance(*first, *last);
    let near = gap <= GAP_M.max(GAP_SHARE * length) && open(line).len() >= 3;
    (near && area_m2(line).abs() > ROUND * (length + gap).powi(2)).then_some(gap)
}

/// Without the repeated last corner.
pub(super) fn open(ring: &[Metres]) -> &[Metres] {
    match ring {
        [first, rest @ .., last] if first == last => &ring[..=rest.len()],
        _ => ring,
    }
}

/// The same corners, anticlockwise or clockwise. The first stays first.
pub(super) fn turned(ring: &[Metres], anticlockwise: bool) -> Vec<Metres> {
    let mut ring = ring.to_vec();
    if (area_m2(&ring) > 0.0) != anticlockwise
        && let Some(rest) = ring.get_mut(1..)
    {
        rest.reverse();
    }
    ring
}

/// Area inside, m^2, positive where the corners go round anticlockwise.
pub(super) fn area_m2(ring: &[Metres]) -> f64 {
    ring_area_m2(ring.iter().copied().map(DVec2::from_array))
}

fn distance(a: Metres, b: Metres) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(points_m: &[Metres]) -> Shape {
        let (name, points_m) = ("Walk".into(), points_m.to_vec());
        Shape { name, form: Form::Line, points_m, holes_m: vec![], role: None, height: None }
    }

    #[track_caller]
    fn check(points: &[Metres], gap: Option<f64>) {
        assert_eq!(gap_m(points), gap, "{points:?}");
    }

    #[test]
    fn only_a_walk_round_something_nearly_meets() {
        check(&[[0.0, 0.0], [100.0, 0.0], [100.0, 80.0], [0.0, 80.0], [0.0, 4.0]], Some(4.0));
        check(&[[0.0, 0.0], [100.0, 0.0], [100.0, 80.0], [0.0, 80.0], [0.0, 0.0]], Some(0.0));
        // 16 m, but of 1008 m of way.
        check(&[[0.0, 0.0], [256.0, 0.0], [256.0, 256.0], [0.0, 256.0], [0.0, 16.0]], Some(16.0));
        check(&[[0.0, 0.0], [100.0, 0.0], [100.0, 80.0], [0.0, 80.0], [0.0, 30.0]], None);
        // Along a strip and back beside it.
        check(&[[0.0, 0.0], [200.0, 0.0], [200.0, 2.0], [0.0, 2.0]], None);
        check(&[[0.0, 0.0], [3.0, 0.0]], None);
        check(&[[0.0, 0.0], [3.0, 0.0], [0.0, 0.0]], None);
        check(&[], None);
    }

    #[test]
    fn a_line_closes_to_a_ring_anticlockwise_and_opens_again() {
        let clockwise = line(&[[0.0, 0.0], [0.0, 80.0], [100.0, 80.0], [100.0, 0.0], [0.0, 0.0]]);
        let ring = clockwise.closed().unwrap();
        assert_eq!(ring.points_m, [[0.0, 0.0], [100.0, 0.0], [100.0, 80.0], [0.0, 80.0]]);
        assert_eq!((ring.form, area_m2(&ring.points_m)), (Form::Ring, 8000.0));
        let edge = ring.opened().unwrap();
        assert_eq!((edge.form, edge.points_m.len(), edge.points_m[4]), (Form::Line, 5, [0.0, 0.0]));
        assert_eq!(edge.closed().unwrap().points_m, ring.points_m);
        assert_eq!((ring.closed(), edge.opened()), (None, None));
        assert_eq!(line(&[[0.0, 0.0], [1.0, 0.0], [2.0, 0.0]]).closed(), None);
        assert_eq!(line(&[[0.0, 0.0], [1.0, 0.0], [0.0, 0.0]]).closed(), None);
    }
}
