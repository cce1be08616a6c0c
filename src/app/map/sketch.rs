//! Shapes in metres turned into coloured triangles, painted in the order they are added.

use bevy_egui::egui::{self, Color32};
use geo::{Coord, LineString, Polygon, TriangulateEarcut as _};
use glam::DVec2;

use crate::app::look::lens::{Lens, local};
use crate::geometry::Region;

/// Corners of a dot.
const DOT_CORNERS: u32 = 8;

/// Triangles so far.
#[derive(Debug, Default)]
pub struct Sketch {
    origin: DVec2,
    corners: Vec<[f32; 3]>,
    colours: Vec<Color32>,
    triangles: Vec<u32>,
}

impl Sketch {
    /// An empty sketch about an origin, metres.
    pub fn new(origin: DVec2) -> Self {
        Self { origin, ..Self::default() }
    }

    /// Number of triangles.
    pub fn triangles(&self) -> usize {
        self.triangles.len() / 3
    }

    /// Fills a region, holes left out.
    pub fn fill(&mut self, region: &Region, colour: Color32) {
        let mut rings = region
            .rings()
            .iter()
            .map(|ring| LineString::from_iter(ring.iter().map(|corner| Coord { x: corner.x, y: corner.y })));
        // The ear cutter wants a ring with an inside.
        let Some(outer) = rings.next().filter(|ring| ring.0.len() > 2) else { return };
        let cut = Polygon::new(outer, rings.collect()).earcut_triangles_raw();
        let corners = cut.vertices.iter().map(|&[x, y]| DVec2::new(x, y)).collect::<Vec<_>>();
        let triangles = cut.triangle_indices.iter().map(|&index| u32::try_from(index).unwrap_or_default());
        self.add(&corners, triangles.collect(), colour);
    }

    /// Fills a shape without dents, corners in order.
    pub fn convex(&mut self, corners: &[DVec2], colour: Color32) {
        let count = u32::try_from(corners.len()).unwrap_or_default();
        let fan = (2..count).flat_map(|corner| [0, corner - 1, corner]);
        self.add(corners, fan.collect(), colour);
    }

    /// A straight line of some width, metres.
    pub fn line(&mut self, [from, to]: [DVec2; 2], width: f64, colour: Color32) {
        let Some(along) = (to - from).try_normalize() else { return };
        let side = along.perp() * (width / 2.0);
        self.convex(&[from - side, to - side, to + side, from + side], colour);
    }

    /// The edges of a region, corners rounded.
    pub fn edges(&mut self, region: &Region, width: f64, colour: Color32) {
        for edge in region.edges() {
            self.line([edge.from, edge.to], width, colour);
            self.dot(edge.from, width, colour);
        }
    }

    /// A round dot of some diameter, metres.
    pub fn dot(&mut self, at: DVec2, diameter: f64, colour: Color32) {
        let corners: Vec<DVec2> = (0..DOT_CORNERS)
            .map(|corner| {
                let turn = std::f64::consts::TAU * f64::from(corner) / f64::from(DOT_CORNERS);
                at + DVec2::from_angle(turn) * (diameter / 2.0)
            })
            .collect();
        self.convex(&corners, colour);
    }

    fn add(&mut self, corners: &[DVec2], triangles: Vec<u32>, colour: Color32) {
        let first = u32::try_from(self.corners.len()).unwrap_or(u32::MAX);
        let origin = self.origin;
        self.corners.extend(corners.iter().map(|&corner| local(corner, origin).extend(0.0).to_array()));
        self.colours.resize(self.corners.len(), colour);
        self.triangles.extend(triangles.into_iter().map(|corner| corner + first));
    }

    /// The mesh that egui paints through a lens, with its colours changed by `colour`.
    pub fn painted(&self, lens: &Lens, colour: impl Fn(Color32) -> Color32) -> egui::Mesh {
        let corners = self.corners.iter().zip(&self.colours);
        let vertices = corners.map(|(&[x, y, _], &plain)| {
            let at = self.origin + DVec2::new(f64::from(x), f64::from(y));
            egui::epaint::Vertex { pos: lens.screen(at), uv: egui::epaint::WHITE_UV, color: colour(plain) }
        });
        egui::Mesh { vertices: vertices.collect(), indices: self.triangles.clone(), ..egui::Mesh::default() }
    }

    /// Corners in metres about the origin, with their colours, and the triangles between them.
    pub fn into_parts(self) -> (Vec<[f32; 3]>, Vec<Color32>, Vec<u32>) {
        (self.corners, self.colours, self.triangles)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::ring_area_m2;

    fn square(half: f64) -> Vec<DVec2> {
        [(-half, -half), (half, -half), (half, half), (-half, half)].map(|(x, y)| DVec2::new(x, y)).to_vec()
    }

    fn area(sketch: &Sketch) -> f64 {
        let corner = |index: u32| {
            let [x, y, _] = sketch.corners[index as usize];
            DVec2::new(f64::from(x), f64::from(y))
        };
        let triangles = sketch.triangles.chunks_exact(3);
        triangles.map(|ends| ring_area_m2(ends.iter().map(|&end| corner(end))).abs()).sum()
    }

    #[test]
    fn a_fill_covers_the_region_and_leaves_its_holes_out() {
        let region = Region::new(&square(100.0), &[square(30.0)]);
        let mut sketch = Sketch::new(DVec2::new(5000.0, -7000.0));
        sketch.fill(&region, Color32::RED);
        assert!((area(&sketch) - region.area_m2()).abs() < 1.0);
    }

    #[test]
    fn lines_have_their_width_and_degenerate_shapes_draw_nothing() {
        let mut sketch = Sketch::new(DVec2::ZERO);
        sketch.line([DVec2::ZERO, DVec2::new(30.0, 40.0)], 2.0, Color32::RED);
        assert!((area(&sketch) - 100.0).abs() < 1e-3);
        let before = sketch.triangles();
        sketch.line([DVec2::ONE, DVec2::ONE], 2.0, Color32::RED);
        sketch.fill(&Region::point(DVec2::ZERO), Color32::RED);
        assert_eq!(sketch.triangles(), before);
    }
}
