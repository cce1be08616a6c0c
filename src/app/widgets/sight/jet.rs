//! How does the jet look from there, as large as it is and turned as it flies?
//!
//! A plain body, a swept wing and a fin of our own. Above it is plain and below chequered; the right tip is dark and cut
//! square, the left one coloured and cut aslant: how it lies is seen from its shape and from its marks.

use bevy_egui::egui::{Color32, Painter, Pos2, Rect, Stroke};
use glam::DVec3;

use super::pane::{Pane, painted};
use super::scene::Scene;
use super::shades;
use crate::app::look::theme::Palette;
use crate::rehearsal::Camera;

/// Sections of the body: how far ahead of the middle, and half as thick as they are, in lengths of the jet.
const SECTIONS: [[f64; 2]; 4] = [[0.5, 0.0], [0.22, 0.05], [-0.3, 0.05], [-0.5, 0.025]];
/// Front and rear edge of the wing at its root and at its tip, in lengths ahead of the middle.
const ROOT: [f64; 2] = [0.2, -0.16];
const TIP: [f64; 2] = [0.0, -0.16];
/// Where the rear edge of the left tip ends, in half spans: it is cut aslant.
const LEFT_REAR: f64 = 0.82;
/// Squares of the chequers from root to tip, the last of which is the tip's mark, and from front to rear.
const CHEQUERS: [u8; 2] = [4, 2];

/// A flat piece: its corners, and the colours of the side from which they go round anticlockwise and of the other one.
struct Piece {
    corners: Vec<DVec3>,
    colours: [Color32; 2],
}

/// Paints it, and tells the rectangle that it takes of the picture; none where it is not in it.
pub(super) fn draw(painter: &Painter, pane: &Pane, scene: &Scene<'_>) -> Option<Rect> {
    let jet = Camera::aboard(scene.state);
    let eyes = pane.camera.at;
    let size = DVec3::new(scene.span_m / 2.0, scene.length_m, scene.length_m);
    let world = |[x, y, z]: [f64; 3]| jet.at + jet.right * x * size.x + jet.ahead * y * size.y + jet.up * z * size.z;
    let mut faces: Vec<(f64, Vec<DVec3>, Color32)> = pieces(scene.palette)
        .into_iter()
        .map(|Piece { corners, colours }| {
            let corners: Vec<DVec3> = corners.into_iter().map(|corner| world(corner.to_array())).collect();
            #[allow(clippy::cast_precision_loss, reason = "a handful")]
            let middle = corners.iter().sum::<DVec3>() / corners.len() as f64;
            let out = (corners[1] - corners[0]).cross(corners[corners.len() - 1] - corners[0]);
            let colour = colours[usize::from(out.dot(eyes - middle) < 0.0)];
            (middle.distance(eyes), corners, colour)
        })
        .collect();
    faces.sort_by(|a, b| b.0.total_cmp(&a.0));
    // At least a point of the screen, so that it doesn't vanish between two of them.
    if let Some(at) = pane.spot(jet.at) {
        painter.circle_filled(at, 0.5, scene.palette.ink);
    }
    // So thin that no piece of it fills a point, it is a line from tip to tip and from nose to tail.
    for ends in [[[-1.0, -0.1, 0.0], [1.0, -0.1, 0.0]], [[0.0, 0.5, 0.0], [0.0, -0.5, 0.0]]] {
        // A line within a point of the screen has no direction there.
        if let Some([from, to]) = pane.line(ends.map(world)).filter(|[from, to]| from.distance(*to) > 2.0) {
            painter.line_segment([from, to], Stroke::new(0.8, scene.palette.ink));
        }
    }
    // Edges that are made soft leave seams: below them all is filled without any.
    painter.add(pane.filled(faces.iter().map(|(_, corners, colour)| (&corners[..], *colour))));
    let mut points: Vec<Pos2> = Vec::new();
    for (_, corners, colour) in &faces {
        let face = pane.face(corners);
        if !face.is_empty() {
            points.extend(&face);
            painter.add(painted(face, *colour, Stroke::NONE));
        }
    }
    (!points.is_empty()).then(|| Rect::from_points(&points)).filter(|rect| rect.intersects(pane.rect))
}

/// All of it; to the right in half spans, ahead and up in lengths.
fn pieces(palette: &Palette) -> Vec<Piece> {
    let mut pieces = body(palette);
    for right in [true, false] {
        pieces.extend(wing(palette, right));
        let side = if right { 1.0 } else { -1.0 };
        let tail = [[0.06, -0.34, 0.0], [0.34, -0.45, 0.0], [0.06, -0.47, 0.0]];
        let corners = tail.map(|[x, y, z]| DVec3::new(x * side, y, z)).to_vec();
        let seen = [palette.obstacle, palette.ink];
        pieces.push(Piece { corners, colours: if right { [seen[1], seen[0]] } else { seen } });
    }
    let fin = [[0.0, -0.28, 0.04], [0.0, -0.46, 0.03], [0.0, -0.5, 0.2], [0.0, -0.44, 0.2]];
    let corners = fin.map(DVec3::from_array).to_vec();
    // Round from the front by the tail: anticlockwise for somebody to its left.
    pieces.push(Piece { corners, colours: [shades::left_tip(palette), palette.ink] });
    pieces
}

fn body(palette: &Palette) -> Vec<Piece> {
    let mut pieces = Vec::new();
    // Half a length is wider than half a span by so much, near enough for a body.
    let corner = |[ahead, thick]: [f64; 2], [x, z]: [f64; 2]| DVec3::new(x * thick * 2.0, ahead, z * thick);
    let round = [[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0], [1.0, 0.0]];
    for (side, pair) in round.windows(2).enumerate() {
        let colour = if side < 2 { palette.obstacle } else { palette.ink };
        for ends in SECTIONS.windows(2) {
            let corners = vec![
                corner(ends[1], pair[0]),
                corner(ends[1], pair[1]),
                corner(ends[0], pair[1]),
                corner(ends[0], pair[0]),
            ];
            pieces.push(Piece { corners, colours: [colour; 2] });
        }
    }
    let corners = (0..4).map(|part| corner(SECTIONS[3], round[part])).collect();
    pieces.push(Piece { corners, colours: [palette.ink; 2] });
    pieces
}

fn wing(palette: &Palette, right: bool) -> Vec<Piece> {
    let [along, across] = CHEQUERS;
    let at = |out: u8, back: u8| {
        let (out, back) = (f64::from(out) / f64::from(along), f64::from(back) / f64::from(across));
        let edge = |index: usize| ROOT[index] + (TIP[index] - ROOT[index]) * out;
        let reach = if right { out } else { out * (1.0 - (1.0 - LEFT_REAR) * back) };
        DVec3::new(if right { reach } else { -reach }, edge(0) + (edge(1) - edge(0)) * back, 0.0)
    };
    let mut pieces = Vec::new();
    for (out, back) in (0..along).flat_map(|out| (0..across).map(move |back| (out, back))) {
        let mark = if right { palette.ink } else { shades::left_tip(palette) };
        let below = if (out + back) % 2 == 0 { palette.ink } else { palette.paper };
        let seen = if out + 1 == along { [mark; 2] } else { [palette.obstacle, below] };
        let corners = vec![at(out, back), at(out + 1, back), at(out + 1, back + 1), at(out, back + 1)];
        // From the root outwards and back is clockwise from above on the right.
        pieces.push(Piece { corners, colours: if right { [seen[1], seen[0]] } else { seen } });
    }
    pieces
}
