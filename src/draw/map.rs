//! Ground on paper: metres east and north, drawn true to scale with north up, with scale bar, north and wind.

use glam::DVec2;

use super::{Fill, Frame, Ink, Lettering, Path, Pen, Sheet};
use crate::geometry::Region;
use crate::units::Bearing;

/// Ground fitted into a frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapFrame {
    /// Where on the sheet.
    pub frame: Frame,
    /// Paper for one metre, mm.
    pub mm_a_metre: f64,
    /// Ground in the middle of the frame, metres.
    pub middle: DVec2,
}

impl MapFrame {
    /// Shows the ground between two corners, metres, as large as the frame lets it.
    pub fn fit(frame: Frame, low: DVec2, high: DVec2) -> Self {
        let room = frame.size() / (high - low).max(DVec2::splat(1.0));
        Self { frame, mm_a_metre: room.min_element(), middle: (low + high) / 2.0 }
    }

    /// The place on the sheet.
    pub fn at(&self, ground: DVec2) -> DVec2 {
        let away = (ground - self.middle) * self.mm_a_metre;
        self.frame.middle() + DVec2::new(away.x, -away.y)
    }

    /// Places on the sheet.
    pub fn all<'a>(&'a self, ground: impl IntoIterator<Item = &'a DVec2> + 'a) -> impl Iterator<Item = DVec2> + 'a {
        ground.into_iter().map(|at| self.at(*at))
    }

    /// A region's rings on the sheet.
    pub fn rings(&self, region: &Region) -> Path {
        Path::Rings(region.rings().iter().map(|ring| self.all(ring).collect()).collect())
    }

    /// Draws a bar of a round length near a place: its left end.
    pub fn scale_bar(&self, sheet: &mut Sheet, at: DVec2, longest_mm: f64) {
        let longest = longest_mm / self.mm_a_metre;
        let ten = 10.0_f64.powf(longest.log10().floor());
        let metres = [5.0, 2.0, 1.0].into_iter().find(|part| part * ten <= longest).unwrap_or(1.0) * ten;
        let half = metres * self.mm_a_metre / 2.0;
        let thick = DVec2::new(0.0, 1.4);
        let pen = Some(Pen::plain(Ink::BLACK, 0.25));
        sheet.rectangle(at, at + DVec2::new(half, 0.0) + thick, pen, Fill::Plain(Ink::BLACK));
        sheet.rectangle(
            at + DVec2::new(half, 0.0),
            at + DVec2::new(2.0 * half, 0.0) + thick,
            pen,
            Fill::Plain(Ink::PAPER),
        );
        let words = Lettering::new(3.4).rimmed();
        sheet.words(at + DVec2::new(0.0, -1.0), "0", words);
        sheet.words(at + DVec2::new(2.0 * half, -1.0), format!("{metres} m"), words.middle());
    }
}

/// Draws an arrow to the north about a place.
pub fn north(sheet: &mut Sheet, at: DVec2) {
    let tip = at + DVec2::new(0.0, -5.0);
    let (left, right, notch) = (DVec2::new(-2.6, 5.0), DVec2::new(2.6, 5.0), DVec2::new(0.0, 3.2));
    sheet.ring([tip, at + right, at + notch, at + left], Some(Pen::plain(Ink::BLACK, 0.3)), Fill::Plain(Ink::PAPER));
    sheet.ring([tip, at + right, at + notch], Some(Pen::plain(Ink::BLACK, 0.3)), Fill::Plain(Ink::BLACK));
    sheet.words(tip + DVec2::new(0.0, -1.2), "N", Lettering::new(4.4).bold().middle().rimmed());
}

/// Draws a head of an arrow on a line: along which way on the paper, how far ahead of the place its tip lies, how far
/// behind it and aside its corners, mm, in which ink and with how wide a rim.
pub fn arrow_head(sheet: &mut Sheet, at: DVec2, along: DVec2, corners_mm: [f64; 3], (ink, rim_mm): (Ink, f64)) {
    let ([ahead, back, aside], across) = (corners_mm, along.perp());
    let corners = [at + along * ahead, at - along * back + across * aside, at - along * back - across * aside];
    sheet.ring(corners, Some(Pen::plain(Ink::PAPER, rim_mm)), Fill::Plain(ink));
}

/// Draws an arrow that flies with the wind, through a place: its tail is where the wind comes from.
pub fn wind(sheet: &mut Sheet, at: DVec2, from: Bearing, length_mm: f64) {
    let from = from.unit();
    let (back, across) = (DVec2::new(from.x, -from.y), DVec2::new(-from.y, -from.x));
    let (tail, tip) = (at + back * length_mm / 2.0, at - back * length_mm / 2.0);
    let head = [tip, tip + back * 4.2 + across * 2.1, tip + back * 4.2 - across * 2.1];
    sheet.line([tail, tip + back * 3.0], Pen::plain(Ink::PAPER, 2.4));
    sheet.line([tail, tip + back * 3.0], Pen::plain(Ink::BLACK, 1.1));
    sheet.ring(head, Some(Pen::plain(Ink::PAPER, 0.4)), Fill::Plain(Ink::BLACK));
    for feather in [0.0, 1.8] {
        let foot = tail - back * feather;
        sheet.line([foot, foot + back * 2.0 + across * 2.4], Pen::plain(Ink::BLACK, 0.7));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::Mark;

    #[test]
    fn ground_is_true_to_scale_north_up_and_inside_the_frame() {
        let frame = Frame::new(10.0, 20.0, 100.0, 50.0);
        let map = MapFrame::fit(frame, DVec2::new(-100.0, 0.0), DVec2::new(100.0, 200.0));
        // 200 m north to south in 50 mm.
        approx::assert_relative_eq!(map.mm_a_metre, 0.25);
        approx::assert_abs_diff_eq!(
            map.at(DVec2::new(0.0, 200.0)).distance(DVec2::new(60.0, 20.0)),
            0.0,
            epsilon = 1e-9
        );
        approx::assert_abs_diff_eq!(
            map.at(DVec2::new(100.0, 0.0)).distance(DVec2::new(85.0, 70.0)),
            0.0,
            epsilon = 1e-9
        );
    }

    #[test]
    fn a_wind_from_the_west_flies_to_the_east() {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        wind(&mut sheet, DVec2::splat(50.0), Bearing::from_deg(270.0), 20.0);
        let mut heads = sheet.marks.iter().rev().filter_map(|mark| match mark {
            Mark::Shape { path: Path::Rings(rings), .. } => Some(rings[0][0]),
            _ => None,
        });
        approx::assert_abs_diff_eq!(heads.next().unwrap().distance(DVec2::new(60.0, 50.0)), 0.0, epsilon = 1e-9);
    }
}
