//! Which part of the ground is seen through which part of the screen, true to scale.
//!
//! The only places where metres of the world turn into something else are here: [`Lens::screen`] for points of the
//! screen, [`local`] for the f32 metres that the graphics card is given.

use bevy_egui::egui::{Pos2, Rect, pos2, vec2};
use glam::{DVec2, Vec2};

/// Least and most ground in a point of the screen, metres.
const METRES_A_POINT: (f64, f64) = (0.02, 50.0);
/// Share of the room left free round a view of everything.
const FRAME: f64 = 1.06;
/// Size of the box in the top right corner with north and the wind, which a view of everything leaves free, points.
pub const CORNER: Vec2 = Vec2::new(176.0, 196.0);

/// A rectangle of ground, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LensBounds {
    /// South-west corner.
    pub low: DVec2,
    /// North-east corner.
    pub high: DVec2,
}

impl LensBounds {
    /// The smallest that holds every point.
    pub fn of(points: impl IntoIterator<Item = DVec2>) -> Self {
        let mut bounds = Self { low: DVec2::INFINITY, high: DVec2::NEG_INFINITY };
        bounds.extend(points);
        bounds
    }

    /// Grows it to hold more points.
    pub fn extend(&mut self, points: impl IntoIterator<Item = DVec2>) {
        for point in points {
            self.low = self.low.min(point);
            self.high = self.high.max(point);
        }
    }

    /// Its middle.
    pub fn centre(self) -> DVec2 {
        (self.low + self.high) / 2.0
    }

    /// The same middle, this many times as large.
    #[must_use]
    pub fn grown(self, factor: f64) -> Self {
        let half = (self.high - self.low) / 2.0 * factor;
        Self { low: self.centre() - half, high: self.centre() + half }
    }

    /// Whether a point is inside.
    pub fn contains(self, point: DVec2) -> bool {
        self.low.cmple(point).all() && point.cmple(self.high).all()
    }
}

/// What is to be looked at, before anyone knows how large the window is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MapView {
    /// All of this.
    Whole(LensBounds),
    /// This place in the middle, at this scale.
    At {
        /// The middle, metres.
        centre: DVec2,
        /// Metres of ground in a point of the screen.
        metres_a_point: f64,
    },
}

impl Default for MapView {
    fn default() -> Self {
        Self::Whole(LensBounds { low: DVec2::splat(-200.0), high: DVec2::splat(200.0) })
    }
}

impl MapView {
    /// All of some bounds; a default where they hold nothing.
    pub fn whole(bounds: LensBounds) -> Self {
        if (bounds.high - bounds.low).is_finite() { Self::Whole(bounds) } else { Self::default() }
    }
}

/// The ground seen through a rectangle of the screen; by itself of the screen of a small laptop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lens {
    /// The rectangle, points of the screen.
    pub rect: Rect,
    /// The place in its middle, metres.
    pub centre: DVec2,
    /// Metres of ground in a point of the screen.
    pub metres_a_point: f64,
}

impl Default for Lens {
    fn default() -> Self {
        Self::new(MapView::default(), Rect::from_min_size(Pos2::ZERO, vec2(1366.0, 768.0)))
    }
}

impl Lens {
    /// The view of `look` through `rect`.
    pub fn new(look: MapView, rect: Rect) -> Self {
        match look {
            MapView::Whole(bounds) => Self::whole(bounds, rect),
            MapView::At { centre, metres_a_point } => Self::at(centre, metres_a_point, rect),
        }
    }

    fn at(centre: DVec2, metres_a_point: f64, rect: Rect) -> Self {
        Self { rect, centre, metres_a_point: metres_a_point.clamp(METRES_A_POINT.0, METRES_A_POINT.1) }
    }

    /// The nearest view of everything that leaves the corner free, to its left or below it.
    fn whole(bounds: LensBounds, rect: Rect) -> Self {
        let corner = CORNER + Vec2::splat(10.0);
        let beside = Rect::from_min_max(rect.min, pos2(rect.max.x - corner.x, rect.max.y));
        let below = Rect::from_min_max(pos2(rect.min.x, rect.min.y + corner.y), rect.max);
        let view = |room: Rect| {
            let size = DVec2::new(f64::from(room.width()), f64::from(room.height())).max(DVec2::ONE);
            let inside = Self::at(bounds.centre(), ((bounds.high - bounds.low) / size).max_element() * FRAME, room);
            Self::at(inside.ground(rect.center()), inside.metres_a_point, rect)
        };
        let (beside, below) = (view(beside), view(below));
        if beside.metres_a_point <= below.metres_a_point { beside } else { below }
    }

