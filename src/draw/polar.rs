//! Axes about a middle: a value for every direction of the compass, north up.

use glam::DVec2;

use super::{Fill, Ink, Lettering, Pen, Scale, Sheet};
use crate::units::Bearing;

/// Polar axes. The scale begins at the middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Polar {
    /// Middle, mm.
    pub middle: DVec2,
    /// Radius of the outermost ring, mm.
    pub radius_mm: f64,
    /// Values from the middle outwards.
    pub scale: Scale,
}

impl Polar {
    /// The place of a value in a direction, degrees from north, clockwise.
    pub fn at(&self, deg: f64, value: f64) -> DVec2 {
        self.along(deg, self.radius_mm * self.scale.share(value).max(0.0))
    }

    /// The place so many millimetres from the middle in a direction.
    pub fn along(&self, deg: f64, mm: f64) -> DVec2 {
        let way = Bearing::from_deg(deg).unit();
        self.middle + DVec2::new(way.x, -way.y) * mm
    }

    /// The slice from the middle out to a value, so wide about a direction, degrees.
    pub fn slice(&self, deg: f64, wide_deg: f64, value: f64) -> Vec<DVec2> {
        const PIECES: u32 = 8;
        let rim = (0..=PIECES).map(|piece| {
            let part = f64::from(piece) / f64::from(PIECES) - 0.5;
            self.at(deg + part * wide_deg, value)
        });
        std::iter::once(self.middle).chain(rim).collect()
    }

    /// Draws rings and spokes every 30 degrees.
    pub fn draw(&self, sheet: &mut Sheet) {
        for twelfth in 0..12 {
            let deg = f64::from(twelfth) * 30.0;
            sheet.line([self.middle, self.along(deg, self.radius_mm)], Pen::plain(Ink::FAINT, 0.2));
        }
        for value in self.scale.ticks().into_iter().filter(|value| *value > self.scale.from) {
            let radius = self.radius_mm * self.scale.share(value);
            sheet.circle(self.middle, radius, Some(Pen::plain(Ink::RULE, 0.2)), Fill::None);
        }
        sheet.circle(self.middle, self.radius_mm, Some(Pen::plain(Ink::BLACK, 0.3)), Fill::None);
    }

    /// Letters the values of the rings along a direction, over whatever was drawn.
    pub fn letter(&self, sheet: &mut Sheet, deg: f64, unit: &str) {
        let ticks: Vec<f64> = self.scale.ticks().into_iter().filter(|value| *value > self.scale.from).collect();
        for (index, value) in ticks.iter().enumerate() {
            let last = index + 1 == ticks.len();
            let words = self.scale.tick(*value) + if last { unit } else { "" };
            let at = self.at(deg, *value) + DVec2::new(0.0, 1.2 + if last { 3.0 } else { 0.0 });
            sheet.words(at, words, Lettering::new(3.4).middle().rimmed());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn north_is_up_and_east_to_the_right() {
        let polar = Polar { middle: DVec2::new(50.0, 50.0), radius_mm: 40.0, scale: Scale::over([0.0, 10.0], 5) };
        let check = |deg, value, x, y| {
            approx::assert_abs_diff_eq!(polar.at(deg, value).distance(DVec2::new(x, y)), 0.0, epsilon = 1e-9);
        };
        check(0.0, 10.0, 50.0, 10.0);
        check(90.0, 5.0, 70.0, 50.0);
        check(225.0, 0.0, 50.0, 50.0);
    }
}
