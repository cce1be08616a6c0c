//! How does a picture, such as a photograph from above, lie on the ground?

mod world_file;

use glam::{DMat2, DVec2};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::error::Fault;
use crate::error::json::join;

/// From pixels to metres about the datum: `metres = numbers[0] * x + numbers[1] * y + numbers[2]`.
///
/// A pixel's x runs right and y down from the upper left corner of the picture, so that the middle of the first pixel
/// is (0.5, 0.5). A placement never lies mirrored.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Placement {
    /// Metres east: for a pixel right, for a pixel down, at the upper left corner.
    pub east: [f64; 3],
    /// Metres north, likewise.
    pub north: [f64; 3],
}

impl Placement {
    /// The one turn, scale and shift that puts two pixels on two places on the ground.
    ///
    /// # Errors
    ///
    /// Where the two pixels, or the two places, are one and the same or no finite numbers.
    pub fn from_two_points(pixels: [DVec2; 2], metres: [DVec2; 2]) -> Result<Self, Fault> {
        // Right and up, so that a turn alone takes it to east and north.
        let upright = |pixel: DVec2| DVec2::new(pixel.x, -pixel.y);
        let (from, to) = (upright(pixels[1]) - upright(pixels[0]), metres[1] - metres[0]);
        for (what, apart) in [("in the picture", from), ("on the ground", to)] {
            if !(apart.length_squared() > 0.0 && apart.is_finite()) {
                let problem = format!("the two points are at the same place {what}");
                return Err(Fault::error("", problem, "Choose two points far apart, near opposite corners"));
            }
        }
        // `to / from` as complex numbers: how much longer and how far round.
        let turn = DVec2::new(from.dot(to), from.perp_dot(to)) / from.length_squared();
        let (right, down) = (turn, DVec2::new(turn.y, -turn.x));
        let placement = Self::of(right, down, metres[0] - (right * pixels[0].x + down * pixels[0].y));
        placement.faults("").into_iter().next().map_or(Ok(placement), Err)
    }

    fn of(right: DVec2, down: DVec2, corner: DVec2) -> Self {
        Self { east: [right.x, down.x, corner.x], north: [right.y, down.y, corner.y] }
    }

    /// The place of a pixel on the ground, metres.
    pub fn ground(&self, pixel: DVec2) -> DVec2 {
        self.matrix() * pixel + self.corner()
    }

    /// The pixel of a place on the ground.
    pub fn pixel(&self, ground: DVec2) -> DVec2 {
        self.matrix().inverse() * (ground - self.corner())
    }

    /// Metres along the side of a pixel; where its sides differ, of the square with the same area.
    pub fn metres_a_pixel(&self) -> f64 {
        self.matrix().determinant().abs().sqrt()
    }

    /// What is wrong with numbers that come from a file, each with its place below `place`.
    pub fn faults(&self, place: &str) -> Vec<Fault> {
        let way_out = "Lay the picture again, by two points";
        let mut faults = Vec::new();
        for (name, numbers) in [("east", self.east), ("north", self.north)] {
            if !numbers.iter().all(|number| number.is_finite()) {
                faults.push(Fault::error(join(place, name), "a number is not finite", way_out));
            }
        }
        if faults.is_empty() {
            let area = self.matrix().determinant();
            if area > 0.0 {
                faults.push(Fault::error(place, "the picture would lie mirrored", way_out));
            } else if area.abs() < f64::MIN_POSITIVE {
                faults.push(Fault::error(place, "the picture would have no area", way_out));
            }
        }
        faults
    }

    /// Metres for a pixel right and for one down, side by side. Its determinant is negative, for y runs down.
    fn matrix(&self) -> DMat2 {
        DMat2::from_cols(DVec2::new(self.east[0], self.north[0]), DVec2::new(self.east[1], self.north[1]))
    }