    /// Where a place of the ground is on the screen. North is up.
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen need no more than f32")]
    pub fn screen(&self, at: DVec2) -> Pos2 {
        let away = (at - self.centre) / self.metres_a_point;
        let middle = self.rect.center();
        pos2(middle.x + away.x as f32, middle.y - away.y as f32)
    }

    /// What place of the ground is at a point of the screen.
    pub fn ground(&self, at: Pos2) -> DVec2 {
        let away = at - self.rect.center();
        self.centre + DVec2::new(f64::from(away.x), -f64::from(away.y)) * self.metres_a_point
    }

    /// Shows `factor` times as much ground; the place `about` stays where it is on the screen.
    pub fn zoomed(&self, factor: f64, about: Option<DVec2>) -> MapView {
        let about = about.unwrap_or(self.centre);
        let metres_a_point = (self.metres_a_point * factor).clamp(METRES_A_POINT.0, METRES_A_POINT.1);
        let centre = about + (self.centre - about) * (metres_a_point / self.metres_a_point);
        MapView::At { centre, metres_a_point }
    }

    /// Moves over the ground by so many metres.
    pub fn panned(&self, by: DVec2) -> MapView {
        MapView::At { centre: self.centre + by, metres_a_point: self.metres_a_point }
    }
}

/// Metres of the world as the graphics card gets them: f32, about an origin near everything that is drawn.
#[allow(clippy::cast_possible_truncation, reason = "a field is some kilometres across: f32 holds a millimetre")]
pub fn local(at: DVec2, origin: DVec2) -> Vec2 {
    let away = at - origin;
    Vec2::new(away.x as f32, away.y as f32)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lens() -> Lens {
        let bounds = LensBounds { low: DVec2::new(-260.0, -260.0), high: DVec2::new(260.0, 200.0) };
        Lens::new(MapView::whole(bounds), Rect::from_min_max(pos2(240.0, 50.0), pos2(900.0, 500.0)))
    }

    #[test]
    fn the_whole_is_inside_and_the_same_scale_both_ways() {
        let lens = lens();
        for corner in [DVec2::new(-260.0, -260.0), DVec2::new(260.0, 200.0)] {
            assert!(lens.rect.contains(lens.screen(corner)));
        }
        let (west, east) = (lens.screen(DVec2::new(-100.0, 0.0)), lens.screen(DVec2::new(100.0, 0.0)));
        let (south, north) = (lens.screen(DVec2::new(0.0, -100.0)), lens.screen(DVec2::new(0.0, 100.0)));
        assert!((east.x - west.x - (south.y - north.y)).abs() < 1e-3);
        assert!(east.x > west.x && north.y < south.y);
    }

    #[test]
    fn screen_and_ground_are_each_others_inverse() {
        let lens = lens();
        for place in [DVec2::ZERO, DVec2::new(123.4, -56.7), DVec2::new(-250.0, 199.0)] {
            assert!(lens.ground(lens.screen(place)).distance(place) < 1e-3);
        }
    }

    #[test]
    fn zooming_keeps_the_place_under_the_pointer() {
        let lens = lens();
        let place = DVec2::new(80.0, -120.0);
        let nearer = Lens::new(lens.zoomed(0.5, Some(place)), lens.rect);
        assert!((nearer.screen(place) - lens.screen(place)).length() < 1e-2);
        assert!((nearer.metres_a_point * 2.0 - lens.metres_a_point).abs() < 1e-9);
    }

    #[test]
    fn nothing_to_show_still_gives_a_view() {
        let lens = Lens::new(MapView::whole(LensBounds::of([])), Rect::from_min_max(pos2(0.0, 0.0), pos2(10.0, 10.0)));
        assert!(lens.metres_a_point.is_finite() && lens.centre.is_finite());
    }
}
