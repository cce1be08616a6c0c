//! Surfaces side by side that are filled alike, drawn as one: no seam shows between them, and a hatch runs through.

use glam::DVec2;

use super::{Fill, Mark, Path};
use crate::geometry::ring_area_m2;

/// Whether two marks can be drawn as one: surfaces of one ring each, filled alike, without an edge.
pub(super) fn alike(mark: &Mark, next: &Mark) -> bool {
    matches!((tile(mark), tile(next)), (Some((_, fill)), Some((_, other))) if fill == other)
}

/// The rings of several marks that are [`alike`], and their fill; none for fewer. Inside is whatever the rings go round
/// more often one way than the other, so that where two overlap neither is cut out.
pub(super) fn tiles(run: &[Mark]) -> Option<(Path, Fill)> {
    let tiles: Vec<_> = run.iter().filter_map(tile).collect();
    let fill = tiles.first().filter(|_| tiles.len() > 1)?.1;
    Some((Path::Rings(tiles.into_iter().map(|(ring, _)| one_way_round(ring)).collect()), fill))
}

fn tile(mark: &Mark) -> Option<(&[DVec2], Fill)> {
    let Mark::Shape { path: Path::Rings(rings), pen: None, fill, .. } = mark else { return None };
    let [ring] = rings.as_slice() else { return None };
    Some((ring, *fill))
}

fn one_way_round(ring: &[DVec2]) -> Vec<DVec2> {
    if ring_area_m2(ring.iter().copied()) < 0.0 { ring.iter().rev().copied().collect() } else { ring.to_vec() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::sheet::corners;
    use crate::draw::{Ink, Pen, Sheet};

    #[test]
    fn neighbours_filled_alike_are_one_surface_whichever_way_they_go_round() {
        let mut sheet = Sheet::new(100.0, 100.0, "", "");
        let square = |x: f64| corners(DVec2::new(x, 0.0), DVec2::new(x + 10.0, 10.0));
        let [blue, sky] = [Ink::BLUE, Ink::SKY].map(Fill::Plain);
        sheet.ring(square(0.0), None, blue);
        sheet.ring(square(10.0).into_iter().rev(), None, blue);
        sheet.ring(square(20.0), None, sky);
        sheet.ring(square(30.0), Some(Pen::plain(Ink::BLACK, 0.3)), sky);
        sheet.circle(DVec2::ZERO, 5.0, None, sky);
        let runs: Vec<_> = sheet.marks.chunk_by(alike).map(|run| (run.len(), tiles(run))).collect();
        let one = Path::Rings([0.0, 10.0].map(|x| square(x).to_vec()).into());
        assert_eq!(runs, [(2, Some((one, blue))), (1, None), (1, None), (1, None)]);
    }
}
