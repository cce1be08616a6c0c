//! The user's picture under everything, and its known points.

use std::sync::Arc;

use bevy_egui::egui::{
    Align2, Color32, ColorImage, Context, Id, Mesh, Painter, Pos2, Rect, Shape, Stroke, TextureHandle, TextureOptions,
    vec2,
};
use glam::DVec2;

use super::word;
use crate::app::look::lens::Lens;
use crate::app::session::View;
use crate::app::session::field_board::{GroundPicture, Tool};

/// Pieces of a picture that the graphics card can hold, each with its place in it from 0 to 1.
#[derive(Clone)]
struct Tiles {
    image: Arc<ColorImage>,
    tiles: Vec<(Rect, TextureHandle)>,
}

/// Paints the picture.
pub(super) fn draw(painter: &Painter, lens: &Lens, view: &View<'_>) {
    let Some(picture) = &view.session.field_board.picture else { return };
    let tint = Color32::WHITE.gamma_multiply(picture.strength);
    for (part, texture) in tiles(painter.ctx(), picture).tiles {
        let mut mesh = Mesh::with_texture(texture.id());
        let corner = |at: Pos2| lens.screen(on_ground(picture, at));
        let uv = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        let corners = [part.left_top(), part.right_top(), part.right_bottom(), part.left_bottom()].map(corner);
        for (pos, (u, v)) in corners.into_iter().zip(uv) {
            mesh.vertices.push(bevy_egui::egui::epaint::Vertex { pos, uv: Pos2::new(u, v), color: tint });
        }
        mesh.indices = vec![0, 1, 2, 0, 2, 3];
        painter.add(Shape::mesh(mesh));
    }
}

/// Where a place of the picture, from 0 to 1 both ways, lies on the ground.
fn on_ground(picture: &GroundPicture, at: Pos2) -> DVec2 {
    let [a, b, _, d] = picture.corners();
    a + (b - a) * f64::from(at.x) + (d - a) * f64::from(at.y)
}

fn tiles(ctx: &Context, picture: &GroundPicture) -> Tiles {
    let id = Id::new("tiles of the picture");
    let known = ctx.data(|data| data.get_temp::<Tiles>(id));
    if let Some(known) = known.filter(|known| Arc::ptr_eq(&known.image, &picture.image)) {
        return known;
    }
    let side = ctx.input(|input| input.max_texture_side).max(1);
    let [width, height] = picture.image.size;
    let mut tiles = Vec::new();
    for top in (0..height).step_by(side) {
        for left in (0..width).step_by(side) {
            let size = [side.min(width - left), side.min(height - top)];
            let rows = (top..top + size[1]).flat_map(|row| &picture.image.pixels[row * width + left..][..size[0]]);
            let piece = ColorImage::new(size, rows.copied().collect());
            #[allow(clippy::cast_precision_loss, reason = "pixels of a picture a few thousand wide")]
            let share = |x: usize, y: usize| Pos2::new(x as f32 / width as f32, y as f32 / height as f32);
            let part = Rect::from_min_max(share(left, top), share(left + size[0], top + size[1]));
            tiles.push((part, ctx.load_texture("picture of the ground", piece, TextureOptions::LINEAR)));
        }
    }
    let tiles = Tiles { image: Arc::clone(&picture.image), tiles };
    ctx.data_mut(|data| data.insert_temp(id, tiles.clone()));
    tiles
}

/// Marks the known points while the picture is being placed: where they are in the picture, and where on the ground.
pub(super) fn draw_pins(painter: &Painter, lens: &Lens, view: &View<'_>) {
    let field_board = &view.session.field_board;
    let Some(picture) = field_board.picture.as_ref().filter(|_| field_board.tool == Tool::PlacePicture) else { return };
    let palette = view.palette;
    for (pin, number) in field_board.pins.iter().zip(1..) {
        let seen = lens.screen(picture.placement.ground(pin.pixel));
        for (width, colour) in [(6.0, palette.paper), (2.5, palette.ink)] {
            let stroke = Stroke::new(width, colour);
            painter.circle_stroke(seen, 12.0, stroke);
            for arm in [vec2(18.0, 0.0), vec2(0.0, 18.0)] {
                painter.line_segment([seen - arm, seen - arm * 0.3], stroke);
                painter.line_segment([seen + arm * 0.3, seen + arm], stroke);
            }
        }
        let text =
            if pin.ground.is_some() { format!("point {number}") } else { format!("point {number}: where is it?") };
        word(painter, view, seen + vec2(20.0, -12.0), Align2::LEFT_BOTTOM, &text);
        if let Some(at) = pin.ground.map(|at| lens.screen(at)).filter(|at| at.distance(seen) > 2.0) {
            painter.line_segment([seen, at], Stroke::new(2.0, palette.ink));
            painter.circle(at, 5.0, palette.paper, Stroke::new(2.0, palette.ink));
        }
    }
}
