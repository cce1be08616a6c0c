//! Two palettes, and the pens of the stretches.
//!
//! Hues are those of Okabe and Ito ("Color Universal Design", 2008), which most colour-blind people can tell apart. None
//! of them says anything alone: a dash pattern, a hatch, a shape or a word always says it too.

use bevy_egui::egui::Color32;
use serde::{Deserialize, Serialize};

use crate::margins::Verdict;
use crate::run::Stretch;

/// Light for sunlight, dark for the evening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Theme {
    /// Black on white.
    #[default]
    Light,
    /// White on near black.
    Dark,
}

impl Theme {
    /// Its colours.
    pub const fn palette(self) -> &'static Palette {
        match self {
            Self::Light => &LIGHT,
            Self::Dark => &DARK,
        }
    }

    /// The other one.
    pub const fn other(self) -> Self {
        match self {
            Self::Light => Self::Dark,
            Self::Dark => Self::Light,
        }
    }
}

const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

const ORANGE: Color32 = rgb(0x00E6_9F00);
const SKY: Color32 = rgb(0x0056_B4E9);
const GREEN: Color32 = rgb(0x0000_9E73);
const BLUE: Color32 = rgb(0x0000_72B2);
const VERMILION: Color32 = rgb(0x00D5_5E00);
const PURPLE: Color32 = rgb(0x00CC_79A7);

/// Colours of one theme.
#[derive(Debug)]
pub struct Palette {
    /// Whether text is lighter than paper.
    pub dark: bool,
    /// Text and the boundary.
    pub ink: Color32,
    /// Text that explains; still seven to one against the paper.
    pub soft: Color32,
    /// Panels, and the casing under lines of the map.
    pub paper: Color32,
    /// Buttons and rails.
    pub button: Color32,
    /// Rules between things.
    pub rule: Color32,
    /// Land that is not ours.
    pub outside: Color32,
    /// Land inside the boundary.
    pub inside: Color32,
    /// Lines every hundred metres.
    pub grid: Color32,
    /// The strip.
    pub runway: Color32,
    /// Tall things.
    pub obstacle: Color32,
    /// Every second row of a table.
    pub stripe: Color32,
    /// What has the keyboard, and what is chosen.
    pub focus: Color32,
    /// Ground of what is chosen.
    pub chosen: Color32,
    /// Hatch of no-fly, above, caution, people.
    pub hatch: [Color32; 4],
    /// Tint of no-fly, above, caution, people.
    pub tint: [Color32; 4],
    /// Blue that stands off the ground of this theme.
    blue: Color32,
}

static LIGHT: Palette = Palette {
    dark: false,
    ink: rgb(0x0000_0000),
    soft: rgb(0x003A_3A3A),
    paper: rgb(0x00FF_FFFF),
    button: rgb(0x00E9_ECEF),
    rule: rgb(0x0090_989F),
    outside: rgb(0x00D9_DCDF),
    inside: rgb(0x00F8_F6EF),
    grid: rgb(0x00E0_DDD2),
    runway: rgb(0x00C9_CACC),
    obstacle: rgb(0x0066_6B70),
    stripe: rgb(0x00F3_F4F6),
    focus: BLUE,
    chosen: rgb(0x00D3_E6F3),
    hatch: [VERMILION, BLUE, rgb(0x00B0_7A00), rgb(0x0014_1414)],
    tint: [rgb(0x00FB_E3D6), rgb(0x00DB_E9F3), rgb(0x00FB_F0D2), rgb(0x00EA_E6EE)],
    blue: BLUE,
};

static DARK: Palette = Palette {
    dark: true,
    ink: rgb(0x00F5_F5F5),
    soft: rgb(0x00CC_D0D4),
    paper: rgb(0x0016_191D),
    button: rgb(0x002E_343B),
    rule: rgb(0x006A_727A),
    outside: rgb(0x000B_0D0F),
    inside: rgb(0x0022_2722),
    grid: rgb(0x0031_3731),
    runway: rgb(0x004A_4F54),
    obstacle: rgb(0x00A9_AFB5),
    stripe: rgb(0x001E_2227),
    focus: SKY,
    chosen: rgb(0x001D_3B50),
    hatch: [VERMILION, SKY, ORANGE, rgb(0x00F5_F5F5)],
    tint: [rgb(0x003A_2113), rgb(0x0014_2C3D), rgb(0x0036_2C10), rgb(0x0034_2F3A)],
    blue: SKY,
};

