//! What is left where no picture comes in: snow, or nothing.

use bevy_egui::egui::{Align2, Color32, FontId, Mesh, Painter, Rect, pos2};
use rand_xoshiro::SplitMix64;
use rand_xoshiro::rand_core::{Rng, SeedableRng};

use crate::app::look::theme::{Palette, Theme};

/// How often the snow changes, 1/s: below the three flashes a second of WCAG 2.1, 2.3.1.
const CHANGES_HZ: f64 = 2.0;
/// Blocks across and down.
const BLOCKS: [u8; 2] = [40, 26];

/// Paints snow.
pub(super) fn snow(painter: &Painter, rect: Rect, palette: &Palette, seed: u64, time_s: f64) {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of half seconds")]
    let change = (time_s * CHANGES_HZ).floor() as u64;
    let mut noise = SplitMix64::seed_from_u64(seed ^ change.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    let [across, down] = BLOCKS.map(f32::from);
    let mut mesh = Mesh::default();
    for (x, y) in (0..BLOCKS[0]).flat_map(|x| (0..BLOCKS[1]).map(move |y| (f32::from(x), f32::from(y)))) {
        let at =
            |x: f32, y: f32| pos2(rect.left() + rect.width() * (x / across), rect.top() + rect.height() * (y / down));
        let shade = [0.1, 0.3, 0.5, 0.7][(noise.next_u64() >> 62) as usize];
        let block = Rect::from_min_max(at(x, y), at(x + 1.0, y + 1.0));
        mesh.add_colored_rect(block, palette.paper.lerp_to_gamma(palette.ink, shade));
    }
    painter.add(mesh);
}

/// Paints nothing but words, dark in either theme.
pub(super) fn black(painter: &Painter, rect: Rect, words: &str) {
    painter.rect_filled(rect, 0.0, Color32::BLACK);
    let ink = Theme::Dark.palette().ink;
    let galley = painter.layout(words.to_owned(), FontId::proportional(20.0), ink, (rect.width() - 24.0).max(10.0));
    painter.galley(Align2::CENTER_CENTER.anchor_size(rect.center(), galley.size()).min, galley, ink);
}
