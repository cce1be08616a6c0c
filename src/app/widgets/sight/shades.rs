//! Which colours have sky, ground and jet in a theme?

use bevy_egui::egui::Color32;

use crate::app::look::theme::Palette;

/// The sky.
pub(super) fn sky(palette: &Palette) -> Color32 {
    palette.paper.lerp_to_gamma(palette.mean().colour, if palette.dark { 0.3 } else { 0.22 })
}

/// Land outside the boundary.
pub(super) fn ground(palette: &Palette) -> Color32 {
    let earth = palette.inside.lerp_to_gamma(palette.obstacle, if palette.dark { 0.0 } else { 0.2 });
    earth.lerp_to_gamma(palette.met(), if palette.dark { 0.05 } else { 0.1 })
}

/// Hatch of an area: firm enough for thin lines far away.
pub(super) fn hatch(palette: &Palette, colours: usize) -> Color32 {
    palette.hatch[colours].lerp_to_gamma(palette.ink, 0.35)
}

/// The left wing's tip.
pub(super) fn left_tip(palette: &Palette) -> Color32 {
    palette.hatch[0].lerp_to_gamma(palette.ink, 0.2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::theme::Theme;

    /// Relative luminance as WCAG 2.1 defines it, and from it the contrast.
    fn contrast(a: Color32, b: Color32) -> f64 {
        let channel = |c: u8| match f64::from(c) / 255.0 {
            low if low <= 0.04045 => low / 12.92,
            high => ((high + 0.055) / 1.055).powf(2.4),
        };
        let luminance = |c: Color32| 0.2126 * channel(c.r()) + 0.7152 * channel(c.g()) + 0.0722 * channel(c.b()) + 0.05;
        let (a, b) = (luminance(a), luminance(b));
        a.max(b) / a.min(b)
    }

    #[test]
    fn names_stand_seven_to_one_and_what_is_drawn_three_to_one_off_its_ground() {
        for theme in [Theme::Light, Theme::Dark] {
            let palette = theme.palette();
            let (sky, ground) = (sky(palette), ground(palette));
            for under in [sky, ground, palette.inside] {
                let found = contrast(palette.ink, under);
                assert!(found >= 7.0, "{theme:?}: ink on {under:?} is {found:.1} to 1");
            }
            for (drawn, under) in [
                (palette.obstacle, sky),
                (left_tip(palette), sky),
                (palette.obstacle, palette.inside),
                (hatch(palette, 0), ground),
                (hatch(palette, 1), ground),
                (hatch(palette, 2), ground),
                (hatch(palette, 3), ground),
            ] {
                let found = contrast(drawn, under);
                assert!(found >= 3.0, "{theme:?}: {drawn:?} on {under:?} is {found:.1} to 1");
            }
            for (colours, tint) in palette.tint.iter().enumerate() {
                let found = contrast(hatch(palette, colours), *tint);
                assert!(found >= 3.0, "{theme:?}: hatch {colours} on its tint is {found:.1} to 1");
            }
        }
    }
}
