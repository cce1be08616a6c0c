//! Where on the ground each pixel of a picture lies: scale, turn and shift, from two known points or a world file.

use glam::{DMat2, DVec2};
use serde::{Deserialize, Serialize};

/// From pixels, x to the right and y down from the middle of the upper left pixel, to metres about the datum.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Placement {
    /// Metres east and north that one pixel to the right goes.
    pub right_m: DVec2,
    /// Metres east and north that one pixel down goes.
    pub down_m: DVec2,
    /// Where the middle of the upper left pixel lies, metres.
    pub corner_m: DVec2,
}

impl Placement {
    /// North up, so many metres a pixel, the middle of a picture of that size at a place.
    pub fn middle(size: DVec2, metres_a_pixel: f64, at: DVec2) -> Self {
        let (right_m, down_m) = (DVec2::X * metres_a_pixel, DVec2::NEG_Y * metres_a_pixel);
        let half = (size - DVec2::ONE) / 2.0;
        Self { right_m, down_m, corner_m: at - right_m * half.x - down_m * half.y }
    }

    /// The scale and turn that bring two pixels to two places, without stretching; none where either pair is one point.
    pub fn from_two_points(px_a: DVec2, px_b: DVec2, m_a: DVec2, m_b: DVec2) -> Option<Self> {
        let (pixels, metres) = ((px_b - px_a) * DVec2::new(1.0, -1.0), m_b - m_a);
        let length2 = pixels.length_squared();
        if !(length2 > 0.0 && metres.length_squared() > 0.0 && metres.is_finite()) {
            return None;
        }
        // As complex numbers: what `pixels` has to be multiplied by to give `metres`.
        let turn = DVec2::new(metres.dot(pixels), pixels.perp_dot(metres)) / length2;
        let (right_m, down_m) = (turn, -turn.perp());
        Some(Self { right_m, down_m, corner_m: m_a - right_m * px_a.x - down_m * px_a.y })
    }

    /// From the six lines of a world file; none where it has not got six numbers that make a picture.
    pub fn from_world_file(text: &str) -> Option<Self> {
        let numbers: Option<Vec<f64>> =
            text.split_whitespace().map(|word| word.replace(',', ".").parse().ok()).collect();
        let [a, d, b, e, c, f] = numbers?.try_into().ok()?;
        let found = Self { right_m: DVec2::new(a, d), down_m: DVec2::new(b, e), corner_m: DVec2::new(c, f) };
        let sound = found.corner_m.is_finite() && found.right_m.perp_dot(found.down_m).abs() > 0.0;
        (sound && found.metres_a_pixel().is_finite()).then_some(found)
    }

    /// Where a pixel lies, metres.
    pub fn ground(&self, pixel: DVec2) -> DVec2 {
        self.corner_m + self.right_m * pixel.x + self.down_m * pixel.y
    }

    /// Which pixel lies at a place.
    pub fn pixel(&self, ground: DVec2) -> DVec2 {
        DMat2::from_cols(self.right_m, self.down_m).inverse() * (ground - self.corner_m)
    }

    /// Metres that a pixel is wide.
    pub fn metres_a_pixel(&self) -> f64 {
        self.right_m.length()
    }

    /// How far the picture is turned from north up, degrees clockwise, between -180 and 180.
    pub fn turn_deg(&self) -> f64 {
        -self.right_m.to_angle().to_degrees() + 0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(placement: &Placement, pixel: (f64, f64), ground: (f64, f64)) {
        let (pixel, ground) = (DVec2::new(pixel.0, pixel.1), DVec2::new(ground.0, ground.1));
        assert!(placement.ground(pixel).distance(ground) < 1e-9, "{}", placement.ground(pixel));
        assert!(placement.pixel(ground).distance(pixel) < 1e-9);
    }

    #[test]
    fn two_points_give_scale_and_turn() {
        // A picture with south at its top: what is right in it is west.
        let px = [DVec2::new(100.0, 50.0), DVec2::new(300.0, 50.0)];
        let m = [DVec2::new(40.0, 10.0), DVec2::new(-60.0, 10.0)];
        let placement = Placement::from_two_points(px[0], px[1], m[0], m[1]).unwrap();
        check(&placement, (100.0, 50.0), (40.0, 10.0));
        check(&placement, (100.0, 150.0), (40.0, 60.0));
        assert!((placement.metres_a_pixel() - 0.5).abs() < 1e-12);
        assert!((placement.turn_deg().abs() - 180.0).abs() < 1e-9);
        assert!(Placement::from_two_points(px[0], px[0], m[0], m[1]).is_none());
        assert!(Placement::from_two_points(px[0], px[1], m[0], m[0]).is_none());
    }

    #[test]
    fn the_scale_is_right_to_one_in_a_hundred_when_points_are_a_pixel_off() {
        let size = DVec2::new(1200.0, 800.0);
        let true_one = Placement::middle(size, 0.4, DVec2::new(5.0, -3.0));
        let (a, b) = (DVec2::new(120.0, 90.0), DVec2::new(1000.0, 700.0));
        let off = DVec2::new(1.0, -1.0);
        let found = Placement::from_two_points(a + off, b - off, true_one.ground(a), true_one.ground(b)).unwrap();
        assert!((found.metres_a_pixel() / 0.4 - 1.0).abs() < 0.01 && found.turn_deg().abs() < 0.5);
    }

    #[test]
    fn a_world_file_is_read_in_its_own_order() {
        // Six lines: x of a pixel right, y of a pixel right, x of a pixel down, y of a pixel down, x and y of the
        // middle of the upper left pixel (value from memory: the order of ESRI's world files).
        let placement = Placement::from_world_file("0.5\n0.0\n0.0\n-0.5\n-200.0\n150.0\n").unwrap();
        check(&placement, (10.0, 20.0), (-195.0, 140.0));
        for text in ["", "1 2 3", "0 0 0 0 1 1", "a b c d e f", "1 0 0 -1 NaN 0", "1 0 0 -1 0 0 0"] {
            assert!(Placement::from_world_file(text).is_none(), "{text}");
        }
    }
}
