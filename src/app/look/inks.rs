//! Which colour of the window's theme stands for an ink of the prints?

use bevy_egui::egui::Color32;

use crate::app::look::theme::Palette;
use crate::draw::Ink;

/// An ink in the window's theme. What was thinned with white paper is thinned with the theme's; greys go from its text to
/// its paper.
pub fn colour(palette: &Palette, ink: Ink) -> Color32 {
    let [_, red, green, blue] = ink.0.to_be_bytes();
    match ink {
        Ink::BLACK => palette.ink,
        Ink::SOFT => palette.soft,
        Ink::RULE => palette.rule,
        Ink::FAINT => palette.grid,
        Ink::PAPER => palette.paper,
        Ink::BLUE => palette.mean().colour,
        Ink::ORANGE | Ink::SKY | Ink::GREEN | Ink::YELLOW | Ink::VERMILION | Ink::PURPLE => {
            Color32::from_rgb(red, green, blue)
        }
        _ if red == green && green == blue => palette.ink.lerp_to_gamma(palette.paper, f32::from(red) / 255.0),
        _ => {
            let white = red.min(green).min(blue);
            let paper = palette.paper.gamma_multiply(f32::from(white) / 255.0);
            Color32::from_rgb(red - white + paper.r(), green - white + paper.g(), blue - white + paper.b())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::palette::contrast;
    use crate::app::look::theme::Theme;

    #[test]
    fn words_can_be_read_on_every_pale_ground_in_both_themes() {
        let hues = [Ink::BLUE, Ink::VERMILION, Ink::GREEN, Ink::ORANGE, Ink::SKY, Ink::PURPLE];
        for theme in [Theme::Light, Theme::Dark] {
            let palette = theme.palette();
            for hue in hues {
                let found = contrast(palette.ink, colour(palette, hue.thinned(0.25)));
                assert!(found >= 7.0, "{theme:?}: text on {hue:?} is {found:.1} to 1");
            }
        }
        // White paper leaves an ink as it is.
        assert_eq!(colour(Theme::Light.palette(), Ink(0x00BF_E0F5)), Color32::from_rgb(0xBF, 0xE0, 0xF5));
    }
}