    fn corner(&self) -> DVec2 {
        DVec2::new(self.east[2], self.north[2])
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    use super::*;

    fn at(x: f64, y: f64) -> DVec2 {
        DVec2::new(x, y)
    }

    #[test]
    fn north_up_by_hand() {
        // A pixel is half a metre; the first corner of the picture lies at (-100, 80).
        let placed = Placement::from_two_points([at(0.0, 0.0), at(400.0, 200.0)], [at(-100.0, 80.0), at(100.0, -20.0)]);
        let placed = placed.unwrap();
        assert_eq!(placed, Placement { east: [0.5, 0.0, -100.0], north: [0.0, -0.5, 80.0] });
        assert_eq!((placed.metres_a_pixel(), placed.ground(at(10.0, 20.0))), (0.5, at(-95.0, 70.0)));
        // A quarter turn: right in the picture is south on the ground, down is west.
        let turned = Placement::from_two_points([at(0.0, 0.0), at(10.0, 0.0)], [at(0.0, 0.0), at(0.0, -20.0)]).unwrap();
        assert_eq!(turned.ground(at(0.0, 10.0)), at(-20.0, 0.0));
    }

    #[test]
    fn points_at_one_place_are_refused() {
        let check = |pixels, metres, words: &str| {
            let fault = Placement::from_two_points(pixels, metres).unwrap_err();
            assert!(fault.problem.contains(words) && !fault.way_out.is_empty(), "{fault}");
        };
        let (one, two) = (at(3.0, 4.0), at(5.0, 6.0));
        check([one, one], [one, two], "in the picture");
        check([one, two], [two, two], "on the ground");
        check([one, two], [two, at(f64::NAN, 0.0)], "on the ground");
        check([at(f64::INFINITY, 0.0), two], [one, two], "in the picture");
    }

    #[test]
    fn numbers_from_a_file_are_looked_at() {
        let check = |east, north, place: &str, words: &str| {
            let faults = Placement { east, north }.faults("/picture");
            assert!(faults.len() == 1 && faults[0].place == place && faults[0].problem.contains(words), "{faults:?}");
        };
        check([0.5, 0.0, 0.0], [0.0, 0.5, 0.0], "/picture", "mirrored");
        check([0.5, 0.5, 0.0], [0.5, 0.5, 0.0], "/picture", "no area");
        check([f64::NAN, 0.0, 0.0], [0.0, -0.5, 0.0], "/picture/east", "not finite");
        assert_eq!(Placement { east: [0.5, 0.0, 0.0], north: [0.0, -0.5, 0.0] }.faults(""), []);
    }

    proptest! {
        #[test]
        fn two_points_lie_where_they_were_put_and_nothing_is_mirrored(
            a in prop::array::uniform2(0.0..4000.0), turn in 0.0..6.3_f64, apart in 100.0..4000.0_f64,
            metres in prop::array::uniform2(-3000.0..3000.0), heading in 0.0..6.3_f64, scale in 0.02..2.0_f64,
            probe in prop::array::uniform2(0.0..4000.0),
        ) {
            let a = DVec2::from(a);
            let pixels = [a, a + DVec2::from_angle(turn) * apart];
            let metres = [DVec2::from(metres), DVec2::from(metres) + DVec2::from_angle(heading) * apart * scale];
            let placed = Placement::from_two_points(pixels, metres).unwrap();
            for (pixel, metres) in pixels.into_iter().zip(metres) {
                prop_assert!(placed.ground(pixel).distance(metres) < 1e-9);
            }
            // A thousand pixels in any direction are a thousand times the scale.
            let (from, probe) = (placed.ground(a), DVec2::from(probe));
            prop_assert!((placed.metres_a_pixel() / scale - 1.0).abs() < 1e-9);
            for direction in [DVec2::X, DVec2::Y, DVec2::from_angle(1.0)] {
                let gone = placed.ground(a + direction * 1000.0).distance(from);
                prop_assert!((gone / (1000.0 * scale) - 1.0).abs() < 1e-9);
            }
            prop_assert!(placed.pixel(placed.ground(probe)).distance(probe) < 1e-6);
            // Right, then down, turns clockwise on the ground as it does in the picture.
            let (right, down) = (placed.ground(a + DVec2::X) - from, placed.ground(a + DVec2::Y) - from);
            prop_assert!(right.perp_dot(down) < 0.0);
            prop_assert_eq!(placed.faults(""), vec![]);
        }
    }

    #[test]
    fn kept_as_numbers() {
        let placed = Placement { east: [0.5, 0.25, -100.0], north: [0.0, -0.5, 80.125] };
        let text = serde_json::to_string(&placed).unwrap();
        assert_eq!(serde_json::from_str::<Placement>(&text).unwrap(), placed);
        assert_abs_diff_eq!(placed.pixel(placed.ground(at(7.0, 9.0))).distance(at(7.0, 9.0)), 0.0, epsilon = 1e-9);
    }
}