/// How a line of the map is drawn. Lengths are points of the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Colour.
    pub colour: Color32,
    /// Width.
    pub width: f32,
    /// Lengths drawn and left out in turn; empty for a line without gaps.
    pub dash: &'static [f32],
}

impl Palette {
    /// The line of a stretch: no two have the same colour and pattern.
    pub const fn pen(&self, stretch: Stretch) -> Pen {
        let (colour, width, dash): (_, _, &[f32]) = match stretch {
            Stretch::BeforeFailsafe => (self.ink, 4.0, &[2.0, 6.0]),
            Stretch::Levelling => (PURPLE, 5.0, &[6.0, 4.0]),
            Stretch::Climb => (SKY, 5.0, &[3.0, 3.0]),
            Stretch::HeadingHome => (self.blue, 4.0, &[16.0, 6.0]),
            Stretch::Joining => (VERMILION, 4.0, &[14.0, 4.0, 3.0, 4.0]),
            Stretch::Circling => (GREEN, 5.0, &[]),
            Stretch::Waiting => (self.ink, 4.0, &[10.0, 4.0, 2.0, 4.0, 2.0, 4.0]),
            Stretch::Gliding => (ORANGE, 4.0, &[10.0, 8.0]),
            Stretch::Drifting => (PURPLE, 4.0, &[2.0, 3.0]),
            Stretch::TakenOver => (self.ink, 3.0, &[1.0, 3.0]),
            Stretch::ByHand => (self.ink, 4.0, &[8.0, 2.0]),
        };
        Pen { colour, width, dash }
    }

    /// The commanded ring: thin and dashed, so that it is never taken for the path.
    pub const fn ring(&self) -> Pen {
        Pen { colour: self.ink, width: 1.5, dash: &[5.0, 5.0] }
    }

    /// Where the jet is flown: the dashes of the prints.
    pub const fn circuit(&self) -> Pen {
        Pen { colour: PURPLE, width: 3.0, dash: &[18.0, 4.0, 3.0, 4.0, 3.0, 4.0] }
    }

    /// What is flown in the mean wind, where it stands beside the gust wind.
    pub const fn mean(&self) -> Pen {
        Pen { colour: self.blue, width: 3.0, dash: &[] }
    }

    /// What is flown in the gust wind.
    pub const fn gust(&self) -> Pen {
        Pen { colour: VERMILION, width: 2.0, dash: &[9.0, 4.0] }
    }

    /// What many trials come to.
    pub const fn trials(&self) -> Pen {
        Pen { colour: PURPLE, width: 1.5, dash: &[2.0, 3.0] }
    }

    /// Where a margin is met.
    pub const fn met(&self) -> Color32 {
        GREEN
    }

    /// Colour of a verdict's mark.
    pub const fn verdict(&self, verdict: Verdict) -> Color32 {
        match verdict {
            Verdict::Clear => GREEN,
            Verdict::Counted => SKY,
            Verdict::InsideBuffer => ORANGE,
            Verdict::Crossed => VERMILION,
        }
    }
}

/// Relative luminance and contrast as WCAG 2.1 defines them.
#[cfg(test)]
pub(super) fn contrast(a: Color32, b: Color32) -> f64 {
    let channel = |c: u8| {
        let c = f64::from(c) / 255.0;
        if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    let luminance = |c: Color32| 0.2126 * channel(c.r()) + 0.7152 * channel(c.g()) + 0.0722 * channel(c.b());
    let (a, b) = (luminance(a) + 0.05, luminance(b) + 0.05);
    a.max(b) / a.min(b)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_stands_seven_to_one_off_every_ground_it_is_written_on() {
        for theme in [Theme::Light, Theme::Dark] {
            let palette = theme.palette();
            for text in [palette.ink, palette.soft] {
                for ground in [palette.paper, palette.button, palette.chosen] {
                    let found = contrast(text, ground);
                    assert!(found >= 7.0, "{theme:?}: {text:?} on {ground:?} is {found:.1} to 1");
                }
            }
        }
    }

    #[test]
    fn every_stretch_has_a_dash_pattern_of_its_own() {
        let palette = Theme::Light.palette();
        let patterns = Stretch::ALL.map(|stretch| palette.pen(stretch).dash);
        for (i, pattern) in patterns.iter().enumerate() {
            assert!(!patterns[i + 1..].contains(pattern), "{pattern:?} twice");
        }
    }
}
